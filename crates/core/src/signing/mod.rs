//! Signing: from a draft to a plan that never changes again.
//!
//! [`ready`] says what stands against it; [`sign`] computes the plan, freezes its document
//! with the signature, and takes a [`Fingerprint`] of all that. A [`SignedPlan`] comes from [`sign`], or
//! from [`SignedPlan::read`], which holds it against its fingerprint; there is no third way.
//! [`recompute`] says what today's program would compute otherwise.

mod encoded;
mod fingerprint;
mod letters;
mod obstacle;
mod ready;
mod recompute;
mod signature;
mod signed_plan;

pub use fingerprint::{Fingerprint, FingerprintError, PrintedFingerprint, ShortFingerprint};
pub use obstacle::{Obstacle, SignatureEntry};
pub use ready::ready;
pub use recompute::{CannotRecompute, Difference, recompute};
pub use signature::{SheetNumber, Signature};
pub use signed_plan::{NotASignedPlan, SignedPlan, ToSign, sign};

#[cfg(test)]
mod tests;
