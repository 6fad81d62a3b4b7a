//! What lies ready: a spare for bag and sulcus, a lens for the anterior chamber.

use egui::Ui;
use millrace_core::case::Command;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::lens::LensSite;
use millrace_core::plan::{Plan, SulcusPower};

use super::choices::pick_lens;
use crate::pages::CaseView;
use crate::widgets::{muted, said, section, small};

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, plan: &Plan, commands: &mut Vec<Command>) {
    section(ui, "What lies ready");
    let lens = &view.draft.lens;
    let spare = pick_lens(ui, view, "Spare lens", LensSite::Bag, lens.spare.as_ref());
    commands.extend(spare.map(|picked| Command::ChooseSpare(picked.value())));
    if let Some(spare) = &plan.spare {
        in_the_bag(ui, view, &spare.bag);
        let planned = lens.formula;
        let sulcus = spare.sulcus.iter().find(|it| Some(it.formula) == planned);
        match sulcus {
            Some(power) => in_the_sulcus(ui, power, &spare.sulcus_shift.to_string()),
            None if lens.spare.as_ref().is_some_and(|it| !it.may_sit_in_sulcus) => {
                muted(
                    ui,
                    "The maker does not allow this lens in the ciliary sulcus.",
                );
            }
            None => {}
        }
    }
    let chamber = pick_lens(
        ui,
        view,
        "Chamber lens",
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
    let Some(formula) = view.draft.lens.formula else {
        muted(ui, "No formula is chosen to plan by, so no power is given.");
        return;
    };
    let name = formula.name();
    let text = match ladder.column(formula).map(|column| &column.answer) {
        None => format!("{name} is not on its ladder"),
        Some(Err(refusal)) => format!("{name}: refused: {refusal}"),
        Some(Ok(answer)) => {
            let proposed = answer.proposed.map_or_else(
                || "proposes no power".to_owned(),
                |power| match ladder.predicted(formula, power) {
                    Some(refraction) => format!("proposes {power}, predicted {refraction}"),
                    None => format!("proposes {power}"),
                },
            );
            format!("{name} {proposed}; exact power {}", answer.exact_power)
        }
    };
    said(ui, text);
}

fn in_the_sulcus(ui: &mut Ui, power: &SulcusPower, shift: &str) {
    let stepwise = power.stepwise.map_or_else(
        || "says nothing here".to_owned(),
        |change| change.power(power.bag).to_string(),
    );
    let percent = power
        .five_percent
        .map_or_else(|| "says nothing here".to_owned(), |power| power.to_string());
    let vergence = match &power.vergence {
        Ok(power) => power.to_string(),
        Err(refusal) => format!("refused: {refusal}"),
    };
    said(
        ui,
        format!(
            "In the sulcus: stepwise rule {stepwise}; minus 5 % {percent}; by vergence {vergence}"
        ),
    );
    small(
        ui,
        format!(
            "Two published rules beside the vergence result with the lens {shift} forward \
             [assumption]. They disagree; none is chosen for you."
        ),
    );
}
