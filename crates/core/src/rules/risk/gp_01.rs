//! `GP-01`: the eye may see little, whatever the lens.

use crate::biometry::Sign;
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::check::recorded;
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "GP-01",
    title: "Guarded prognosis",
    group: Group::Risk,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether macular disease, glaucoma, uveitis or amblyopia was recorded; one is enough, and all that were recorded are named.",
    why: "Such an eye may see little after an operation without fault. Uveitis and the macula of a diabetic also react to the operation itself.",
    options: "The patient may be told what can be expected, and it may be written down; consider an examination of the macula, treatment before and around the operation, and a lens without more than one focus.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "what limits sight is told before the operation")
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let state = &facts.operated.0.state;
    let seen = Sign::GUARDING
        .into_iter()
        .filter(|sign| sign.of(state) == Some(true));
    let seen: Vec<_> = seen.collect();
    if seen.is_empty() {
        for sign in Sign::GUARDING {
            recorded(facts, sign)?;
        }
        return Ok(None);
    }
    Finding::new(Fact::Signs(seen), Limit::Absent).found()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };

    fn all(seen: Option<bool>) -> impl Fn(&mut DraftUnderTest) {
        move |draft| {
            for sign in Sign::GUARDING {
                sign.set(&mut draft.operated().state, seen);
            }
        }
    }

    #[test]
    fn one_is_enough_and_all_are_named() {
        for sign in Sign::GUARDING {
            let alone = |draft: &mut DraftUnderTest| {
                sign.set(&mut draft.operated().state, Some(true));
            };
            assert_found(&RULE, alone, Fact::Signs(vec![sign]), Limit::Absent);
        }
        let signs = Fact::Signs(Sign::GUARDING.to_vec());
        assert_found(&RULE, all(Some(true)), signs, Limit::Absent);
    }

    #[test]
    fn absent_passes_and_one_nobody_recorded_does_not() {
        assert_satisfied(&RULE, all(Some(false)));
        for sign in Sign::GUARDING {
            assert_not_evaluated(&RULE, |draft| {
                all(Some(false))(draft);
                sign.set(&mut draft.operated().state, None);
            });
        }
    }
}
