//! `DP-02`: deep chamber with a hard nucleus.

use super::{dp_01, nucleus_is_hard, taken_as_hard};
use crate::evidence::{HAYASHI_1996, HOUSE, NO_SOURCE, Standing};
use crate::rules::depth::depth_over;
use crate::rules::{Bearing, Detail, Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "DP-02",
    title: "Deep enough to divide a hard nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::Phacoemulsification),
    checks: "The interval of DP-01, of the same depth and against the same limit (2.80 mm unless the clinic changed it): this rule speaks where the whole of it lies over the limit, which is where the chance that the true depth lies under the limit is 5 % or less (unless the clinic changed that chance), and without a spread from the limit itself on. While DP-01 is a finding, under the limit or undecided, this rule is satisfied.",
    why: "A deeper chamber leaves more margin over the pieces of a nucleus divided into many. Pieces rubbing the endothelium, not the total ultrasound energy, are held to be the chief cause of cell loss (common practice); one study named contact with pieces the principal cause.",
    options: "Consider phacoemulsification with the nucleus divided into many small pieces; the table of margins shows, for each working plane, what each number leaves.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "many small pieces; pieces rubbing the endothelium the chief cause of cell loss"),
        Standing::Printed.of(HAYASHI_1996, "abstract: contact with nuclear pieces the principal cause"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium; 5 % on either side; from which grade a nucleus counts as hard"),
    ],
    limits: dp_01::RULE.limits,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    nucleus_is_hard(facts)?;
    let limits = facts.limits;
    // The other side of the interval of `DP-01`: one depth never speaks for both approaches.
    let found = depth_over(facts, limits.chamber_depth_start, limits.chamber_depth)?;
    Ok(found.map(|finding| {
        finding
            .with([Detail::RoomToDivide])
            .with(taken_as_hard(facts))
    }))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::limits::Limits;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, assert_shows, verdict_with,
    };
    use crate::rules::{Detail, Verdict};

    #[test]
    fn without_a_spread_at_the_limit_and_one_step_under() {
        for (depth, measured) in [
            ("2.80 mm", "2.80 mm from the epithelium"),
            ("2.801 mm", "2.801 mm from the epithelium"),
            ("3.60 mm", "3.60 mm from the epithelium"),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| {
                    draft.set_hard_nucleus();
                    draft.set_depth(depth, Method::Manual);
                },
                [measured, "at least 2.80 mm from the epithelium"],
            );
            let [
                Detail::SpreadUnknown,
                Detail::AqueousDepth(_),
                Detail::RoomToDivide,
            ] = finding.details[..]
            else {
                panic!("{finding:?}");
            };
        }
        assert_satisfied(&RULE, |draft| {
            draft.set_hard_nucleus();
            draft.set_depth("2.799 mm", Method::Manual);
        });
    }

    /// The clinic's spread is 0.047 mm and the 95 % point of the normal distribution 1.6449: up to
    /// 2.80 + 0.0773 = 2.8773 mm the depth is borderline, which `DP-01` says.
    #[test]
    fn a_borderline_depth_does_not_speak_for_phacoemulsification() {
        let by_light = |depth: &'static str| {
            move |draft: &mut DraftUnderTest| {
                draft.set_hard_nucleus();
                draft.set_depth(depth, Method::Optical);
            }
        };
        for depth in ["2.30 mm", "2.799 mm", "2.80 mm", "2.877 mm"] {
            assert_satisfied(&RULE, by_light(depth));
        }
        assert_finding(
            &RULE,
            by_light("2.878 mm"),
            [
                "2.878 mm from the epithelium",
                "at least 2.80 mm from the epithelium",
            ],
        );
    }

    #[test]
    fn what_the_shallow_rule_cannot_judge_is_not_judged_here() {
        let limits = Limits {
            borderline_chance: 50,
            ..Limits::shipped().clone()
        };
        let verdict = verdict_with(&RULE, &limits, |draft| {
            draft.set_hard_nucleus();
            draft.set_depth("3.60 mm", Method::Optical);
        });
        assert!(matches!(verdict, Verdict::NotEvaluated(_)));
    }

    /// 3.339 mm less 0.540 mm of cornea is 2.799 mm.
    #[test]
    fn the_clinics_surface_counts() {
        let limits = Limits {
            chamber_depth_start: DepthStart::Endothelium,
            ..Limits::shipped().clone()
        };
        let at = |depth: &str| {
            verdict_with(&RULE, &limits, |draft| {
                draft.set_hard_nucleus();
                draft.set_depth(depth, Method::Manual);
            })
        };
        assert_eq!(at("3.339 mm"), Verdict::Satisfied);
        let texts = [
            "2.80 mm from the endothelium",
            "at least 2.80 mm from the endothelium",
        ];
        assert_shows(at("3.34 mm"), texts);
    }

    #[test]
    fn nucleus_and_depth_are_needed() {
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            draft.set_hard_nucleus();
            draft.operated().chamber_depth = None;
        });
        assert_not_applicable(&RULE, |draft| draft.set_locs_opalescence(49));
    }
}
