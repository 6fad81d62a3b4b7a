//! From what was recorded to what formulas take.

use crate::biometry::{
    CornealSurgery, CornealSurgeryKind, CornealThickness, DepthStart, EyeRecord, LengthMethod,
    LensThickness, Measured, PosteriorRadius, SiliconeOil,
};
use crate::case::{LensPlan, UltrasoundChoice};
use crate::iol_power::{
    Caution, Cautions, CornealHistory, Estimate, FormulaConstants, FormulaInputs, Needed, Refusal,
};
use crate::lens::{BiometryKind, LensRecord};
use crate::quantity::{HundredthDiopters, Micrometers, Millimeters};

/// Optical length less contact ultrasound length, mean of published comparisons (printed).
pub const OPTICAL_LESS_CONTACT: Micrometers = Micrometers::new(470);

/// Optical length less immersion ultrasound length, mean of published comparisons (printed).
pub const OPTICAL_LESS_IMMERSION: Micrometers = Micrometers::new(180);

/// What the formulas get of an eye, a lens and the choices made about them.
pub fn formula_inputs(
    eye: &EyeRecord,
    lens: &LensPlan,
    record: Option<&LensRecord>,
) -> FormulaInputs {
    let surgery = eye.state.corneal_surgery;
    let (history, known_correction) = match surgery {
        None => (CornealHistory::NotRecorded, None),
        Some(CornealSurgery::Absent) => (CornealHistory::Untouched, None),
        Some(CornealSurgery::Done {
            kind, correction, ..
        }) => (
            match kind {
                CornealSurgeryKind::MyopicLaser => CornealHistory::Myopic,
                CornealSurgeryKind::HyperopicLaser => CornealHistory::Hyperopic,
                CornealSurgeryKind::Other => CornealHistory::Other,
            },
            correction.map(HundredthDiopters::diopters),
        ),
    };
    FormulaInputs {
        axial_length: usable_length(eye, lens, record.map(|record| record.constants_for)),
        optical_length: usable_length(eye, lens, Some(BiometryKind::Optical)),
        cornea: eye
            .keratometry
            .as_ref()
            .map(|measured| measured.value.radii()),
        acd: eye.depth_from_epithelium().map(Micrometers::millimeters),
        acd_lacks: match &eye.chamber_depth {
            Some(depth) if depth.value.start == DepthStart::Endothelium => {
                Needed::ThicknessForDepth
            }
            _ => Needed::ChamberDepth,
        },
        lens_thickness: value_mm(eye.lens_thickness.as_ref(), LensThickness::get),
        corneal_thickness: value_mm(eye.corneal_thickness.as_ref(), CornealThickness::get),
        posterior_radius: value_mm(eye.posterior_radius.as_ref(), PosteriorRadius::get),
        history,
        power_before_surgery: surgery.and_then(CornealSurgery::power_before),
        known_correction,
        constants: record.map_or(FormulaConstants::default(), |record| {
            record.constants.values()
        }),
        shape: record.and_then(|record| record.shape),
        sum_of_segments: lens.sum_of_segments,
    }
}

fn value_mm<T: Copy>(
    measured: Option<&Measured<T>>,
    length: impl Fn(T) -> Micrometers,
) -> Option<Millimeters> {
    measured.map(|measured| length(measured.value).millimeters())
}

