//! `DP-03`: a depth under which fewer endothelial cells were counted after surgery.

use crate::biometry::DepthStart;
use crate::evidence::{DEPTH_3MM, HOUSE, HWANG_2015, REPEATABILITY_2022, Standing};
use crate::rules::depth::depth_at_least;
use crate::rules::{Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "DP-03",
    title: "Fewer cells were counted after surgery under this depth",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Anterior chamber depth from the epithelium against 3.0 mm, whatever the nucleus. As measured, the limit itself passes; with a spread, the measurement's own or the table's, the chance that the true depth lies under the limit decides, as in DP-01: clear, borderline or satisfied.",
    why: "In a published comparison cell density at 4 weeks was 1538 cells/mm² under 3 mm of depth and 1799 from 3 mm on. For nuclei of grade 3 to 4 and equal energy, loss was higher at depths of 1.5 to 2.5 mm than of 3.5 to 4.5 mm. Trials of phacoemulsification against small-incision surgery found about the same loss with both.",
    options: "Consider the depth when the approach and the number of pieces are chosen; counting endothelial cells before may help to judge later.",
    sources: &[
        Standing::Printed.of(DEPTH_3MM, "1538 against 1799 cells/mm² at 4 weeks"),
        Standing::Printed.of(HWANG_2015, "1.5-2.5 against 3.5-4.5 mm, nucleus grades 3-4, equal energy"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium, since which depth was meant is not stated; 5 % on either side"),
        Standing::Printed.of(REPEATABILITY_2022, "spread where the measurement has none of its own: repeatability 0.13 mm / 2.77 = 0.047 mm (1 SD), upper end of its range"),
    ],
    limits: &[
        "depth_of_cell_loss",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "borderline_chance",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let limit = facts.limits.depth_of_cell_loss;
    depth_at_least(facts, DepthStart::Epithelium, limit)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{DepthStart, Method};
    use crate::rules::testing::{
        assert_certainty, assert_finding, assert_not_evaluated, assert_satisfied, verdict,
    };
    use crate::rules::{Certainty, Verdict};

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for depth in ["3.00 mm", "3.001 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_depth(depth, Method::Manual));
        }
        assert_finding(
            &RULE,
            |draft| draft.set_depth("2.999 mm", Method::Manual),
            [
                "2.999 mm from the epithelium",
                "at least 3.00 mm from the epithelium",
            ],
        );
    }

    /// The table's 47 µm and any printed table of the normal distribution: Φ(0) = 0.5, Φ(1) =
    /// 0.8413; 77 µm are z = 1.638, Φ = 0.9493, and 78 µm z = 1.660, Φ = 0.9515.
    #[test]
    fn with_a_spread_the_chance_decides() {
        let at = |depth| verdict(&RULE, |draft| draft.set_depth(depth, Method::Optical));
        for (depth, chance) in [
            ("2.923 mm", 0.9493),
            ("2.953 mm", 0.8413),
            ("3.00 mm", 0.5),
            ("3.077 mm", 0.0507),
        ] {
            assert_certainty(at(depth), Certainty::Borderline { chance });
        }
        assert_certainty(at("2.922 mm"), Certainty::Clear { chance: 0.9515 });
        assert_eq!(at("3.078 mm"), Verdict::Satisfied);
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
