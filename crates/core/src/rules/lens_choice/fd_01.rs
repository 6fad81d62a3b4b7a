//! `FD-01`: the formulas disagree.

use super::fd_02;
use crate::evidence::{HOUSE, Standing};
use crate::iol_power::Formula;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::check::at_most;
use crate::rules::{Because, Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity};

/// Largest spread of exact powers without a finding (assumption).
const LIMIT: HundredthDiopters = HundredthDiopters::new(100);

pub const RULE: Rule = Rule {
    id: "FD-01",
    title: "The formulas disagree",
    group: Group::LensChoice,
    severity: Severity::Note,
    bearing: None,
    checks: "Highest less lowest exact power of all formulas that answered, to the nearest 0.01 D, against 1.00 D. The limit itself passes; over 2.00 D FD-02 speaks instead. Formulas that refused are left out, and so is the thick-lens eye, which has no fitted constant; at least two answers are needed.",
    why: "Formulas part in unusual eyes, and when a constant does not suit its formula. The limit is our own value.",
    options: "Consider the cautions and the constants of the columns that stand apart; the formula that guidance names for this length may help to choose.",
    sources: &[Standing::Assumption.of(HOUSE, "spread of 1.00 D")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (spread, extremes) = spread(facts)?;
    if fd_02::LIMIT < spread {
        return Err(Because::WiderLimitExceeded.into());
    }
    Ok(at_most(Quantity::Magnitude, spread, LIMIT).map(|finding| finding.with([extremes])))
}

/// How far the formulas are apart, and which; `FD-02` asks it too.
pub(super) fn spread(facts: &Facts<'_>) -> Result<(HundredthDiopters, Detail), Missing> {
    let ladder = facts.ladder().ok_or(Missing::LensAndTarget)?;
    let mut answers: Vec<(Formula, Diopters)> = ladder
        .columns
        .iter()
        .filter(|column| column.formula.has_fitted_constant())
        .filter_map(|column| Some((column.formula, column.answer.as_ref().ok()?.exact_power)))
        .collect();
    answers.sort_by(|(_, power), (_, other)| power.d().total_cmp(&other.d()));
    let [lowest, .., highest] = answers.as_slice() else {
        return Err(Missing::TwoAnswers);
    };
    let usable = |power: Diopters| power.nearest_hundredth().ok_or(Missing::UsableAnswers);
    let spread = usable(highest.1 - lowest.1)?;
    let extremes = Detail::Extremes {
        lowest: (lowest.0, usable(lowest.1)?),
        highest: (highest.0, usable(highest.1)?),
    };
    Ok((spread, extremes))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{CornealSurgery, CornealSurgeryKind};
    use crate::iol_power::{Formula, HaigisConstants};
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_evaluated, assert_satisfied, diopters,
    };

    /// Plans with another constant a0 of Haigis.
    fn haigis_a0(a0_mm: f64) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            let constants = &mut draft.chosen().record.constants;
            let value = HaigisConstants::new(a0_mm, 0.4, 0.1).unwrap();
            constants.haigis.as_mut().unwrap().value = value;
        }
    }

    /// Exact powers in closed form at 50 digits (`tests/oracle/closed_forms.py`), AL 23.50 mm, K
    /// 43.50 and 44.00 D, ACD 3.20 mm: Hoffer Q, the lowest, 21.01122 D; Haigis, the highest,
    /// 22.01193 D with a0 1.868, 22.02026 D with 1.872, 22.07873 D with 1.9.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, haigis_a0(1.868));
        let texts = ["1.01 D", "at most 1.00 D"];
        let finding = assert_finding(&RULE, haigis_a0(1.872), texts);
        let detail = Detail::Extremes {
            lowest: (Formula::HofferQ, diopters(2_101)),
            highest: (Formula::Haigis, diopters(2_202)),
        };
        assert_eq!(finding.details, [detail]);
        let texts = ["1.07 D", "at most 1.00 D"];
        assert_finding(&RULE, DraftUnderTest::plan_lens, texts);
    }

    #[test]
    fn formulas_that_refused_are_left_out() {
        assert_satisfied(&RULE, |draft| {
            draft.plan_lens();
            draft.operated().chamber_depth = None;
        });
    }

    #[test]
    fn at_least_two_answers_are_needed() {
        // After myopic laser of unknown extent the modified Haigis alone answers.
        assert_not_evaluated(&RULE, |draft| {
            draft.plan_lens();
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Done {
                kind: CornealSurgeryKind::MyopicLaser,
                before: None,
                correction: None,
            });
        });
        for remove in [
            (|draft| draft.operated().axial_length = None) as fn(&mut DraftUnderTest),
            DraftUnderTest::without_lens,
            |draft| draft.0.lens.target = None,
        ] {
            assert_not_evaluated(&RULE, |draft| {
                draft.plan_lens();
                remove(draft);
            });
        }
    }
}
