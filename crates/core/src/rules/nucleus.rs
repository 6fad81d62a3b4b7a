//! One judgment of the nucleus, from its grade on its own scale and from its appearance.

use crate::biometry::{EyeState, NucleusGrade};
use crate::case::JudgedNucleus;
use crate::finding::{HardNucleus, WhyHard, WhyNotHard, WhyUnclear};
use crate::limits::Limits;

/// Whether the nucleus counts as hard. What somebody judged goes before what follows from the entries.
///
/// A grade counts on its scale alone. An appearance that says more than the grade, or stands without
/// one, leaves it unclear, never soft.
pub(super) fn hard_nucleus(
    state: &EyeState,
    judged: Option<&JudgedNucleus>,
    limits: &Limits,
) -> HardNucleus {
    if let Some(judged) = judged {
        return if judged.hard {
            HardNucleus::Yes(WhyHard::Judged)
        } else {
            HardNucleus::No(WhyNotHard::Judged)
        };
    }
    let is = |seen: Option<bool>| seen == Some(true);
    let (brown, white, dense) = (
        is(state.brunescent),
        is(state.white_cataract),
        is(state.dense_cataract),
    );
    match state.nucleus.map(|grade| why_hard(grade, limits)) {
        Some(Some(why)) => HardNucleus::Yes(why),
        Some(None) if brown => HardNucleus::Unclear(WhyUnclear::BrunescentGradedSoft),
        Some(None) if white => HardNucleus::Unclear(WhyUnclear::WhiteGradedSoft),
        Some(None) if dense => HardNucleus::Unclear(WhyUnclear::DenseGradedSoft),
        Some(None) => HardNucleus::No(WhyNotHard::Grade),
        None if brown => HardNucleus::Yes(WhyHard::Brunescent),
        None if white => HardNucleus::Unclear(WhyUnclear::White),
        None if dense => HardNucleus::Unclear(WhyUnclear::Dense),
        None => HardNucleus::Unclear(WhyUnclear::NotGraded),
    }
}

/// Why a grade counts as hard on its own scale; nothing if it does not.
fn why_hard(grade: NucleusGrade, limits: &Limits) -> Option<WhyHard> {
    let by_grade = |is_hard: bool| is_hard.then_some(WhyHard::Grade);
    match grade {
        NucleusGrade::LocsIii { opalescence, color } => {
            let limit = limits.hard_locs_tenths;
            let is_hard = |tenths: u8| limit <= i32::from(tenths);
            if is_hard(opalescence.tenths()) {
                return Some(WhyHard::Grade);
            }
            color
                .is_some_and(|color| is_hard(color.tenths()))
                .then_some(WhyHard::Color)
        }
        NucleusGrade::WhoSimplified(grade) => {
            by_grade(limits.hard_who_grade <= i32::from(grade.grade()))
        }
        NucleusGrade::EmeryLittle(grade) => {
            by_grade(limits.hard_emery_little_grade <= i32::from(grade.grade()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::{EmeryLittleGrade, LocsTenths, WhoGrade};
    use crate::rules::testing::date;

    fn locs(opalescence: i32, color: Option<i32>) -> NucleusGrade {
        NucleusGrade::LocsIii {
            opalescence: LocsTenths::new(opalescence).unwrap(),
            color: color.map(|tenths| LocsTenths::new(tenths).unwrap()),
        }
    }

    fn who(grade: u8) -> NucleusGrade {
        NucleusGrade::WhoSimplified(WhoGrade::new(grade).unwrap())
    }

    fn emery_little(grade: u8) -> NucleusGrade {
        NucleusGrade::EmeryLittle(EmeryLittleGrade::new(grade).unwrap())
    }

    fn of(grade: impl Into<Option<NucleusGrade>>, seen: &str) -> HardNucleus {
        let state = EyeState {
            nucleus: grade.into(),
            brunescent: Some(seen.contains("brown")),
            white_cataract: Some(seen.contains("white")),
            dense_cataract: Some(seen.contains("dense")),
            ..EyeState::default()
        };
        hard_nucleus(&state, None, Limits::shipped())
    }

    /// Shipped limits: LOCS III 5.0, WHO 3, Emery-Little IV. Opalescence 4.5 with color 6.9 is one of
    /// the eyes that came back without a word.
    #[test]
    fn a_grade_counts_on_its_own_scale_and_the_color_counts_too() {
        let (yes, no) = (HardNucleus::Yes, HardNucleus::No(WhyNotHard::Grade));
        for (grade, expected) in [
            (locs(50, None), yes(WhyHard::Grade)),
            (locs(49, None), no),
            (locs(49, Some(49)), no),
            (locs(49, Some(50)), yes(WhyHard::Color)),
            (locs(45, Some(69)), yes(WhyHard::Color)),
            (locs(69, Some(10)), yes(WhyHard::Grade)),
            (who(2), no),
            (who(3), yes(WhyHard::Grade)),
            (emery_little(3), no),
            (emery_little(4), yes(WhyHard::Grade)),
        ] {
            assert_eq!(of(grade, ""), expected, "{grade:?}");
        }
    }

    #[test]
    fn an_appearance_without_a_grade_is_never_soft() {
        use HardNucleus::{Unclear, Yes};
        for (seen, expected) in [
            ("brown", Yes(WhyHard::Brunescent)),
            ("brown white dense", Yes(WhyHard::Brunescent)),
            ("white", Unclear(WhyUnclear::White)),
            ("white dense", Unclear(WhyUnclear::White)),
            ("dense", Unclear(WhyUnclear::Dense)),
            ("", Unclear(WhyUnclear::NotGraded)),
        ] {
            assert_eq!(of(None, seen), expected, "{seen}");
        }
        let nothing = hard_nucleus(&EyeState::default(), None, Limits::shipped());
        assert_eq!(nothing, Unclear(WhyUnclear::NotGraded));
    }

    #[test]
    fn an_appearance_that_says_more_than_the_grade_leaves_it_unclear() {
        use HardNucleus::Unclear;
        for (seen, why) in [
            ("brown", WhyUnclear::BrunescentGradedSoft),
            ("brown white", WhyUnclear::BrunescentGradedSoft),
            ("white", WhyUnclear::WhiteGradedSoft),
            ("dense", WhyUnclear::DenseGradedSoft),
        ] {
            for soft in [locs(20, None), who(2), emery_little(2)] {
                assert_eq!(of(soft, seen), Unclear(why), "{seen}");
            }
            let hard = HardNucleus::Yes(WhyHard::Grade);
            assert_eq!(of(emery_little(5), seen), hard, "{seen}");
        }
    }

    #[test]
    fn what_somebody_judged_goes_before_everything() {
        for (hard, expected) in [
            (true, HardNucleus::Yes(WhyHard::Judged)),
            (false, HardNucleus::No(WhyNotHard::Judged)),
        ] {
            let judged = JudgedNucleus {
                hard,
                reason: "fellow eye was the same".to_owned(),
                by: "A. Okafor".to_owned(),
                on: date(2026, 12, 1),
            };
            let state = EyeState {
                nucleus: Some(who(2)),
                brunescent: Some(true),
                ..EyeState::default()
            };
            let found = hard_nucleus(&state, Some(&judged), Limits::shipped());
            assert_eq!(found, expected);
        }
    }
}
