//! `AP-01`: the chosen approach goes against the depth.

use super::dp_01;
use crate::case::Approach;
use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::rules::{Because, Facts, Group, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AP-01",
    title: "Phacoemulsification of a hard nucleus in a chamber not clearly deep enough",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether phacoemulsification was chosen although DP-01 finds the chamber of a hard nucleus under its limit or undecided. It reads the same depth and limits as DP-01, and whatever passes there passes here.",
    why: "Common practice prefers small-incision surgery for a hard nucleus under 2.8 mm. No source is published for the limit, and trials found about the same cell loss with both approaches, so there may be good reasons to go against it.",
    options: "The reason for phacoemulsification (experience, equipment, fellow eye) may be recorded, or the approach reconsidered.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "depth < 2.8 mm with a hard cataract"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium; 5 % on either side; from which grade a nucleus counts as hard"),
    ],
    limits: dp_01::RULE.limits,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    match facts.draft.approach.approach.ok_or(Missing::Approach)? {
        Approach::SmallIncision => Err(Because::SmallIncisionChosen.into()),
        Approach::Phacoemulsification => dp_01::evaluate(facts),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::Approach;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, verdict,
    };
    use crate::rules::{Certainty, Finding, Verdict};

    fn phacoemulsification(depth: &str, method: Method) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_hard_nucleus();
            draft.set_depth(depth, method);
            draft.0.approach.approach = Some(Approach::Phacoemulsification);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        let by_hand = |depth| phacoemulsification(depth, Method::Manual);
        assert_satisfied(&RULE, by_hand("2.80 mm"));
        let texts = [
            "2.799 mm from the epithelium",
            "at least 2.80 mm from the epithelium",
        ];
        assert_finding(&RULE, by_hand("2.799 mm"), texts);
    }

    #[test]
    fn borderline_and_clear_findings_of_the_depth_both_count() {
        let certainty = |depth| match verdict(&RULE, phacoemulsification(depth, Method::Optical)) {
            Verdict::Finding(Finding { certainty, .. }) => certainty,
            other => panic!("{other:?}"),
        };
        assert!(matches!(certainty("2.84 mm"), Certainty::Borderline { .. }));
        assert!(matches!(certainty("2.30 mm"), Certainty::Clear { .. }));
        assert_satisfied(&RULE, phacoemulsification("3.40 mm", Method::Optical));
    }

    #[test]
    fn approach_and_depth_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            phacoemulsification("2.00 mm", Method::Optical)(draft);
            draft.0.approach.approach = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            phacoemulsification("2.00 mm", Method::Optical)(draft);
            draft.operated().state.nucleus = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            phacoemulsification("2.00 mm", Method::Optical)(draft);
            draft.operated().chamber_depth = None;
        });
        assert_not_applicable(&RULE, |draft| {
            phacoemulsification("2.00 mm", Method::Optical)(draft);
            draft.0.approach.approach = Some(Approach::SmallIncision);
        });
        assert_not_applicable(&RULE, |draft| {
            phacoemulsification("2.00 mm", Method::Optical)(draft);
            draft.set_locs_opalescence(49);
        });
    }
}
