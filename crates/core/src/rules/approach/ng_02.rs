//! `NG-02`: grade and appearance of the nucleus contradict each other.

use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::finding::{HardNucleus, WhyUnclear};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "NG-02",
    title: "Grade and appearance of the nucleus contradict each other",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether a cataract recorded as brunescent or white has a grade that does not count as hard on its scale. A dense one may have a soft nucleus, and is not a finding. A nucleus that somebody judged, with a reason, is not asked about again.",
    why: "A brown nucleus is a hard one, and one behind a white cortex cannot be graded by its looks: one of the two entries is likely wrong, and the rules on chamber depth hang on it. Until it is settled they take the nucleus as hard, which is the safer mistake.",
    options: "Consider a second look at the slit lamp; the entry that is wrong may be corrected, or the nucleus judged on the Approach page, with a reason.",
    sources: &[
        Standing::CommonPractice.of(
            NO_SOURCE,
            "brown nuclei are hard; a white cortex hides the nucleus",
        ),
        Standing::Assumption.of(HOUSE, "from which grade a nucleus counts as hard"),
    ],
    limits: &[
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let found = facts.nucleus();
    match found {
        HardNucleus::Yes(_) | HardNucleus::No(_) => {
            if facts.draft.approach.nucleus_judged.is_some() {
                return Err(Because::NucleusJudged.into());
            }
            Ok(None)
        }
        HardNucleus::Unclear(WhyUnclear::NotGraded) => Err(Missing::NucleusGrade.into()),
        HardNucleus::Unclear(
            WhyUnclear::White | WhyUnclear::Dense | WhyUnclear::DenseGradedSoft,
        ) => Ok(None),
        HardNucleus::Unclear(WhyUnclear::BrunescentGradedSoft | WhyUnclear::WhiteGradedSoft) => {
            Finding::new(Fact::Nucleus(found), Limit::GradeAsItLooks).found()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::JudgedNucleus;
    use crate::finding::{HardNucleus, WhyUnclear};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, date,
    };
    use crate::rules::{Fact, Limit};

    fn soft_and(seen: fn(&mut DraftUnderTest)) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.set_locs_opalescence(20);
            seen(draft);
        }
    }

    fn brown(draft: &mut DraftUnderTest) {
        draft.operated().state.brunescent = Some(true);
    }

    #[test]
    fn brown_or_white_with_a_soft_grade_is_a_contradiction() {
        let white = |draft: &mut DraftUnderTest| draft.operated().state.white_cataract = Some(true);
        for (seen, why) in [
            (brown as fn(&mut _), WhyUnclear::BrunescentGradedSoft),
            (white, WhyUnclear::WhiteGradedSoft),
        ] {
            let found = Fact::Nucleus(HardNucleus::Unclear(why));
            assert_found(&RULE, soft_and(seen), found, Limit::GradeAsItLooks);
        }
        assert_satisfied(&RULE, soft_and(|_| {}));
        assert_satisfied(
            &RULE,
            soft_and(|draft| draft.operated().state.dense_cataract = Some(true)),
        );
        assert_satisfied(&RULE, |draft| {
            draft.set_hard_nucleus();
            brown(draft);
        });
        assert_satisfied(&RULE, brown);
        assert_not_evaluated(&RULE, |_| {});
    }

    #[test]
    fn one_that_was_judged_is_not_asked_about_again() {
        assert_not_applicable(&RULE, |draft| {
            soft_and(brown)(draft);
            draft.0.approach.nucleus_judged = Some(JudgedNucleus {
                hard: false,
                reason: "seen at the slit lamp again".to_owned(),
                by: "A. Okafor".to_owned(),
                on: date(2026, 12, 1),
            });
        });
    }
}
