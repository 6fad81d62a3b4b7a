//! `KM-04`: repeated keratometry differs, or was not repeated often enough.

use super::LENGTH_AND_K_TO_POWER;
use crate::evidence::{Standing, TEXTBOOK};
use crate::quantity::HundredthDiopters;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "KM-04",
    title: "Keratometry is not repeatable",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Number of readings of the operative eye against the fewest that pass, 3, and the largest difference between repeated readings in one meridian against the largest that passes, 0.30 D, unless the clinic sets others; both limits themselves pass.",
    why: "Readings of one meridian that differ by more than 0.30 D show that surface or fixation was not steady (common practice); with fewer than 3 readings nobody can tell. 1 D of K is about 1 D of lens power.",
    options: "Consider measuring again after lubrication and a rest, until at least 3 readings agree. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Secondary.of(TEXTBOOK, "same meridian within 0.30 D, at least 3 readings"),
        LENGTH_AND_K_TO_POWER,
    ],
    limits: &["keratometry_readings", "keratometry_repeat"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let keratometry = facts.keratometry()?;
    let (fewest, largest) = (
        facts.limits.keratometry_readings,
        facts.limits.keratometry_repeat,
    );
    let count = keratometry.readings.map(i32::from);
    // A difference has no sign, however it was typed.
    let difference = keratometry.repeat_difference.map(HundredthDiopters::abs);
    let few = count.filter(|count| *count < fewest);
    let apart = difference.filter(|difference| *difference > largest);
    let (found, limit) = match (few, apart) {
        // A reason recorded for one of two shortcomings must not stand for both.
        (Some(_), Some(_)) => (
            Fact::Repeats {
                readings: few,
                apart,
            },
            Limit::Repeats {
                readings: Some(fewest),
                apart: Some(largest),
            },
        ),
        // What is known to fall short does not wait for what is unknown.
        (Some(few), None) => (
            Quantity::Readings(few).into(),
            Limit::AtLeast(Quantity::Readings(fewest)),
        ),
        (None, Some(apart)) => (
            Quantity::Magnitude(apart).into(),
            Limit::AtMost(Quantity::Magnitude(largest)),
        ),
        (None, None) => {
            count.ok_or(Missing::NumberOfReadings)?;
            difference.ok_or(Missing::RepeatDifference)?;
            return Ok(None);
        }
    };
    Finding::new(found, limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_found, assert_not_evaluated, assert_satisfied,
        diopters,
    };
    use crate::rules::{Fact, Limit};

    fn repeat(draft: &mut DraftUnderTest, readings: Option<u8>, hundredths: Option<i32>) {
        let keratometry = &mut draft.operated().keratometry.as_mut().unwrap().value;
        keratometry.readings = readings;
        keratometry.repeat_difference = hundredths.map(diopters);
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
        ] {
            assert_finding(
                &RULE,
                |draft| repeat(draft, Some(readings), Some(hundredths)),
                [measured, limit],
            );
        }
    }

    #[test]
    fn both_shortcomings_are_one_finding() {
        assert_found(
            &RULE,
            |draft| repeat(draft, Some(2), Some(31)),
            Fact::Repeats {
                readings: Some(2),
                apart: Some(diopters(31)),
            },
            Limit::Repeats {
                readings: Some(3),
                apart: Some(diopters(30)),
            },
        );
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
