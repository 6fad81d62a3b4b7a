//! `MA-01`: axial length or keratometry is old on the planned day, or dated after it.

use chrono::{Datelike as _, Months};

use crate::calendar::LAST_YEAR;
use crate::evidence::{HOUSE, MEASUREMENT_AGE_109, Source, Standing};
use crate::rules::verdict::not_evaluated;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "MA-01",
    title: "Measurement is old",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Days of axial length and keratometry of the operated eye against the planned day. More than 24 calendar months before it, unless the clinic sets another limit, is a finding, and so is any day after it; exactly 24 months and the planned day itself pass.",
    why: "No accepted limit is printed. A report on 109 eyes has repeating considered after more than 24 months. A cornea changes under contact lenses and disease, and a date after the operation may be a slip of the pen or another visit (common practice).",
    options: "Consider repeating what is old, and comparing dates with the printout.",
    sources: &[
        Source {
            work: MEASUREMENT_AGE_109,
            locator: "more than 24 months: consider repeating (abstract, 109 eyes)",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "a day after the planned one is shown too",
            standing: Standing::Assumption,
        },
    ],
    limits: &["measurement_age"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(day) = facts.draft.operation.date else {
        return not_evaluated("planned day of the operation");
    };
    let months = facts.limits.measurement_age;
    let Ok(age) = u32::try_from(months).map(Months::new) else {
        return not_evaluated(UNUSABLE_LIMIT);
    };
    let eye = facts.operated.0;
    let length_on = eye.axial_length.as_ref().and_then(|measured| measured.on);
    let keratometry_on = eye.keratometry.as_ref().and_then(|measured| measured.on);

    let (mut found, mut late) = (Vec::new(), Vec::new());
    for (what, on) in [("axial length", length_on), ("keratometry", keratometry_on)] {
        let Some(on) = on else { continue };
        let last_day = on.checked_add_months(age);
        let Some(last_day) = last_day.filter(|last| last.year() <= LAST_YEAR) else {
            return not_evaluated(UNUSABLE_LIMIT);
        };
        if day < on {
            late.push(what);
        }
        if day < on || last_day < day {
            found.push(format!("{what} of {on}"));
        }
    }
    if found.is_empty() {
        if length_on.is_none() || keratometry_on.is_none() {
            return not_evaluated("days of axial length and keratometry");
        }
        return Verdict::Satisfied;
    }
    let limit = format!("at most {months} months before {day}");
    let finding = Finding::new(found.join(", "), limit);
    if late.is_empty() {
        return finding.into();
    }
    finding
        .with_detail(format!("dated after the planned day: {}", late.join(", ")))
        .into()
}

const UNUSABLE_LIMIT: &str = "usable limit for the age of measurements";

#[cfg(test)]
mod tests {
    use chrono::NaiveDate;

    use super::RULE;
    use crate::limits::Limits;
    use crate::rules::Verdict;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied, date, verdict_with,
    };

    /// The planned day of the ordinary draft is 2026-12-03.
    const LIMIT: &str = "at most 24 months before 2026-12-03";

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
        let (old, recent) = (Some(date(2024, 12, 2)), Some(date(2026, 11, 20)));
        for (length, keratometry, measured) in [
            (old, recent, "axial length of 2024-12-02"),
            (recent, old, "keratometry of 2024-12-02"),
            (
                old,
                old,
                "axial length of 2024-12-02, keratometry of 2024-12-02",
            ),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| measure_on(draft, length, keratometry),
                [measured, LIMIT],
            );
            assert_eq!(finding.detail, None);
        }
    }

    /// 24 months after a leap day end on the 28th.
    #[test]
    fn months_are_counted_by_the_calendar() {
        let leap_day = Some(date(2024, 2, 29));
        assert_satisfied(&RULE, |draft| {
            measure_on(draft, leap_day, leap_day);
            draft.0.operation.date = Some(date(2026, 2, 28));
        });
        assert_finding(
            &RULE,
            |draft| {
                measure_on(draft, leap_day, Some(date(2026, 2, 1)));
                draft.0.operation.date = Some(date(2026, 3, 1));
            },
            [
                "axial length of 2024-02-29",
                "at most 24 months before 2026-03-01",
            ],
        );
    }

    #[test]
    fn a_day_after_the_planned_one_is_named() {
        let (late, recent) = (Some(date(2026, 12, 4)), Some(date(2026, 11, 20)));
        let finding = assert_finding(
            &RULE,
            |draft| measure_on(draft, recent, late),
            ["keratometry of 2026-12-04", LIMIT],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("dated after the planned day: keratometry")
        );
    }

    #[test]
    fn an_old_measurement_is_shown_though_the_other_has_no_day() {
        assert_finding(
            &RULE,
            |draft| measure_on(draft, Some(date(2024, 12, 2)), None),
            ["axial length of 2024-12-02", LIMIT],
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
                matches!(verdict(months), Verdict::NotEvaluated { .. }),
                "{months}"
            );
        }
    }
}
