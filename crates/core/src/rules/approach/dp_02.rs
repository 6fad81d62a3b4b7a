//! `DP-02`: deep chamber with a hard nucleus.

use super::{DEPTH_LIMITS, aqueous_beside, depth_with_hard_nucleus};
use crate::evidence::{HAYASHI_1996, HOUSE, NO_SOURCE, Source, Standing};
use crate::rules::{Bearing, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "DP-02",
    title: "Deep enough to divide a hard nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::Phacoemulsification),
    checks: "Anterior chamber depth of an eye with a hard nucleus against the limit of DP-01 (2.80 mm unless the clinic changed it), counted from the same surface, as measured. A depth of the limit itself or more is a finding.",
    why: "There is room to divide the nucleus into many small pieces. Pieces rubbing the endothelium, not the total ultrasound energy, are held to be the chief cause of cell loss (common practice); one study named contact with pieces the principal cause.",
    options: "Consider phacoemulsification with the nucleus divided into many small pieces; the table of rooms shows how many.",
    sources: &[
        Source {
            work: NO_SOURCE,
            locator: "many small pieces; pieces rubbing the endothelium the chief cause of cell loss",
            standing: Standing::CommonPractice,
        },
        Source {
            work: HAYASHI_1996,
            locator: "abstract: contact with nuclear pieces the principal cause",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "depth from the epithelium; from which grade a nucleus counts as hard",
            standing: Standing::Assumption,
        },
    ],
    limits: DEPTH_LIMITS,
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let depth = match depth_with_hard_nucleus(facts) {
        Ok(depth) => depth,
        Err(verdict) => return verdict,
    };
    let limit = facts.limits.chamber_depth;
    if depth < limit {
        return Verdict::Satisfied;
    }
    let start = facts.limits.chamber_depth_start;
    let detail = "there is room to divide the nucleus into many small pieces";
    let detail = match aqueous_beside(facts) {
        Some(aqueous) => format!("{detail}; {aqueous}"),
        None => detail.to_owned(),
    };
    Finding::new(
        format!("{depth} {start}"),
        format!("{limit} {start} or more"),
    )
    .with_detail(detail)
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::limits::Limits;
    use crate::rules::Verdict;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied, verdict_with,
    };

    #[test]
    fn at_the_limit_and_one_step_under() {
        for (depth, measured) in [
            ("2.80 mm", "2.80 mm from the epithelium"),
            ("2.801 mm", "2.801 mm from the epithelium"),
            ("3.60 mm", "3.60 mm from the epithelium"),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| {
                    draft.set_hard_nucleus();
                    draft.set_depth(depth, Method::Optical);
                },
                [measured, "2.80 mm from the epithelium or more"],
            );
            assert!(finding.detail.unwrap().contains("aqueous depth"));
        }
        assert_satisfied(&RULE, |draft| {
            draft.set_hard_nucleus();
            draft.set_depth("2.799 mm", Method::Optical);
        });
    }

    /// 3.339 mm less 0.540 mm of cornea is 2.799 mm.
    #[test]
    fn the_clinics_surface_counts() {
        let limits = Limits {
            chamber_depth_start: DepthStart::Endothelium,
            ..Limits::shipped().clone()
        };
        let verdict = verdict_with(&RULE, &limits, |draft| {
            draft.set_hard_nucleus();
            draft.set_depth("3.339 mm", Method::Optical);
        });
        assert_eq!(verdict, Verdict::Satisfied);
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
