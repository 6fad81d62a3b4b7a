//! `FU-03`: guttata, and nobody counted the endothelial cells.

use super::guttata;
use crate::evidence::{HOUSE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "FU-03",
    title: "Guttata without endothelial cell density",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether endothelial cell density was measured in an eye with guttata or Fuchs dystrophy.",
    why: "Without a count, neither the reserve of the endothelium before the operation nor its loss afterward can be stated.",
    options: "Consider measuring endothelial cell density.",
    sources: &[Standing::Assumption.of(HOUSE, "a count belongs to an eye with guttata")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    guttata(facts)?;
    if facts.operated.0.endothelium.is_some() {
        return Ok(None);
    }
    Finding::new(Fact::NotMeasured, Limit::CellsCounted).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn a_missing_count_is_found_only_with_guttata() {
        assert_found(
            &RULE,
            |draft| draft.operated().state.guttata = Some(true),
            Fact::NotMeasured,
            Limit::CellsCounted,
        );
        assert_satisfied(&RULE, |draft| {
            draft.operated().state.guttata = Some(true);
            draft.set_endothelium("2000 cells/mm²");
        });
        assert_not_applicable(&RULE, |draft| draft.operated().state.guttata = Some(false));
        assert_not_evaluated(&RULE, |_| {});
    }
}
