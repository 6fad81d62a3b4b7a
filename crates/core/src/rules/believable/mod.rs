//! Is this measurement believable?

pub mod al_01;
pub mod al_02;
pub mod al_03;
pub mod de_01;
pub mod fl_01;
pub mod hs_01;
pub mod hs_02;
pub mod hs_03;
pub mod hs_04;
pub mod hs_05;
pub mod hs_06;
pub mod km_01;
pub mod km_02;
pub mod km_03;
pub mod km_04;
pub mod km_05;
pub mod km_06;
pub mod ma_01;
pub mod po_01;
pub mod po_02;
pub mod po_03;
pub mod po_04;
pub mod po_05;
pub mod po_06;
pub mod rs_01;
pub mod rs_02;
pub mod rs_03;
pub mod rs_04;
pub mod so_01;
pub mod so_02;
pub mod to_02;
pub mod us_01;
pub mod us_02;
pub mod us_03;
pub mod us_04;
pub mod wt_01;

use super::check::Unsigned;
use super::verdict::{not_applicable, not_evaluated};
use super::{Facts, Verdict};
use crate::biometry::{
    AxialLength, CornealSurgery, CornealSurgeryKind, EyeRecord, LengthMethod, SiliconeOil,
};
use crate::evidence::{RULES_OF_THUMB, Source, Standing, ULTRASOUND_COMPARISON};
use crate::lens::BiometryKind;
use crate::limits::Switch;
use crate::quantity::Micrometers;

/// How lengths by sound and by light differ.
const ULTRASOUND_LENGTHS: Source = Source {
    work: ULTRASOUND_COMPARISON,
    locator: "contact 0.20 mm shorter than immersion (0 to 0.94); optical 0.18 longer than immersion, 0.47 longer than contact",
    standing: Standing::Printed,
};

/// What a difference of axial length or keratometry means for the lens.
const LENGTH_AND_K_TO_POWER: Source = Source {
    work: RULES_OF_THUMB,
    locator: "1 mm of axial length 2.5-3 D, 1 D of K about 1 D",
    standing: Standing::Secondary,
};

/// Mean K of an eye at 1.3375.
fn mean_k(eye: &EyeRecord) -> Option<Unsigned> {
    Unsigned::nearest(eye.keratometry.as_ref()?.value.mean_power())
}

/// How far the mean K of the two eyes are apart.
fn mean_k_apart(facts: &Facts<'_>) -> Option<Unsigned> {
    let [operated, fellow] = [facts.operated.0, facts.fellow.0]
        .map(|eye| Some(eye.keratometry.as_ref()?.value.mean_power()));
    Unsigned::apart(operated?, fellow?)
}

/// How far the axial lengths of the two eyes are apart.
fn axial_lengths_apart(facts: &Facts<'_>) -> Option<Micrometers> {
    let [operated, fellow] =
        [facts.operated.0, facts.fellow.0].map(|eye| Some(eye.axial_length.as_ref()?.value.get()));
    Some(operated?.abs_diff(fellow?))
}

/// The verdict of a rule of the stricter set, which clinics switch on.
fn strictly(facts: &Facts<'_>, evaluate: impl FnOnce() -> Verdict) -> Verdict {
    match facts.limits.strict_screening {
        Switch::On => evaluate(),
        Switch::Off => not_applicable("the stricter screening set is switched off"),
    }
}

/// Axial length of the operated eye with what its method means, or the verdict without them.
fn length_and_method(facts: &Facts<'_>) -> Result<(AxialLength, LengthMethod), Verdict> {
    let Some(measured) = &facts.operated.0.axial_length else {
        return Err(not_evaluated("axial length of the operated eye"));
    };
    match measured.method.for_axial_length() {
        Some(method) => Ok((measured.value, method)),
        None => Err(not_evaluated(
            "whether light or sound measured the axial length",
        )),
    }
}

/// The kind of biometry that the constants of the chosen lens are for, or the verdict without a
/// lens.
fn lens_constants(facts: &Facts<'_>) -> Result<BiometryKind, Verdict> {
    match &facts.draft.lens.record {
        Some(record) => Ok(record.constants_for),
        None => Err(not_evaluated("lens record")),
    }
}

/// A length with its method, as findings show it.
fn said_of(length: AxialLength, method: LengthMethod) -> String {
    let method = match method {
        LengthMethod::Optical => "optical biometry",
        LengthMethod::Immersion => "immersion ultrasound",
        LengthMethod::Contact => "contact ultrasound",
    };
    format!("{length} by {method}")
}

/// What is recorded of silicone oil in the operated eye, or the verdict without a record.
fn silicone_oil(facts: &Facts<'_>) -> Result<SiliconeOil, Verdict> {
    let oil = facts.operated.0.state.silicone_oil;
    oil.ok_or(not_evaluated("whether the operated eye holds silicone oil"))
}

/// The corneal surgery of the operated eye, or the verdict without one.
fn corneal_surgery(facts: &Facts<'_>) -> Result<CornealSurgeryKind, Verdict> {
    match facts.operated.0.state.corneal_surgery {
        None => Err(not_evaluated(
            "whether the operated eye had corneal refractive surgery",
        )),
        Some(CornealSurgery::Absent) => Err(not_applicable("no corneal refractive surgery")),
        Some(CornealSurgery::Done { kind, .. }) => Ok(kind),
    }
}

/// Looks further unless surgery made the cornea unusual. A record that is missing excuses nothing.
fn unless_cornea_operated(facts: &Facts<'_>, look: impl FnOnce() -> Verdict) -> Verdict {
    match facts.operated.0.state.corneal_surgery {
        Some(CornealSurgery::Done { .. }) => {
            not_applicable("the cornea had refractive surgery: an unusual value is expected")
        }
        None | Some(CornealSurgery::Absent) => look(),
    }
}

/// Corneal surgery in words.
const fn surgery_name(kind: CornealSurgeryKind) -> &'static str {
    match kind {
        CornealSurgeryKind::MyopicLaser => "laser for myopia",
        CornealSurgeryKind::HyperopicLaser => "laser for hyperopia",
        CornealSurgeryKind::Other => "other corneal surgery",
    }
}
