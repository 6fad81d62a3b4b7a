//! What the surgeon's own incisions did to the cornea: all of it or nothing.

use egui::{CollapsingHeader, Ui};
use millrace_core::astigmatism::{IncisionTerm, ToricRefusal};
use millrace_core::case::Command;

use super::kinds::{EYES, FLATTENING, SCATTER};
use super::{CaseView, LABEL, SECOND_LABEL, open_point, unit};
use crate::pages::incision_parts::IncisionParts;
use crate::widgets::{Commit, FormRows, HalfEntered, Parts as _, small};
use crate::words::{in_use, sentence};

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    half: &mut HalfEntered<IncisionParts>,
) -> Option<Command> {
    let recorded = view.draft.approach.incision_effect;
    let entered = half.enter(recorded.as_ref(), |parts| {
        CollapsingHeader::new("Your own figures of the incision's effect on the cornea")
            .id_salt(view.ground.with("incision effect"))
            .default_open(*parts != IncisionParts::default())
            .show(ui, |ui| fields(ui, view, parts));
    });
    account(ui, view, &entered.parts);
    let effect = entered.change.map(Commit::value);
    effect.map(Command::SetIncisionEffect)
}

fn fields(ui: &mut Ui, view: &CaseView<'_>, parts: &mut IncisionParts) {
    let mut form = FormRows::new(view.ground.with("incision effect"), LABEL);
    let first = LABEL - 18.0;
    ui.horizontal(|ui| {
        let field = form.name(ui, first, "Flattening");
        form.of_number(ui, field, &FLATTENING, &mut parts.flattening);
        unit(ui, "D");
        let field = form.name(ui, SECOND_LABEL, "Scatter (SD)");
        form.of_number(ui, field, &SCATTER, &mut parts.scatter);
        unit(ui, "D");
    });
    ui.horizontal(|ui| {
        let field = form.name(ui, first, "Number of eyes");
        form.of_number(ui, field, &EYES, &mut parts.eyes);
        unit(ui, "");
        let field = form.name(ui, SECOND_LABEL, "Worked out on");
        form.of_day(ui, field, &mut parts.on);
    });
    form.say(ui);
    let missing = parts.missing(in_use(ui));
    if *parts != IncisionParts::default() && !missing.is_empty() {
        open_point(ui, &format!("Not yet taken: needs {}", missing.join(", ")));
    }
    small(
        ui,
        "Mean flattening of the incision's own meridian and the SD of each double-angle component, from your own results through such incisions. All three or none; they are cleared when the approach changes",
    );
}

/// What the astigmatism is reckoned with now.
fn account(ui: &mut Ui, view: &CaseView<'_>, now: &IncisionParts) {
    let Ok(plan) = view.plan else { return };
    if now.whole().is_some() && now.on.is_none() {
        small(ui, "Day of your figures not recorded");
    }
    small(ui, effect_in_use(&plan.toric.terms.incision));
}

fn effect_in_use(incision: &Result<IncisionTerm, ToricRefusal>) -> String {
    match incision {
        Err(refusal) => format!("Effect on astigmatism not known: {refusal}"),
        Ok(term) => {
            let scatter = term.scatter.d();
            let mut parts = vec![format!(
                "Effect on astigmatism, scatter {scatter:.2} D (SD)"
            )];
            parts.extend(term.cautions().map(|caution| sentence(caution.text())));
            if parts.len() == 1 {
                parts.push("From your own figures".to_owned());
            }
            parts.join(". ")
        }
    }
}
