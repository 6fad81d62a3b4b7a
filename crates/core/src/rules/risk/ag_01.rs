//! `AG-01`: the patient is a child.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::rules::check::at_least;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity};

/// Age from which formulas, rules and risk figures are about such patients (our own value).
const ADULT: i32 = 18;

pub const RULE: Rule = Rule {
    id: "AG-01",
    title: "The patient is under 18",
    group: Group::Risk,
    severity: Severity::Review,
    bearing: None,
    checks: "Age on the operation day against 18 years; a patient of 18 passes.",
    why: "The eye still grows, so a target for today is not one for later; capsule and vitreous behave otherwise, and formulas, constants, risk figures and every rule here were made from the eyes of adults.",
    options: "Consider a center that operates on children, a target by age, opening of the posterior capsule, and treatment of amblyopia; this program is made for adults.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "children are operated on in another way"),
        Standing::Assumption.of(HOUSE, "18 years"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let age = facts.draft.age().ok_or(Missing::BirthDateAndDay)?;
    Ok(at_least(Quantity::Years, age, ADULT))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied, date,
    };

    /// The operation is on 3 Dec 2026.
    fn born(year: i32, month: u32, day: u32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.0.patient.birth_date = Some(date(year, month, day))
    }

    #[test]
    fn on_the_birthday_the_day_before_and_without_a_date() {
        assert_satisfied(&RULE, born(2008, 12, 3));
        let texts = ["17 years", "at least 18 years"];
        assert_finding(&RULE, born(2008, 12, 4), texts);
        assert_satisfied(&RULE, born(1951, 3, 14));
        assert_not_evaluated(&RULE, |draft| draft.0.patient.birth_date = None);
    }
}
