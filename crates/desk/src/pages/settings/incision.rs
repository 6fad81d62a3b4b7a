//! What a surgeon's own incision does to the cornea, entered whole or not at all.

use chrono::NaiveDate;
use egui::{Id, Ui};
use millrace_core::astigmatism::IncisionEffect;
use millrace_core::quantity::HundredthDiopters;

use super::kinds::EYES;
use crate::widgets::quantity_kind::UNSIGNED_POWER;
use crate::widgets::{Commit, Kind, Named, NumberField, cell, date_field, muted, problem, small};

const LABEL: f32 = 72.0;
const UNIT: f32 = 30.0;

/// What was entered so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct IncisionEntry {
    flattening: Option<HundredthDiopters>,
    scatter: Option<HundredthDiopters>,
    eyes: Option<u32>,
    on: Option<NaiveDate>,
}

impl IncisionEntry {
    fn of(effect: IncisionEffect) -> Self {
        Self {
            flattening: Some(effect.flattening()),
            scatter: Some(effect.scatter()),
            eyes: Some(effect.eyes()),
            on: effect.on(),
        }
    }

    /// The effect once its three numbers are there, or why they are none.
    fn whole(&self) -> Option<Result<IncisionEffect, String>> {
        let made = IncisionEffect::new(self.flattening?, self.scatter?, self.eyes?, self.on);
        Some(made.map_err(|error| error.to_string()))
    }
}

/// Shows the four fields for an incision called `what`; a change of what is kept goes into `kept`.
pub(super) fn show(
    ui: &mut Ui,
    what: &str,
    kept: &mut Option<IncisionEffect>,
    partial: &mut IncisionEntry,
) {
    let before = kept.map_or(*partial, IncisionEntry::of);
    let mut next = before;
    let mut problems = Vec::new();
    let kind = &UNSIGNED_POWER;
    ui.horizontal(|ui| {
        let name = label(ui, "Flattening", what);
        next.flattening = number(ui, (&name, kind), next.flattening, &mut problems);
        cell(ui, UNIT, |ui| muted(ui, "D"));
        let name = label(ui, "Scatter", what);
        next.scatter = number(ui, (&name, kind), next.scatter, &mut problems);
        muted(ui, "D");
    });
    ui.horizontal(|ui| {
        let name = label(ui, "Eyes", what);
        next.eyes = number(ui, (&name, &EYES), next.eyes, &mut problems);
        cell(ui, UNIT, |_| ());
        let name = label(ui, "Day", what);
        let entered = date_field(ui, (Id::unique(&name), Named::As(&name)), next.on);
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            next.on = commit.value();
        }
    });
    let whole = next.whole();
    if let Some(Err(why)) = &whole {
        problems.push(why.clone());
    } else if next != IncisionEntry::default() && whole.is_none() {
        small(
            ui,
            "Kept once flattening, scatter and number of eyes are there",
        );
    }
    for why in problems {
        problem(ui, &why);
    }
    if next == before {
        return;
    }
    *kept = whole.and_then(Result::ok);
    *partial = if kept.is_some() {
        IncisionEntry::default()
    } else {
        next
    };
}

/// A label, and the name of the field beside it for a screen reader.
fn label(ui: &mut Ui, word: &str, what: &str) -> String {
    cell(ui, LABEL, |ui| muted(ui, word));
    format!("{word}, {what}")
}

fn number<T: Copy + PartialEq>(
    ui: &mut Ui,
    (name, kind): (&str, &Kind<T>),
    value: Option<T>,
    problems: &mut Vec<String>,
) -> Option<T> {
    let field = NumberField::new(Id::unique(name), Named::As(name), kind, value);
    let entered = field.width(64.0).show(ui);
    problems.extend(entered.problem);
    entered.commit.map_or(value, Commit::value)
}
