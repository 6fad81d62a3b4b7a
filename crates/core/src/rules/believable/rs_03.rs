//! `RS-03`: predictions scatter more after corneal refractive surgery.

use super::corneal_surgery;
use crate::evidence::{BMC_2017_44, MELLES_2018, Standing};
use crate::rules::{Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "RS-03",
    title: "Prediction scatters after corneal surgery",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the operative eye had corneal surgery; any is a finding.",
    why: "After corneal refractive surgery the prediction errors of published methods scatter with a standard deviation of about 0.70 to 0.72 D, against about 0.44 to 0.47 D of common formulas in 18,501 eyes without it.",
    options: "Consider telling the patient, comparing several methods in the lens power table, and the side of the target on which a miss is easier to bear.",
    sources: &[
        Standing::Printed.of(
            BMC_2017_44,
            "scatter 0.695 to 0.721 D (1 SD, abstract), of no-history K and the modified radius",
        ),
        Standing::Printed.of(MELLES_2018, "SD 0.437 to 0.473 D in 18,501 eyes"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let surgery = corneal_surgery(facts)?;
    Finding::new(Fact::Surgery(surgery), Limit::NoCornealSurgery)
        .with([Detail::ScatterAfterSurgery])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::CornealSurgery;
    use crate::rules::testing::{
        SURGERIES, assert_found, assert_not_applicable, assert_not_evaluated,
    };
    use crate::rules::{Detail, Fact, Limit};

    #[test]
    fn any_surgery_is_shown_with_the_scatter() {
        for kind in SURGERIES {
            let finding = assert_found(
                &RULE,
                |draft| draft.operate_cornea(kind),
                Fact::Surgery(kind),
                Limit::NoCornealSurgery,
            );
            assert_eq!(finding.details, [Detail::ScatterAfterSurgery]);
        }
    }

    #[test]
    fn without_surgery_it_does_not_apply_and_unasked_it_is_not_evaluated() {
        assert_not_applicable(&RULE, |draft| {
            draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
        });
        assert_not_evaluated(&RULE, |draft| draft.operated().state.corneal_surgery = None);
    }
}
