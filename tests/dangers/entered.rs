//! What is entered for a danger.

use millrace_core::biometry::{
    ContactLensKind, ContactLenses, CornealSurgery, EarlierOperation, EndothelialDensity,
    LocsTenths, NucleusGrade,
};
use millrace_core::case::{Anesthesia, Approach, Draft, SecondEyeChoice, Slot};
use millrace_core::case_file;
use millrace_core::chamber::{Delivery, Nucleus};
use millrace_core::iol_power::{
    AConstant, Formula, HaigisConstants, PersonalizedAcd, PowerRange, Powers, SurgeonFactor,
};
use millrace_core::lens::{
    Constant, Haptic, LensRecord, LensSite, Material, Obtained, OtherRecord, Place,
};
use millrace_core::quantity::{HundredthDiopters, Micrometers};

pub(super) const fn um(um: i32) -> Micrometers {
    Micrometers::new(um)
}

fn record(draft: &mut Draft, slot: Slot) -> &mut LensRecord {
    &mut draft.lens.lenses.get_mut(slot).unwrap().record
}

/// The lens of a slot gets the planned power and this much more.
pub(super) fn power_beside(draft: &mut Draft, slot: Slot, more: HundredthDiopters) {
    let planned = draft.lens.power().unwrap();
    draft.lens.lenses.get_mut(slot).unwrap().power = Some(planned + more);
}

/// The invented anterior chamber IOL of the demo lies ready in the power its own constant asks for,
/// where iris, angle, depth and cells carry it.
pub(super) fn chamber_lens(draft: &mut Draft) {
    let records = case_file::read_lenses(include_str!("../../demo-data/lenses.ron")).unwrap();
    let mut chamber = records.into_iter();
    let chamber = chamber.find(|it| it.site == LensSite::AnteriorChamber);
    let slot = Slot::Backup(Place::AnteriorChamber);
    draft.lens.lenses.choose(slot, chamber);
    power_beside(draft, slot, HundredthDiopters::new(-300));
    let state = &mut draft.eyes.right.state;
    (state.iris_defect, state.narrow_angle) = (Some(false), Some(false));
}

/// A spare that is made in minus powers as well, left at −5 D.
pub(super) fn spare_made_in_minus(draft: &mut Draft) {
    let slot = Slot::Backup(Place::Bag);
    let [from, to, step] = [-1_000, 3_000, 50].map(HundredthDiopters::new);
    let range = PowerRange::new(from, to, step).unwrap();
    record(draft, slot).powers = Powers::new(vec![range]).unwrap();
    draft.lens.lenses.get_mut(slot).unwrap().power = Some(HundredthDiopters::new(-500));
}

pub(super) fn one_piece_for_the_sulcus(draft: &mut Draft) {
    let record = record(draft, Slot::Backup(Place::Sulcus));
    (record.haptic, record.material) = (Haptic::OnePiece, Material::HydrophobicAcrylic);
}

pub(super) fn depth(draft: &mut Draft, depth: &str) {
    let measured = draft.eyes.right.chamber_depth.as_mut().unwrap();
    measured.value.depth = depth.parse().unwrap();
}

pub(super) fn lens_thickness(draft: &mut Draft, thickness: &str) {
    let measured = draft.eyes.right.lens_thickness.as_mut().unwrap();
    measured.value = thickness.parse().unwrap();
}

pub(super) fn thickness(draft: &mut Draft, thickness: &str) {
    let measured = draft.eyes.right.corneal_thickness.as_mut().unwrap();
    measured.value = thickness.parse().unwrap();
}

pub(super) fn pupil(draft: &mut Draft, diameter: &str) {
    let measured = draft.eyes.right.pupil.as_mut().unwrap();
    measured.value = diameter.parse().unwrap();
}

pub(super) fn cells(draft: &mut Draft, density: i32) {
    let measured = draft.eyes.right.endothelium.as_mut().unwrap();
    measured.value = EndothelialDensity::new(density).unwrap();
}

pub(super) fn nucleus_without_a_grade(draft: &mut Draft) {
    draft.eyes.right.state.nucleus = None;
}

/// Opalescence and color of LOCS III, tenths.
pub(super) fn grade(draft: &mut Draft, opalescence: i32, color: i32) {
    draft.eyes.right.state.nucleus = Some(NucleusGrade::LocsIii {
        opalescence: LocsTenths::new(opalescence).unwrap(),
        color: Some(LocsTenths::new(color).unwrap()),
    });
}

