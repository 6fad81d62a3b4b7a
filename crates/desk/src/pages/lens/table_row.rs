//! One power of the lens power table: a line of it, and its lane of the chart.

use egui::{Align2, FontId, Rangef, Rect, Ui, pos2};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::plan::{HYPEROPIC, SHOWN_BANDS};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_wording::desk::lens as say;
use millrace_wording::number::percent;
use millrace_wording::{Show as _, Words, quantity};

use super::table_groups::{Groups, POWER};
use crate::figures::interval_chart::Lane;
use crate::power_lines::Line;
use crate::theme::{Palette, bold, measures};
use crate::widgets::Ink;
use crate::words::in_use;

/// From an edge of a group to what is written in it.
pub(super) const INSET: f32 = 6.0;

/// The formulas of the table.
pub(super) struct Formulas<'a> {
    /// The one planned by, with its place in the ladder.
    pub(super) planned: Option<(usize, &'a Column)>,
    /// The others that answer and are wished to be seen.
    pub(super) others: Vec<(usize, &'a Column)>,
}

/// One power, and what is said of it.
pub(super) struct Row<'a> {
    pub(super) line: &'a Line,
    pub(super) is_chosen: bool,
    proposed_by: Vec<Formula>,
}

/// The formulas that propose a power.
fn proposing(ladder: &Ladder, power: HundredthDiopters) -> Vec<Formula> {
    let proposes = |column: &&Column| {
        let answer = column.answer.as_ref();
        answer.is_ok_and(|answer| answer.proposed == Some(power))
    };
    let columns = ladder.columns.iter().filter(proposes);
    columns.map(|column| column.formula).collect()
}

impl<'a> Row<'a> {
    pub(super) fn of(line: &'a Line, ladder: &Ladder, chosen: Option<HundredthDiopters>) -> Self {
        let power = line.said.power;
        Self {
            line,
            is_chosen: chosen == Some(power),
            proposed_by: proposing(ladder, power),
        }
    }

    fn predicted(&self, place: usize) -> Option<Diopters> {
        self.line.said.predicted.get(place).copied().flatten()
    }

    /// Its lane of the chart; `middle` is its place on the screen.
    pub(super) fn lane(&self, formulas: &Formulas<'_>, middle: f32) -> Lane {
        let planned = formulas.planned;
        let others = formulas.others.iter();
        Lane {
            power: self.line.said.power,
            middle,
            together: self.line.together,
            planned: planned.and_then(|(place, _)| self.predicted(place)),
            others: others
                .filter_map(|(place, _)| self.predicted(*place))
                .collect(),
        }
    }

    pub(super) fn paint(&self, ui: &Ui, rect: Rect, groups: &Groups<'_>, formulas: &Formulas<'_>) {
        let (palette, words) = (Palette::current(ui), in_use(ui));
        let heavy = Ink::new(FontId::new(measures::BODY, bold()), palette.ink);
        let plain = Ink::new(FontId::proportional(measures::BODY), palette.ink);
        let small = Ink::new(FontId::proportional(measures::SMALL), palette.ink);
        let quiet = Ink::new(FontId::proportional(measures::SMALL), palette.muted);
        let middle = rect.center().y;
        let right = |ink: &Ink, range: Rangef, text: &str| {
            let at = pos2(range.max - INSET, middle);
            ink.write(ui, at, Align2::RIGHT_CENTER, text);
        };
        // Behind the number, so that all numbers of a column stand under each other.
        let star = |ink: &Ink, range: Rangef, formula: Formula| {
            if self.proposed_by.contains(&formula) {
                let at = pos2(range.max - INSET, middle);
                ink.write(ui, at, Align2::LEFT_CENTER, "*");
            }
        };
        let power = self.line.said.power.show(words);
        let ink = if self.is_chosen { &heavy } else { &plain };
        let number = Rangef::new(groups.power.min, groups.power.min + POWER);
        right(ink, number, &power);
        if groups.has_words {
            let at = pos2(number.max + 2.0, middle);
            small.write(ui, at, Align2::LEFT_CENTER, self.state(words, formulas));
        }
        let planned = formulas.planned;
        let predicted = planned.map(|(place, column)| (column.formula, self.predicted(place)));
        match predicted {
            Some((formula, Some(predicted))) => {
                right(&heavy, groups.planned, &predicted.show(words));
                star(&heavy, groups.planned, formula);
            }
            Some((_, None)) => right(&quiet, groups.planned, say::no_result(words)),
            None => right(&quiet, groups.planned, "–"),
        }
        for (at, range) in [groups.within, groups.over].into_iter().enumerate() {
            let chance = self
                .line
                .said
                .chances
                .and_then(|both| both.get(at).copied());
            match chance {
                Some(chance) => right(&plain, range, &percent(words, chance)),
                // Never an empty place, which could be read as none.
                None => right(&quiet, range, say::withheld_here(words)),
            }
        }
        for (range, place, column) in &groups.others {
            match self.predicted(*place) {
                Some(predicted) => {
                    right(&small, *range, &predicted.show(words));
                    star(&small, *range, column.formula);
                }
                None => right(&quiet, *range, "–"),
            }
        }
    }

