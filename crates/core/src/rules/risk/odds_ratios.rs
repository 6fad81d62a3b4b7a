//! Odds ratios of posterior capsule rupture in a national audit of 961,208 operations (Eye 2024).
//!
//! No intercept is printed, so no percentage is computed from them, and they are not multiplied.

use crate::choice::{Sex, SurgeonGrade};
use crate::finding::OddsFactor;
use crate::rules::Facts;
use crate::rules::check::either;

/// One printed odds ratio, and whether it concerns this case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OddsRatio {
    pub factor: OddsFactor,
    /// Whether it applies; `None` if that cannot be told.
    pub applies: Option<bool>,
    /// Whether it may concern this patient and is not applied since its own limit is not printed.
    pub limit_not_printed: bool,
}

/// Share of operations with a rupture in the whole audit, percent.
pub const BASE_RATE_PERCENT: f64 = 1.01;

/// The printed odds ratios, highest first.
pub fn odds_ratios(facts: &Facts<'_>) -> Vec<OddsRatio> {
    let state = &facts.operated.0.state;
    let sex = facts.draft.patient.sex;
    let ratios = OddsFactor::ALL.map(|factor| {
        let applies = match factor {
            OddsFactor::Trainee => {
                let surgeon = facts.draft.operation.surgeon;
                surgeon.map(|grade| grade == SurgeonGrade::Trainee)
            }
            OddsFactor::WeakZonules => either(state.pseudoexfoliation, state.phacodonesis),
            // Up to which age a male counts as younger is not printed, so nobody is told that it
            // applies.
            OddsFactor::YoungerMale => (sex == Some(Sex::Female)).then_some(false),
            OddsFactor::DenseCataract => either(state.brunescent, state.white_cataract),
        };
        OddsRatio {
            factor,
            applies,
            limit_not_printed: factor == OddsFactor::YoungerMale && sex == Some(Sex::Male),
        }
    });
    ratios.to_vec()
}

#[cfg(test)]
mod tests {
    use super::{OddsFactor, OddsRatio};
    use crate::case::{Sex, SurgeonGrade};
    use crate::rules::testing::{DraftUnderTest, plan};

    fn ratios(change: impl FnOnce(&mut DraftUnderTest)) -> Vec<OddsRatio> {
        plan(change).odds_ratios
    }

    fn applies(change: impl FnOnce(&mut DraftUnderTest)) -> Vec<Option<bool>> {
        let ratios = ratios(change);
        ratios.iter().map(|ratio| ratio.applies).collect()
    }

    /// Ratios as printed in the abstract.
    #[test]
    fn as_printed_and_unknown_until_recorded() {
        let ratios = ratios(|_| {});
        let printed = [
            (OddsFactor::Trainee, 3.75),
            (OddsFactor::WeakZonules, 3.47),
            (OddsFactor::YoungerMale, 3.05),
            (OddsFactor::DenseCataract, 2.41),
        ];
        assert_eq!(ratios.len(), printed.len());
        for (found, (factor, ratio)) in ratios.iter().zip(printed) {
            assert_eq!(found.factor, factor);
            assert!((found.factor.ratio() - ratio).abs() < 1e-12);
            assert_eq!(found.applies, None);
        }
    }

    #[test]
    fn each_applies_by_its_own_record() {
        let none = |draft: &mut DraftUnderTest| {
            draft.set_unremarkable_state();
            draft.0.operation.surgeon = Some(SurgeonGrade::Independent);
            draft.0.patient.sex = Some(Sex::Female);
        };
        assert_eq!(applies(none), [Some(false); 4]);
        let [yes, no] = [Some(true), Some(false)];
        assert_eq!(
            applies(|draft| {
                none(draft);
                draft.0.operation.surgeon = Some(SurgeonGrade::Trainee);
            }),
            [yes, no, no, no]
        );
        assert_eq!(
            applies(|draft| {
                none(draft);
                draft.0.operation.surgeon = Some(SurgeonGrade::ExperiencedTrainee);
            }),
            [no; 4]
        );
        assert_eq!(
            applies(|draft| {
                none(draft);
                draft.operated().state.phacodonesis = Some(true);
            }),
            [no, yes, no, no]
        );
        assert_eq!(
            applies(|draft| {
                none(draft);
                draft.operated().state.brunescent = Some(true);
            }),
            [no, no, no, yes]
        );
    }

    #[test]
    fn a_male_is_never_told_that_he_is_younger() {
        let ratios = ratios(|draft| draft.0.patient.sex = Some(Sex::Male));
        assert_eq!(ratios[2].applies, None);
        assert!(ratios[2].limit_not_printed);
    }
}
