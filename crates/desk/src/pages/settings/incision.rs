//! What a surgeon's own incision does to the cornea, entered whole or not at all.

use egui::{Id, Ui};
use millrace_core::astigmatism::IncisionEffect;
use millrace_wording::Show as _;
use millrace_wording::desk::settings as say;

use super::kinds::EYES;
use crate::pages::incision_parts::IncisionParts;
use crate::widgets::quantity_kind::UNSIGNED_POWER;
use crate::widgets::{Bare, Commit, Field, FormRows, HalfEntered, cell, muted, small};
use crate::words::in_use;

const LABEL: f32 = 72.0;
const NUMBER: f32 = 64.0;
const UNIT: f32 = 30.0;

/// Shows the four fields for an incision called `what`; a change of what is kept goes into `kept`.
pub(super) fn show(
    ui: &mut Ui,
    what: &str,
    kept: &mut Option<IncisionEffect>,
    half: &mut HalfEntered<IncisionParts>,
) {
    let mut form = FormRows::new(Id::unique("own incision"), LABEL);
    let entered = half.enter(kept.as_ref(), |parts| fields(ui, what, &mut form, parts));
    let words = in_use(ui);
    if let Some(Err(why)) = entered.parts.made() {
        form.problems.push(why.show(words).into_owned());
    } else if entered.parts != IncisionParts::default() && entered.parts.made().is_none() {
        small(ui, say::kept_once_whole(words));
    }
    form.say(ui);
    if let Some(change) = entered.change {
        *kept = Commit::value(change);
    }
}

fn fields(ui: &mut Ui, what: &str, form: &mut FormRows, parts: &mut IncisionParts) {
    let (kind, words) = (&UNSIGNED_POWER, in_use(ui));
    ui.horizontal(|ui| {
        let name = label(ui, say::flattening(words), what);
        form.bare(ui, Bare::new(&name, kind, NUMBER), &mut parts.flattening);
        cell(ui, UNIT, |ui| muted(ui, "D"));
        let name = label(ui, say::scatter(words), what);
        form.bare(ui, Bare::new(&name, kind, NUMBER), &mut parts.scatter);
        muted(ui, "D");
    });
    ui.horizontal(|ui| {
        let name = label(ui, say::eyes(words), what);
        form.bare(ui, Bare::new(&name, &EYES, NUMBER), &mut parts.eyes);
        cell(ui, UNIT, |_| ());
        let name = label(ui, say::day(words), what);
        let field = Field::called(form.ground.with(&name), &name);
        form.of_day(ui, field, &mut parts.on);
    });
}

/// A label, and the name of the field beside it for a screen reader.
fn label(ui: &mut Ui, word: &str, what: &str) -> String {
    cell(ui, LABEL, |ui| muted(ui, word));
    say::of_incision(in_use(ui), word, what)
}
