//! Is this measurement believable?

pub mod al_01;
pub mod al_02;
pub mod al_03;
pub mod cw_01;
pub mod de_01;
pub mod fl_01;
pub mod ic_01;
pub mod km_01;
pub mod km_02;
pub mod km_03;
pub mod km_04;
pub mod km_05;
pub mod km_06;
pub mod ma_01;
pub mod population;
pub mod rf_01;
pub mod rs_01;
pub mod rs_02;
pub mod rs_03;
pub mod rs_04;
pub mod seen;
pub mod so_01;
pub mod so_02;
pub mod sp_01;
pub mod strict;
pub mod to_02;
pub mod us_01;
pub mod us_02;
pub mod us_03;
pub mod us_04;
pub mod wt_01;

use super::look::NoLook;
use super::{Because, Facts, Missing, Which};
use crate::biometry::{CornealSurgery, CornealSurgeryKind, LengthMethod, SiliconeOil};
use crate::evidence::{RULES_OF_THUMB, Source, Standing, ULTRASOUND_COMPARISON};
use crate::lens::BiometryKind;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};

/// How lengths by sound and by light differ.
const ULTRASOUND_LENGTHS: Source = Standing::Printed.of(ULTRASOUND_COMPARISON, "contact 0.20 mm shorter than immersion (0 to 0.94); optical 0.18 longer than immersion, 0.47 longer than contact");

/// What a difference of axial length or keratometry means for the lens.
const LENGTH_AND_K_TO_POWER: Source = Standing::Secondary.of(
    RULES_OF_THUMB,
    "1 mm of axial length 2.5-3 D, 1 D of K about 1 D",
);

/// Mean K of the operated eye at 1.3375, to the hundredth.
fn mean_k(facts: &Facts<'_>) -> Result<HundredthDiopters, Missing> {
    let mean = facts.keratometry()?.mean_power().nearest_hundredth();
    mean.ok_or(Missing::of_this_eye(Which::Keratometry))
}

/// How far the mean K of the two eyes are apart, to the hundredth.
fn mean_k_apart(facts: &Facts<'_>) -> Result<HundredthDiopters, Missing> {
    let means = [facts.operated.0, facts.fellow.0]
        .map(|eye| Some(eye.keratometry.as_ref()?.value.mean_power()));
    let apart = match means {
        [Some(operated), Some(fellow)] => operated.apart(fellow),
        _ => None,
    };
    apart.ok_or(Missing::of_both_eyes(Which::Keratometry))
}

/// Mean K of the operated eye less that of the other.
fn mean_k_apart_signed(facts: &Facts<'_>) -> Result<Diopters, Missing> {
    let means = [facts.operated.0, facts.fellow.0]
        .map(|eye| Some(eye.keratometry.as_ref()?.value.mean_power()));
    match means {
        [Some(operated), Some(fellow)] => Ok(operated - fellow),
        _ => Err(Missing::of_both_eyes(Which::Keratometry)),
    }
}

/// Difference of the principal corneal powers of the operated eye at 1.3375, to the hundredth.
pub(super) fn corneal_astigmatism(facts: &Facts<'_>) -> Result<HundredthDiopters, Missing> {
    let astigmatism = facts.keratometry()?.radii().astigmatism();
    let size = astigmatism.nearest_hundredth();
    size.ok_or(Missing::of_this_eye(Which::Keratometry))
}

/// Axial length of the operated eye with what its method means.
fn length_and_method(facts: &Facts<'_>) -> Result<(Micrometers, LengthMethod), Missing> {
    let length = facts.length()?;
    let measured = facts.operated.0.axial_length.as_ref();
    let method = measured.and_then(|measured| measured.method.for_axial_length());
    Ok((length, method.ok_or(Missing::LengthMethod)?))
}

/// The kind of biometry that the constants of the chosen lens are for.
fn lens_constants(facts: &Facts<'_>) -> Result<BiometryKind, Missing> {
    let record = facts.draft.lens.record();
    Ok(record.ok_or(Missing::Lens)?.constants_for)
}

/// What is recorded of silicone oil in the operated eye.
fn silicone_oil(facts: &Facts<'_>) -> Result<SiliconeOil, Missing> {
    let oil = facts.operated.0.state.silicone_oil;
    oil.ok_or(Missing::SiliconeOil)
}

/// The corneal surgery of the operated eye.
fn corneal_surgery(facts: &Facts<'_>) -> Result<CornealSurgeryKind, NoLook> {
    match facts.operated.0.state.corneal_surgery {
        None => Err(Missing::CornealSurgery.into()),
        Some(CornealSurgery::Absent) => Err(Because::NoCornealSurgery.into()),
        Some(CornealSurgery::Done { kind, .. }) => Ok(kind),
    }
}

/// No rule on unusual values asks about a cornea that surgery made unusual. A record that is missing
/// excuses nothing.
fn unless_cornea_operated(facts: &Facts<'_>) -> Result<(), Because> {
    match facts.operated.0.state.corneal_surgery {
        Some(CornealSurgery::Done { .. }) => Err(Because::UnusualAfterSurgery),
        None | Some(CornealSurgery::Absent) => Ok(()),
    }
}
