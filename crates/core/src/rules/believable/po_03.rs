//! `PO-03`: anterior chamber depth outside what population studies found.

use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-03",
    title: "Anterior chamber depth is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Anterior chamber depth of the operated eye, from the epithelium, against 2.16 mm and 4.04 mm, the mean less and plus two standard deviations of population studies; both pass themselves.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 2.16 mm to 4.04 mm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 2.16 mm to 4.04 mm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Micrometers; 2] = [Micrometers::new(2_160), Micrometers::new(4_040)];

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let value = facts.operated.0.depth_from_epithelium();
    known_within(
        value,
        BOUNDS,
        "anterior chamber depth of the operated eye from the epithelium",
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["2.16 mm", "2.161 mm", "4.039 mm", "4.04 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_depth(value, Method::Optical));
        }
        for (value, measured) in [("2.159 mm", "2.159 mm"), ("4.041 mm", "4.041 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_depth(value, Method::Optical),
                [measured, "2.16 mm to 4.04 mm"],
            );
        }
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().chamber_depth = None);
    }

    /// By hand: 2.619 mm from the endothelium and 540 µm of cornea are 3.159 mm; 1.619 are 2.159.
    #[test]
    fn a_depth_from_the_endothelium_needs_the_thickness() {
        assert_satisfied(&RULE, |draft| draft.set_aqueous_depth("2.619 mm"));
        assert_finding(
            &RULE,
            |draft| draft.set_aqueous_depth("1.619 mm"),
            ["2.159 mm", "2.16 mm to 4.04 mm"],
        );
        assert_not_evaluated(&RULE, |draft| {
            draft.set_aqueous_depth("2.619 mm");
            draft.operated().corneal_thickness = None;
        });
    }
}
