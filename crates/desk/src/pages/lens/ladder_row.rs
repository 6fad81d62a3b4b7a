//! One power of the ladder: predictions and chances, and the lane of the chart beside or under them.

use egui::{Align2, FontId, Rangef, Rect, Ui, pos2, vec2};
use millrace_core::case::Draft;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::plan::{HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::desk::lens as say;
use millrace_wording::number::percent;
use millrace_wording::{Show as _, Words, quantity};

use crate::figures::interval_chart::{LANE, Lane, Together};
use crate::theme::{Palette, bold, measures};
use crate::widgets::{Ink, Rows};
use crate::words::in_use;

/// Width of the powers.
const POWER: f32 = 122.0;
/// Width of the chances.
const CHANCES: f32 = 204.0;
/// Width of one of them, "over +0.50 D" over it.
const CHANCE: f32 = 92.0;
/// Height of the predictions.
const PREDICTIONS: f32 = 24.0;

/// Width of a column of predictions: the narrowest that holds them, and the widest wanted.
const FORMULA: [f32; 2] = [76.0, 112.0];
/// Narrowest chart that stands beside the predictions; a narrower one lies under them.
const BESIDE: f32 = 240.0;

/// What stands where in every row.
pub(super) struct Columns<'a> {
    pub(super) planned: Option<Formula>,
    /// Formulas that answer, with their place in the ladder.
    pub(super) answering: Vec<(usize, &'a Column)>,
    pub(super) width: f32,
}

impl Columns<'_> {
    fn room(&self) -> f32 {
        self.width - POWER
    }

    fn count(&self) -> f32 {
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let count = self.answering.len().max(1) as f32;
        count
    }

    /// Whether there is room for the chart beside the predictions.
    fn has_chart_beside(&self) -> bool {
        BESIDE <= self.room() - CHANCES - self.count() * FORMULA[0]
    }

    /// Where the prediction of a formula stands.
    pub(super) fn formula(&self, row: Rect, index: usize) -> Rect {
        let width = if self.has_chart_beside() {
            FORMULA[0]
        } else {
            (self.room() / self.count()).min(FORMULA[1])
        };
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let left = row.left() + POWER + index as f32 * width;
        Rect::from_min_size(pos2(left, row.top()), vec2(width, row.height()))
    }

    /// Where the chart stands from side to side, if there is room for any.
    pub(super) fn chart(&self, row: Rect) -> Option<Rangef> {
        let left = if self.has_chart_beside() {
            POWER + self.count() * FORMULA[0] + measures::APART
        } else {
            POWER
        };
        let range = Rangef::new(row.left() + left, row.right() - CHANCES);
        (40.0 < range.span()).then_some(range)
    }

    fn height(&self) -> f32 {
        let under = if self.has_chart_beside() {
            measures::BODY
        } else {
            LANE
        };
        PREDICTIONS + under + 6.0
    }
}

/// Where the predictions of a row stand.
fn line(row: Rect) -> f32 {
    row.top() + PREDICTIONS / 2.0 + 2.0
}

/// Where the two chances end.
pub(super) fn chances(row: Rect) -> [f32; 2] {
    let right = row.right() - 6.0;
    [right - CHANCE, right]
}

fn proposing(ladder: &Ladder, power: HundredthDiopters) -> Vec<Formula> {
    let proposes = |column: &&Column| {
        let answer = column.answer.as_ref();
        answer.is_ok_and(|answer| answer.proposed == Some(power))
    };
    let columns = ladder.columns.iter().filter(proposes);
    columns.map(|column| column.formula).collect()
}

pub(super) struct Row<'a> {
    pub(super) power: HundredthDiopters,
    is_chosen: bool,
    proposed_by: Vec<Formula>,
    predicted: &'a [Option<Diopters>],
    pub(super) together: Option<Together>,
    chances: Option<[f64; 2]>,
}

impl<'a> Row<'a> {
    pub(super) fn of(
        draft: &Draft,
        plan: &'a Plan,
        ladder: &'a Ladder,
        index: usize,
    ) -> Option<Self> {
        let rung = ladder.rungs.get(index)?;
        let certainty = plan.certainty.as_ref();
        let together = certainty.and_then(|it| it.ladder.pooled.get(index)?.as_ref());
        let [_, band, _] = SHOWN_BANDS;
        Some(Self {
            power: rung.power,
            is_chosen: draft.lens.power() == Some(rung.power),
            proposed_by: proposing(ladder, rung.power),
            predicted: &rung.predicted,
            together: together.map(Together::of),
            chances: together.map(|it| {
                [
                    it.chance_within(ladder.target.diopters(), band.diopters()),
                    it.chance_over(HYPEROPIC.diopters()),
                ]
            }),
        })
    }

