//! How this surgeon usually plans. Nothing here touches a case until somebody asks for it there.

use egui::{Id, Ui};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;

use super::incision;
use crate::pages::incision_parts::IncisionParts;
use crate::settings::Settings;
use crate::theme::measures;
use crate::widgets::{HalfEntered, Segments, muted, section, small};

/// Figures that are not whole yet.
#[derive(Debug, Default)]
pub(super) struct OwnWaysState {
    phaco: HalfEntered<IncisionParts>,
    small_incision: HalfEntered<IncisionParts>,
}

const CONVENTIONS: [(Option<Convention>, &str); 4] = [
    (None, "None of mine"),
    (Some(Convention::FirstMyopic), "First myopic"),
    (Some(Convention::FirstHyperopic), "First hyperopic"),
    (Some(Convention::Nearest), "Nearest"),
];

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(ui: &mut Ui, settings: &Settings, state: &mut OwnWaysState) -> Option<Settings> {
    let mut next = settings.clone();
    ui.add_space(measures::NEAR);
    muted(
        ui,
        "Offered on the pages of a case as \u{201c}use mine\u{201d}; no case takes any of it by itself",
    );
    section(ui, "Formulas on the ladder");
    formulas(ui, &mut next.own.formulas);
    section(ui, "Which power is proposed");
    let id = Id::unique("own convention");
    let name = "Which power is proposed";
    if let Some(chosen) = Segments::new(id, name, &CONVENTIONS, Some(next.own.convention)).show(ui)
    {
        next.own.convention = chosen;
    }
    section(ui, "What my incisions do to the cornea");
    muted(ui, "Phacoemulsification");
    let own = &mut next.own;
    let what = "phacoemulsification";
    incision::show(ui, what, &mut own.phaco_incision, &mut state.phaco);
    ui.add_space(measures::NEAR);
    muted(ui, "Small-incision surgery");
    let (what, partial) = ("small-incision surgery", &mut state.small_incision);
    incision::show(ui, what, &mut own.small_incision, partial);
    small(
        ui,
        "Flattening is the centroid along the incision's own meridian, scatter the SD of each double-angle component, from the surgeon's own results",
    );
    (next != *settings).then_some(next)
}

fn formulas(ui: &mut Ui, shown: &mut Vec<Formula>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        for formula in Formula::ALL {
            let mut is_shown = shown.contains(&formula);
            if ui.checkbox(&mut is_shown, formula.name()).changed() {
                let chosen = |other: &Formula| {
                    if *other == formula {
                        is_shown
                    } else {
                        shown.contains(other)
                    }
                };
                *shown = Formula::ALL.into_iter().filter(chosen).collect();
            }
        }
    });
    small(
        ui,
        if shown.is_empty() {
            "None is ticked: every formula is shown"
        } else {
            "The formula a case is planned by is shown in any case"
        },
    );
}
