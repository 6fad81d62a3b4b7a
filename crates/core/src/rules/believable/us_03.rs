//! `US-03`: an optical axial length meets constants for ultrasound.

use super::{ULTRASOUND_LENGTHS, length_and_method, lens_constants, said_of};
use crate::biometry::LengthMethod;
use crate::lens::BiometryKind;
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "US-03",
    title: "Optical length meets constants for ultrasound",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the axial length of the operated eye was measured optically while the constants of the chosen lens are for ultrasound. Ultrasound lengths do not concern this rule.",
    why: "Published means: contact ultrasound reads 0.20 mm shorter than immersion (0 to 0.94 mm), optical biometry 0.18 mm longer than immersion and 0.47 mm longer than contact. With constants made for the shorter ultrasound lengths, a longer optical length gives too weak a lens and leaves the eye hyperopic.",
    options: "Consider a lens record with constants for optical biometry. If the choice stands, the reason may be recorded.",
    sources: &[ULTRASOUND_LENGTHS],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let (length, method) = match length_and_method(facts) {
        Ok(known) => known,
        Err(verdict) => return verdict,
    };
    if method != LengthMethod::Optical {
        return not_applicable("the axial length was measured by ultrasound");
    }
    match lens_constants(facts) {
        Err(verdict) => verdict,
        Ok(BiometryKind::Optical) => Verdict::Satisfied,
        Ok(BiometryKind::Ultrasound) => {
            Finding::new(said_of(length, method), "constants for ultrasound").into()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::lens::BiometryKind;
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    #[test]
    fn constants_for_ultrasound_are_a_finding() {
        assert_finding(
            &RULE,
            |draft| {
                draft.choose_lens(BiometryKind::Ultrasound);
            },
            ["23.50 mm by optical biometry", "constants for ultrasound"],
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
