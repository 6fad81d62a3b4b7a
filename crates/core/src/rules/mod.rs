//! Rules: each has a permanent id, a severity, its sources with their standing, and one of four
//! verdicts. One file per rule, in the groups of the clinical questions they answer.
//!
//! A rule that could not be evaluated says so; silence is not a pass.

mod check;
mod depth;
mod fact;
mod facts;
mod registry;
mod rule;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod testing_facts;
#[cfg(test)]
pub(crate) mod testing_lens;
mod verdict;

pub mod approach;
pub mod believable;
pub mod identity;
pub mod lens_choice;
pub mod risk;
pub mod second_eye;
pub mod wording;

pub use fact::{
    Astigmatism, Because, Contradiction, Detail, Drift, Eyes, Fact, Identifier, Limit, Missing,
    NamedFor, NoAnswer, PowerSpan, Quantity, SpreadOf, TwoLooks, WeakZonules, Which,
};
pub use facts::Facts;
pub use registry::{ALL, by_id};
pub use rule::{Bearing, Group, Rule, Severity};
use verdict::Look;
pub use verdict::{Certainty, Finding, Verdict};
