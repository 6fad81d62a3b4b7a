//! Odds ratios of posterior capsule rupture in a national audit of 961,208 operations (Eye 2024).
//!
//! No intercept is printed, so no percentage is computed from them, and they are not multiplied.

use crate::case::{Sex, SurgeonGrade};
use crate::rules::Facts;
use crate::rules::check::either;

/// One printed odds ratio, and whether it concerns this case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OddsRatio {
    /// What raises the odds.
    pub factor: &'static str,
    /// By how much, as printed.
    pub ratio: f64,
    /// Whether it applies; `None` if that cannot be told.
    pub applies: Option<bool>,
    /// Why it is not applied although it may concern this patient.
    pub note: Option<&'static str>,
}

/// Share of operations with a rupture in the whole audit, percent.
pub const BASE_RATE_PERCENT: f64 = 1.01;

/// The printed odds ratios, highest first.
#[must_use]
pub fn odds_ratios(facts: &Facts<'_>) -> Vec<OddsRatio> {
    let state = &facts.operated.0.state;
    let surgeon = facts.draft.operation.surgeon;
    // Up to which age a male counts as younger is not printed, so nobody is told that it applies.
    let (younger_male, note) = match facts.draft.patient.sex {
        Some(Sex::Female) => (Some(false), None),
        Some(Sex::Male) => (None, Some("not applied: the age limit is not printed")),
        Some(Sex::Other) | None => (None, None),
    };
    let plain = |factor, ratio, applies| OddsRatio {
        factor,
        ratio,
        applies,
        note: None,
    };
    vec![
        plain(
            "trainee of less experience",
            3.75,
            surgeon.map(|grade| grade == SurgeonGrade::Trainee),
        ),
        plain(
            "pseudoexfoliation or phacodonesis",
            3.47,
            either(state.pseudoexfoliation, state.phacodonesis),
        ),
        OddsRatio {
            factor: "younger male",
            ratio: 3.05,
            applies: younger_male,
            note,
        },
        plain(
            "brunescent, white or mature cataract",
            2.41,
            either(state.brunescent, state.white_cataract),
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::OddsRatio;
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
            ("trainee of less experience", 3.75),
            ("pseudoexfoliation or phacodonesis", 3.47),
            ("younger male", 3.05),
            ("brunescent, white or mature cataract", 2.41),
        ];
        assert_eq!(ratios.len(), printed.len());
        for (found, (factor, ratio)) in ratios.iter().zip(printed) {
            assert_eq!(found.factor, factor);
            assert!((found.ratio - ratio).abs() < 1e-12);
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
        let note = "not applied: the age limit is not printed";
        assert_eq!(ratios[2].note, Some(note));
    }
}
