//! `MA-01`: axial length or keratometry is old on the planned day, or dated after it.

use chrono::{Datelike as _, Months};

use crate::calendar::{Day, LAST_YEAR};
use crate::evidence::{HOUSE, MEASUREMENT_AGE_109, Standing};
use crate::rules::{
    Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity, Which,
};

pub const RULE: Rule = Rule {
    id: "MA-01",
    title: "Measurement is old",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Days of axial length and keratometry of the operative eye against the planned day. More than 24 calendar months before it, unless the clinic sets another limit, is a finding, and so is any day after it; exactly 24 months and the planned day itself pass.",
    why: "No accepted limit is printed. A report on 109 eyes has repeating considered after more than 24 months. A cornea changes under contact lenses and disease, and a date after the operation may be a slip of the pen or another visit (common practice).",
    options: "Consider repeating what is old, and comparing dates with the printout.",
    sources: &[
        Standing::Printed.of(
            MEASUREMENT_AGE_109,
            "more than 24 months: consider repeating (abstract, 109 eyes)",
        ),
        Standing::Assumption.of(HOUSE, "a day after the planned one is shown too"),
    ],
    limits: &["measurement_age"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let day = facts.draft.operation.date.ok_or(Missing::PlannedDay)?;
    let months = facts.limits.measurement_age;
    let age = u32::try_from(months).map(Months::new);
    let age = age.map_err(|_| Missing::UsableAgeLimit)?;
    let eye = facts.operated.0;
    let length_on = eye.axial_length.as_ref().and_then(|measured| measured.on);
    let keratometry_on = eye.keratometry.as_ref().and_then(|measured| measured.on);
    let (mut found, mut late) = (Vec::new(), Vec::new());
    for (which, on) in [
        (Which::AxialLength, length_on),
        (Which::Keratometry, keratometry_on),
    ] {
        let Some(on) = on else { continue };
        let last_day = on.checked_add_months(age);
        let last_day = last_day.filter(|last| last.year() <= LAST_YEAR);
        let last_day = last_day.ok_or(Missing::UsableAgeLimit)?;
        if day < on {
            late.push(which);
        }
        if day < on || last_day < day {
            found.push((which, Day(on)));
        }
    }
    if found.is_empty() {
        length_on
            .and(keratometry_on)
            .ok_or(Missing::MeasurementDays)?;
        return Ok(None);
    }
    let late = (!late.is_empty()).then_some(Detail::DatedAfter(late));
    Finding::new(
        Fact::MeasuredOn(found),
        Limit::MonthsBefore {
            months,
            day: Day(day),
        },
    )
    .with(late)
    .found()
}

#[cfg(test)]
mod tests {
    use chrono::NaiveDate;

    use super::RULE;
    use crate::calendar::Day;
    use crate::limits::Limits;
    use crate::rules::Which::{AxialLength, Keratometry};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, date, verdict_with,
    };
    use crate::rules::{Detail, Fact, Finding, Limit, Verdict, Which};

    /// Measurements that are named for a day; the planned one of the ordinary draft is 2026-12-03.
    #[track_caller]
    fn assert_named(
        day: NaiveDate,
        change: impl FnOnce(&mut DraftUnderTest),
        found: &[(Which, NaiveDate)],
    ) -> Finding {
        let limit = Limit::MonthsBefore {
            months: 24,
            day: Day(day),
        };
        let found = found.iter().map(|(which, on)| (*which, Day(*on)));
        assert_found(&RULE, change, Fact::MeasuredOn(found.collect()), limit)
    }

    fn measure_on(
        draft: &mut DraftUnderTest,
        length: Option<NaiveDate>,
        keratometry: Option<NaiveDate>,
    ) {
        draft.operated().axial_length.as_mut().unwrap().on = length;
        draft.operated().keratometry.as_mut().unwrap().on = keratometry;
    }

    #[test]
    fn exactly_24_months_and_the_day_itself_pass() {
        for on in [date(2024, 12, 3), date(2024, 12, 4), date(2026, 12, 3)] {
            assert_satisfied(&RULE, |draft| measure_on(draft, Some(on), Some(on)));
        }
    }

    #[test]
    fn a_day_more_does_not() {
        let (old, recent) = (date(2024, 12, 2), date(2026, 11, 20));
        for (length, keratometry, found) in [
            (old, recent, &[(AxialLength, old)][..]),
            (recent, old, &[(Keratometry, old)]),
            (old, old, &[(AxialLength, old), (Keratometry, old)]),
        ] {
            let change = |draft: &mut DraftUnderTest| {
                measure_on(draft, Some(length), Some(keratometry));
            };
            assert_eq!(assert_named(date(2026, 12, 3), change, found).details, []);
        }
    }

    /// 24 months after a leap day end on the 28th.
    #[test]
    fn months_are_counted_by_the_calendar() {
        let leap_day = date(2024, 2, 29);
        assert_satisfied(&RULE, |draft| {
            measure_on(draft, Some(leap_day), Some(leap_day));
            draft.0.operation.date = Some(date(2026, 2, 28));
        });
        let march = date(2026, 3, 1);
        assert_named(
            march,
            |draft| {
                measure_on(draft, Some(leap_day), Some(date(2026, 2, 1)));
                draft.0.operation.date = Some(march);
            },
            &[(AxialLength, leap_day)],
        );
    }

    #[test]
    fn a_day_after_the_planned_one_is_named() {
        let (late, recent) = (date(2026, 12, 4), date(2026, 11, 20));
        let finding = assert_named(
            date(2026, 12, 3),
            |draft| measure_on(draft, Some(recent), Some(late)),
            &[(Keratometry, late)],
        );
        assert_eq!(finding.details, [Detail::DatedAfter(vec![Keratometry])]);
    }

    #[test]
    fn an_old_measurement_is_shown_though_the_other_has_no_day() {
        let old = date(2024, 12, 2);
        assert_named(
            date(2026, 12, 3),
            |draft| measure_on(draft, Some(old), None),
            &[(AxialLength, old)],
        );
    }

    #[test]
    fn days_are_needed() {
        let recent = Some(date(2026, 11, 20));
        assert_not_evaluated(&RULE, |draft| draft.0.operation.date = None);
        assert_not_evaluated(&RULE, |draft| measure_on(draft, recent, None));
        assert_not_evaluated(&RULE, |draft| measure_on(draft, None, recent));
        assert_not_evaluated(&RULE, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }

    #[test]
    fn a_limit_beyond_the_calendar_is_not_used() {
        // Both are of November 2026: 95,677 months lead to December 9999.
        let verdict = |measurement_age| {
            let limits = Limits {
                measurement_age,
                ..Limits::shipped().clone()
            };
            verdict_with(&RULE, &limits, |_| {})
        };
        assert!(matches!(verdict(95_677), Verdict::Satisfied));
        for months in [95_678, 1_000_000, i32::MAX] {
            assert!(
                matches!(verdict(months), Verdict::NotEvaluated(_)),
                "{months}"
            );
        }
    }
}
