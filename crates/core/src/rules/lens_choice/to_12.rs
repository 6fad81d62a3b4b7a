//! `TO-12`: another cylinder was chosen than the one that leaves least.

use super::{chosen_step, toric_answer};
use crate::astigmatism::{Residual, ToricRefusal};
use crate::evidence::{STEEPLES_2016, Source, Standing};
use crate::quantity::HundredthDiopters;
use crate::rules::check::Unsigned;
use crate::rules::verdict::not_evaluated;
use crate::rules::{Against, Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "TO-12",
    title: "Another cylinder was chosen than the one that leaves least",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "The chosen cylinder against the one of the lens, or none, that leaves the smallest residual cylinder at the suggested axis, by the formula planned by. Only that one passes; the axis is TO-06's.",
    why: "The difference may be wanted, as when a little is to be left with the rule, or left over from another formula, incision or measurement. Of 178 reports of wrong lenses, 16 were of wrong selection and 16 of a changed plan.",
    options: "The cylinder that leaves least may be chosen, or the reason for this one recorded.",
    sources: &[Source {
        work: STEEPLES_2016,
        locator: "178 reports: wrong selection 16, changed plan 16",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    look(facts).unwrap_or_else(|verdict| verdict)
}

fn look(facts: &Facts<'_>) -> Result<Verdict, Verdict> {
    let chosen = chosen_step(facts)?;
    let answer = toric_answer(facts)?;
    let least = answer
        .least_left()
        .ok_or(not_evaluated("a cylinder that leaves a known refraction"))?;
    let cylinder = chosen.choice.cylinder;
    if least.cylinder == Some(cylinder) {
        return Ok(Verdict::Satisfied);
    }
    Ok(Finding::new(
        with_residual(Some(cylinder), &chosen.outcome),
        with_residual(least.cylinder, &least.outcome),
    )
    .against(Against::Proposal)
    .into())
}

/// "+2.40 D, leaves 0.47 D".
fn with_residual(
    cylinder: Option<HundredthDiopters>,
    outcome: &Result<Residual, ToricRefusal>,
) -> String {
    let name = cylinder.map_or_else(|| "no cylinder".to_owned(), |it| it.to_string());
    let left = outcome
        .as_ref()
        .ok()
        .and_then(|left| Unsigned::nearest(left.cylinder()));
    match left {
        Some(left) => format!("{name}, leaves {left}"),
        None => format!("{name}, what it leaves is not computed"),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};

    /// `tests/oracle/toric_plan.py 42.75 44.75 90 21`: 2.25 D at 90 leaves 0.3543 D, 3.00 D 0.1519 D,
    /// 3.75 D 0.6582 D; 3.00 D at 96, six degrees off, leaves 0.4345 D.
    #[test]
    fn only_the_cylinder_that_leaves_least_passes() {
        assert_satisfied(&RULE, toric(|draft| draft.choose_toric(300, 90)));
        assert_satisfied(&RULE, toric(|draft| draft.choose_toric(300, 96)));
        let least = "+3.00 D, leaves 0.15 D";
        for (hundredths, found) in [
            (225, "+2.25 D, leaves 0.35 D"),
            (375, "+3.75 D, leaves 0.66 D"),
        ] {
            let chosen = toric(move |draft| draft.choose_toric(hundredths, 90));
            assert_finding(&RULE, chosen, [found, least]);
        }
    }

    #[test]
    fn choice_and_answer_are_needed() {
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, toric(|_| {}));
        assert_not_evaluated(&RULE, |draft| {
            toric(|draft| draft.choose_toric(225, 90))(draft);
            draft.0.lens.formula = None;
        });
    }
}
