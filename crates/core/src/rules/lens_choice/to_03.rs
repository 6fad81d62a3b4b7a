//! `TO-03`: a toric lens for a cornea that no cylinder describes.

use super::toric_steps;
use crate::biometry::CornealSurgery;
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "TO-03",
    title: "Toric lens in an irregular or operated cornea",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the cornea of the operative eye is recorded as irregular, or as having had refractive surgery, while the chosen lens is toric.",
    why: "Keratometry of two meridians does not give the astigmatism of such a cornea, and it may change. Millrace then makes no toric calculation, and TO-10 stops a cylinder that was chosen all the same.",
    options: "A lens without a cylinder may be chosen; a corneal map and a specialist's calculation may be sought.",
    sources: &[Standing::CommonPractice.of(NO_SOURCE, "toric lenses are for regular corneas")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    toric_steps(facts)?;
    let state = &facts.operated.0.state;
    let operated = state
        .corneal_surgery
        .map(|surgery| matches!(surgery, CornealSurgery::Done { .. }));
    if state.irregular_cornea != Some(true) && operated != Some(true) {
        state.irregular_cornea.ok_or(Missing::IrregularCornea)?;
        operated.ok_or(Missing::CornealSurgery)?;
        return Ok(None);
    }
    let found = Fact::Cornea {
        irregular: state.irregular_cornea == Some(true),
        operated: operated == Some(true),
    };
    Finding::new(found, Limit::RegularCornea).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::{choose_power, toric};
    use crate::rules::{Fact, Limit};

    #[test]
    fn either_is_enough() {
        assert_satisfied(&RULE, toric(|_| {}));
        let assert_cornea = |change: Box<dyn FnOnce(&mut DraftUnderTest)>, irregular, operated| {
            let found = Fact::Cornea {
                irregular,
                operated,
            };
            assert_found(&RULE, toric(change), found, Limit::RegularCornea);
        };
        assert_cornea(
            Box::new(|draft| draft.operated().state.irregular_cornea = Some(true)),
            true,
            false,
        );
        for kind in SURGERIES {
            assert_cornea(
                Box::new(move |draft| draft.operate_cornea(kind)),
                false,
                true,
            );
            assert_cornea(
                Box::new(move |draft| {
                    draft.operate_cornea(kind);
                    draft.operated().state.irregular_cornea = Some(true);
                }),
                true,
                true,
            );
        }
    }

    #[test]
    fn what_nobody_looked_for_is_not_absent() {
        assert_not_evaluated(
            &RULE,
            toric(|draft| draft.operated().state.irregular_cornea = None),
        );
        assert_not_evaluated(
            &RULE,
            toric(|draft| draft.operated().state.corneal_surgery = None),
        );
        assert_not_applicable(&RULE, choose_power(2_100));
        assert_not_evaluated(&RULE, |_| {});
    }
}
