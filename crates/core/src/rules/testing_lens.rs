//! A lens for rules that need one.

use super::testing::{DraftUnderTest, date, earlier_operation, measured};
use crate::astigmatism::IncisionEffect;
use crate::biometry::{CornealSurgery, Method, PosteriorAstigmatism};
use crate::case::{Approach, ChosenLens, Draft, SecondLook, Slot};
use crate::iol_power::{AConstant, Formula, HaigisConstants, PersonalizedAcd, SurgeonFactor};
use crate::iol_power::{PowerRange, Powers, ladder::Convention};
use crate::lens::{
    BiometryKind, Constant, Haptic, LensRecord, LensSite, Material, Obtained, Place, PowerLabel,
    RecordConstants, ToricChoice, ToricSteps,
};
use crate::quantity::{Direction, HundredthDiopters, Meridian, Micrometers};

/// Powers from one to another, hundredths of a diopter.
pub(crate) fn powers(from: i32, to: i32, step: i32) -> Powers {
    let [from, to, step] = [from, to, step].map(HundredthDiopters::new);
    Powers::new(vec![PowerRange::new(from, to, step).unwrap()]).unwrap()
}

/// Another lens: +5.00 to +30.00 D, average +21.00 D, A constant 118.4 and no other.
pub(crate) fn lens_with_average(constants_for: BiometryKind) -> LensRecord {
    LensRecord {
        powers: powers(500, 3_000, 50),
        average_power: Some(HundredthDiopters::new(2_100)),
        constants_for,
        constants: RecordConstants {
            a_constant: Some(Constant {
                value: AConstant::new(118.4).unwrap(),
                obtained: Obtained::Given,
            }),
            ..RecordConstants::default()
        },
        ..lens_record()
    }
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
        toric: None,
        average_power: None,
        shape: None,
        constants_for: BiometryKind::Optical,
        constants: constants(Obtained::Optimized { eyes: 120 }),
        results: Vec::new(),
    }
}

/// The lens under test, allowed in the sulcus and made for it.
pub(crate) fn sulcus_record() -> LensRecord {
    LensRecord {
        haptic: Haptic::ThreePiece,
        may_sit_in_sulcus: true,
        ..lens_record()
    }
}

/// An anterior chamber IOL: an A constant of 115.42 and no other.
pub(crate) fn chamber_record() -> LensRecord {
    LensRecord {
        site: LensSite::AnteriorChamber,
        material: Material::Pmma,
        constants: RecordConstants {
            a_constant: Some(Constant {
                value: AConstant::new(115.42).unwrap(),
                obtained: Obtained::Given,
            }),
            ..RecordConstants::default()
        },
        ..lens_record()
    }
}

impl DraftUnderTest {
    /// The planned lens with what was chosen of it.
    pub(crate) fn chosen(&mut self) -> &mut ChosenLens {
        self.0.lens.lenses.get_mut(Slot::Planned).unwrap()
    }

    /// Plans another lens, without a power.
    pub(crate) fn plan_with(&mut self, record: LensRecord) {
        self.0.lens.lenses.choose(Slot::Planned, Some(record));
    }

    pub(crate) fn without_lens(&mut self) {
        self.0.lens.lenses.choose(Slot::Planned, None);
    }

    /// Lays a lens ready, without a power.
    pub(crate) fn lay_ready(&mut self, place: Place, record: LensRecord) {
        self.0.lens.lenses.choose(Slot::Backup(place), Some(record));
    }

    /// Lays a lens ready with a power, in hundredths of a diopter.
    pub(crate) fn lay_ready_with(&mut self, place: Place, record: LensRecord, hundredths: i32) {
        self.lay_ready(place, record);
        let lens = self.0.lens.lenses.get_mut(Slot::Backup(place)).unwrap();
        lens.power = Some(HundredthDiopters::new(hundredths));
    }

    /// Plans the lens under test for emmetropia by SRK/T, first myopic; no power chosen yet.
    pub(crate) fn plan_lens(&mut self) {
        self.plan_with(lens_record());
        let lens = &mut self.0.lens;
        lens.target = Some(HundredthDiopters::new(0));
        lens.formula = Some(Formula::SrkT);
        lens.convention = Some(Convention::FirstMyopic);
    }
}

/// Toric: cylinders 1.50, 2.25, 3.00 and 3.75 D, labeled by the spherical equivalent.
pub(crate) fn toric_steps(label: PowerLabel) -> Option<ToricSteps> {
    let cylinders = [150, 225, 300, 375].map(HundredthDiopters::new);
    ToricSteps::new(cylinders.to_vec(), label).ok()
}

impl DraftUnderTest {
    /// Plans a toric lens, +21.00 D, for a cornea of 42.75 D at 180 and 44.75 D at 90 with a measured
    /// back of 0.30 D at 90; temporal incision of 2.4 mm with the surgeon's own 0.20 ± 0.30 D.
    pub(crate) fn plan_toric(&mut self) {
        self.plan_lens();
        let lens = self.chosen();
        lens.power = Some(HundredthDiopters::new(2_100));
        lens.record.toric = toric_steps(PowerLabel::SphericalEquivalent);
        self.set_keratometry("42.75 D at 1.3375", "44.75 D at 1.3375");
        let back =
            PosteriorAstigmatism::new(HundredthDiopters::new(30), Meridian::new(90).unwrap());
        self.operated().posterior_astigmatism = Some(measured(back.unwrap(), Method::Tomographer));
        self.operated().state.irregular_cornea = Some(false);
        self.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        let approach = &mut self.0.approach;
        approach.approach = Some(Approach::Phacoemulsification);
        approach.incision_width = Some(Micrometers::new(2_400));
        approach.incision_direction = Direction::new(180).ok();
        let [flattening, scatter] = [20, 30].map(HundredthDiopters::new);
        approach.incision_effect = IncisionEffect::new(flattening, scatter, 80, None).ok();
    }

    /// Chooses a cylinder, in hundredths of a diopter, and an axis.
    pub(crate) fn choose_toric(&mut self, hundredths: i32, axis: u16) {
        self.chosen().toric = Some(ToricChoice {
            cylinder: HundredthDiopters::new(hundredths),
            axis: Meridian::new(axis).unwrap(),
        });
    }
}

pub(crate) fn toric(change: impl FnOnce(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
    move |draft| {
        draft.plan_toric();
        change(draft);
    }
}

/// Plans the lens under test and chooses a power, in hundredths of a diopter.
pub(crate) fn choose_power(hundredths: i32) -> impl FnOnce(&mut DraftUnderTest) {
    move |draft| {
        draft.plan_lens();
        draft.chosen().power = Some(HundredthDiopters::new(hundredths));
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

/// A second look by "B. Second" that agrees with the draft, which must be measured; a draft without
/// a number is taken for number 1.
pub(crate) fn second_look_of(draft: &Draft) -> SecondLook {
    let eye = draft.operation.eye.unwrap();
    let record = draft.eyes.get(eye);
    let keratometry = &record.keratometry.as_ref().unwrap().value;
    SecondLook {
        by: "B. Second".to_owned(),
        on: date(2026, 11, 21),
        number: draft.patient.number.clone().unwrap_or("1".to_owned()),
        eye,
        axial_length: record.axial_length.as_ref().unwrap().value,
        flat: keratometry.flat,
        steep: keratometry.steep,
        chamber_depth: record.chamber_depth.as_ref().map(|depth| depth.value),
        lens_thickness: record.lens_thickness.as_ref().map(|lens| lens.value),
        target: draft.lens.target,
    }
}