const fn given<T>(value: T) -> Constant<T> {
    Constant {
        value,
        obtained: Obtained::Given,
    }
}

pub(super) fn a_constant(draft: &mut Draft, value: f64) {
    let value = AConstant::new(value).unwrap();
    record(draft, Slot::Planned).constants.a_constant = Some(given(value));
}

pub(super) fn personalized_acd(draft: &mut Draft, mm: f64) {
    let value = PersonalizedAcd::new(mm).unwrap();
    record(draft, Slot::Planned).constants.personalized_acd = Some(given(value));
}

pub(super) fn surgeon_factor(draft: &mut Draft, mm: f64) {
    let value = SurgeonFactor::new(mm).unwrap();
    let factor = record(draft, Slot::Planned)
        .constants
        .surgeon_factor
        .as_mut();
    factor.unwrap().value = value;
}

/// A 118.7 with all others converted from it: by hand from `conversions.md`, pACD 5.37, surgeon factor
/// 1.62, a0 1.71.
pub(super) fn converted_constants(draft: &mut Draft) {
    let constants = &mut record(draft, Slot::Planned).constants;
    let obtained = Obtained::ConvertedFromA;
    constants.a_constant = Some(given(AConstant::new(118.7).unwrap()));
    constants.personalized_acd = Some(Constant {
        value: PersonalizedAcd::new(5.37).unwrap(),
        obtained,
    });
    constants.surgeon_factor = Some(Constant {
        value: SurgeonFactor::new(1.62).unwrap(),
        obtained,
    });
    constants.haigis = Some(Constant {
        value: HaigisConstants::new(1.71, 0.4, 0.1).unwrap(),
        obtained,
    });
}

/// The planned model lies ready too, from a record with another A constant.
pub(super) fn other_record(draft: &mut Draft) {
    let mut other = record(draft, Slot::Planned).clone();
    other.constants.a_constant.as_mut().unwrap().value = AConstant::new(119.4).unwrap();
    let slot = Slot::Backup(Place::Bag);
    draft.lens.lenses.choose(slot, Some(other));
}

/// The clinic files the planned model twice, once with another A constant.
pub(super) fn other_record_of_the_clinic(draft: &mut Draft) {
    let record = record(draft, Slot::Planned).clone();
    let mut other = record.clone();
    other.constants.a_constant.as_mut().unwrap().value = AConstant::new(119.4).unwrap();
    let others = OtherRecord::of_same_model(&record, &[record.clone(), other]);
    draft.lens.lenses.set_others(Slot::Planned, others);
}

/// The first eye ended 2.00 D from what was predicted; its error is used all the same.
pub(super) fn refined_by_a_surprise(draft: &mut Draft) {
    let model = Some(record(draft, Slot::Planned).model.clone());
    draft.eyes.left.earlier_operation = Some(EarlierOperation {
        lens_power: HundredthDiopters::new(2_150),
        predicted: "-0.25 D".parse().unwrap(),
        achieved: "-2.25 D".parse().unwrap(),
        formula: Some(Formula::SrkT),
        lens_model: model,
        complicated: Some(false),
    });
    for eye in [&mut draft.eyes.right, &mut draft.eyes.left] {
        eye.state.corneal_surgery = Some(CornealSurgery::Absent);
    }
    draft.lens.second_eye = Some(SecondEyeChoice::Refined);
}

/// Keratometry of the demo is of 20 November.
pub(super) fn contact_lenses(draft: &mut Draft) {
    draft.eyes.right.state.contact_lenses = Some(ContactLenses::Worn {
        kind: ContactLensKind::Hard,
        last_worn: chrono::NaiveDate::from_ymd_opt(2026, 11, 6),
    });
}

pub(super) fn needle_under_anticoagulants(draft: &mut Draft) {
    draft.patient.anticoagulant = Some(true);
    draft.theatre.anesthesia = Some(Anesthesia::Retrobulbar);
}

/// A large hard nucleus, delivered whole through a 6 mm tunnel from a chamber of 2.60 mm.
pub(super) fn delivered_whole(draft: &mut Draft) {
    grade(draft, 58, 60);
    depth(draft, "2.60 mm");
    let plan = &mut draft.approach;
    plan.approach = Some(Approach::SmallIncision);
    plan.incision_width = Some(um(6_000));
    plan.nucleus = Some(Nucleus::new(um(8_500), um(4_000)).unwrap());
    plan.pieces = None;
    plan.delivery = Some(Delivery::Whole);
    plan.capsulorhexis = Some(um(6_500));
}
