//! Rows of a form: a label, a field beside it, and what is wrong with what stands there.

use core::hash::Hash;

use egui::{Id, Ui};

use super::choice::{Segments, pick};
use super::layout::{cell, muted};
use super::line_edit::Named;
use super::number_field::{Fielded, NumberField};
use super::quantity_kind::Kind;
use super::text_field::text_field;

/// Under this width the fields of a wide row stand under their label.
const STACKED: f32 = 640.0;

/// The rows of one form.
pub struct FormRows {
    /// What the ids of the fields start from: another form has other edits.
    pub ground: Id,
    /// Width of the labels.
    pub label: f32,
    /// Why something that stands there is not taken.
    pub problems: Vec<String>,
}

impl FormRows {
    /// An empty form.
    #[must_use]
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

    /// Words.
    pub fn words(
        &mut self,
        ui: &mut Ui,
        (label, what): (&str, &'static str),
        value: &mut Option<String>,
    ) {
        self.row(ui, label, |form, ui, named| {
            let field = (form.ground.with(label), Named::By(named, label));
            let entered = text_field(ui, field, (value.as_deref(), what), 220.0);
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

    /// One of many, in a list that opens.
    pub fn pick<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        (label, options): (&str, &[(T, String)]),
        value: &mut Option<T>,
    ) {
        self.row(ui, label, |form, ui, _| {
            let id = form.ground.with(label);
            let chosen = cell(ui, 220.0, |ui| {
                pick(ui, (id, label), options, *value, 220.0)
            });
            *value = chosen.or(*value);
        });
    }

    /// A number with its unit.
    pub fn number<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        (label, kind): (&str, &Kind<T>),
        value: &mut Option<T>,
    ) {
        self.row(ui, label, |form, ui, named| {
            let id = form.ground.with(label);
            let entered = NumberField::new(id, Named::By(named, label), kind, *value).show(ui);
            form.take(entered, value);
            if !kind.unit.is_empty() {
                muted(ui, kind.unit);
            }
        });
    }

    /// A number without a label of its own beside it; `key` tells it from its like.
    pub fn bare<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        (name, key): (&str, impl Hash + core::fmt::Debug),
        (kind, width): (&Kind<T>, f32),
        value: &mut Option<T>,
    ) {
        let id = self.ground.with((name, key));
        let field = NumberField::new(id, Named::As(name), kind, *value);
        let entered = field.width(width).show(ui);
        self.take(entered, value);
    }
}
