//! `EN-01`: few endothelial cells.

use crate::evidence::{ENDOTHELIUM_61, JCLINMED_2021, KJO_2020, NATURAL_LOSS, Standing};
use crate::rules::check::at_least;
use crate::rules::{Facts, Group, Look, Missing, Quantity, Rule, Severity, Which};

pub const RULE: Rule = Rule {
    id: "EN-01",
    title: "Low endothelial cell density",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Endothelial cell density against 1000 cells/mm². The limit itself passes.",
    why: "Of 61 eyes under 1000 cells/mm², 14.8 % developed bullous keratopathy. Loss by density before surgery was 19.9 % (under 1000), 28.9 % (1000 to 2000) and 15.0 % (over 2000): it does not simply rise as density falls. No minimum density for surgery is accepted. The natural loss is 0.3 to 0.5 % a year.",
    options: "The patient may be told that a corneal graft may follow; consider what protects the endothelium most in these hands, whichever the approach; consider a second count.",
    sources: &[
        Standing::Printed.of(
            JCLINMED_2021,
            "loss 19.9 % (< 1000), 28.9 % (1000-2000), 15.0 % (> 2000)",
        ),
        Standing::Printed.of(ENDOTHELIUM_61, "bullous keratopathy in 14.8 %"),
        Standing::Printed.of(KJO_2020, "no accepted minimum"),
        Standing::Printed.of(NATURAL_LOSS, "0.3-0.5 % a year"),
    ],
    limits: &["endothelial_density"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let density = facts.operated.0.endothelium.as_ref();
    let density = density.ok_or(Missing::of_this_eye(Which::Endothelium))?;
    let limit = facts.limits.endothelial_density;
    Ok(at_least(Quantity::Density, density.value.per_mm2(), limit))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{assert_finding, assert_not_evaluated, assert_satisfied};

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for density in ["1000 cells/mm²", "1001 cells/mm²", "2500 cells/mm²"] {
            assert_satisfied(&RULE, |draft| draft.set_endothelium(density));
        }
        assert_finding(
            &RULE,
            |draft| draft.set_endothelium("999 cells/mm²"),
            ["999 cells/mm²", "at least 1000 cells/mm²"],
        );
    }

    #[test]
    fn without_a_count_it_says_so() {
        assert_not_evaluated(&RULE, |_| {});
    }
}
