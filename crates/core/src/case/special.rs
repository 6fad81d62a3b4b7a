//! What theatre must see at a glance: everything recorded of patient and eye that is not ordinary.

use super::{Draft, Patient};
use crate::biometry::{
    ContactLensKind, ContactLenses, CornealSurgery, CornealSurgeryKind, EyeState, Side, Sign,
    SiliconeOil,
};
use crate::quantity::Micrometers;

/// One thing out of the ordinary that was recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Special {
    Sign(Sign),
    /// Diameter of a posterior polar opacity.
    PolarOpacity(Micrometers),
    /// How far the lens center lies from the axis.
    LensDecentration(Micrometers),
    SiliconeOil,
    CornealSurgery(CornealSurgeryKind),
    /// Taken now or before.
    AlphaBlocker,
    /// Taken now.
    Anticoagulant,
    Diabetes,
    ContactLenses(ContactLensKind),
}

impl Special {
    /// All that was recorded of the patient and of the eye on `side`, in the order they are asked for.
    pub fn all(draft: &Draft, side: Side) -> Vec<Self> {
        let mut special = of_eye(&draft.eyes.get(side).state);
        special.extend(of_patient(&draft.patient));
        special
    }
}

/// Every field by its name: one that is added does not compile before somebody decides where it is read.
fn of_eye(state: &EyeState) -> Vec<Special> {
    let EyeState {
        // Read by rules, printed beside the approach.
        nucleus: _,
        // Read by rules.
        refraction: _,
        // Signs, all of them below.
        dense_cataract: _,
        white_cataract: _,
        intumescent: _,
        brunescent: _,
        posterior_polar: _,
        capsule_plaque: _,
        pseudoexfoliation: _,
        phacodonesis: _,
        guttata: _,
        corneal_scarring: _,
        irregular_cornea: _,
        keratoconus: _,
        unstable_surface: _,
        keratoplasty_likely: _,
        previous_vitrectomy: _,
        intravitreal_injections: _,
        macular_disease: _,
        glaucoma: _,
        uveitis: _,
        amblyopia: _,
        only_eye: _,
        iris_defect: _,
        narrow_angle: _,
        other_difficulty: _,
        contact_lenses,
        polar_opacity,
        lens_decentration,
        silicone_oil,
        corneal_surgery,
    } = state;
    let seen = Sign::ALL.iter().filter(|sign| sign.of(state) == Some(true));
    let mut special: Vec<_> = seen.copied().map(Special::Sign).collect();
    special.extend(polar_opacity.map(Special::PolarOpacity));
    // One that was looked for and is none is not special.
    let off_center = lens_decentration.filter(|off| off.um() != 0);
    special.extend(off_center.map(Special::LensDecentration));
    match contact_lenses {
        None | Some(ContactLenses::NotWorn) => {}
        Some(ContactLenses::Worn { kind, .. }) => special.push(Special::ContactLenses(*kind)),
    }
    match silicone_oil {
        None | Some(SiliconeOil::Absent) => {}
        Some(SiliconeOil::LengthUncorrected | SiliconeOil::LengthCorrected) => {
            special.push(Special::SiliconeOil);
        }
    }
    match corneal_surgery {
        None | Some(CornealSurgery::Absent) => {}
        Some(CornealSurgery::Done { kind, .. }) => special.push(Special::CornealSurgery(*kind)),
    }
    special
}

fn of_patient(patient: &Patient) -> Vec<Special> {
    let Patient {
        // Printed at the head of every page.
        name: _,
        number: _,
        birth_date: _,
        sex: _,
        alpha_blocker,
        anticoagulant,
        diabetes,
    } = patient;
    let told = [
        (alpha_blocker, Special::AlphaBlocker),
        (anticoagulant, Special::Anticoagulant),
        (diabetes, Special::Diabetes),
    ];
    let told = told.into_iter();
    told.filter(|(told, _)| **told == Some(true))
        .map(|(_, special)| special)
        .collect()
}

#[cfg(test)]
mod tests;
