//! Phacoemulsification or manual small-incision surgery?

pub mod ab_01;
pub mod ap_01;
pub mod cc_01;
pub mod cl_01;
pub mod dp_01;
pub mod dp_02;
pub mod dp_03;
pub mod en_01;
pub mod fu_01;
pub mod fu_02;
pub mod fu_03;
pub mod in_01;
pub mod ng_01;
pub mod px_01;
pub mod px_02;
pub mod px_03;
pub mod px_04;
pub mod tr_01;
pub mod wc_01;

use super::check::{Thickness, at_most, only_if};
use super::verdict::{not_applicable, not_evaluated};
use super::{Facts, Verdict};
use crate::quantity::Micrometers;

/// Whether the depth matters here: for an eye whose nucleus counts as hard. For any other the verdict
/// that says so.
fn nucleus_is_hard(facts: &Facts<'_>) -> Result<(), Verdict> {
    match facts.nucleus_is_hard() {
        None => Err(not_evaluated("grade of the nucleus")),
        Some(false) => Err(not_applicable("the nucleus does not count as hard")),
        Some(true) => Ok(()),
    }
}

/// Corneal thickness of an eye with guttata against a limit that passes itself.
fn thickness_with_guttata(facts: &Facts<'_>, limit: Micrometers) -> Verdict {
    let eye = facts.operated.0;
    only_if(
        eye.state.guttata,
        "whether there are guttata",
        "there are no guttata",
        || match eye.thickness() {
            Some(thickness) => at_most(&Thickness(thickness.get()), &Thickness(limit)),
            None => not_evaluated("corneal thickness"),
        },
    )
}

/// Looks further only in an eye with pseudoexfoliation.
fn with_pseudoexfoliation(facts: &Facts<'_>, look: impl FnOnce() -> Verdict) -> Verdict {
    only_if(
        facts.operated.0.state.pseudoexfoliation,
        "whether there is pseudoexfoliation",
        "there is no pseudoexfoliation",
        look,
    )
}
