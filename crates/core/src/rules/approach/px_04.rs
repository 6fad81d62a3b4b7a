//! `PX-04`: weak zonules are likely; a tension ring at hand.

use crate::evidence::{Standing, TENSION_RING_78};
use crate::rules::check::either;
use crate::rules::{
    Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity, WeakZonules,
};

pub const RULE: Rule = Rule {
    id: "PX-04",
    title: "Capsular tension ring at hand",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether pseudoexfoliation or phacodonesis was seen; one of them is enough.",
    why: "Both go with weak zonules. In a trial of 78 with pseudoexfoliation, zonules separated in none with a capsular tension ring and in 12.8 % without.",
    options: "Consider a capsular tension ring, capsule hooks and a lens for the sulcus at hand.",
    sources: &[Standing::Printed.of(TENSION_RING_78, "zonular separation 0 against 12.8 %")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let state = &facts.operated.0.state;
    let any = either(state.pseudoexfoliation, state.phacodonesis);
    if !any.ok_or(Missing::WeakZonules)? {
        return Ok(None);
    }
    let seen = match (state.pseudoexfoliation, state.phacodonesis) {
        (Some(true), Some(true)) => WeakZonules::Both,
        (Some(true), _) => WeakZonules::Pseudoexfoliation,
        _ => WeakZonules::Phacodonesis,
    };
    Finding::new(Fact::WeakZonules(seen), Limit::NoWeakZonules).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit, WeakZonules};

    fn eye(
        pseudoexfoliation: Option<bool>,
        phacodonesis: Option<bool>,
    ) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let state = &mut draft.operated().state;
            state.pseudoexfoliation = pseudoexfoliation;
            state.phacodonesis = phacodonesis;
        }
    }

    #[test]
    fn one_is_enough_and_unknown_is_not_absent() {
        for (pseudoexfoliation, phacodonesis, seen) in [
            (Some(true), None, WeakZonules::Pseudoexfoliation),
            (Some(true), Some(false), WeakZonules::Pseudoexfoliation),
            (None, Some(true), WeakZonules::Phacodonesis),
            (Some(true), Some(true), WeakZonules::Both),
        ] {
            let eye = eye(pseudoexfoliation, phacodonesis);
            assert_found(&RULE, eye, Fact::WeakZonules(seen), Limit::NoWeakZonules);
        }
        assert_satisfied(&RULE, eye(Some(false), Some(false)));
        assert_not_evaluated(&RULE, eye(Some(false), None));
        assert_not_evaluated(&RULE, eye(None, Some(false)));
        assert_not_evaluated(&RULE, eye(None, None));
    }
}
