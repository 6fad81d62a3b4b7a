//! `ID-06`: the birth date cannot be.

use crate::evidence::{HOUSE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity};

/// Oldest age that passes, years (assumption).
const OLDEST: i32 = 120;

pub const RULE: Rule = Rule {
    id: "ID-06",
    title: "Impossible birth date",
    group: Group::Identity,
    severity: Severity::Stop,
    bearing: None,
    checks: "Age in whole years on the planned day against 0 and 120; both pass themselves.",
    why: "A birth date after the operation, or one of more than 120 years ago, is mistyped, and an identifier that is wrong may be another patient's.",
    options: "The birth date may be compared with the wristband and corrected; so may the planned day. Until then the plan cannot be signed.",
    sources: &[Standing::Assumption.of(HOUSE, "ages that a patient can have")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let Some(age) = facts.draft.age() else {
        return Err(Missing::BirthDateAndDay.into());
    };
    if 0 <= age && age <= OLDEST {
        return Ok(None);
    }
    let measured = if age < 0 {
        Fact::BornLater
    } else {
        Quantity::Years(age).into()
    };
    let limit = Limit::Within(Quantity::Years(0), Quantity::Years(OLDEST));
    Finding::new(measured, limit).found()
}

#[cfg(test)]
mod tests {
    use chrono::NaiveDate;

    use super::RULE;
    use crate::rules::Fact;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_found, assert_not_evaluated, assert_satisfied, date,
        limit,
    };

    /// The planned day of an ordinary draft is 3 December 2026.
    fn born(day: NaiveDate) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.0.patient.birth_date = Some(day)
    }

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        for day in [date(2026, 12, 3), date(1951, 3, 14), date(1905, 12, 4)] {
            assert_satisfied(&RULE, born(day));
        }
        let ages = "0 years to 120 years";
        assert_finding(&RULE, born(date(1905, 12, 3)), ["121 years", ages]);
        let tomorrow = born(date(2026, 12, 4));
        assert_found(&RULE, tomorrow, Fact::BornLater, limit(ages));
    }

    #[test]
    fn both_days_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.0.patient.birth_date = None);
        assert_not_evaluated(&RULE, |draft| draft.0.operation.date = None);
    }
}
