//! `DP-03`: a depth under which fewer endothelial cells were counted after surgery.

use crate::evidence::{DEPTH_3MM, HOUSE, HWANG_2015, Source, Standing};
use crate::rules::check::at_least;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "DP-03",
    title: "Fewer cells were counted after surgery under this depth",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Anterior chamber depth from the epithelium against 3.0 mm, whatever the nucleus. The limit itself passes.",
    why: "In a published comparison cell density at 4 weeks was 1538 cells/mm² under 3 mm of depth and 1799 from 3 mm on. For nuclei of grade 3 to 4 and equal energy, loss was higher at depths of 1.5 to 2.5 mm than of 3.5 to 4.5 mm. Trials of phacoemulsification against small-incision surgery found about the same loss with both.",
    options: "Consider the depth when the approach and the number of pieces are chosen; counting endothelial cells before may help to judge later.",
    sources: &[
        Source {
            work: DEPTH_3MM,
            locator: "1538 against 1799 cells/mm² at 4 weeks",
            standing: Standing::Printed,
        },
        Source {
            work: HWANG_2015,
            locator: "1.5-2.5 against 3.5-4.5 mm, nucleus grades 3-4, equal energy",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "depth from the epithelium, since which depth was meant is not stated",
            standing: Standing::Assumption,
        },
    ],
    limits: &["depth_of_cell_loss"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    match facts.operated.0.depth_from_epithelium() {
        Some(depth) => at_least(&depth, &facts.limits.depth_of_cell_loss),
        None => not_evaluated("anterior chamber depth from the epithelium"),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for depth in ["3.00 mm", "3.001 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_depth(depth, Method::Optical));
        }
        assert_finding(
            &RULE,
            |draft| draft.set_depth("2.999 mm", Method::Optical),
            ["2.999 mm", "at least 3.00 mm"],
        );
    }

    #[test]
    fn the_depth_is_needed_from_the_epithelium() {
        assert_not_evaluated(&RULE, |draft| draft.operated().chamber_depth = None);
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().corneal_thickness = None;
            let depth = draft.operated().chamber_depth.as_mut().unwrap();
            depth.value.start = DepthStart::Endothelium;
        });
    }
}
