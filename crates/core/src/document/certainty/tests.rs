use super::*;
use crate::limits::Limits;
use crate::plan::Plan;

/// An irregular cornea leaves formulas and ladder as they are, and no range at all.
#[test]
fn a_withheld_range_has_its_reason_in_the_document() {
    let text = include_str!("../../../../../demo-data/cases/ordinary-eye.ron");
    let mut draft = crate::case_file::read(text).unwrap();
    let side = draft.operation.eye.unwrap();
    draft.eyes.get_mut(side).state.irregular_cornea = Some(true);
    let plan = Plan::of(&draft, Limits::shipped()).unwrap();
    let ladder = plan.ladder.unwrap();
    let result = CertaintyResult::of(&ladder, &plan.certainty.unwrap());
    assert_eq!(result.withheld, [Withheld::IrregularCornea]);
    assert!(result.pooled.is_empty() && result.closely.is_none());
    assert!(ladder.columns.iter().any(|column| column.answer.is_ok()));
    for (formula, column) in result.formulas.iter().zip(&ladder.columns) {
        assert!(formula.rungs.is_empty());
        if column.answer.is_ok() {
            let because = Withheld::IrregularCornea;
            let withheld = NoDistribution::Withheld { because };
            assert_eq!(formula.basis, Outcome::Refusal(withheld));
        }
    }
}
