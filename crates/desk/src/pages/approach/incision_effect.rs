//! What the surgeon's own incisions did to the cornea: all of it or nothing.

use egui::{CollapsingHeader, Ui};
use millrace_core::astigmatism::{IncisionTerm, ToricRefusal};
use millrace_core::case::Command;
use millrace_wording::desk::approach as say;
use millrace_wording::{Show as _, Words, quantity};

use super::kinds::{EYES, FLATTENING, SCATTER};
use super::texts::unparted;
use super::{CaseView, LABEL, SECOND_LABEL, open_point, unit};
use crate::pages::incision_parts::IncisionParts;
use crate::widgets::{Commit, FormRows, HalfEntered, Parts as _, ring, small};
use crate::words::in_use;
use millrace_wording::sentence;

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    half: &mut HalfEntered<IncisionParts>,
) -> Option<Command> {
    let recorded = view.draft.approach.incision_effect;
    let entered = half.enter(recorded.as_ref(), |parts| {
        let folds = CollapsingHeader::new(say::own_figures(in_use(ui)))
            .id_salt(view.ground.with("incision effect"))
            .default_open(*parts != IncisionParts::default())
            .show(ui, |ui| fields(ui, view, parts));
        ring(ui, &folds.header_response);
    });
    account(ui, view, &entered.parts);
    let effect = entered.change.map(Commit::value);
    effect.map(Command::SetIncisionEffect)
}

fn fields(ui: &mut Ui, view: &CaseView<'_>, parts: &mut IncisionParts) {
    let mut form = FormRows::new(view.ground.with("incision effect"), LABEL);
    let (first, words) = (LABEL - 18.0, in_use(ui));
    ui.horizontal(|ui| {
        let field = form.name(ui, first, say::flattening(words));
        form.of_number(ui, field, &FLATTENING, &mut parts.flattening);
        unit(ui, "D");
        let field = form.name(ui, SECOND_LABEL, say::scatter(words));
        form.of_number(ui, field, &SCATTER, &mut parts.scatter);
        unit(ui, "D");
    });
    ui.horizontal(|ui| {
        let field = form.name(ui, first, say::eyes(words));
        form.of_number(ui, field, &EYES, &mut parts.eyes);
        unit(ui, "");
        let field = form.name(ui, SECOND_LABEL, say::worked_out_on(words));
        form.of_day(ui, field, &mut parts.on);
    });
    form.say(ui);
    let missing = parts.missing(words);
    if *parts != IncisionParts::default() && !missing.is_empty() {
        let needs = say::needs(words, words.list(missing));
        open_point(ui, &say::not_yet_taken(words, needs));
    }
    small(ui, say::what_figures_are(words));
}

/// What the astigmatism is reckoned with now.
fn account(ui: &mut Ui, view: &CaseView<'_>, now: &IncisionParts) {
    let Ok(plan) = view.plan else { return };
    let words = in_use(ui);
    if now.whole().is_some() && now.on.is_none() {
        small(ui, say::day_missing(words));
    }
    small(
        ui,
        unparted(&effect_in_use(words, &plan.toric.terms.incision)),
    );
}

fn effect_in_use(words: Words, incision: &Result<IncisionTerm, ToricRefusal>) -> String {
    match incision {
        Err(refusal) => say::effect_unknown(words, refusal),
        Ok(term) => {
            let scatter = quantity::computed_unsigned(words, term.scatter);
            let mut parts = vec![say::effect(words, scatter)];
            let cautions = term.cautions();
            parts.extend(cautions.map(|caution| sentence(&caution.show(words))));
            if parts.len() == 1 {
                parts.push(say::by_own_figures(words).to_owned());
            }
            parts.join(". ")
        }
    }
}
