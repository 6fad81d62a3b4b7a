//! `AB-01`: the patient takes, or took, an alpha-blocker.

use crate::evidence::{CHANG_2005, NO_SOURCE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AB-01",
    title: "Alpha-blocker: the iris may be floppy",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the patient takes, or ever took, an alpha-blocker.",
    why: "Alpha-blockers can leave the iris floppy and the pupil small during surgery, also after they were stopped.",
    options: "Consider floppy iris precautions, with iris hooks or a pupil ring at hand.",
    sources: &[
        Standing::Memory.of(CHANG_2005, "floppy iris under alpha-blockers"),
        Standing::CommonPractice.of(NO_SOURCE, "floppy iris precautions"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if !facts
        .draft
        .patient
        .alpha_blocker
        .ok_or(Missing::AlphaBlocker)?
    {
        return Ok(None);
    }
    Finding::new(Fact::Taken, Limit::NeverTaken).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_found, assert_not_evaluated, assert_satisfied};
    use crate::rules::{Fact, Limit};

    #[test]
    fn unknown_is_not_never() {
        assert_found(
            &RULE,
            |draft| draft.0.patient.alpha_blocker = Some(true),
            Fact::Taken,
            Limit::NeverTaken,
        );
        assert_satisfied(&RULE, |draft| draft.0.patient.alpha_blocker = Some(false));
        assert_not_evaluated(&RULE, |_| {});
    }
}
