//! `PO-05`: corneal diameter outside what population studies found.

use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-05",
    title: "Corneal diameter is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Corneal diameter of the operated eye against 11.00 mm and 12.60 mm, the mean less and plus two standard deviations of population studies; both pass themselves.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 11.00 mm to 12.60 mm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 11.00 mm to 12.60 mm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Micrometers; 2] = [Micrometers::new(11_000), Micrometers::new(12_600)];

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let value = facts
        .operated
        .0
        .corneal_diameter
        .as_ref()
        .map(|measured| measured.value.get());
    known_within(value, BOUNDS, "corneal diameter of the operated eye")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["11.00 mm", "11.001 mm", "12.599 mm", "12.60 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_corneal_diameter(value));
        }
        for (value, measured) in [("10.999 mm", "10.999 mm"), ("12.601 mm", "12.601 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_corneal_diameter(value),
                [measured, "11.00 mm to 12.60 mm"],
            );
        }
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().corneal_diameter = None);
    }
}
