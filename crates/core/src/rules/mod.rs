//! Rules: each has a permanent id, a severity, its sources with their standing, and one of four
//! verdicts. One file per rule, in the groups of the clinical questions they answer.
//!
//! A rule that could not be evaluated says so; silence is not a pass.

pub mod approach;
pub mod believable;
mod check;
mod depth;
mod facts;
pub mod identity;
pub mod lens_choice;
mod look;
mod nucleus;
mod registry;
pub mod risk;
mod rule;
pub mod second_eye;
mod seen;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod testing_facts;
#[cfg(test)]
pub(crate) mod testing_lens;

pub use crate::finding::{
    Astigmatism, Because, Certainty, Contradiction, Detail, Drift, Eyes, Fact, Finding, Identifier,
    Limit, Missing, NamedFor, NoAnswer, Place, PowerSpan, Quantity, SpreadOf, TwoLooks, Verdict,
    WeakZonules, Which,
};
pub(crate) use facts::Computed;
pub use facts::Facts;
pub(crate) use facts::proximity_of;
use look::Look;
pub(crate) use registry::OF_EVERY_LENS;
pub use registry::{ALL, by_id};
pub use rule::{Bearing, Group, Rule, Severity};
