//! One measurement in one row: name, number, unit, method, and how it came to be.

use egui::Ui;
use millrace_core::biometry::{Item, Measured, Method};
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::head;
use millrace_wording::{Show as _, Words};

use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::{
    Commit, Field, Kind, Named, NumberField, Pick, cell, date_field, low_row, minor_button, muted,
    problem, small, text_field,
};
use millrace_wording::sentence;

/// A row for a measurement of type `T` whose spread has type `S`.
pub(super) struct Row<'a, T: 'static, S: 'static> {
    pub(super) item: Item,
    pub(super) kind: &'a Kind<T>,
    /// How a spread is entered; nothing where the measurement has none.
    pub(super) spread: Option<&'a Kind<S>>,
    pub(super) current: Option<Measured<T, S>>,
    /// The other eye's value.
    pub(super) other: Option<String>,
    /// What has to be said before the number.
    pub(super) first: Option<&'a str>,
}

impl<T, S> Row<'_, T, S>
where
    T: Copy + PartialEq,
    S: Copy + PartialEq,
{
    /// Shows the row; tells a change of the measurement.
    pub(super) fn show(
        self,
        ui: &mut Ui,
        page: &EyePage<'_>,
        state: &mut BiometryState,
    ) -> Option<Commit<Measured<T, S>>> {
        let key = (page.side, self.item);
        let method = self.method(page, state);
        let mut change = None;
        let mut why = None;
        let place = page.columns;
        let name = self.name(page);
        ui.horizontal(|ui| {
            if place.is_turned {
                other_cell(ui, page, self.other.as_deref());
            }
            let label = cell(ui, place.label, |ui| ui.label(&name)).id;
            let id = page.id(self.item);
            let full = page.name(&name);
            let named = if full == name {
                Named::By(label, &name)
            } else {
                Named::As(&full)
            };
            let first = self
                .first
                .or_else(|| method.is_none().then(|| say::method_first(page.words)));
            let value = self.current.as_ref().map(|measured| measured.value);
            let field = NumberField::new(id, named, self.kind, value).after(first);
            let entered = cell(ui, place.field, |ui| field.show(ui));
            why = entered.problem;
            change = entered
                .commit
                .and_then(|commit| Self::with_value(&commit, method, state));
            cell(ui, place.unit, |ui| {
                muted(ui, page.words.reference(self.kind.unit))
            });
            if let Some(chosen) = self.method_cell(ui, page, method) {
                state.methods.insert(key, chosen);
                change = self.with_method(chosen).or(change.take());
            }
            self.more_cell(ui, page, state);
            if !place.is_turned {
                other_cell(ui, page, self.other.as_deref());
            }
        });
        self.circumstances(ui, page);
        if let Some(why) = why {
            problem(ui, &why);
        }
        if state.details.contains(&key) {
            change = self.details(ui, page).or(change);
        }
        ui.add_space(measures::TIGHT);
        change
    }

    fn name(&self, page: &EyePage<'_>) -> String {
        head(page.words, self.item)
    }

    /// The method of what is there, or of what comes next.
    fn method(&self, page: &EyePage<'_>, state: &BiometryState) -> Option<Method> {
        if let Some(measured) = &self.current {
            return Some(measured.method);
        }
        let chosen = state.methods.get(&(page.side, self.item)).copied();
        let of_sitting = state
            .sitting
            .method
            .filter(|method| self.item.methods().contains(method));
        chosen.or(of_sitting)
    }

    /// Another number is another measurement: spread, day and person of the old one say nothing of
    /// it.
    fn with_value(
        commit: &Commit<T>,
        method: Option<Method>,
        state: &BiometryState,
    ) -> Option<Commit<Measured<T, S>>> {
        let Commit::Entered(value) = *commit else {
            return Some(Commit::Cleared);
        };
        let sitting = &state.sitting;
        Some(Commit::Entered(Measured {
            value,
            method: method?,
            spread: None,
            on: sitting.on,
            by: sitting.by.clone(),
        }))
    }

    fn with_method(&self, method: Method) -> Option<Commit<Measured<T, S>>> {
        let mut measured = self.current.clone()?;
        measured.method = method;
        Some(Commit::Entered(measured))
    }

    fn method_cell(
        &self,
        ui: &mut Ui,
        page: &EyePage<'_>,
        method: Option<Method>,
    ) -> Option<Method> {
        let mut methods = self.item.methods().to_vec();
        if let Some(method) = method
            && !methods.contains(&method)
        {
            methods.push(method);
        }
        let options: Vec<_> = methods
            .into_iter()
            .map(|method| (method, sentence(&method.show(page.words))))
            .collect();
        let name = page.name(&say::row_method(page.words, self.name(page)));
        let id = page.id((self.item, "method"));
        let width = page.columns.method;
        cell(ui, width, |ui| {
            Pick::new(id, &name, &options, method).show(ui, width)
        })
    }

    fn more_cell(&self, ui: &mut Ui, page: &EyePage<'_>, state: &mut BiometryState) {
        let key = (page.side, self.item);
        cell(ui, page.columns.more, |ui| {
            let button = ui
                .add_enabled_ui(self.current.is_some(), |ui| minor_button(ui, "…"))
                .inner;
            if button.clicked() && !state.details.remove(&key) {
                state.details.insert(key);
            }
            let name = say::row_circumstances(page.words, self.name(page));
            button.accessible_name(page.name(&name));
        });
    }

    /// Under the row: what an instrument can report, and who measured when.
    fn circumstances(&self, ui: &mut Ui, page: &EyePage<'_>) {
        let place = page.columns;
        low_row(ui, |ui| {
            ui.add_space(place.indent() + place.label + measures::NEAR);
            let range = (self.kind.range)(page.words);
            let mut parts = vec![range];
            parts.extend(self.current.as_ref().map(|it| said(page.words, it)));
            if let (true, Some(other)) = (place.is_stacked, &self.other) {
                parts.push(say::of_other(page.words, page.side.other(), other));
            }
            small(ui, parts.join("  ·  "));
        });
    }

    fn details(&self, ui: &mut Ui, page: &EyePage<'_>) -> Option<Commit<Measured<T, S>>> {
        let current = self.current.clone()?;
        let mut measured = current.clone();
        let mut problems = Vec::new();
        ui.horizontal_wrapped(|ui| {
            ui.add_space(page.columns.label + measures::NEAR);
            if let Some(kind) = self.spread {
                muted(ui, say::deviation(page.words));
                let name = page.name(&say::row_spread(page.words, self.name(page)));
                let id = page.id((self.item, "spread"));
                let field = NumberField::new(id, Named::As(&name), kind, current.spread);
                let entered = field.width(64.0).show(ui);
                problems.extend(entered.problem);
                if let Some(commit) = entered.commit {
                    measured.spread = commit.value();
                }
                muted(ui, kind.unit);
            }
            who_and_when(ui, page, self.item, &mut measured, &mut problems);
        });
        for why in problems {
            problem(ui, &why);
        }
        (measured != current).then_some(Commit::Entered(measured))
    }
}

