//! Phacoemulsification or manual small-incision surgery?

pub mod ab_01;
pub mod ap_01;
pub mod cc_01;
pub mod cl_01;
pub mod dp_01;
pub mod dp_02;
pub mod dp_03;
pub mod en_01;
pub mod fu_03;
pub mod fuchs;
pub mod in_01;
pub mod ng_01;
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
use super::{Because, Facts, Missing};

/// Whether the depth matters here: for an eye whose nucleus counts as hard.
fn nucleus_is_hard(facts: &Facts<'_>) -> Result<(), NoLook> {
    let (missing, because) = (Missing::NucleusGrade, Because::NucleusNotHard);
    holds(facts.nucleus_is_hard(), missing, because)
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
