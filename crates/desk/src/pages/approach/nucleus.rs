//! The stated size of the nucleus: both numbers or none, and no default.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::chamber::{NUCLEUS_SOURCE, Nucleus};
use millrace_core::quantity::Micrometers;
use millrace_wording::Words;
use millrace_wording::desk::approach as say;

use super::kinds::{NUCLEUS_DIAMETER, NUCLEUS_THICKNESS};
use super::texts::unparted;
use super::{CaseView, LABEL, SECOND_LABEL, open_point, unit};
use crate::widgets::quantity_kind::in_words;
use crate::widgets::{Commit, FormRows, HalfEntered, Parts, small};
use crate::words::in_use;

/// From this width on both fields stand in one line.
const ONE_LINE: f32 = 470.0;

/// The size as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct NucleusParts {
    diameter: Option<Micrometers>,
    thickness: Option<Micrometers>,
}

impl Parts for NucleusParts {
    type Whole = Nucleus;

    fn of(nucleus: &Nucleus) -> Self {
        Self {
            diameter: Some(nucleus.diameter()),
            thickness: Some(nucleus.thickness()),
        }
    }

    fn whole(&self) -> Option<Nucleus> {
        self.made(Words::ENGLISH).ok().flatten()
    }
}

impl NucleusParts {
    /// The nucleus, nothing for no numbers, or why these make none.
    fn made(&self, words: Words) -> Result<Option<Nucleus>, String> {
        match (self.diameter, self.thickness) {
            (None, None) => Ok(None),
            (Some(_), None) => Err(say::needs_thickness(words).to_owned()),
            (None, Some(_)) => Err(say::needs_diameter(words).to_owned()),
            (Some(diameter), Some(thickness)) => Nucleus::new(diameter, thickness)
                .map(Some)
                .map_err(in_words(words)),
        }
    }
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    half: &mut HalfEntered<NucleusParts>,
) -> Option<Command> {
    let recorded = view.draft.approach.nucleus;
    let entered = half.enter(recorded.as_ref(), |parts| fields(ui, view, parts));
    let words = in_use(ui);
    if let Err(why) = entered.parts.made(words) {
        open_point(ui, &say::not_yet_taken(words, why));
    }
    small(ui, unparted(&say::as_you_judge(words, NUCLEUS_SOURCE)));
    let nucleus = entered.change.map(Commit::value);
    nucleus.map(Command::SetNucleus)
}

fn fields(ui: &mut Ui, view: &CaseView<'_>, parts: &mut NucleusParts) {
    let (mut form, words) = (FormRows::new(view.ground, LABEL), in_use(ui));
    let mut diameter = |ui: &mut Ui, form: &mut FormRows| {
        let field = form.name(ui, LABEL, say::nucleus_diameter_head(words));
        form.of_number(ui, field, &NUCLEUS_DIAMETER, &mut parts.diameter);
        unit(ui, "mm");
    };
    let mut thickness = |ui: &mut Ui, form: &mut FormRows, width: f32| {
        let field = form.name(ui, width, say::nucleus_thickness_head(words));
        form.of_number(ui, field, &NUCLEUS_THICKNESS, &mut parts.thickness);
        unit(ui, "mm");
    };
    if ONE_LINE <= ui.available_width() {
        ui.horizontal(|ui| {
            diameter(ui, &mut form);
            thickness(ui, &mut form, SECOND_LABEL);
        });
    } else {
        ui.horizontal(|ui| diameter(ui, &mut form));
        ui.horizontal(|ui| thickness(ui, &mut form, LABEL));
    }
    form.say(ui);
}
