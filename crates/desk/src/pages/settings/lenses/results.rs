//! The clinic's own results with a lens.

use chrono::NaiveDate;
use egui::Ui;
use millrace_core::iol_power::Formula;
use millrace_core::lens::ClinicResult;
use millrace_core::quantity::Diopters;
use millrace_wording::desk::lens_records as say;
use millrace_wording::{Show as _, Words};

use crate::pages::settings::kinds::{EYES, NUMBER};
use crate::widgets::{Bare, Field, FormRows, Pick, cell, minor_button, muted, small};
use crate::words::in_use;

/// Width of the list of formulas.
const FORMULA: f32 = 150.0;

/// The results as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct ResultsForm {
    entries: Vec<Entry>,
    /// Counts removals: a field that moves up does not inherit what was typed in its place.
    removed: u32,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Entry {
    formula: Option<Formula>,
    eyes: Option<u32>,
    deviation_d: Option<f64>,
    on: Option<NaiveDate>,
}

impl ResultsForm {
    pub(super) fn of(results: &[ClinicResult]) -> Self {
        let entry = |result: &ClinicResult| Entry {
            formula: Some(result.formula),
            eyes: Some(result.eyes),
            deviation_d: Some(result.deviation.d()),
            on: Some(result.on),
        };
        Self {
            entries: results.iter().map(entry).collect(),
            removed: 0,
        }
    }

    pub(super) fn missing(&self, words: Words) -> Option<&'static str> {
        let is_partial = |entry: &Entry| entry.whole().is_none();
        let is_missing = self.entries.iter().any(is_partial);
        is_missing.then(|| say::missing_of_result(words))
    }

    pub(super) fn whole(&self) -> Option<Vec<ClinicResult>> {
        self.entries.iter().map(Entry::whole).collect()
    }

    pub(super) fn show(&mut self, ui: &mut Ui, form: &mut FormRows) {
        let (mut removed, words) = (None, in_use(ui));
        let key = self.removed;
        for (index, entry) in self.entries.iter_mut().enumerate() {
            let nth = say::result(words, index + 1);
            form.wide_row(ui, &nth, |form, ui, _| entry.error(ui, form, &nth, key));
            form.wide_row(ui, "", |form, ui, _| {
                entry.series(ui, form, &nth, key);
                let button = minor_button(ui, say::remove(words));
                if button.clicked() {
                    removed = Some(index);
                }
                button.accessible_name(say::remove_result(words, &nth));
            });
        }
        if let Some(index) = removed {
            self.entries.remove(index);
            self.removed += 1;
            ui.request_repaint();
        }
        form.wide_row(ui, "", |_, ui, _| {
            if minor_button(ui, say::add_result(words)).clicked() {
                self.entries.push(Entry::default());
            }
        });
        small(ui, say::what_deviation_is(words));
    }
}

impl Entry {
    fn whole(&self) -> Option<ClinicResult> {
        Some(ClinicResult {
            formula: self.formula?,
            eyes: self.eyes?,
            deviation: Diopters::new(self.deviation_d?),
            on: self.on?,
        })
    }

    fn error(&mut self, ui: &mut Ui, form: &mut FormRows, nth: &str, key: u32) {
        let words = in_use(ui);
        let formulas = Formula::ALL.map(|formula| (formula, formula.show(words).into_owned()));
        let name = say::result_formula(words, nth);
        let id = form.ground.with(&name);
        let chosen = cell(ui, FORMULA, |ui| {
            Pick::new(id, &name, &formulas, self.formula).show(ui, FORMULA)
        });
        self.formula = chosen.or(self.formula);
        muted(ui, say::deviation(words));
        let name = say::result_deviation(words, nth);
        let sd = Bare {
            name: &name,
            key,
            kind: &NUMBER,
            width: 60.0,
        };
        form.bare(ui, sd, &mut self.deviation_d);
        muted(ui, "D");
    }

    fn series(&mut self, ui: &mut Ui, form: &mut FormRows, nth: &str, key: u32) {
        let words = in_use(ui);
        muted(ui, say::on(words));
        let name = say::result_eyes(words, nth);
        let eyes = Bare {
            name: &name,
            key,
            kind: &EYES,
            width: 56.0,
        };
        form.bare(ui, eyes, &mut self.eyes);
        muted(ui, say::eyes_day(words));
        let name = say::result_day(words, nth);
        let field = Field::called(form.ground.with((&name, key)), &name);
        form.of_day(ui, field, &mut self.on);
    }
}
