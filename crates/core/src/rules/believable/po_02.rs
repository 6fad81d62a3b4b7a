//! `PO-02`: mean corneal radius outside what population studies found.

use super::unless_cornea_operated;
use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-02",
    title: "Mean corneal radius is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Mean corneal radius of the operated eye, mean of both meridians to the nearest 0.001 mm, against 7.13 mm and 8.25 mm, the mean less and plus two standard deviations of population studies; both pass themselves. It does not apply to a cornea that had refractive surgery.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 7.13 mm to 8.25 mm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 7.13 mm to 8.25 mm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Micrometers; 2] = [Micrometers::new(7_130), Micrometers::new(8_250)];

fn evaluate(facts: &Facts<'_>) -> Verdict {
    unless_cornea_operated(facts, || {
        let keratometry = facts.operated.0.keratometry.as_ref();
        let value =
            keratometry.and_then(|measured| measured.value.mean_radius().nearest_micrometer());
        known_within(value, BOUNDS, "keratometry of the operated eye")
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgery;
    use crate::rules::testing::{
        SURGERIES, assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["7.13 mm", "7.131 mm", "8.249 mm", "8.25 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_keratometry(value, value));
        }
        for (value, measured) in [("7.129 mm", "7.129 mm"), ("8.251 mm", "8.251 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_keratometry(value, value),
                [measured, "7.13 mm to 8.25 mm"],
            );
        }
    }

    #[test]
    fn a_cornea_that_had_surgery_is_not_asked_about() {
        for kind in SURGERIES {
            assert_not_applicable(&RULE, |draft| {
                draft.set_keratometry("8.80 mm", "8.80 mm");
                draft.operate_cornea(kind);
            });
        }
        assert_finding(
            &RULE,
            |draft| {
                draft.set_keratometry("8.80 mm", "8.80 mm");
                draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
            },
            ["8.80 mm", "7.13 mm to 8.25 mm"],
        );
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }

    /// By hand: 8.00 and 8.52 mm have a mean of 8.26 mm; 337.5/40.00 = 8.4375 mm.
    #[test]
    fn both_meridians_count_and_powers_are_taken_as_radii() {
        assert_satisfied(&RULE, |draft| draft.set_keratometry("8.50 mm", "8.00 mm"));
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("8.52 mm", "8.00 mm"),
            ["8.26 mm", "7.13 mm to 8.25 mm"],
        );
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("39.94 D at 1.3375", "40.06 D at 1.3375"),
            ["8.438 mm", "7.13 mm to 8.25 mm"],
        );
    }
}
