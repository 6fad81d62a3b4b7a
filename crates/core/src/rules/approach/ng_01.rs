//! `NG-01`: a LOCS III grade too near to hard to tell.

use crate::biometry::NucleusGrade;
use crate::evidence::{HOUSE, LOCS_III, Standing};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "NG-01",
    title: "The nucleus could be hard or not",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "LOCS III nuclear opalescence, or the color where it is graded higher, against the grade from which it counts as hard (5.0 unless the clinic changed it). A distance of 0.7, the 95 % tolerance of a grade, or less is a finding. Other scales print no tolerance, and grades are never converted. A nucleus that somebody judged is not asked about again.",
    why: "A second grading of the same nucleus may come out up to 0.7 higher or lower, so rules that ask for a hard nucleus could turn out either way.",
    options: "Consider a second grading, and read the rules on chamber depth as if either could hold.",
    sources: &[
        Standing::Printed.of(LOCS_III, "95 % tolerance 0.7"),
        Standing::Assumption.of(HOUSE, "hard from 5.0 on"),
    ],
    limits: &["locs_tolerance_tenths", "hard_locs_tenths"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    if facts.draft.approach.nucleus_judged.is_some() {
        return Err(Because::NucleusJudged.into());
    }
    let grade = facts
        .operated
        .0
        .state
        .nucleus
        .ok_or(Missing::NucleusGrade)?;
    let NucleusGrade::LocsIii { opalescence, color } = grade else {
        return Err(Because::NoPrintedTolerance.into());
    };
    let limits = facts.limits;
    let (limit, tolerance) = (limits.hard_locs_tenths, limits.locs_tolerance_tenths);
    // The higher of the two decides whether the nucleus is hard.
    let (tenths, found) = match color.filter(|color| opalescence < *color) {
        Some(color) => (color.tenths(), Fact::LocsColor(color.tenths())),
        None => (
            opalescence.tenths(),
            Fact::LocsOpalescence(opalescence.tenths()),
        ),
    };
    if (i32::from(tenths) - limit).abs() > tolerance {
        return Ok(None);
    }
    let limit = Limit::FartherFrom {
        tolerance,
        grade: limit,
    };
    Finding::new(found, limit).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{EmeryLittleGrade, NucleusGrade, WhoGrade};
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn at_the_tolerance_and_one_step_beyond() {
        for tenths in [43, 50, 57] {
            assert_found(
                &RULE,
                |draft| draft.set_locs_opalescence(i32::from(tenths)),
                Fact::LocsOpalescence(tenths),
                Limit::FartherFrom {
                    tolerance: 7,
                    grade: 50,
                },
            );
        }
        for tenths in [42, 58] {
            assert_satisfied(&RULE, |draft| draft.set_locs_opalescence(tenths));
        }
    }

    #[test]
    fn only_for_a_grade_on_this_scale() {
        assert_not_evaluated(&RULE, |_| {});
        for grade in [
            NucleusGrade::WhoSimplified(WhoGrade::new(3).unwrap()),
            NucleusGrade::EmeryLittle(EmeryLittleGrade::new(4).unwrap()),
        ] {
            assert_not_applicable(&RULE, |draft| draft.operated().state.nucleus = Some(grade));
        }
    }
}
