//! An earlier cataract operation on this eye: what was implanted, what was predicted, what came of it.

use egui::Ui;
use millrace_core::biometry::{EarlierOperation, Refraction};
use millrace_core::case::Command;
use millrace_core::iol_power::Formula;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::refraction::{RefractionParts, refraction};
use super::signs::{answers, yes_or_no};
use super::{BiometryState, EyePage};
use crate::widgets::quantity_kind::POWER;
use crate::widgets::{Commit, Field, Parts, Pick, minor_button, section, small, text_field};

/// The parts, as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct EarlierParts {
    lens_power: Option<HundredthDiopters>,
    lens_model: Option<String>,
    predicted: RefractionParts,
    achieved: RefractionParts,
    formula: Option<Formula>,
    complicated: Option<bool>,
}

impl Parts for EarlierParts {
    type Whole = EarlierOperation;

    fn of(whole: &EarlierOperation) -> Self {
        Self {
            lens_power: Some(whole.lens_power),
            lens_model: whole.lens_model.clone(),
            predicted: RefractionParts::of(&whole.predicted),
            achieved: RefractionParts::of(&whole.achieved),
            formula: whole.formula,
            complicated: whole.complicated,
        }
    }

    fn whole(&self) -> Option<EarlierOperation> {
        Some(EarlierOperation {
            lens_power: self.lens_power?,
            lens_model: self.lens_model.clone(),
            predicted: self.predicted.whole()?,
            achieved: self.achieved.whole()?,
            formula: self.formula,
            complicated: self.complicated,
        })
    }
}

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let words = page.words;
    section(ui, say::earlier_operation(words));
    let recorded = page.eye.earlier_operation.as_ref();
    let other = page.other.earlier_operation.as_ref();
    let half = state.earlier.get_mut(page.side);
    let here: &EyePage<'_> = page;
    let mut clears = false;
    let entered = half.enter(recorded, |parts| {
        let power = other.map(|other| other.lens_power.show(words).into_owned());
        here.line(say::implanted_power(words), power.as_deref())
            .number(ui, &POWER, &mut parts.lens_power);
        let model = other.and_then(|other| other.lens_model.as_deref());
        lens_model(ui, here, model, &mut parts.lens_model);
        let shown = |of: fn(&EarlierOperation) -> Refraction| {
            other.map(|other| of(other).show(words).into_owned())
        };
        let predicted = shown(|other| other.predicted);
        let line = here.line(say::predicted_refraction(words), predicted.as_deref());
        refraction(ui, line, &mut parts.predicted);
        let achieved = shown(|other| other.achieved);
        let line = here.line(say::achieved_refraction(words), achieved.as_deref());
        refraction(ui, line, &mut parts.achieved);
        let by = other.and_then(|other| other.formula);
        formula(ui, here, by, &mut parts.formula);
        let course = other.and_then(|other| other.complicated);
        let line = here.line(say::complicated(words), yes_or_no(words, course));
        parts.complicated = line.choice(ui, &answers(words), parts.complicated);
        if recorded.is_some() {
            clears = minor_button(ui, say::remove_earlier(words)).clicked();
        }
    });
    if entered.parts != EarlierParts::default() && entered.parts.whole().is_none() {
        small(ui, say::recorded_once_refractions(words));
    }
    let change = if clears {
        Some(Commit::Cleared)
    } else {
        entered.change
    };
    if let Some(change) = change {
        let command = Command::SetEarlierOperation(page.side, change.value());
        page.commands.push(command);
    }
}

fn lens_model(ui: &mut Ui, page: &EyePage<'_>, other: Option<&str>, value: &mut Option<String>) {
    let name = say::implanted_model(page.words);
    let entered = page.line(name, other).show(ui, |ui| {
        let name = page.name(name);
        let field = Field::called(page.id("model of the earlier operation"), &name);
        text_field(ui, field, value.as_deref(), "lens model", 180.0)
    });
    if let Some(why) = entered.problem {
        page.wrong(ui, &why);
    }
    if let Some(commit) = entered.commit {
        *value = commit.value();
    }
}

fn formula(ui: &mut Ui, page: &EyePage<'_>, other: Option<Formula>, value: &mut Option<Formula>) {
    let words = page.words;
    let name = say::predicted_by(words);
    let mut options = vec![(None, say::not_recorded(words).to_owned())];
    options.extend(Formula::ALL.map(|formula| (Some(formula), formula.show(words).into_owned())));
    let other = other.map(|formula| formula.show(words).into_owned());
    page.line(name, other.as_deref()).show(ui, |ui| {
        let id = page.id("formula of the earlier operation");
        let name = page.name(name);
        *value = Pick::new(id, &name, &options, Some(*value))
            .show(ui, 180.0)
            .unwrap_or(*value);
    });
}
