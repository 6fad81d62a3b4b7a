//! `PO-04`: lens thickness outside what population studies found.

use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-04",
    title: "Lens thickness is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Lens thickness of the operated eye against 3.51 mm and 5.23 mm, the mean less and plus two standard deviations of population studies; both pass themselves.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 3.51 mm to 5.23 mm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 3.51 mm to 5.23 mm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Micrometers; 2] = [Micrometers::new(3_510), Micrometers::new(5_230)];

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let value = facts
        .operated
        .0
        .lens_thickness
        .as_ref()
        .map(|measured| measured.value.get());
    known_within(value, BOUNDS, "lens thickness of the operated eye")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["3.51 mm", "3.511 mm", "5.229 mm", "5.23 mm"] {
            assert_satisfied(&RULE, |draft| draft.set_lens_thickness(value));
        }
        for (value, measured) in [("3.509 mm", "3.509 mm"), ("5.231 mm", "5.231 mm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_lens_thickness(value),
                [measured, "3.51 mm to 5.23 mm"],
            );
        }
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().lens_thickness = None);
    }
}
