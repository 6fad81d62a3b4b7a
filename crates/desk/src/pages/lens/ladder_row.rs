//! One power of the ladder: predictions above, strip and chances under them.

use egui::{Align2, Color32, FontId, Pos2, Rangef, Rect, Ui, pos2, vec2};
use millrace_core::case::Draft;
use millrace_core::certainty::Distribution;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::plan::{HYPEROPIC, Plan, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_core::rules::percent;

use super::ladder::proposing;
use crate::figures::strip::{self, RefractionAxis, Strip};
use crate::settings::Decimals;
use crate::theme::{Palette, bold, measures};
use crate::widgets::Rows;

/// Width of the powers.
const POWER: f32 = 122.0;
/// Width of the chances.
const CHANCES: f32 = 204.0;
/// Width of one of them, "over +0.50 D" over it.
const CHANCE: f32 = 92.0;
/// Height of the predictions.
const PREDICTIONS: f32 = 24.0;

/// What stands where in every row.
pub(super) struct Columns<'a> {
    /// The formula planned by.
    pub(super) planned: Option<Formula>,
    /// Formulas that answer, with their place in the ladder.
    pub(super) answering: &'a [(usize, &'a Column)],
    /// The target.
    pub(super) target: HundredthDiopters,
    /// The axis of the strips.
    pub(super) axis: Option<RefractionAxis>,
}

impl Columns<'_> {
    /// Where the prediction of a formula stands.
    pub(super) fn formula(&self, row: Rect, index: usize) -> Rect {
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let (count, index) = (self.answering.len().max(1) as f32, index as f32);
        let width = ((row.width() - POWER) / count).min(112.0);
        let left = row.left() + POWER + index * width;
        Rect::from_min_size(pos2(left, row.top()), vec2(width, row.height()))
    }
}

/// Where the strips stand, if there is room for any.
pub(super) fn strip_range(row: Rect) -> Option<Rangef> {
    let range = Rangef::new(row.left() + POWER, row.right() - CHANCES);
    (40.0 < range.span()).then_some(range)
}

/// Where the two chances end.
pub(super) fn chances(row: Rect) -> [f32; 2] {
    let right = row.right() - 6.0;
    [right - CHANCE, right]
}

/// One power.
pub(super) struct Row<'a> {
    /// The power.
    pub(super) power: HundredthDiopters,
    is_chosen: bool,
    proposed_by: Vec<Formula>,
    predicted: &'a [Option<Diopters>],
    together: Option<&'a Distribution>,
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
            is_chosen: draft.lens.power == Some(rung.power),
            proposed_by: proposing(ladder, rung.power),
            predicted: &rung.predicted,
            together,
            chances: together.map(|it| {
                [
                    it.chance_within(ladder.target.diopters(), band.diopters()),
                    it.chance_over(HYPEROPIC.diopters()),
                ]
            }),
        })
    }

    /// Shows it as the next of its group.
    pub(super) fn show(&self, ui: &mut Ui, group: &mut Rows<'_>, columns: &Columns<'_>) {
        let height = PREDICTIONS + strip::HEIGHT + 6.0;
        let words = self.words(columns);
        let rect = group.row(ui, height, self.is_chosen.into(), &words);
        self.paint_texts(ui, Palette::current(ui), rect, columns);
        self.paint_strip(ui, rect, columns);
    }

    fn paint_texts(&self, ui: &Ui, palette: &Palette, rect: Rect, columns: &Columns<'_>) {
        let decimals = Decimals::current(ui);
        let write = |at: Pos2, anchor: Align2, text: String, (font, ink): (FontId, Color32)| {
            let text = decimals.write(&text);
            ui.painter().text(at, anchor, text, font, ink);
        };
        let line = rect.top() + PREDICTIONS / 2.0 + 2.0;
        let heavy = || FontId::new(measures::BODY, bold());
        let plain = || FontId::proportional(measures::BODY);
        let small = || FontId::proportional(measures::SMALL);
        let at = pos2(rect.left() + 12.0, line);
        let power = self.power.to_string();
        write(at, Align2::LEFT_CENTER, power, (heavy(), palette.ink));
        let state = match (self.is_chosen, self.is_proposed(columns)) {
            (true, true) => "chosen, proposed",
            (true, false) => "chosen",
            (false, true) => "proposed",
            (false, false) => "",
        };
        let under = line + PREDICTIONS - 3.0;
        let at = pos2(rect.left() + 12.0, under);
        let ink = if self.is_chosen {
            palette.accent
        } else {
            palette.muted
        };
        write(at, Align2::LEFT_CENTER, state.to_owned(), (small(), ink));
        for (index, (place, column)) in columns.answering.iter().enumerate() {
            let cell = columns.formula(rect, index);
            let predicted = self.predicted.get(*place).copied().flatten();
            let star = if self.proposed_by.contains(&column.formula) {
                "*"
            } else {
                ""
            };
            let text = predicted.map_or_else(|| "–".to_owned(), |it| format!("{it}{star}"));
            let font = if columns.planned == Some(column.formula) {
                heavy()
            } else {
                plain()
            };
            let at = pos2(cell.right() - 4.0, line);
            write(at, Align2::RIGHT_CENTER, text, (font, palette.ink));
        }
        for (chance, right) in self.chances.into_iter().flatten().zip(chances(rect)) {
            let at = pos2(right, under);
            write(
                at,
                Align2::RIGHT_CENTER,
                percent(chance),
                (plain(), palette.ink),
            );
        }
    }

    fn is_proposed(&self, columns: &Columns<'_>) -> bool {
        columns
            .planned
            .is_some_and(|formula| self.proposed_by.contains(&formula))
    }

    fn paint_strip(&self, ui: &Ui, rect: Rect, columns: &Columns<'_>) {
        let Some(axis) = columns.axis else { return };
        let of = |is_planned: bool| {
            columns
                .answering
                .iter()
                .filter(move |(_, column)| (columns.planned == Some(column.formula)) == is_planned)
                .filter_map(|(place, _)| self.predicted.get(*place).copied().flatten())
        };
        let others: Vec<Diopters> = of(false).collect();
        let strip = Strip {
            axis,
            target: columns.target,
            together: self.together,
            planned: of(true).next(),
            others: &others,
        };
        let top = rect.top() + PREDICTIONS + 2.0;
        if let Some(across) = strip_range(rect) {
            strip.paint(ui, Rect::from_x_y_ranges(across, top..=top + strip::HEIGHT));
        }
    }

    /// All of the row.
    fn words(&self, columns: &Columns<'_>) -> String {
        let mut parts = vec![self.power.to_string()];
        if self.is_proposed(columns) {
            parts.push("proposed".to_owned());
        }
        for (place, column) in columns.answering {
            if let Some(Some(predicted)) = self.predicted.get(*place) {
                parts.push(format!("{} {predicted}", column.formula.name()));
            }
        }
        if let (Some(together), Some([within, over])) = (self.together, self.chances) {
            let [_, band, _] = SHOWN_BANDS;
            parts.push(format!(
                "mean {}, SD {:.2} D, chance within ±{:.2} D of the target {}, over {HYPEROPIC} {}",
                together.mean(),
                together.deviation().d(),
                band.diopters().d(),
                percent(within),
                percent(over)
            ));
        }
        parts.join(", ")
    }
}
