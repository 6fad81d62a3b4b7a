//! How this surgeon usually plans. Nothing here touches a case until somebody asks for it there.

use egui::{Id, Ui};
use millrace_core::case::Approach;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_wording::desk::settings as say;
use millrace_wording::{Show as _, sentence};

use super::incision;
use crate::pages::incision_parts::IncisionParts;
use crate::settings::Settings;
use crate::theme::measures;
use crate::widgets::{HalfEntered, Segments, empty_boxes, muted, section, small};
use crate::words::in_use;

/// Figures that are not whole yet.
#[derive(Debug, Default)]
pub(super) struct OwnWaysState {
    phaco: HalfEntered<IncisionParts>,
    small_incision: HalfEntered<IncisionParts>,
}

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(ui: &mut Ui, settings: &Settings, state: &mut OwnWaysState) -> Option<Settings> {
    let mut next = settings.clone();
    ui.add_space(measures::NEAR);
    let words = in_use(ui);
    muted(ui, say::offered(words));
    section(ui, say::formulas(words));
    formulas(ui, &mut next.own.formulas);
    let name = say::proposes_power(words);
    section(ui, name);
    let id = Id::unique("own convention");
    let names = [
        Convention::FirstMyopic,
        Convention::FirstHyperopic,
        Convention::Nearest,
    ];
    let names = names.map(|it| (Some(it), sentence(&it.show(words))));
    let named = names.iter().map(|(it, name)| (*it, name.as_str()));
    let conventions: Vec<_> = [(None, say::no_convention(words))]
        .into_iter()
        .chain(named)
        .collect();
    let chosen = Segments::new(id, name, &conventions, Some(next.own.convention)).show(ui);
    if let Some(chosen) = chosen {
        next.own.convention = chosen;
    }
    section(ui, say::incisions(words));
    let own = &mut next.own;
    let what = Approach::Phacoemulsification.show(words);
    muted(ui, sentence(&what));
    incision::show(ui, &what, &mut own.phaco_incision, &mut state.phaco);
    ui.add_space(measures::NEAR);
    let what = Approach::SmallIncision.show(words);
    muted(ui, sentence(&what));
    let partial = &mut state.small_incision;
    incision::show(ui, &what, &mut own.small_incision, partial);
    small(ui, say::what_flattening_is(words));
    (next != *settings).then_some(next)
}

fn formulas(ui: &mut Ui, shown: &mut Vec<Formula>) {
    let words = in_use(ui);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        empty_boxes(ui);
        for formula in Formula::ALL {
            let mut is_shown = shown.contains(&formula);
            if ui.checkbox(&mut is_shown, formula.show(words)).changed() {
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
            say::every_formula(words)
        } else {
            say::planned_formula(words)
        },
    );
}
