//! A refraction in three fields: sphere, cylinder, axis.

use egui::Ui;
use millrace_core::biometry::{Refraction, RefractionError};
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_wording::Show as _;
use millrace_wording::desk::biometry as say;

use super::signs::Line;
use crate::widgets::quantity_kind::{MERIDIAN, POWER};
use crate::widgets::{Named, NumberField, Parts, muted};

/// The parts, as entered so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct RefractionParts {
    sphere: Option<HundredthDiopters>,
    cylinder: Option<HundredthDiopters>,
    axis: Option<Meridian>,
}

impl RefractionParts {
    /// Why the parts make no refraction although sphere and cylinder are there.
    fn contradiction(&self) -> Option<RefractionError> {
        let refraction = Refraction::new(self.sphere?, self.cylinder?, self.axis);
        refraction.err()
    }
}

impl Parts for RefractionParts {
    type Whole = Refraction;

    fn of(whole: &Refraction) -> Self {
        Self {
            sphere: Some(whole.sphere()),
            cylinder: Some(whole.cylinder()),
            axis: whole.axis(),
        }
    }

    fn whole(&self) -> Option<Refraction> {
        Refraction::new(self.sphere?, self.cylinder?, self.axis).ok()
    }
}

/// A row of the three fields, called "NAME, sphere" and so on.
pub(super) fn refraction(ui: &mut Ui, line: Line<'_>, parts: &mut RefractionParts) {
    let Line { page, name, .. } = line;
    let (mut problems, words) = (Vec::new(), page.words);
    line.show(ui, |ui| {
        let powers = [
            ("sphere", say::sphere_of(words, name), &mut parts.sphere),
            (
                "cylinder",
                say::cylinder_of(words, name),
                &mut parts.cylinder,
            ),
        ];
        for ((what, full, value), sign) in powers.into_iter().zip(["D /", "D ×"]) {
            let full = page.name(&full);
            let id = page.id((name, what));
            let entered = NumberField::new(id, Named::As(&full), &POWER, *value)
                .width(64.0)
                .show(ui);
            problems.extend(entered.problem);
            if let Some(commit) = entered.commit {
                *value = commit.value();
            }
            muted(ui, sign);
        }
        let full = page.name(&say::axis_of(words, name));
        let field = NumberField::new(
            page.id((name, "axis")),
            Named::As(&full),
            &MERIDIAN,
            parts.axis,
        );
        let entered = field.width(48.0).show(ui);
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            parts.axis = commit.value();
        }
        muted(ui, "°");
    });
    let contradiction = parts.contradiction();
    problems.extend(contradiction.map(|error| error.show(words).into_owned()));
    for why in problems {
        page.wrong(ui, &why);
    }
}
