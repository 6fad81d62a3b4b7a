//! Phacoemulsification or manual small-incision surgery?

pub mod ab_01;
pub mod ap_01;
pub mod bl_01;
pub mod capsulorhexis;
pub mod cc_01;
pub mod cl_01;
pub mod cl_02;
pub mod cl_03;
pub mod dp_01;
pub mod dp_02;
pub mod dp_03;
pub mod dp_04;
pub mod en_01;
pub mod fu_03;
pub mod fuchs;
pub mod in_01;
pub mod ng_01;
pub mod ng_02;
pub mod pp_01;
pub mod pu_01;
pub mod px_01;
pub mod px_02;
pub mod px_03;
pub mod px_04;
pub mod seen;
pub mod tr_01;
pub mod wc_01;
pub mod zn_01;

use super::check::holds;
use super::look::NoLook;
use super::{Because, Detail, Facts, Missing};
use crate::case::Approach;
use crate::chamber::Delivery;
use crate::finding::{HardNucleus, WhyUnclear};
use crate::quantity::{Micrometers, Millimeters};

/// Whether the depth matters here: for an eye whose nucleus counts as hard, or may be hard. Of a
/// nucleus that nobody described nothing is known.
///
/// An unclear one is taken as hard: a chamber that is looked at for nothing costs a reading, one that
/// is passed over may cost a cornea. The finding says so by [`taken_as_hard`].
fn nucleus_is_hard(facts: &Facts<'_>) -> Result<(), NoLook> {
    match facts.nucleus() {
        HardNucleus::No(_) => Err(Because::NucleusNotHard.into()),
        HardNucleus::Unclear(WhyUnclear::NotGraded) => Err(Missing::NucleusGrade.into()),
        HardNucleus::Yes(_) | HardNucleus::Unclear(_) => Ok(()),
    }
}

/// Why the nucleus was only taken as hard.
fn taken_as_hard(facts: &Facts<'_>) -> Option<Detail> {
    match facts.nucleus() {
        HardNucleus::Unclear(why) => Some(Detail::TakenAsHard(why)),
        HardNucleus::Yes(_) | HardNucleus::No(_) => None,
    }
}

/// In how many parts the nucleus passes the tunnel, where small-incision surgery is chosen.
fn delivery(facts: &Facts<'_>) -> Result<Delivery, NoLook> {
    let plan = &facts.draft.approach;
    match plan.approach.ok_or(Missing::Approach)? {
        Approach::Phacoemulsification => Err(Because::PhacoemulsificationChosen.into()),
        Approach::SmallIncision => Ok(plan.delivery.ok_or(Missing::Delivery)?),
    }
}

/// Whether it passes undivided.
fn delivered_whole(facts: &Facts<'_>) -> Result<(), NoLook> {
    match delivery(facts)? {
        Delivery::Whole => Ok(()),
        Delivery::Halves | Delivery::Thirds => Err(Because::DeliveredInParts.into()),
    }
}

/// To the nearest hundredth of a millimeter: an estimate is not good to a micrometer.
fn nearest_hundredth(length: Millimeters) -> Option<Micrometers> {
    let hundredths = (length * 0.1).nearest_micrometer()?.um();
    hundredths.checked_mul(10).map(Micrometers::new)
}

/// A share in whole percent.
fn percent(share: f64) -> Option<i32> {
    let percent = (share * 100.0).round();
    if percent.abs() <= 1e6 {
        #[expect(clippy::cast_possible_truncation, reason = "checked to lie within i32")]
        return Some(percent as i32);
    }
    None
}

fn guttata(facts: &Facts<'_>) -> Result<(), NoLook> {
    let recorded = facts.operated.0.state.guttata;
    holds(recorded, Missing::Guttata, Because::NoGuttata)
}

fn pseudoexfoliation(facts: &Facts<'_>) -> Result<(), NoLook> {
    let recorded = facts.operated.0.state.pseudoexfoliation;
    let (missing, because) = (Missing::Pseudoexfoliation, Because::NoPseudoexfoliation);
    holds(recorded, missing, because)
}
