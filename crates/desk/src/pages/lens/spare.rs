//! What lies ready: a spare for bag and sulcus, a lens for the anterior chamber.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::lens::LensSite;
use millrace_core::plan::{Plan, SulcusPower};
use millrace_core::quantity::Micrometers;
use millrace_wording::Show as _;
use millrace_wording::desk::lens as say;

use super::choices::pick_lens;
use crate::pages::CaseView;
use crate::widgets::{muted, section, small};
use crate::words::in_use;

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    let words = in_use(ui);
    section(ui, say::lies_ready(words));
    let lens = &view.draft.lens;
    let spare = pick_lens(
        ui,
        view,
        say::spare(words),
        LensSite::Bag,
        lens.spare.as_ref(),
    );
    commands.extend(spare.map(|picked| Command::ChooseSpare(picked.value())));
    if let Some(spare) = &plan.spare {
        in_the_bag(ui, view, &spare.bag);
        let planned = lens.formula;
        let sulcus = spare.sulcus.iter().find(|it| Some(it.formula) == planned);
        match sulcus {
            Some(power) => in_the_sulcus(ui, power, spare.sulcus_shift),
            None if lens.spare.as_ref().is_some_and(|it| !it.may_sit_in_sulcus) => {
                muted(ui, say::not_for_sulcus(words));
            }
            None => {}
        }
    }
    let chamber = pick_lens(
        ui,
        view,
        say::chamber_lens(words),
        LensSite::AnteriorChamber,
        lens.chamber_lens.as_ref(),
    );
    commands.extend(chamber.map(|picked| Command::ChooseChamberLens(picked.value())));
    if let Some(ladder) = &plan.chamber_lens {
        in_the_bag(ui, view, ladder);
    }
}

/// What the formula planned by proposes of a lens beside the planned one.
fn in_the_bag(ui: &mut Ui, view: &CaseView<'_>, ladder: &Ladder) {
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

fn in_the_sulcus(ui: &mut Ui, power: &SulcusPower, shift: Micrometers) {
    let words = in_use(ui);
    let nothing = || say::says_nothing(words).to_owned();
    let stepwise = power
        .stepwise
        .map_or_else(nothing, |it| it.power(power.bag).show(words).into_owned());
    let percent = power
        .five_percent
        .map_or_else(nothing, |power| power.show(words).into_owned());
    let vergence = match &power.vergence {
        Ok(power) => power.show(words).into_owned(),
        Err(refusal) => say::refused(words, refusal),
    };
    ui.label(say::in_the_sulcus(words, stepwise, percent, vergence));
    small(ui, say::rules_disagree(words, shift));
}