    /// Shows it as the next of its group; returns its lane of the chart.
    pub(super) fn show(&self, ui: &mut Ui, group: &mut Rows<'_>, columns: &Columns<'_>) -> Lane {
        let name = self.name(in_use(ui), columns);
        let rect = group.row(ui, columns.height(), self.is_chosen.into(), &name);
        self.paint(ui, rect, columns);
        let of = |is_planned: bool| {
            columns
                .answering
                .iter()
                .filter(move |(_, column)| (columns.planned == Some(column.formula)) == is_planned)
                .filter_map(|(place, _)| self.predicted.get(*place).copied().flatten())
        };
        Lane {
            power: self.power,
            middle: if columns.has_chart_beside() {
                line(rect)
            } else {
                rect.top() + PREDICTIONS + 2.0 + LANE / 2.0
            },
            together: self.together,
            planned: of(true).next(),
            others: of(false).collect(),
        }
    }

    fn paint(&self, ui: &Ui, rect: Rect, columns: &Columns<'_>) {
        let (palette, words) = (Palette::current(ui), in_use(ui));
        let heavy = Ink::new(FontId::new(measures::BODY, bold()), palette.ink);
        let plain = Ink::new(FontId::proportional(measures::BODY), palette.ink);
        let line = line(rect);
        let under = line + PREDICTIONS - 3.0;
        let left = rect.left() + 12.0;
        heavy.write(
            ui,
            pos2(left, line),
            Align2::LEFT_CENTER,
            &self.power.show(words),
        );
        let state = match (self.is_chosen, self.is_proposed(columns)) {
            (true, true) => say::chosen_proposed(words),
            (true, false) => say::power_chosen(words),
            (false, true) => say::proposed(words),
            (false, false) => "",
        };
        let ink = if self.is_chosen {
            palette.accent
        } else {
            palette.muted
        };
        let small = Ink::new(FontId::proportional(measures::SMALL), ink);
        small.write(ui, pos2(left, under), Align2::LEFT_CENTER, state);
        for (index, (place, column)) in columns.answering.iter().enumerate() {
            let cell = columns.formula(rect, index);
            let predicted = self.predicted.get(*place).copied().flatten();
            let star = if self.proposed_by.contains(&column.formula) {
                "*"
            } else {
                ""
            };
            let text =
                predicted.map_or_else(|| "–".to_owned(), |it| format!("{}{star}", it.show(words)));
            let ink = if columns.planned == Some(column.formula) {
                &heavy
            } else {
                &plain
            };
            ink.write(
                ui,
                pos2(cell.right() - 4.0, line),
                Align2::RIGHT_CENTER,
                &text,
            );
        }
        let level = if columns.has_chart_beside() {
            line
        } else {
            under
        };
        for (chance, right) in self.chances.into_iter().flatten().zip(chances(rect)) {
            plain.write(
                ui,
                pos2(right, level),
                Align2::RIGHT_CENTER,
                &percent(words, chance),
            );
        }
    }

    fn is_proposed(&self, columns: &Columns<'_>) -> bool {
        columns
            .planned
            .is_some_and(|formula| self.proposed_by.contains(&formula))
    }

    fn name(&self, words: Words, columns: &Columns<'_>) -> String {
        let mut parts = vec![self.power.show(words).into_owned()];
        if self.is_proposed(columns) {
            parts.push(say::proposed(words).to_owned());
        }
        for (place, column) in &columns.answering {
            if let Some(Some(predicted)) = self.predicted.get(*place) {
                parts.push(say::by_formula(words, column.formula, predicted));
            }
        }
        if let (Some(together), Some([within, over])) = (&self.together, self.chances) {
            let [_, band, _] = SHOWN_BANDS;
            let deviation = quantity::computed_unsigned(words, together.deviation);
            parts.push(say::together(words, together.mean, deviation));
            let band = quantity::unsigned(words, band);
            let [within, over] = [within, over].map(|chance| percent(words, chance));
            parts.push(say::chances(words, band, within, HYPEROPIC, over));
        }
        parts.join(", ")
    }
}
