//! The clinic's own results with a lens.

use chrono::NaiveDate;
use egui::Ui;
use millrace_core::iol_power::Formula;
use millrace_core::lens::ClinicResult;
use millrace_core::quantity::Diopters;

use crate::pages::settings::kinds::{EYES, NUMBER};
use crate::widgets::{Bare, Field, FormRows, Pick, cell, minor_button, muted, small};

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

    pub(super) fn missing(&self) -> Option<&'static str> {
        let is_partial = |entry: &Entry| entry.whole().is_none();
        let is_missing = self.entries.iter().any(is_partial);
        is_missing.then_some("formula, SD, eyes or day of an own result")
    }

    pub(super) fn whole(&self) -> Option<Vec<ClinicResult>> {
        self.entries.iter().map(Entry::whole).collect()
    }

    pub(super) fn show(&mut self, ui: &mut Ui, form: &mut FormRows) {
        let mut removed = None;
        let key = self.removed;
        for (index, entry) in self.entries.iter_mut().enumerate() {
            let nth = format!("Result {}", index + 1);
            form.wide_row(ui, &nth, |form, ui, _| entry.error(ui, form, &nth, key));
            form.wide_row(ui, "", |form, ui, _| {
                entry.series(ui, form, &nth, key);
                let button = minor_button(ui, "Remove");
                if button.clicked() {
                    removed = Some(index);
                }
                button.accessible_name(format!("Remove, {nth}"));
            });
        }
        if let Some(index) = removed {
            self.entries.remove(index);
            self.removed += 1;
            ui.request_repaint();
        }
        form.wide_row(ui, "", |_, ui, _| {
            if minor_button(ui, "Add a result").clicked() {
                self.entries.push(Entry::default());
            }
        });
        small(
            ui,
            "SD of the prediction error in the clinic's own hands, its mean zeroed; at most one for each formula",
        );
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
        let formulas = Formula::ALL.map(|formula| (formula, formula.name().to_owned()));
        let words = format!("{nth}, formula");
        let id = form.ground.with(&words);
        let chosen = cell(ui, FORMULA, |ui| {
            Pick::new(id, &words, &formulas, self.formula).show(ui, FORMULA)
        });
        self.formula = chosen.or(self.formula);
        muted(ui, "SD");
        let words = format!("{nth}, SD");
        let sd = Bare {
            name: &words,
            key,
            kind: &NUMBER,
            width: 60.0,
        };
        form.bare(ui, sd, &mut self.deviation_d);
        muted(ui, "D");
    }

    fn series(&mut self, ui: &mut Ui, form: &mut FormRows, nth: &str, key: u32) {
        muted(ui, "on");
        let words = format!("{nth}, eyes");
        let eyes = Bare {
            name: &words,
            key,
            kind: &EYES,
            width: 56.0,
        };
        form.bare(ui, eyes, &mut self.eyes);
        muted(ui, "eyes, day");
        let words = format!("{nth}, day");
        let field = Field::called(form.ground.with((&words, key)), &words);
        form.of_day(ui, field, &mut self.on);
    }
}
