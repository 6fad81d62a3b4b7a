//! `RS-02`: nobody recorded whether the eye had corneal refractive surgery.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "RS-02",
    title: "Corneal refractive surgery is not recorded",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether it is recorded that the operative eye had, or had not, corneal refractive surgery. Either record passes; none is a finding.",
    why: "Not recorded is not absent. Formulas for normal eyes are shown as if there had been no surgery; after a laser years ago they miss the target without a warning, and the patient may not think of it as surgery (common practice).",
    options: "Consider asking the patient and looking at the cornea, and recording the answer, also when it is no. If it cannot be known, the reason may be recorded.",
    sources: &[
        Standing::Assumption.of(HOUSE, "asking counts as part of the record"),
        Standing::CommonPractice.of(
            NO_SOURCE,
            "normal-eye formulas refused after corneal surgery",
        ),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if facts.operated.0.state.corneal_surgery.is_some() {
        return Ok(None);
    }
    Finding::new(Fact::NotRecorded, Limit::Recorded).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{CornealSurgery, CornealSurgeryKind};
    use crate::rules::testing::{assert_found, assert_satisfied};
    use crate::rules::{Fact, Limit};

    #[test]
    fn either_record_passes() {
        assert_satisfied(&RULE, |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        });
        assert_satisfied(&RULE, |draft| {
            draft.operate_cornea(CornealSurgeryKind::Other);
        });
    }

    #[test]
    fn none_is_a_finding_whatever_is_known_of_the_fellow_eye() {
        assert_found(
            &RULE,
            |draft| {
                draft.operated().state.corneal_surgery = None;
                draft.fellow().state.corneal_surgery = Some(CornealSurgery::Absent);
            },
            Fact::NotRecorded,
            Limit::Recorded,
        );
    }
}
