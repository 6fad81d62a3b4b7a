//! The lens power table: a line for every power the lens is made in, in ruled groups, with one chart
//! whose axis stands in the head.

use core::ops::Range;

use egui::containers::scroll_area::ScrollBarVisibility;
use egui::{Rangef, Rect, ScrollArea, Stroke, Ui};
use millrace_core::case::{Command, Slot};
use millrace_core::iol_power::ladder::{Column, Convention, Ladder};
use millrace_core::plan::{BANDS_SOURCE, Plan};
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::Words;
use millrace_wording::desk::lens as say;

use super::table_groups::Groups;
use super::table_head;
use super::table_row::{Formulas, Row};
use crate::figures::interval_chart::{IntervalChart, Lane};
use crate::figures::refraction_axis::RefractionAxis;
use crate::pages::CaseView;
use crate::theme::{Palette, measures};
use crate::widgets::{Many, Rows, muted, open_ring, small};
use crate::words::in_use;

/// Height of a line.
const LINE: f32 = 26.0;
/// Lines shown at least in a low window, at least in others, and at most.
const LINES: [f32; 3] = [3.0, 5.0, 20.0];
/// About the height of the head.
const HEAD: f32 = 44.0;
/// Kept free under the table, for how sure it is.
const UNDER: f32 = 62.0;

/// Where the table stands, and what it was last brought to.
#[derive(Debug, Default)]
pub(super) struct TableState {
    /// How far it is scrolled.
    offset: f32,
    /// Its height when it was brought there; nothing once a person scrolled on.
    brought: Option<f32>,
    seen: Option<Seen>,
}

/// What brings lines into sight when it changes.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seen {
    made: (usize, Option<HundredthDiopters>),
    /// The line to stand in the middle.
    middle: Option<usize>,
    chosen: Option<usize>,
}

impl TableState {
    /// Where the table goes before it is shown; nothing where it stays as a person scrolled it.
    fn goes_to(&mut self, now: Seen, height: f32) -> Option<f32> {
        let before = self.seen.replace(now);
        let before = before.filter(|it| (it.made, it.middle) == (now.made, now.middle));
        // Nobody scrolled it since, and it became higher or lower.
        let is_left_so = self.brought.is_none_or(|brought| is_same(brought, height));
        let Some(before) = before.filter(|_| is_left_so) else {
            self.brought = Some(height);
            let middle = (height / LINE / 2.0).floor() * LINE;
            return now.middle.map(|index| (top_of(index) - middle).max(0.0));
        };
        if before.chosen == now.chosen {
            return None;
        }
        let top = top_of(now.chosen?);
        if top < self.offset {
            Some(top)
        } else if self.offset + height < top + LINE {
            Some(top + LINE - height)
        } else {
            None
        }
    }

    /// Where it came to stand; `brought` tells whether it was told where.
    fn stands(&mut self, offset: f32, brought: Option<f32>) {
        if brought.is_none() && !is_same(offset, self.offset) {
            self.brought = None;
        }
        self.offset = offset;
    }
}

/// Whether two places on the screen are one.
fn is_same(one: f32, other: f32) -> bool {
    (one - other).abs() < 0.5
}

fn top_of(index: usize) -> f32 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a lens is made in some sixty powers"
    )]
    let index = index as f32;
    index * LINE
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    plan: &Plan,
    ladder: &Ladder,
    state: &mut TableState,
) -> Option<Command> {
    let words = in_use(ui);
    let answering = ladder.columns.iter().enumerate();
    let answering = answering.filter(|(_, column)| column.answer.is_ok());
    let (shown, left_out): (Vec<_>, Vec<_>) =
        answering.partition(|(_, column)| view.own.shows(column.formula, view.draft));
    if shown.is_empty() && left_out.is_empty() {
        // A table of what nobody could compute would say nothing.
        muted(ui, say::no_formula_answers(words));
        return None;
    }
    if ladder.rungs.is_empty() {
        muted(ui, say::no_power_near(words));
    }
    let planned = view.draft.lens.formula;
    let mut columns = ladder.columns.iter().enumerate();
    let formulas = Formulas {
        planned: columns.find(|(_, column)| Some(column.formula) == planned),
        others: shown
            .into_iter()
            .filter(|(_, column)| Some(column.formula) != planned)
            .collect(),
    };
    let table = Table {
        view,
        plan,
        ladder,
        axis: RefractionAxis::around(ladder.target),
        formulas,
    };
    let chosen = table.show(ui, state);
    table.under(ui, &left_out);
    let power = view.powers.power(chosen?)?;
    Some(Command::ChoosePower(Slot::Planned, Some(power)))
}

