//! `NG-01`: a LOCS III grade too near to hard to tell.

use crate::biometry::NucleusGrade;
use crate::evidence::{HOUSE, LOCS_III, Source, Standing};
use crate::quantity::decimal;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "NG-01",
    title: "The nucleus could be hard or not",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "LOCS III nuclear opalescence against the grade from which it counts as hard (5.0 unless the clinic changed it). A distance of 0.7, the 95 % tolerance of a grade, or less is a finding. Other scales print no tolerance, and grades are never converted.",
    why: "A second grading of the same nucleus may come out up to 0.7 higher or lower, so rules that ask for a hard nucleus could turn out either way.",
    options: "Consider a second grading, and read the rules on chamber depth as if either could hold.",
    sources: &[
        Source {
            work: LOCS_III,
            locator: "95 % tolerance 0.7",
            standing: Standing::Printed,
        },
        Source {
            work: HOUSE,
            locator: "hard from 5.0 on",
            standing: Standing::Assumption,
        },
    ],
    limits: &["locs_tolerance_tenths", "hard_locs_tenths"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let opalescence = match facts.operated.0.state.nucleus {
        None => return not_evaluated("grade of the nucleus"),
        Some(NucleusGrade::LocsIii { opalescence, .. }) => opalescence,
        Some(_) => return not_applicable("only LOCS III prints a tolerance"),
    };
    let grade = i32::from(opalescence.tenths());
    let (hard, tolerance) = (
        facts.limits.hard_locs_tenths,
        facts.limits.locs_tolerance_tenths,
    );
    if tolerance < (grade - hard).abs() {
        return Verdict::Satisfied;
    }
    let [hard, tolerance] = [hard, tolerance].map(|tenths| decimal::write(tenths, 1, 1));
    Finding::new(
        format!("LOCS III NO {opalescence}"),
        format!("more than {tolerance} from {hard}"),
    )
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{EmeryLittleGrade, NucleusGrade, WhoGrade};
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn at_the_tolerance_and_one_step_beyond() {
        for (tenths, measured) in [
            (43, "LOCS III NO 4.3"),
            (50, "LOCS III NO 5.0"),
            (57, "LOCS III NO 5.7"),
        ] {
            assert_finding(
                &RULE,
                |draft| draft.set_locs_opalescence(tenths),
                [measured, "more than 0.7 from 5.0"],
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
