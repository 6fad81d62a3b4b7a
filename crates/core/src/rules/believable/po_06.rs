//! `PO-06`: corneal thickness outside what population studies found.

use core::fmt;

use crate::evidence::{POPULATION_14, Source, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::known_within;
use crate::rules::{Facts, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "PO-06",
    title: "Corneal thickness is outside the population",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Corneal thickness of the operated eye against 468 µm and 620 µm, the mean less and plus two standard deviations of population studies; both pass themselves.",
    why: "In 14 population studies two standard deviations on either side of the mean reach from 468 µm to 620 µm. Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look.",
    options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
    sources: &[Source {
        work: POPULATION_14,
        locator: "mean ± 2 SD: 468 µm to 620 µm",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

/// Mean ± 2 SD of the studies: a published fact, not a limit of the clinic.
const BOUNDS: [Thickness; 2] = [
    Thickness(Micrometers::new(468)),
    Thickness(Micrometers::new(620)),
];

/// A corneal thickness, shown in micrometers as the trade does.
#[derive(PartialEq, PartialOrd)]
struct Thickness(Micrometers);

impl fmt::Display for Thickness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} µm", self.0.um())
    }
}

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let value = facts
        .operated
        .0
        .thickness()
        .map(|thickness| Thickness(thickness.get()));
    known_within(value, BOUNDS, "corneal thickness of the operated eye")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for value in ["468 µm", "469 µm", "619 µm", "620 µm"] {
            assert_satisfied(&RULE, |draft| draft.set_corneal_thickness(value));
        }
        for (value, measured) in [("467 µm", "467 µm"), ("621 µm", "621 µm")] {
            assert_finding(
                &RULE,
                |draft| draft.set_corneal_thickness(value),
                [measured, "468 µm to 620 µm"],
            );
        }
    }

    #[test]
    fn without_it_the_rule_says_so() {
        assert_not_evaluated(&RULE, |draft| draft.operated().corneal_thickness = None);
    }
}