struct Table<'a> {
    view: &'a CaseView<'a>,
    plan: &'a Plan,
    ladder: &'a Ladder,
    axis: RefractionAxis,
    formulas: Formulas<'a>,
}

impl Table<'_> {
    /// Head, lines and chart; tells which line was newly chosen.
    fn show(&self, ui: &mut Ui, state: &mut TableState) -> Option<usize> {
        let width = ui.available_width() - ui.spacing().scroll.allocated_width();
        let groups = Groups::of(ui.cursor().left(), width, &self.formulas.others);
        let (target, planned) = (self.ladder.target, self.formulas.planned);
        let target = (target, self.axis.place(groups.plot(), target.diopters()));
        let head = table_head::show(ui, self.view.ground, &groups, planned, target);
        let lines = self.lines_in_sight(ui);
        let top = ui.cursor().top();
        let body = Rangef::new(top, top + top_of(lines));
        let mut lanes = Vec::with_capacity(lines + 1);
        let chosen = self.scrolled(ui, state, body, |ui, within, many| {
            let name = say::ladder(in_use(ui));
            let id = self.view.ground.with("ladder");
            let mut group = Rows::begin_within(ui, id, name, many);
            for index in within {
                lanes.extend(self.line(ui, &mut group, &groups, index));
            }
            group.end(ui)
        });
        rule(ui, &groups, Rangef::new(head.top(), body.max), width);
        let chart = IntervalChart {
            axis: self.axis,
            target: self.ladder.target,
            lanes: &lanes,
        };
        let id = self.view.ground.with("interval chart");
        let down = table_head::axis_top(head)..=body.max;
        chart.show(ui, id, Rect::from_x_y_ranges(groups.plot(), down));
        chosen
    }

    /// As many as the window has room for beside what stands over and under the table.
    fn lines_in_sight(&self, ui: &Ui) -> usize {
        let above = ui.cursor().top() - ui.min_rect().top();
        let height = ui.clip_rect().height();
        let room = (height - above - UNDER) / LINE;
        let [fewest, least, most] = LINES;
        // In a low window head and lines at least have room together.
        let least = ((height - HEAD) / LINE).clamp(fewest, least);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between three and twenty"
        )]
        let lines = room.clamp(least, most) as usize;
        lines.min(self.view.powers.count())
    }

    /// The lines in their own scrolled area: those in sight alone are laid out.
    fn scrolled<R>(
        &self,
        ui: &mut Ui,
        state: &mut TableState,
        body: Rangef,
        add: impl FnOnce(&mut Ui, Range<usize>, Many) -> R,
    ) -> R {
        let powers = self.view.powers;
        let total = powers.count();
        let chosen = self.view.draft.lens.power();
        let chosen = chosen.and_then(|power| powers.position(power));
        let middle = self.middle();
        let now = Seen {
            made: (total, powers.power(0)),
            middle,
            chosen,
        };
        let height = body.span();
        let mut area = ScrollArea::vertical()
            .id_salt(self.view.ground.with("powers"))
            .auto_shrink(false)
            .max_height(height)
            .min_scrolled_height(height)
            .scroll_bar_visibility(ScrollBarVisibility::AlwaysVisible);
        let brought = state.goes_to(now, height);
        if let Some(offset) = brought {
            area = area.vertical_scroll_offset(offset);
        }
        let shown = ui.scope(|ui| {
            let spacing = ui.spacing_mut();
            spacing.item_spacing.y = 0.0;
            // The bar says that there is more; the numbers of the last line are read as the others.
            spacing.scroll.fade.strength = 0.0;
            area.show_rows(ui, LINE, total, |ui, within| {
                let many = Many {
                    first: within.start,
                    total,
                    chosen,
                    begins: middle.unwrap_or(0),
                    // One line stays in sight.
                    page: within.len().saturating_sub(2).max(1),
                    view: body,
                };
                add(ui, within, many)
            })
        });
        let shown = shown.inner;
        state.stands(shown.state.unclamped_offset().y, brought);
        shown.inner
    }

    /// The line to stand in the middle: the proposal of the formula planned by, else what is chosen, else
    /// what lies nearest to the power that would meet the target.
    fn middle(&self) -> Option<usize> {
        let powers = self.view.powers;
        let answer = |column: &Column| column.answer.as_ref().ok().cloned();
        let planned = self.formulas.planned.and_then(|(_, column)| answer(column));
        let proposed = planned.as_ref().and_then(|answer| answer.proposed);
        let wanted = proposed.or(self.view.draft.lens.power());
        let first = || {
            let mut columns = self.ladder.columns.iter();
            columns.find_map(answer)
        };
        wanted
            .and_then(|power| powers.position(power))
            .or_else(|| powers.nearest(planned.or_else(first)?.exact_power.d()))
    }

    fn line(
        &self,
        ui: &mut Ui,
        group: &mut Rows<'_>,
        groups: &Groups<'_>,
        index: usize,
    ) -> Option<Lane> {
        let line = self.view.powers.line(index, self.plan)?;
        let row = Row::of(line, self.ladder, self.view.draft.lens.power());
        let name = row.name(in_use(ui), &self.formulas);
        let rect = group.row(ui, LINE, row.is_chosen.into(), &name);
        row.paint(ui, rect, groups, &self.formulas);
        Some(row.lane(&self.formulas, rect.center().y))
    }

    /// What the marks mean, and what has no room in the table.
    fn under(&self, ui: &mut Ui, left_out: &[(usize, &Column)]) {
        let words = in_use(ui);
        if let Some((_, column)) = self.formulas.planned
            && let Err(refusal) = &column.answer
        {
            ui.horizontal_top(|ui| {
                open_ring(ui);
                ui.label(say::formula_refused(words, column.formula, refusal));
            });
        }
        self.other_formulas(ui);
        super::budget::in_one_line(ui, self.plan);
        let proposes = proposes(words, self.view.draft.lens.convention);
        let legend = say::legend(words, self.ladder.target, proposes, BANDS_SOURCE);
        small(ui, legend);
        if !left_out.is_empty() {
            let names = words.list(left_out.iter().map(|(_, column)| column.formula));
            small(ui, say::left_out(words, names));
        }
    }

    /// Of the power that is chosen, else of the one in the middle.
    fn other_formulas(&self, ui: &mut Ui) {
        let width = ui.available_width() - ui.spacing().scroll.allocated_width();
        let groups = Groups::of(0.0, width, &self.formulas.others);
        if self.formulas.others.is_empty() || !groups.others.is_empty() {
            return;
        }
        let chosen = self.view.draft.lens.power();
        let middle = || self.view.powers.line(self.middle()?, self.plan);
        if let Some(line) = self.view.powers.chosen(self.plan).or_else(middle) {
            let row = Row::of(line, self.ladder, chosen);
            // No number is parted from its unit where the line ends.
            let text = row.other_formulas(in_use(ui), &self.formulas);
            ui.label(text.replace(" D", "\u{a0}D"));
        }
    }
}

/// The rules between the groups, and the frame around them.
fn rule(ui: &Ui, groups: &Groups<'_>, down: Rangef, width: f32) {
    let stroke = Stroke::new(measures::OUTLINE, Palette::current(ui).outline);
    for across in groups.rules() {
        ui.painter().vline(across, down, stroke);
    }
    let across = Rangef::new(groups.power.min, groups.power.min + width);
    ui.painter().hline(across, down.max, stroke);
}

/// What a star means.
fn proposes(words: Words, convention: Option<Convention>) -> &'static str {
    match convention {
        None => say::proposes_none(words),
        Some(Convention::FirstMyopic) => say::proposes_first_myopic(words),
        Some(Convention::Nearest) => say::proposes_nearest(words),
        Some(Convention::FirstHyperopic) => say::proposes_first_hyperopic(words),
    }
}