/// Day and person of a measurement, to be corrected.
pub(super) fn who_and_when<T, S>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    item: Item,
    measured: &mut Measured<T, S>,
    problems: &mut Vec<String>,
) {
    let words = page.words;
    let name = head(words, item);
    muted(ui, say::on(words));
    let day_name = page.name(&say::row_day(words, &name));
    let field = Field::called(page.id((item, "day")), &day_name);
    let entered = date_field(ui, field, measured.on);
    problems.extend(entered.problem);
    if let Some(commit) = entered.commit {
        measured.on = commit.value();
    }
    muted(ui, say::by(words));
    let person_name = page.name(&say::row_person(words, &name));
    let field = Field::called(page.id((item, "person")), &person_name);
    let by = measured.by.as_deref();
    let entered = text_field(ui, field, by, "name of the person", 120.0);
    problems.extend(entered.problem);
    if let Some(commit) = entered.commit {
        measured.by = commit.value();
    }
}

/// "20 Nov 2026, T. Lindqvist", or what of it was not said.
pub(super) fn said<T, S>(words: Words, measured: &Measured<T, S>) -> String {
    match (measured.on, measured.by.as_deref()) {
        (Some(day), Some(person)) => say::by_person(words, day, person),
        (Some(day), None) => say::by_nobody(words, day),
        (None, Some(person)) => say::no_day(words, person),
        (None, None) => say::neither(words).to_owned(),
    }
}

/// The other eye's value, as text only.
pub(super) fn other_cell(ui: &mut Ui, page: &EyePage<'_>, value: Option<&str>) {
    if page.columns.is_stacked {
        return;
    }
    cell(ui, page.columns.other, |ui| {
        muted(ui, value.unwrap_or("–"));
    });
}
