//! State of the eye: what was found, what was looked for and not found, what nobody recorded.

use millrace_core::biometry::{ContactLenses, CornealSurgery, Sign, SiliconeOil};
use millrace_core::case::{Draft, Special};
use millrace_core::lens::Place;
use millrace_core::plan::Plan;
use millrace_wording::text::state as say;
use millrace_wording::{Show as _, Words};

use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    let state = &draft.eyes.get(plan.side).state;
    let oil = state.silicone_oil.map(|oil| oil != SiliconeOil::Absent);
    let surgery = state
        .corneal_surgery
        .map(|surgery| surgery != CornealSurgery::Absent);
    // What only an anterior chamber IOL asks for is not missed where none lies ready.
    let lenses = &draft.lens.lenses;
    let has_chamber_lens = lenses.backup(Place::AnteriorChamber).is_some();
    let signs = Sign::ALL.iter().filter(|sign| {
        has_chamber_lens
            || sign.of(state).is_some()
            || !Sign::OF_ANTERIOR_CHAMBER_IOL.contains(sign)
    });
    let mut asked: Vec<_> = signs
        .map(|sign| (sign.show(words), sign.of(state)))
        .collect();
    asked.extend([
        (say::silicone_oil(words).into(), oil),
        (say::corneal_surgery(words).into(), surgery),
        (
            say::contact_lenses(words).into(),
            state.contact_lenses.map(|it| it != ContactLenses::NotWorn),
        ),
        (
            say::alpha_blocker(words).into(),
            draft.patient.alpha_blocker,
        ),
        (
            say::anticoagulant(words).into(),
            draft.patient.anticoagulant,
        ),
        (say::diabetes(words).into(), draft.patient.diabetes),
    ]);
    let answered = |wanted| {
        let names = asked.iter().filter(|(_, found)| *found == wanted);
        let names: Vec<_> = names.map(|(name, _)| name.as_ref()).collect();
        names.join("; ")
    };
    let special = Special::all(draft, plan.side);
    let special: Vec<_> = special.iter().map(|it| it.show(words)).collect();
    for (names, line) in [
        (
            special.join("; "),
            say::found as fn(Words, String) -> String,
        ),
        (answered(Some(false)), say::not_found),
        (answered(None), say::not_recorded),
    ] {
        if !names.is_empty() {
            page.hanging(" ", 3, &line(words, names));
        }
    }
    if let Some(refraction) = state.refraction {
        let text = if refraction.axis().is_some() {
            let equivalent = refraction.spherical_equivalent();
            say::refraction_with_equivalent(words, refraction, equivalent)
        } else {
            say::refraction(words, refraction)
        };
        page.paragraph(1, &text);
    }
}
