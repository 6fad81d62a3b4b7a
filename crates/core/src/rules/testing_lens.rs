//! A lens for rules that need one.

use super::testing::{DraftUnderTest, earlier_operation};
use crate::biometry::CornealSurgery;
use crate::iol_power::ladder::Convention;
use crate::iol_power::{AConstant, Formula, HaigisConstants, PersonalizedAcd, SurgeonFactor};
use crate::lens::{
    BiometryKind, Constant, Haptic, LensRecord, LensSite, Material, Obtained, PowerRange, Powers,
    RecordConstants,
};
use crate::quantity::{HundredthDiopters, Micrometers};

/// Powers from one to another, hundredths of a diopter.
pub(crate) fn powers(from: i32, to: i32, step: i32) -> Powers {
    let [from, to, step] = [from, to, step].map(HundredthDiopters::new);
    Powers::new(vec![PowerRange::new(from, to, step).unwrap()]).unwrap()
}

/// Constants of one origin: A 119, pACD 5.6 mm, surgeon factor 1.85 mm, Haigis 1.9/0.4/0.1.
pub(crate) fn constants(obtained: Obtained) -> RecordConstants {
    RecordConstants {
        a_constant: Some(Constant {
            value: AConstant::new(119.0).unwrap(),
            obtained,
        }),
        personalized_acd: Some(Constant {
            value: PersonalizedAcd::new(5.6).unwrap(),
            obtained,
        }),
        surgeon_factor: Some(Constant {
            value: SurgeonFactor::new(1.85).unwrap(),
            obtained,
        }),
        haigis: Some(Constant {
            value: HaigisConstants::new(1.9, 0.4, 0.1).unwrap(),
            obtained,
        }),
    }
}

/// A lens of 6.00 mm optic and 13.00 mm length, +10 to +30 D by 0.5 D, optimized constants.
pub(crate) fn lens_record() -> LensRecord {
    LensRecord {
        name: "Lens under test".to_owned(),
        model: "TEST-1".to_owned(),
        site: LensSite::Bag,
        material: Material::HydrophobicAcrylic,
        haptic: Haptic::OnePiece,
        optic_diameter: Micrometers::new(6_000),
        overall_length: Micrometers::new(13_000),
        may_sit_in_sulcus: false,
        powers: powers(1_000, 3_000, 50),
        average_power: None,
        shape: None,
        constants_for: BiometryKind::Optical,
        constants: constants(Obtained::Optimized { eyes: 120 }),
        results: Vec::new(),
    }
}

impl DraftUnderTest {
    /// Plans the lens under test for emmetropia by SRK/T, first myopic; no power chosen yet.
    pub(crate) fn plan_lens(&mut self) {
        let lens = &mut self.0.lens;
        lens.record = Some(lens_record());
        lens.target = Some(HundredthDiopters::new(0));
        lens.formula = Some(Formula::SrkT);
        lens.convention = Some(Convention::FirstMyopic);
    }
}

/// Plans the lens under test and chooses a power, in hundredths of a diopter.
pub(crate) fn choose_power(hundredths: i32) -> impl FnOnce(&mut DraftUnderTest) {
    move |draft| {
        draft.plan_lens();
        draft.0.lens.power = Some(HundredthDiopters::new(hundredths));
    }
}

/// Plans the second eye by SRK/T after an uncomplicated first one, 0.50 D more myopic than SRK/T
/// predicted; no cornea was operated on, and the mean K of both eyes is the same.
pub(crate) fn meet_second_eye_conditions(draft: &mut DraftUnderTest) {
    draft.plan_lens();
    draft.fellow().earlier_operation = Some(earlier_operation(Some(false)));
    for eye in [&mut draft.0.eyes.right, &mut draft.0.eyes.left] {
        eye.state.corneal_surgery = Some(CornealSurgery::Absent);
    }
}
