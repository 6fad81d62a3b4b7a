//! State of the eye: what was found, what was looked for and not found, what nobody recorded.

use millrace_core::biometry::{CornealSurgery, CornealSurgeryKind, SiliconeOil};
use millrace_core::case::Draft;
use millrace_core::lens::Place;
use millrace_core::plan::Plan;
use millrace_wording::Words;
use millrace_wording::text::state as say;

use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    let state = &draft.eyes.get(plan.side).state;
    let oil = state.silicone_oil.map(|oil| oil != SiliconeOil::Absent);
    let surgery = state
        .corneal_surgery
        .map(|surgery| surgery != CornealSurgery::Absent);
    let signs = [
        (say::dense_cataract(words), state.dense_cataract),
        (say::white_cataract(words), state.white_cataract),
        (say::brunescent(words), state.brunescent),
        (say::posterior_polar(words), state.posterior_polar),
        (say::capsule_plaque(words), state.capsule_plaque),
        (say::pseudoexfoliation(words), state.pseudoexfoliation),
        (say::phacodonesis(words), state.phacodonesis),
        (say::guttata(words), state.guttata),
        (say::corneal_scarring(words), state.corneal_scarring),
        (say::keratoplasty_likely(words), state.keratoplasty_likely),
        (say::previous_vitrectomy(words), state.previous_vitrectomy),
        (say::iris_defect(words), state.iris_defect),
        (say::narrow_angle(words), state.narrow_angle),
        (say::silicone_oil(words), oil),
        (surgery_name(state.corneal_surgery, words), surgery),
        (say::other_difficulty(words), state.other_difficulty),
        (say::alpha_blocker(words), draft.patient.alpha_blocker),
    ];
    // What only an anterior chamber IOL asks for is not missed where none lies ready.
    let lenses = &draft.lens.lenses;
    let asked = lenses.backup(Place::AnteriorChamber).is_some();
    let of_chamber_lens = [
        (say::iris_defect(words), state.iris_defect),
        (say::narrow_angle(words), state.narrow_angle),
    ];
    let unasked: Vec<_> = of_chamber_lens
        .into_iter()
        .filter(|(_, found)| !asked && found.is_none())
        .map(|(name, _)| name)
        .collect();
    for (title, wanted) in [
        (say::found as fn(Words, String) -> String, Some(true)),
        (say::not_found, Some(false)),
        (say::not_recorded, None),
    ] {
        let names: Vec<_> = signs
            .iter()
            .filter(|(_, found)| *found == wanted)
            .filter(|(name, _)| !unasked.contains(name))
            .map(|(name, _)| *name)
            .collect();
        if !names.is_empty() {
            page.hanging(" ", 3, &title(words, names.join("; ")));
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

fn surgery_name(surgery: Option<CornealSurgery>, words: Words) -> &'static str {
    match surgery {
        Some(CornealSurgery::Done { kind, .. }) => match kind {
            CornealSurgeryKind::MyopicLaser => say::myopic_laser(words),
            CornealSurgeryKind::HyperopicLaser => say::hyperopic_laser(words),
            CornealSurgeryKind::Other => say::other_corneal_surgery(words),
        },
        _ => say::corneal_surgery(words),
    }
}
