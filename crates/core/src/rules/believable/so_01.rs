//! `SO-01`: the axial length was measured through silicone oil without correcting for it.

use super::silicone_oil;
use crate::biometry::SiliconeOil;
use crate::evidence::{SILICONE_OIL, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "SO-01",
    title: "Axial length through silicone oil is uncorrected",
    group: Group::Believable,
    severity: Severity::Stop,
    bearing: None,
    checks: "Whether the vitreous cavity of the operative eye holds silicone oil and the axial length is as the instrument gave it for a normal vitreous. No oil, and a length measured in the mode for oil, pass.",
    why: "Sound travels at 980 m/s in silicone oil against 1532 m/s in vitreous, so an eye filled with oil reads far too long by ultrasound and the lens comes out far too weak. An uncorrected length is a finding whatever the method.",
    options: "Consider measuring again in the instrument's mode for oil, or after the oil is out. Until then no formula is given this length and the plan cannot be signed.",
    sources: &[Standing::Printed.of(
        SILICONE_OIL,
        "sound 980 m/s against 1532 in vitreous; +3 to +5 D; a third within ±1 D",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    match silicone_oil(facts)? {
        SiliconeOil::Absent | SiliconeOil::LengthCorrected => Ok(None),
        SiliconeOil::LengthUncorrected => {
            let found = Fact::UncorrectedForOil(facts.length().ok());
            Finding::new(found, Limit::CorrectedLength).found()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::SiliconeOil;
    use crate::rules::testing::{
        assert_found, assert_not_evaluated, assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn an_uncorrected_length_stops() {
        assert_found(
            &RULE,
            |draft| draft.operated().state.silicone_oil = Some(SiliconeOil::LengthUncorrected),
            Fact::UncorrectedForOil(Some(micrometers(23_500))),
            Limit::CorrectedLength,
        );
        assert_found(
            &RULE,
            |draft| {
                draft.operated().state.silicone_oil = Some(SiliconeOil::LengthUncorrected);
                draft.operated().axial_length = None;
            },
            Fact::UncorrectedForOil(None),
            Limit::CorrectedLength,
        );
    }

    #[test]
    fn no_oil_and_a_corrected_length_pass() {
        for oil in [SiliconeOil::Absent, SiliconeOil::LengthCorrected] {
            assert_satisfied(&RULE, |draft| {
                draft.operated().state.silicone_oil = Some(oil);
                draft.fellow().state.silicone_oil = Some(SiliconeOil::LengthUncorrected);
            });
        }
    }

    #[test]
    fn oil_nobody_looked_for_is_not_absent() {
        assert_not_evaluated(&RULE, |draft| draft.operated().state.silicone_oil = None);
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.previous_vitrectomy = Some(false);
        });
    }
}
