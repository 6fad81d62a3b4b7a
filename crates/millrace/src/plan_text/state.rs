//! State of the eye: what was found, what was looked for and not found, what nobody recorded.

use millrace_core::biometry::{CornealSurgery, CornealSurgeryKind, SiliconeOil};
use millrace_core::case::Draft;
use millrace_core::plan::Plan;

use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let state = &draft.eyes.get(plan.side).state;
    let oil = state.silicone_oil.map(|oil| oil != SiliconeOil::Absent);
    let surgery = state
        .corneal_surgery
        .map(|surgery| surgery != CornealSurgery::Absent);
    let signs = [
        ("dense or total cataract", state.dense_cataract),
        ("white cataract", state.white_cataract),
        ("brunescent cataract", state.brunescent),
        ("posterior polar cataract", state.posterior_polar),
        ("posterior capsule plaque", state.capsule_plaque),
        ("pseudoexfoliation", state.pseudoexfoliation),
        ("phacodonesis", state.phacodonesis),
        ("guttata", state.guttata),
        ("corneal scarring", state.corneal_scarring),
        ("graft likely later", state.keratoplasty_likely),
        ("previous vitrectomy", state.previous_vitrectomy),
        ("silicone oil", oil),
        (surgery_name(state.corneal_surgery), surgery),
        ("other difficulty", state.other_difficulty),
        ("alpha-blocker now or before", draft.patient.alpha_blocker),
    ];
    for (title, wanted) in [
        ("Found", Some(true)),
        ("Not found", Some(false)),
        ("Not recorded", None),
    ] {
        let names: Vec<_> = signs
            .iter()
            .filter(|(_, found)| *found == wanted)
            .map(|(name, _)| *name)
            .collect();
        if !names.is_empty() {
            page.hanging(" ", 3, &format!("{title}: {}.", names.join("; ")));
        }
    }
    if let Some(refraction) = state.refraction {
        page.paragraph(
            1,
            &format!("Refraction today {refraction} (spherical equivalent)."),
        );
    }
}

fn surgery_name(surgery: Option<CornealSurgery>) -> &'static str {
    match surgery {
        Some(CornealSurgery::Done { kind, .. }) => match kind {
            CornealSurgeryKind::MyopicLaser => "corneal laser surgery for myopia",
            CornealSurgeryKind::HyperopicLaser => "corneal laser surgery for hyperopia",
            CornealSurgeryKind::Other => "other corneal refractive surgery",
        },
        _ => "corneal refractive surgery",
    }
}
