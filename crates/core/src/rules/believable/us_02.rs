//! `US-02`: an ultrasound axial length is used with constants for optical biometry, by choice.

use super::{ULTRASOUND_LENGTHS, length_and_method, lens_constants, said_of};
use crate::biometry::LengthMethod;
use crate::case::UltrasoundChoice;
use crate::lens::BiometryKind;
use crate::plan::{OPTICAL_LESS_CONTACT, OPTICAL_LESS_IMMERSION};
use crate::rules::verdict::not_applicable;
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "US-02",
    title: "Ultrasound length is used with constants for optical biometry",
    group: Group::Believable,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether an ultrasound axial length of the operated eye is used with lens constants for optical biometry because somebody chose so. Either choice is a finding, shown with the length the formulas are given.",
    why: "Published means: contact ultrasound reads 0.20 mm shorter than immersion (0 to 0.94 mm), optical biometry 0.18 mm longer than immersion and 0.47 mm longer than contact. These means come from different comparisons and do not quite add up, and a mean says little of one eye: an added mean difference is an estimate, and a length taken as measured is short by an unknown amount.",
    options: "Consider measuring optically, or choosing a lens record with constants for ultrasound. If the choice stands, the reason may be recorded.",
    sources: &[ULTRASOUND_LENGTHS],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let (length, method) = match length_and_method(facts) {
        Ok(known) => known,
        Err(verdict) => return verdict,
    };
    let difference = match method {
        LengthMethod::Optical => return not_applicable("the axial length was measured optically"),
        LengthMethod::Immersion => OPTICAL_LESS_IMMERSION,
        LengthMethod::Contact => OPTICAL_LESS_CONTACT,
    };
    match lens_constants(facts) {
        Err(verdict) => return verdict,
        Ok(BiometryKind::Ultrasound) => {
            return not_applicable("the lens constants are for ultrasound");
        }
        Ok(BiometryKind::Optical) => {}
    }
    let said = said_of(length, method);
    let used = match facts.draft.lens.ultrasound {
        None => return not_applicable("no choice was made yet, which US-01 asks for"),
        Some(UltrasoundChoice::AsMeasured) => format!("{said}, used as measured"),
        Some(UltrasoundChoice::AddPublishedDifference) => {
            format!(
                "{said}, {difference} added, {} used",
                length.get() + difference
            )
        }
    };
    Finding::new(used, "constants for optical biometry")
        .with_detail(
            "published means: contact reads 0.20 mm shorter than immersion (0 to 0.94), \
             optical 0.18 mm longer than immersion and 0.47 mm longer than contact",
        )
        .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::case::UltrasoundChoice;
    use crate::lens::BiometryKind;
    use crate::rules::testing::{assert_finding, assert_not_applicable, assert_not_evaluated};

    /// By hand: 23.50 + 0.47 = 23.97 mm, 23.50 + 0.18 = 23.68 mm.
    #[test]
    fn either_choice_is_shown_with_the_length_used() {
        use UltrasoundChoice::{AddPublishedDifference, AsMeasured};
        for (method, choice, measured) in [
            (
                Method::ContactUltrasound,
                AsMeasured,
                "23.50 mm by contact ultrasound, used as measured",
            ),
            (
                Method::ContactUltrasound,
                AddPublishedDifference,
                "23.50 mm by contact ultrasound, 0.47 mm added, 23.97 mm used",
            ),
            (
                Method::ImmersionUltrasound,
                AddPublishedDifference,
                "23.50 mm by immersion ultrasound, 0.18 mm added, 23.68 mm used",
            ),
        ] {
            let finding = assert_finding(
                &RULE,
                |draft| {
                    draft.choose_lens(BiometryKind::Optical);
                    draft.set_length_by("23.50 mm", method);
                    draft.0.lens.ultrasound = Some(choice);
                },
                [measured, "constants for optical biometry"],
            );
            assert!(finding.detail.unwrap().contains("0.20 mm shorter"));
        }
    }

    #[test]
    fn without_a_choice_or_a_mismatch_it_does_not_apply() {
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Ultrasound);
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
            draft.0.lens.ultrasound = Some(UltrasoundChoice::AsMeasured);
        });
        assert_not_applicable(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.0.lens.ultrasound = Some(UltrasoundChoice::AsMeasured);
        });
    }

    #[test]
    fn length_its_method_and_lens_are_needed() {
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.set_length_by("23.50 mm", Method::Manual);
        });
        assert_not_evaluated(&RULE, |draft| {
            draft.set_length_by("23.50 mm", Method::ContactUltrasound);
        });
    }
}
