//! `WC-01`: white cataract.

use crate::evidence::{SICS_TRIALS, Standing};
use crate::rules::{Bearing, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "WC-01",
    title: "White cataract",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::SmallIncision),
    checks: "Whether the cataract is white.",
    why: "In white cataracts the cornea was edematous on day 1 in 18.7 % after phacoemulsification and in 10.2 % after small-incision surgery.",
    options: "Consider manual small-incision surgery; consider staining the capsule, whichever the approach.",
    sources: &[Standing::Printed.of(
        SICS_TRIALS,
        "white cataract, corneal edema on day 1, 18.7 against 10.2 %",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let white = facts.operated.0.state.white_cataract;
    if !white.ok_or(Missing::WhiteCataract)? {
        return Ok(None);
    }
    Finding::new(Fact::Present, Limit::Absent).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_found, assert_not_evaluated, assert_satisfied};
    use crate::rules::{Fact, Limit};

    #[test]
    fn unknown_is_not_absent() {
        assert_found(
            &RULE,
            |draft| draft.operated().state.white_cataract = Some(true),
            Fact::Present,
            Limit::Absent,
        );
        assert_satisfied(&RULE, |draft| {
            draft.operated().state.white_cataract = Some(false);
            draft.fellow().state.white_cataract = Some(true);
        });
        assert_not_evaluated(&RULE, |_| {});
    }
}
