//! `US-03`: an optical axial length meets constants for ultrasound.

use super::{ULTRASOUND_LENGTHS, length_and_method, lens_constants};
use crate::biometry::LengthMethod;
use crate::lens::BiometryKind;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "US-03",
    title: "Optical axial length with constants for ultrasound",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the axial length of the operative eye was measured optically while the constants of the chosen lens are for ultrasound. Ultrasound lengths do not concern this rule.",
    why: "Published means: contact ultrasound reads 0.20 mm shorter than immersion (0 to 0.94 mm), optical biometry 0.18 mm longer than immersion and 0.47 mm longer than contact. With constants made for the shorter ultrasound lengths, a longer optical length gives too weak a lens and leaves the eye hyperopic.",
    options: "Consider a lens record with constants for optical biometry. If the choice stands, the reason may be recorded.",
    sources: &[ULTRASOUND_LENGTHS],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let (length, method) = length_and_method(facts)?;
    if method != LengthMethod::Optical {
        return Err(Because::UltrasoundLength.into());
    }
    let constants_for = lens_constants(facts)?;
    if constants_for == BiometryKind::Optical {
        return Ok(None);
    }
    let found = Fact::LengthBy { length, method };
    Finding::new(found, Limit::ConstantsFor(constants_for)).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::{LengthMethod, Method};
    use crate::lens::BiometryKind;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied, micrometers,
    };
    use crate::rules::{Fact, Limit};

    #[test]
    fn constants_for_ultrasound_are_a_finding() {
        assert_found(
            &RULE,
            |draft| {
                draft.choose_lens(BiometryKind::Ultrasound);
            },
            Fact::LengthBy {
                length: micrometers(23_500),
                method: LengthMethod::Optical,
            },
            Limit::ConstantsFor(BiometryKind::Ultrasound),
        );
    }

    #[test]
    fn constants_for_optical_biometry_pass() {
        assert_satisfied(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
        });
    }

    #[test]
    fn ultrasound_does_not_concern_it() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.set_length_by("23.50 mm", Method::ImmersionUltrasound);
        });
    }

    #[test]
    fn length_its_method_and_lens_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.operated().axial_length = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.set_length_by("23.50 mm", Method::Manual);
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.set_length_by("23.50 mm", Method::Optical);
        });
    }
}
