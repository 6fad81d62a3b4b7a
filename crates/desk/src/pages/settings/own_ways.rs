//! How this surgeon usually plans. Nothing here touches a case until somebody asks for it there.

use egui::{Id, Ui};
use millrace_core::case::{Approach, Slot};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::lens::LensRecord;
use millrace_wording::desk::settings as say;
use millrace_wording::text::lens::model;
use millrace_wording::{Show as _, sentence};

use super::incision;
use crate::pages::incision_parts::IncisionParts;
use crate::settings::{Settings, UsualLens};
use crate::theme::measures;
use crate::widgets::{HalfEntered, Pick, Segments, empty_boxes, muted, section, small};
use crate::words::in_use;

/// Width of a list.
const LIST: f32 = 300.0;

/// Figures that are not whole yet.
#[derive(Debug, Default)]
pub(super) struct OwnWaysState {
    phaco: HalfEntered<IncisionParts>,
    small_incision: HalfEntered<IncisionParts>,
}

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(
    ui: &mut Ui,
    settings: &Settings,
    clinic: &[LensRecord],
    state: &mut OwnWaysState,
) -> Option<Settings> {
    let mut next = settings.clone();
    ui.add_space(measures::NEAR);
    let words = in_use(ui);
    muted(ui, say::offered(words));
    section(ui, say::formulas(words));
    formulas(ui, &mut next.own.formulas);
    planned_by(ui, &mut next.own.planned_by);
    usual_lens(ui, clinic, &mut next.own.lens);
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

fn planned_by(ui: &mut Ui, planned_by: &mut Option<Formula>) {
    let words = in_use(ui);
    let name = say::plans_by(words);
    section(ui, name);
    let none = (None, say::no_convention(words).to_owned());
    let named = Formula::ALL.map(|it| (Some(it), it.show(words).into_owned()));
    let options: Vec<_> = [none].into_iter().chain(named).collect();
    let id = Id::unique("own formula");
    if let Some(chosen) = Pick::new(id, name, &options, Some(*planned_by)).show(ui, LIST) {
        *planned_by = chosen;
    }
}

fn usual_lens(ui: &mut Ui, clinic: &[LensRecord], usual: &mut Option<UsualLens>) {
    let words = in_use(ui);
    let name = say::usual_lens(words);
    section(ui, name);
    let may_be_planned = |record: &&LensRecord| record.may_sit_in(Slot::Planned.place());
    let mut lenses: Vec<_> = clinic
        .iter()
        .filter(may_be_planned)
        .map(UsualLens::of)
        .collect();
    let title = |lens: &UsualLens| model(words, &lens.name, &lens.model);
    let mut options = vec![(0, say::no_convention(words).to_owned())];
    options.extend((1..).zip(lenses.iter().map(title)));
    if let Some(gone) = usual.as_ref().filter(|lens| !lenses.contains(lens)) {
        options.push((options.len(), say::lens_not_there(words, title(gone))));
        lenses.push(gone.clone());
    }
    let at = usual
        .as_ref()
        .and_then(|usual| lenses.iter().position(|lens| lens == usual));
    let selected = at.map_or(0, |index| index + 1);
    let id = Id::unique("own lens");
    if let Some(chosen) = Pick::new(id, name, &options, Some(selected)).show(ui, LIST) {
        *usual = chosen
            .checked_sub(1)
            .and_then(|index| lenses.get(index).cloned());
    }
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
