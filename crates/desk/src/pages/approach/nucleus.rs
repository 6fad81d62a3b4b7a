//! The stated size of the nucleus: both numbers or none, and no default.

use egui::Ui;
use millrace_core::biometry::Side;
use millrace_core::case::Command;
use millrace_core::chamber::{NUCLEUS_SOURCE, Nucleus};
use millrace_core::quantity::Micrometers;

use super::kinds::{NUCLEUS_DIAMETER, NUCLEUS_THICKNESS};
use super::{CaseView, LABEL, SECOND_LABEL, label, open_point, unit};
use crate::widgets::{Commit, NumberField, problem, small};

/// From this width on both fields stand in one line.
const ONE_LINE: f32 = 470.0;

/// A size that is not whole, and the eye it was entered for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct PartNucleus {
    side: Option<Side>,
    diameter: Option<Micrometers>,
    thickness: Option<Micrometers>,
}

impl PartNucleus {
    fn is_blank(&self) -> bool {
        self.diameter.is_none() && self.thickness.is_none()
    }

    /// The nucleus, nothing for no numbers, or why these make none.
    fn whole(&self) -> Result<Option<Nucleus>, String> {
        match (self.diameter, self.thickness) {
            (None, None) => Ok(None),
            (Some(_), None) => Err("needs the thickness".to_owned()),
            (None, Some(_)) => Err("needs the diameter".to_owned()),
            (Some(diameter), Some(thickness)) => Nucleus::new(diameter, thickness)
                .map(Some)
                .map_err(|error| error.to_string()),
        }
    }
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut Option<PartNucleus>,
) -> Option<Command> {
    let recorded = view.draft.approach.nucleus;
    let side = view.draft.operation.eye;
    let shown = match recorded {
        Some(nucleus) => {
            *state = None;
            PartNucleus {
                side,
                diameter: Some(nucleus.diameter()),
                thickness: Some(nucleus.thickness()),
            }
        }
        None => state
            .filter(|kept| kept.side == side)
            .unwrap_or(PartNucleus {
                side,
                ..PartNucleus::default()
            }),
    };
    let now = fields(ui, view, shown);
    let whole = now.whole();
    if let Err(why) = &whole {
        open_point(ui, &format!("Not yet taken: {why}"));
    }
    small(
        ui,
        format!(
            "As you judge it; published sizes disagree, so nothing is assumed. {NUCLEUS_SOURCE}"
        ),
    );
    if now == shown {
        return None;
    }
    *state = (whole.is_err() && !now.is_blank()).then_some(now);
    // Numbers that make no nucleus take the old one out: field and picture never disagree.
    let whole = whole.unwrap_or_default();
    (whole != recorded).then_some(Command::SetNucleus(whole))
}

fn fields(ui: &mut Ui, view: &CaseView<'_>, shown: PartNucleus) -> PartNucleus {
    let mut now = shown;
    let mut problems = Vec::new();
    let diameter = |ui: &mut Ui| {
        let named = label(ui, LABEL, "Nucleus diameter");
        let id = view.ground.with("nucleus diameter");
        let entered = NumberField::new(id, named, &NUCLEUS_DIAMETER, shown.diameter).show(ui);
        unit(ui, "mm");
        entered
    };
    let thickness = |ui: &mut Ui, width: f32| {
        let named = label(ui, width, "Thickness");
        let id = view.ground.with("nucleus thickness");
        let entered = NumberField::new(id, named, &NUCLEUS_THICKNESS, shown.thickness).show(ui);
        unit(ui, "mm");
        entered
    };
    let [first, second] = if ONE_LINE <= ui.available_width() {
        ui.horizontal(|ui| [diameter(ui), thickness(ui, SECOND_LABEL)])
            .inner
    } else {
        [
            ui.horizontal(|ui| diameter(ui)).inner,
            ui.horizontal(|ui| thickness(ui, LABEL)).inner,
        ]
    };
    now.diameter = first.commit.map_or(now.diameter, Commit::value);
    now.thickness = second.commit.map_or(now.thickness, Commit::value);
    problems.extend(first.problem);
    problems.extend(second.problem);
    for why in problems {
        problem(ui, &why);
    }
    now
}
