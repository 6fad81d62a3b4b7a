//! `ZN-01`: the lens trembles or lies off center, without pseudoexfoliation.

use crate::biometry::Sign;
use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::recorded;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "ZN-01",
    title: "The lens trembles or lies off center",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether phacodonesis was seen, or the lens center lies more than 0.260 mm off the axis, in an eye without pseudoexfoliation; one is enough, and the limit itself passes. With pseudoexfoliation PX-01 to PX-04 speak.",
    why: "Both mean that zonules are weak or gone: by injury, a syndrome, high myopia, or earlier surgery. The capsular bag may give way, vitreous may come forward, and a lens in the bag may move later. No limit of decentration is printed for eyes without pseudoexfoliation; that of PX-03 is taken.",
    options: "Consider a capsular tension ring, capsule hooks, a lens for the sulcus or another fixation, and a vitrector at hand; the patient may be told that the plan can change during the operation. A history of injury and of the family may be asked for.",
    sources: &[
        Standing::CommonPractice.of(
            NO_SOURCE,
            "weak zonules: ring, hooks and other lenses at hand",
        ),
        Standing::Assumption.of(HOUSE, "0.260 mm also without pseudoexfoliation"),
    ],
    limits: &["pseudoexfoliation_decentration"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let state = &facts.operated.0.state;
    if state.pseudoexfoliation == Some(true) {
        return Err(Because::Pseudoexfoliation.into());
    }
    // A sign could only be a direction.
    let off = state
        .lens_decentration
        .map(|off| off.abs_diff(Micrometers::new(0)));
    let limit = facts.limits.pseudoexfoliation_decentration;
    let far_off = off.filter(|off| limit < *off);
    let trembles = state.phacodonesis == Some(true);
    if !trembles && far_off.is_none() {
        recorded(facts, Sign::Phacodonesis)?;
        off.ok_or(Missing::LensDecentration)?;
        return Ok(None);
    }
    let found = Fact::LooseLens {
        trembles,
        off: far_off,
    };
    Finding::new(found, Limit::FirmLens(limit)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit};

    fn lens(trembles: Option<bool>, off_um: Option<i32>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let state = &mut draft.operated().state;
            state.phacodonesis = trembles;
            state.lens_decentration = off_um.map(micrometers);
        }
    }

    #[track_caller]
    fn assert_loose(trembles: Option<bool>, off_um: Option<i32>, shown_um: Option<i32>) {
        let found = Fact::LooseLens {
            trembles: trembles == Some(true),
            off: shown_um.map(micrometers),
        };
        let limit = Limit::FirmLens(micrometers(260));
        assert_found(&RULE, lens(trembles, off_um), found, limit);
    }

    #[test]
    fn one_is_enough_whatever_of_the_other_was_recorded() {
        assert_loose(Some(true), None, None);
        assert_loose(Some(true), Some(260), None);
        assert_loose(None, Some(261), Some(261));
        assert_loose(Some(false), Some(-261), Some(261));
        assert_loose(Some(true), Some(1_500), Some(1_500));
    }

    #[test]
    fn a_firm_lens_passes_and_silence_does_not() {
        assert_satisfied(&RULE, lens(Some(false), Some(260)));
        assert_not_evaluated(&RULE, lens(None, Some(260)));
        assert_not_evaluated(&RULE, lens(Some(false), None));
        assert_not_evaluated(&RULE, lens(None, None));
    }

    #[test]
    fn with_pseudoexfoliation_other_rules_speak() {
        assert_not_applicable(&RULE, |draft| {
            lens(Some(true), Some(900))(draft);
            draft.operated().state.pseudoexfoliation = Some(true);
        });
    }
}
