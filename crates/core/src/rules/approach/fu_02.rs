//! `FU-02`: guttata and a corneal thickness over the older limit.

use super::thickness_with_guttata;
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::{Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "FU-02",
    title: "Cornea over the older limit with guttata",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Central corneal thickness of an eye with guttata or Fuchs dystrophy against 640 µm. The limit itself passes.",
    why: "640 µm is the older rule in Fuchs dystrophy, recalled and not read again; the newer series behind FU-01 puts the concern at 570 µm.",
    options: "See FU-01: the options are the same, and the concern is greater.",
    sources: &[Standing::Memory.of(NO_SOURCE, "CCT > 640 µm")],
    limits: &["fuchs_thickness_older"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    thickness_with_guttata(facts, facts.limits.fuchs_thickness_older)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for thickness in ["639 µm", "640 µm"] {
            assert_satisfied(&RULE, |draft| {
                draft.operated().state.guttata = Some(true);
                draft.set_corneal_thickness(thickness);
            });
        }
        assert_finding(
            &RULE,
            |draft| {
                draft.operated().state.guttata = Some(true);
                draft.set_corneal_thickness("641 µm");
            },
            ["641 µm", "at most 640 µm"],
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
