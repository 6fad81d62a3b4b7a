//! Rules that a recorded sign alone makes, in whatever group.

use super::check::recorded;
use super::{Fact, Facts, Finding, Limit, Look};
use crate::biometry::Sign;

/// A rule of the family: what was seen asks for thought before the operation.
macro_rules! seen {
    ($rule:ident, $group:ident, $sign:ident, $id:literal, $title:literal, $checks:literal, $why:literal, $options:literal, $sources:expr) => {
        #[doc = concat!("`", $id, "`.")]
        pub const $rule: $crate::rules::Rule = $crate::rules::Rule {
            id: $id,
            title: $title,
            group: $crate::rules::Group::$group,
            severity: $crate::rules::Severity::Review,
            bearing: None,
            checks: $checks,
            why: $why,
            options: $options,
            sources: $sources,
            limits: &[],
            evaluate: |facts| $crate::rules::seen::found(facts, $crate::biometry::Sign::$sign),
        };
    };
}
pub(super) use seen;

/// A finding if the sign was seen.
pub(super) fn found(facts: &Facts<'_>, sign: Sign) -> Look {
    if !recorded(facts, sign)? {
        return Ok(None);
    }
    Finding::new(Fact::Present, Limit::Absent).found()
}

/// Asserts that a rule finds this sign, passes its absence, and does not pass silence.
#[cfg(test)]
#[track_caller]
pub(super) fn assert_seen(rule: &super::Rule, sign: Sign) {
    use super::testing::{DraftUnderTest, assert_found, assert_satisfied, verdict};
    use super::{Missing, Verdict};
    let with = |seen| move |draft: &mut DraftUnderTest| sign.set(&mut draft.operated().state, seen);
    assert_found(rule, with(Some(true)), Fact::Present, Limit::Absent);
    assert_satisfied(rule, with(Some(false)));
    let missing = Verdict::NotEvaluated(Missing::Sign(sign));
    assert_eq!(verdict(rule, |_| {}), missing, "{}", rule.id);
}
