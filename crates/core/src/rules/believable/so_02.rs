//! `SO-02`: the eye holds silicone oil and its length was corrected for it.

use super::silicone_oil;
use crate::biometry::SiliconeOil;
use crate::evidence::{SILICONE_OIL, Standing};
use crate::rules::{Because, Detail, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "SO-02",
    title: "Silicone oil in the eye",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the vitreous cavity of the operative eye holds silicone oil and the axial length was measured in the mode for oil. Eyes without oil do not concern this rule; an uncorrected length is the business of SO-01.",
    why: "A corrected length is still a rough one: sound travels at 980 m/s in silicone oil against 1532 m/s in vitreous, and only a third of such eyes came within ±1 D. While the oil stays in, the eye needs +3 to +5 D more lens power than without it.",
    options: "Consider whether the oil will stay or be removed, which of the two the target is meant for, and telling the patient of the scatter. If it stands, the reason may be recorded.",
    sources: &[Standing::Printed.of(
        SILICONE_OIL,
        "sound 980 m/s against 1532 in vitreous; +3 to +5 D; a third within ±1 D",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    match silicone_oil(facts)? {
        SiliconeOil::Absent => Err(Because::NoSiliconeOil.into()),
        SiliconeOil::LengthUncorrected => Err(Because::UncorrectedForOil.into()),
        SiliconeOil::LengthCorrected => Finding::new(Fact::CorrectedForOil, Limit::NoSiliconeOil)
            .with([Detail::FilledEye])
            .found(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::SiliconeOil;
    use crate::rules::testing::{assert_found, assert_not_applicable, assert_not_evaluated};
    use crate::rules::{Detail, Fact, Limit};

    #[test]
    fn oil_is_a_finding_though_the_length_is_corrected() {
        let finding = assert_found(
            &RULE,
            |draft| draft.operated().state.silicone_oil = Some(SiliconeOil::LengthCorrected),
            Fact::CorrectedForOil,
            Limit::NoSiliconeOil,
        );
        assert_eq!(finding.details, [Detail::FilledEye]);
    }

    #[test]
    fn without_oil_or_correction_it_does_not_apply() {
        for oil in [SiliconeOil::Absent, SiliconeOil::LengthUncorrected] {
            assert_not_applicable(&RULE, |draft| {
                draft.operated().state.silicone_oil = Some(oil);
                draft.fellow().state.silicone_oil = Some(SiliconeOil::LengthCorrected);
            });
        }
    }

    #[test]
    fn oil_nobody_looked_for_is_not_absent() {
        assert_not_evaluated(&RULE, |draft| draft.operated().state.silicone_oil = None);
    }
}
