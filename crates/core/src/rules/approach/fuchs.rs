//! `FU-01` and `FU-02`: guttata and a corneal thickness over a limit.

use super::guttata;
use crate::evidence::{FUCHS_64, HOUSE, SEITZMAN_2005, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::at_most;
use crate::rules::{Facts, Group, Look, Quantity, Rule, Severity};

pub const PRINTED: Rule = Rule {
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
    evaluate: |facts| over(facts, facts.limits.fuchs_thickness),
};

pub const OLDER: Rule = Rule {
    id: "FU-02",
    title: "Cornea over the older limit with guttata",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Central corneal thickness of an eye with guttata or Fuchs dystrophy against 640 µm. The limit itself passes.",
    why: "640 µm is the older rule in Fuchs dystrophy, recalled and not read again; the newer series behind FU-01 puts the concern at 570 µm.",
    options: "See FU-01: the options are the same, and the concern is greater.",
    sources: &[Standing::Memory.of(SEITZMAN_2005, "CCT > 640 µm")],
    limits: &["fuchs_thickness_older"],
    evaluate: |facts| over(facts, facts.limits.fuchs_thickness_older),
};

/// The limit itself passes.
fn over(facts: &Facts<'_>, limit: Micrometers) -> Look {
    guttata(facts)?;
    Ok(at_most(Quantity::Thickness, facts.thickness()?, limit))
}

#[cfg(test)]
mod tests {
    use super::{OLDER, PRINTED};
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };

    fn thick(draft: &mut DraftUnderTest, guttata: Option<bool>, thickness: &str) {
        draft.operated().state.guttata = guttata;
        draft.set_corneal_thickness(thickness);
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        for (rule, passing, beyond, limit) in [
            (&PRINTED, ["569 µm", "570 µm"], "571 µm", "at most 570 µm"),
            (&OLDER, ["639 µm", "640 µm"], "641 µm", "at most 640 µm"),
        ] {
            for thickness in passing {
                assert_satisfied(rule, |draft| thick(draft, Some(true), thickness));
            }
            assert_finding(
                rule,
                |draft| thick(draft, Some(true), beyond),
                [beyond, limit],
            );
        }
    }

    #[test]
    fn only_with_guttata_and_a_thickness() {
        for rule in [&PRINTED, &OLDER] {
            assert_not_evaluated(rule, |draft| draft.set_corneal_thickness("700 µm"));
            assert_not_evaluated(rule, |draft| {
                draft.operated().state.guttata = Some(true);
                draft.operated().corneal_thickness = None;
            });
            assert_not_applicable(rule, |draft| thick(draft, Some(false), "700 µm"));
        }
    }
}
