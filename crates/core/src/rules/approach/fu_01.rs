//! `FU-01`: guttata and a corneal thickness over the printed limit.

use super::thickness_with_guttata;
use crate::evidence::{FUCHS_64, HOUSE, Standing};
use crate::rules::{Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "FU-01",
    title: "Thick cornea with guttata",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Central corneal thickness of an eye with guttata or Fuchs dystrophy against 570 µm. The limit itself passes.",
    why: "With Fuchs dystrophy and a cornea thicker than 570 µm before cataract surgery, 34 % later needed a graft (series of 64 eyes).",
    options: "The patient may be told that a graft may follow; consider a combined or staged operation, a lens that suits a graft, and what protects the endothelium most in these hands.",
    sources: &[
        Standing::Printed.of(FUCHS_64, "CCT > 570 µm, 34 % later needed a graft"),
        Standing::Assumption.of(HOUSE, "extended from Fuchs dystrophy to any guttata"),
    ],
    limits: &["fuchs_thickness"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    thickness_with_guttata(facts, facts.limits.fuchs_thickness)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for thickness in ["569 µm", "570 µm"] {
            assert_satisfied(&RULE, |draft| {
                draft.operated().state.guttata = Some(true);
                draft.set_corneal_thickness(thickness);
            });
        }
        assert_finding(
            &RULE,
            |draft| {
                draft.operated().state.guttata = Some(true);
                draft.set_corneal_thickness("571 µm");
            },
            ["571 µm", "at most 570 µm"],
        );
    }

    #[test]
    fn only_with_guttata_and_a_thickness() {
        assert_not_evaluated(&RULE, |draft| draft.set_corneal_thickness("700 µm"));
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.guttata = Some(true);
            draft.operated().corneal_thickness = None;
        });
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.guttata = Some(false);
            draft.set_corneal_thickness("700 µm");
        });
    }
}
