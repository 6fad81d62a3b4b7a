//! `KM-04`: repeated keratometry differs, or was not repeated often enough.

use core::fmt;

use super::LENGTH_AND_K_TO_POWER;
use crate::evidence::{Source, Standing, TEXTBOOK};
use crate::quantity::HundredthDiopters;
use crate::rules::check::{Unsigned, at_least, at_most};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "KM-04",
    title: "Keratometry is not repeatable",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Number of readings of the operated eye against the fewest that pass, 3, and the largest difference between repeated readings in one meridian against the largest that passes, 0.30 D, unless the clinic sets others; both limits themselves pass.",
    why: "Readings of one meridian that differ by more than 0.30 D show that surface or fixation was not steady (common practice); with fewer than 3 readings nobody can tell. 1 D of K is about 1 D of lens power.",
    options: "Consider measuring again after lubrication and a rest, until at least 3 readings agree. If it stands, the reason may be recorded.",
    sources: &[
        Source {
            work: TEXTBOOK,
            locator: "same meridian within 0.30 D, at least 3 readings",
            standing: Standing::Secondary,
        },
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &["keratometry_readings", "keratometry_repeat"],
    evaluate,
};

/// How often was measured.
#[derive(PartialEq, PartialOrd)]
struct Readings(i32);

impl fmt::Display for Readings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let plural = if self.0 == 1 { "" } else { "s" };
        write!(f, "{} reading{plural}", self.0)
    }
}

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(measured) = &facts.operated.0.keratometry else {
        return not_evaluated("keratometry of the operated eye");
    };
    let limits = facts.limits;
    let enough = measured.value.readings.map(|count| {
        at_least(
            &Readings(i32::from(count)),
            &Readings(limits.keratometry_readings),
        )
    });
    let steady = measured.value.repeat_difference.map(|difference| {
        // A difference has no sign, however it was typed.
        let size = HundredthDiopters::new(difference.hundredths().abs());
        at_most(&Unsigned(size), &Unsigned(limits.keratometry_repeat))
    });
    match (enough, steady) {
        // A reason recorded for one of two shortcomings must not stand for both.
        (Some(Verdict::Finding(few)), Some(Verdict::Finding(apart))) => Finding::new(
            format!("{}, {} apart", few.measured, apart.measured),
            format!("{}, {} apart", few.limit, apart.limit),
        )
        .into(),
        // What is known to fall short does not wait for what is unknown.
        (Some(found @ Verdict::Finding(_)), _) | (_, Some(found @ Verdict::Finding(_))) => found,
        (None, _) => not_evaluated("number of keratometry readings"),
        (_, None) => not_evaluated("difference between repeated keratometry readings"),
        (Some(_), Some(_)) => Verdict::Satisfied,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::HundredthDiopters;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied,
    };

    fn repeat(draft: &mut DraftUnderTest, readings: Option<u8>, hundredths: Option<i32>) {
        let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
        keratometry.readings = readings;
        keratometry.repeat_difference = hundredths.map(HundredthDiopters::new);
    }

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for (readings, hundredths) in [(3, 30), (4, 29), (5, 0)] {
            assert_satisfied(&RULE, |draft| {
                repeat(draft, Some(readings), Some(hundredths));
            });
        }
        for (readings, hundredths, measured, limit) in [
            (3, 31, "0.31 D", "at most 0.30 D"),
            (3, -31, "0.31 D", "at most 0.30 D"),
            (2, 30, "2 readings", "at least 3 readings"),
            (1, 0, "1 reading", "at least 3 readings"),
            (
                2,
                31,
                "2 readings, 0.31 D apart",
                "at least 3 readings, at most 0.30 D apart",
            ),
        ] {
            assert_finding(
                &RULE,
                |draft| repeat(draft, Some(readings), Some(hundredths)),
                [measured, limit],
            );
        }
    }

    #[test]
    fn too_few_readings_need_no_difference() {
        assert_finding(
            &RULE,
            |draft| repeat(draft, Some(2), None),
            ["2 readings", "at least 3 readings"],
        );
    }

    #[test]
    fn too_large_a_difference_needs_no_count() {
        assert_finding(
            &RULE,
            |draft| repeat(draft, None, Some(31)),
            ["0.31 D", "at most 0.30 D"],
        );
    }

    #[test]
    fn count_and_difference_are_needed() {
        assert_not_evaluated(&RULE, |draft| repeat(draft, None, Some(10)));
        assert_not_evaluated(&RULE, |draft| repeat(draft, None, None));
        assert_not_evaluated(&RULE, |draft| repeat(draft, Some(3), None));
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
