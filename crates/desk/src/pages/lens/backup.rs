//! The lenses that lie ready if the planned one cannot be used, each for its place.

use egui::Ui;
use millrace_core::case::{Command, Slot};
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::{Plan, SulcusPowers};
use millrace_wording::Show as _;
use millrace_wording::desk::lens as say;
use millrace_wording::text::lens as of_lens;

use super::NAMES;
use super::choices::{Widths, pick_lens};
use crate::pages::CaseView;
use crate::widgets::{muted, section, small};
use crate::words::in_use;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    section(ui, say::lies_ready(in_use(ui)));
    for slot in Slot::ALL {
        let Slot::Backup(place) = slot else { continue };
        let widths = Widths {
            name: NAMES,
            list: 340.0,
        };
        commands.extend(pick_lens(ui, view, slot, widths));
        if let Some(backup) = plan.backups.get(&place) {
            match &backup.sulcus {
                Some(sulcus) => in_the_sulcus(ui, view, sulcus),
                None => proposed(ui, view, &backup.ladder),
            }
        }
    }
}

/// What the formula planned by proposes of a lens beside the planned one.
fn proposed(ui: &mut Ui, view: &CaseView<'_>, ladder: &Ladder) {
    let words = in_use(ui);
    let Some(formula) = view.draft.lens.formula else {
        muted(ui, say::no_formula(words));
        return;
    };
    let text = match ladder.column(formula).map(|column| &column.answer) {
        None => say::not_on_ladder(words, formula),
        Some(Err(refusal)) => say::formula_refused(words, formula, refusal),
        Some(Ok(answer)) => {
            let proposed = answer.proposed.map_or_else(
                || say::proposes_no_power(words).to_owned(),
                |power| match ladder.predicted(formula, power) {
                    Some(refraction) => say::proposes_predicted(words, power, refraction),
                    None => say::proposes_this(words, power),
                },
            );
            say::formula_proposes(words, formula, proposed, answer.exact_power)
        }
    };
    ui.label(text);
}

fn in_the_sulcus(ui: &mut Ui, view: &CaseView<'_>, sulcus: &SulcusPowers) {
    let (words, planned) = (in_use(ui), view.draft.lens.formula);
    let mut powers = sulcus.powers.iter();
    let Some(power) = powers.find(|it| Some(it.formula) == planned) else {
        return;
    };
    let nothing = || say::says_nothing(words).to_owned();
    let stepwise = power.stepwise.map_or_else(
        || of_lens::not_for_weak_powers(words).to_owned(),
        |it| it.power(power.bag).show(words).into_owned(),
    );
    let percent = power
        .five_percent
        .map_or_else(nothing, |power| power.show(words).into_owned());
    let vergence = match &power.vergence {
        Ok(power) => power.show(words).into_owned(),
        Err(refusal) => say::refused(words, refusal),
    };
    ui.label(say::in_the_sulcus(words, stepwise, percent, vergence));
    small(ui, say::rules_disagree(words, sulcus.shift));
}
