//! Whether a signed sheet is set as it was signed, or marked as no longer the one to work by: the same
//! wherever one is printed.

use millrace_core::signing::SignedPlan;
use millrace_press::Subject;
use millrace_register::SheetStanding;
use millrace_sheet::Outdated;

/// Why a sheet is no longer the one to work by; nothing if it is.
pub(crate) const fn outdated(standing: &SheetStanding) -> Option<Outdated> {
    match standing {
        SheetStanding::Superseded { by, .. } => Some(Outdated::SupersededBy(by.number)),
        SheetStanding::ChangedSince { by, .. } => Some(Outdated::ChangedSince(by.saved_at)),
        // A sheet that was read by its number is known.
        SheetStanding::Current(_) | SheetStanding::Unknown => None,
    }
}

/// What is set of a signed plan.
pub(crate) const fn subject(plan: &SignedPlan, outdated: Option<Outdated>) -> Subject<'_> {
    match outdated {
        None => Subject::Signed(plan),
        Some(why) => Subject::Outdated { plan, why },
    }
}