/// The axial length for constants of one kind of biometry, unless method and constants do not belong
/// together or oil spoils it.
fn usable_length(
    eye: &EyeRecord,
    lens: &LensPlan,
    constants_for: Option<BiometryKind>,
) -> Result<Estimate<Millimeters>, Refusal> {
    let measured = eye.axial_length.as_ref().ok_or(Refusal::NotMeasured {
        what: Needed::AxialLength,
    })?;
    let mut cautions = Cautions::NONE;
    match eye.state.silicone_oil {
        Some(SiliconeOil::LengthUncorrected) => return Err(Refusal::UncorrectedSiliconeOil),
        Some(SiliconeOil::LengthCorrected) => cautions.add(Caution::SiliconeOil),
        Some(SiliconeOil::Absent) => {}
        None => cautions.add(Caution::SiliconeOilNotRecorded),
    }
    let mut length = measured.value.get();
    let by_sound = match measured.method.for_axial_length() {
        Some(LengthMethod::Contact) => Some(OPTICAL_LESS_CONTACT),
        Some(LengthMethod::Immersion) => Some(OPTICAL_LESS_IMMERSION),
        Some(LengthMethod::Optical) => None,
        None => return Err(Refusal::LengthMethod),
    };
    match (by_sound, constants_for) {
        (Some(difference), Some(BiometryKind::Optical)) => {
            match lens.ultrasound.ok_or(Refusal::UltrasoundLength)? {
                UltrasoundChoice::AsMeasured => {}
                UltrasoundChoice::AddPublishedDifference => length = length + difference,
            }
            cautions.add(Caution::UltrasoundLength);
        }
        (None, Some(BiometryKind::Ultrasound)) => {
            cautions.add(Caution::OpticalLengthUltrasoundConstants);
        }
        (Some(_), Some(BiometryKind::Ultrasound))
        | (None, Some(BiometryKind::Optical))
        | (_, None) => {}
    }
    Ok(Estimate {
        value: length.millimeters(),
        cautions,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::Method;
    use crate::iol_power::Formula;
    use crate::rules::testing::ordinary_draft;

    /// What the formulas get of the ordinary eye (23.50 mm) measured by `method`.
    fn length(
        method: Method,
        constants_for: BiometryKind,
        choice: Option<UltrasoundChoice>,
    ) -> Result<Estimate<Millimeters>, Refusal> {
        let mut draft = ordinary_draft();
        draft.set_length_by("23.50 mm", method);
        draft.operated().state.silicone_oil = Some(SiliconeOil::Absent);
        draft.choose_lens(constants_for);
        draft.0.lens.ultrasound = choice;
        let lens = &draft.0.lens;
        formula_inputs(&draft.0.eyes.right, lens, lens.record()).axial_length
    }

    /// The refusal named a depth that was there.
    #[test]
    fn a_depth_from_the_endothelium_wants_the_corneal_thickness() {
        let refused = |depth: bool, thickness: bool| {
            let mut draft = ordinary_draft();
            draft.plan_lens();
            draft.set_aqueous_depth("2.66 mm");
            if !depth {
                draft.operated().chamber_depth = None;
            }
            if !thickness {
                draft.operated().corneal_thickness = None;
            }
            let lens = &draft.0.lens;
            let inputs = formula_inputs(&draft.0.eyes.right, lens, lens.record());
            Formula::Haigis.eye(&inputs).err()
        };
        let wants = |what| Some(Refusal::NotMeasured { what });
        assert_eq!(refused(true, true), None);
        assert_eq!(refused(true, false), wants(Needed::ThicknessForDepth));
        assert_eq!(refused(false, true), wants(Needed::ChamberDepth));
        assert_eq!(refused(false, false), wants(Needed::ChamberDepth));
    }

    /// 0.47 mm for contact and 0.18 mm for immersion, as printed.
    #[test]
    fn an_ultrasound_length_meets_optical_constants_only_by_choice() {
        use BiometryKind::{Optical, Ultrasound};
        use UltrasoundChoice::{AddPublishedDifference, AsMeasured};
        let by_choice = |mm: f64| {
            let cautions = [Caution::UltrasoundLength].into_iter().collect();
            Ok(Estimate {
                value: Millimeters::new(mm),
                cautions,
            })
        };
        let plain = Ok(Estimate::good(Millimeters::new(23.5)));
        let (contact, immersion) = (Method::ContactUltrasound, Method::ImmersionUltrasound);
        for method in [contact, immersion] {
            assert_eq!(
                length(method, Optical, None),
                Err(Refusal::UltrasoundLength)
            );
            assert_eq!(length(method, Optical, Some(AsMeasured)), by_choice(23.5));
            assert_eq!(length(method, Ultrasound, None), plain);
        }
        assert_eq!(
            length(contact, Optical, Some(AddPublishedDifference)),
            by_choice(23.97)
        );
        assert_eq!(
            length(immersion, Optical, Some(AddPublishedDifference)),
            by_choice(23.68)
        );
        assert_eq!(
            length(Method::Optical, Optical, Some(AddPublishedDifference)),
            plain
        );
        assert_eq!(
            length(Method::Keratometer, Optical, None),
            Err(Refusal::LengthMethod)
        );
    }

    /// The thick-lens eye has no constant that could make up for 0.47 mm.
    #[test]
    fn the_thick_lens_eye_takes_an_ultrasound_length_only_by_choice() {
        let mut draft = ordinary_draft();
        draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        draft.choose_lens(BiometryKind::Ultrasound);
        let inputs = |draft: &crate::rules::testing::DraftUnderTest| {
            let lens = &draft.0.lens;
            formula_inputs(&draft.0.eyes.right, lens, lens.record())
        };
        assert!(inputs(&draft).axial_length.is_ok());
        assert_eq!(
            inputs(&draft).optical_length,
            Err(Refusal::UltrasoundLength)
        );
        draft.0.lens.ultrasound = Some(UltrasoundChoice::AddPublishedDifference);
        let length = inputs(&draft).optical_length.unwrap().value;
        assert_eq!(length, Millimeters::new(23.97));
    }

    /// What nobody recorded is computed as normal, and every number says so.
    #[test]
    fn what_was_not_recorded_is_a_caution() {
        let draft = ordinary_draft();
        let inputs = formula_inputs(&draft.0.eyes.right, &draft.0.lens, None);
        assert_eq!(inputs.history, CornealHistory::NotRecorded);
        let cautions = inputs.axial_length.unwrap().cautions;
        assert_eq!(
            cautions.iter().collect::<Vec<_>>(),
            [Caution::SiliconeOilNotRecorded]
        );
    }

    #[test]
    fn oil_is_refused_until_the_length_was_corrected_for_it() {
        let with = |oil| {
            let mut draft = ordinary_draft();
            draft.operated().state.silicone_oil = oil;
            formula_inputs(&draft.0.eyes.right, &draft.0.lens, None).axial_length
        };
        assert_eq!(
            with(Some(SiliconeOil::LengthUncorrected)),
            Err(Refusal::UncorrectedSiliconeOil)
        );
        let corrected = with(Some(SiliconeOil::LengthCorrected)).unwrap();
        assert_eq!(
            corrected.cautions.iter().collect::<Vec<_>>(),
            [Caution::SiliconeOil]
        );
        assert!(with(Some(SiliconeOil::Absent)).unwrap().cautions.is_empty());
    }
}