    /// "−0.49 D", with a star where this formula proposes this power.
    fn starred(&self, words: Words, formula: Formula, predicted: Diopters) -> String {
        let star = if self.proposed_by.contains(&formula) {
            "*"
        } else {
            ""
        };
        format!("{}{star}", predicted.show(words))
    }

    fn state(&self, words: Words, formulas: &Formulas<'_>) -> &'static str {
        match (self.is_chosen, self.is_proposed(formulas)) {
            (true, true) => say::chosen_proposed(words),
            (true, false) => say::power_chosen(words),
            (false, true) => say::proposed(words),
            (false, false) => "",
        }
    }

    fn is_proposed(&self, formulas: &Formulas<'_>) -> bool {
        let planned = formulas.planned;
        planned.is_some_and(|(_, column)| self.proposed_by.contains(&column.formula))
    }

    /// The line in words, in the order in which it is read.
    pub(super) fn name(&self, words: Words, formulas: &Formulas<'_>) -> String {
        let mut parts = vec![self.line.said.power.show(words).into_owned()];
        if self.is_proposed(formulas) {
            parts.push(say::proposed(words).to_owned());
        }
        if let Some((place, column)) = formulas.planned {
            parts.push(self.by_formula(words, place, column));
        }
        let chances = self.line.said.chances;
        if let (Some(together), Some([within, over])) = (&self.line.together, chances) {
            let [_, band, _] = SHOWN_BANDS;
            let band = quantity::unsigned(words, band);
            let [within, over] = [within, over].map(|chance| percent(words, chance));
            parts.push(say::chances(words, band, within, HYPEROPIC, over));
            let deviation = quantity::computed_unsigned(words, together.deviation);
            parts.push(say::together(words, together.mean, deviation));
        } else {
            parts.push(say::chances_withheld(words).to_owned());
        }
        let others = formulas.others.iter();
        parts.extend(others.map(|(place, column)| self.by_formula(words, *place, column)));
        parts.join(", ")
    }

    fn by_formula(&self, words: Words, place: usize, column: &Column) -> String {
        match self.predicted(place) {
            Some(predicted) => say::by_formula(words, column.formula, predicted),
            None => say::by_formula_none(words, column.formula),
        }
    }

    /// What the other formulas predict, where they have no columns.
    pub(super) fn other_formulas(&self, words: Words, formulas: &Formulas<'_>) -> String {
        let power = self.line.said.power;
        let others = formulas.others.iter();
        let others = others.map(|(place, column)| match self.predicted(*place) {
            Some(predicted) => {
                let predicted = self.starred(words, column.formula, predicted);
                say::by_formula(words, column.formula, predicted)
            }
            None => say::by_formula_none(words, column.formula),
        });
        say::other_formulas(words, power, words.clauses(others))
    }
}
