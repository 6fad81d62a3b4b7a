//! Rows of a form: a label, a field beside it, and what is wrong with what stands there.

use chrono::NaiveDate;
use egui::{Id, Ui};
use millrace_wording::{Show, sentence};

use super::choice::{Pick, Segments};
use super::field::{Field, Named};
use super::layout::{cell, muted, problem};
use super::number_field::{Fielded, NumberField};
use super::quantity_kind::Kind;
use super::text_field::{date_field, text_field};
use crate::words::in_use;

/// Under this width the fields of a wide row stand under their label.
const STACKED: f32 = 640.0;

/// The rows of one form, and what is wrong with what stands in them.
pub struct FormRows {
    /// What the ids of the fields start from: another form has other edits.
    pub ground: Id,
    /// Width of the labels.
    pub label: f32,
    /// Why something that stands there is not taken.
    pub problems: Vec<String>,
}

/// A number field that stands among others in a row.
#[derive(Clone, Copy)]
pub struct Bare<'a, T: 'static> {
    /// What it is called in the accessibility tree.
    pub name: &'a str,
    /// Tells it from its like: one that moves up does not inherit what was typed in its place.
    pub key: u32,
    pub kind: &'a Kind<T>,
    pub width: f32,
}

impl FormRows {
    pub const fn new(ground: Id, label: f32) -> Self {
        Self {
            ground,
            label,
            problems: Vec::new(),
        }
    }

    /// Takes what a field brought.
    pub fn take<T>(&mut self, entered: Fielded<T>, value: &mut Option<T>) {
        self.problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            *value = commit.value();
        }
    }

    /// Says what is wrong, under the rows.
    pub fn say(&self, ui: &mut Ui) {
        for why in &self.problems {
            problem(ui, why);
        }
    }

    /// A label in its column, `width` wide; what the field beside it is called by.
    pub fn name<'a>(&self, ui: &mut Ui, width: f32, name: &'a str) -> Field<'a> {
        let label = cell(ui, width, |ui| ui.label(name)).id;
        Field {
            id: self.ground.with(name),
            named: Named::By(label, name),
        }
    }

    pub fn of_number<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        field: Field<'_>,
        kind: &Kind<T>,
        value: &mut Option<T>,
    ) {
        let entered = NumberField::new(field.id, field.named, kind, *value).show(ui);
        self.take(entered, value);
    }

    pub fn of_day(&mut self, ui: &mut Ui, field: Field<'_>, value: &mut Option<NaiveDate>) {
        let entered = date_field(ui, field, *value);
        self.take(entered, value);
    }

    /// A row with a label and whatever stands beside it; the label's id is handed on.
    pub fn row<R>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        add: impl FnOnce(&mut Self, &mut Ui, Id) -> R,
    ) -> R {
        ui.horizontal_wrapped(|ui| {
            let width = self.label;
            let named = cell(ui, width, |ui| ui.label(label)).id;
            add(self, ui, named)
        })
        .inner
    }

    /// A row with more beside the label than one field: where there is no room, they stand under it.
    pub fn wide_row<R>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        add: impl FnOnce(&mut Self, &mut Ui, Id) -> R,
    ) -> R {
        if STACKED <= ui.available_width() {
            return self.row(ui, label, add);
        }
        let named = if label.is_empty() {
            ui.scope_id()
        } else {
            ui.label(label).id
        };
        ui.horizontal(|ui| add(self, ui, named)).inner
    }

    pub fn words(
        &mut self,
        ui: &mut Ui,
        label: &str,
        what: &'static str,
        value: &mut Option<String>,
    ) {
        self.row(ui, label, |form, ui, named| {
            let field = Field::by(form.ground.with(label), named, label);
            let entered = text_field(ui, field, value.as_deref(), what, 220.0);
            form.take(entered, value);
        });
    }

    /// One of a few, side by side.
    pub fn choice<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        options: &[(T, &str)],
        value: &mut Option<T>,
    ) {
        self.row(ui, label, |form, ui, _| {
            let id = form.ground.with(label);
            let segments = Segments::new(id, label.trim(), options, *value);
            *value = segments.show(ui).or(*value);
        });
    }

    /// One of these, each by the name it has everywhere.
    pub fn choice_among<T: Copy + PartialEq + Show>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        all: &[T],
        value: &mut Option<T>,
    ) {
        let words = in_use(ui);
        let names: Vec<_> = all.iter().map(|it| sentence(&it.show(words))).collect();
        let options: Vec<_> = all
            .iter()
            .copied()
            .zip(names.iter().map(String::as_str))
            .collect();
        self.choice(ui, label, &options, value);
    }

    /// One of many, in a list that opens.
    pub fn pick<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        options: &[(T, String)],
        value: &mut Option<T>,
    ) {
        self.row(ui, label, |form, ui, _| {
            let pick = Pick::new(form.ground.with(label), label, options, *value);
            *value = cell(ui, 220.0, |ui| pick.show(ui, 220.0)).or(*value);
        });
    }

    /// A number with its unit.
    pub fn number<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        kind: &Kind<T>,
        value: &mut Option<T>,
    ) {
        self.row(ui, label, |form, ui, named| {
            let field = Field::by(form.ground.with(label), named, label);
            form.of_number(ui, field, kind, value);
            if !kind.unit.is_empty() {
                muted(ui, in_use(ui).reference(kind.unit));
            }
        });
    }

    /// A number without a label of its own beside it.
    pub fn bare<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        bare: Bare<'_, T>,
        value: &mut Option<T>,
    ) {
        let id = self.ground.with((bare.name, bare.key));
        let field = NumberField::new(id, Named::As(bare.name), bare.kind, *value);
        let entered = field.width(bare.width).show(ui);
        self.take(entered, value);
    }
}

impl<'a, T> Bare<'a, T> {
    pub const fn new(name: &'a str, kind: &'a Kind<T>, width: f32) -> Self {
        Self {
            name,
            key: 0,
            kind,
            width,
        }
    }
}
