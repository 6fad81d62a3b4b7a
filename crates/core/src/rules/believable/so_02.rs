//! `SO-02`: the eye holds silicone oil and its length was corrected for it.

use super::silicone_oil;
use crate::biometry::SiliconeOil;
use crate::evidence::{SILICONE_OIL, Source, Standing};
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "SO-02",
    title: "Silicone oil in the eye",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the vitreous cavity of the operated eye holds silicone oil and the axial length was measured in the mode for oil. Eyes without oil do not concern this rule; an uncorrected length is the business of SO-01.",
    why: "A corrected length is still a rough one: sound travels at 980 m/s in silicone oil against 1532 m/s in vitreous, and only a third of such eyes came within ±1 D. While the oil stays in, the eye needs +3 to +5 D more lens power than without it.",
    options: "Consider whether the oil will stay or be removed, which of the two the target is meant for, and telling the patient of the scatter. If it stands, the reason may be recorded.",
    sources: &[Source {
        work: SILICONE_OIL,
        locator: "sound 980 m/s against 1532 in vitreous; +3 to +5 D; a third within ±1 D",
        standing: Standing::Printed,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    match silicone_oil(facts) {
        Err(verdict) => verdict,
        Ok(SiliconeOil::Absent) => not_applicable("no silicone oil"),
        Ok(SiliconeOil::LengthUncorrected) => {
            not_applicable("the length is uncorrected, which SO-01 stops")
        }
        Ok(SiliconeOil::LengthCorrected) => {
            Finding::new("silicone oil, length corrected for it", "no silicone oil")
                .with_detail("a filled eye needs +3 to +5 D; only a third came within ±1 D")
                .into()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::SiliconeOil;
    use crate::rules::testing::{assert_finding, assert_not_applicable, assert_not_evaluated};

    #[test]
    fn oil_is_a_finding_though_the_length_is_corrected() {
        let finding = assert_finding(
            &RULE,
            |draft| draft.operated().state.silicone_oil = Some(SiliconeOil::LengthCorrected),
            ["silicone oil, length corrected for it", "no silicone oil"],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("a filled eye needs +3 to +5 D; only a third came within ±1 D")
        );
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
