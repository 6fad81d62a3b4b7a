//! `PO-01`: axial length outside what population studies found.

use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-01",
    title: "Axial length is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Axial length of the operated eye against 20.80 mm and 26.20 mm, the mean less and plus two standard deviations of population studies; both pass themselves.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 20.80 mm to 26.20 mm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 20.80 mm to 26.20 mm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Micrometers; 2] = [Micrometers::new(20_800), Micrometers::new(26_200)];

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let value = facts
        .operated
        .0
        .axial_length
        .as_ref()
        .map(|measured| measured.value.get());
    known_within(value, BOUNDS, "axial length of the operated eye")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["20.80 mm", "20.801 mm", "26.199 mm", "26.20 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_axial_length(value));
        }
        for (value, measured) in [("20.799 mm", "20.799 mm"), ("26.201 mm", "26.201 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_axial_length(value),
                [measured, "20.80 mm to 26.20 mm"],
            );
        }
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
    }
}
