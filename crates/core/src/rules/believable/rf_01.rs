//! `RF-01`: the eyes' refractions do not fit their biometry.

use super::mean_k_apart_signed;
use crate::evidence::{HOUSE, NO_SOURCE, RULES_OF_THUMB, Standing};
use crate::finding::HardNucleus;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::check::at_most;
use crate::rules::{Because, Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity};

/// Refraction that a millimeter of axial length makes.
const PER_MILLIMETER: f64 = 2.7;

pub const RULE: Rule = Rule {
    id: "RF-01",
    title: "Refraction before surgery does not fit biometry",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Difference of the two eyes' spherical equivalents against what their axial lengths and mean K make of it by rules of thumb: 2.7 D more myopic per millimeter longer, 1 D per diopter steeper. They may be 2.00 D apart; the limit itself passes. An operative eye that is more myopic than expected passes if its nucleus counts as hard or may be hard, since a hard nucleus makes an eye myopic. Not for eyes of which one had its cataract operation.",
    why: "A clear lens or one of ordinary hardness does not part two eyes by diopters: then a length, a K, a refraction or the eye itself was mixed up.",
    options: "Consider measuring length and keratometry of both eyes once more, and an earlier refraction or old spectacles. Silicone oil, a lens that moved, and a cataract that grows in one eye are other explanations.",
    sources: &[
        Standing::Secondary.of(
            RULES_OF_THUMB,
            "1 mm of axial length 2.5-3 D, 1 D of K about 1 D",
        ),
        Standing::CommonPractice.of(NO_SOURCE, "a hard nucleus makes an eye myopic"),
        Standing::Assumption.of(HOUSE, "2.7 D per millimeter; 2.00 D apart"),
    ],
    limits: &["refraction_misfit"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let [operated, fellow] = [facts.operated.0, facts.fellow.0];
    if operated.earlier_operation.is_some() || fellow.earlier_operation.is_some() {
        return Err(Because::EarlierOperation.into());
    }
    let (Some(of_this), Some(of_other)) = (operated.state.refraction, fellow.state.refraction)
    else {
        return Err(Missing::RefractionOfBoth.into());
    };
    let [length, other_length] = facts.both_lengths()?;
    let longer = (length - other_length).millimeters().mm();
    let expected = Diopters::new(-PER_MILLIMETER * longer) - mean_k_apart_signed(facts)?;
    let found = (of_this.spherical_equivalent() - of_other.spherical_equivalent()).diopters();
    let misfit = (found - expected).nearest_hundredth();
    let misfit = misfit.ok_or(Missing::RefractionOfBoth)?;
    if misfit < HundredthDiopters::new(0) && !matches!(facts.nucleus(), HardNucleus::No(_)) {
        return Ok(None);
    }
    let expected = expected.nearest_hundredth();
    let found = found.nearest_hundredth();
    let (expected, found) = expected.zip(found).ok_or(Missing::RefractionOfBoth)?;
    let limit = facts.limits.refraction_misfit;
    Ok(at_most(Quantity::Magnitude, misfit.abs(), limit)
        .map(|finding| finding.with([Detail::RefractionsApart { found, expected }])))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, diopters, earlier_operation, sphere,
    };

    /// Refractions of both eyes, of the operated one first, whose nucleus is graded soft.
    fn eyes(operated: i32, fellow: i32) -> impl Fn(&mut DraftUnderTest) {
        move |draft| {
            draft.set_locs_opalescence(20);
            draft.operated().state.refraction = Some(sphere(operated));
            draft.fellow().state.refraction = Some(sphere(fellow));
        }
    }

    #[test]
    fn eyes_alike_in_biometry_are_alike_in_refraction() {
        for (operated, fellow) in [(-200, 0), (200, 0), (0, 0)] {
            assert_satisfied(&RULE, eyes(operated, fellow));
        }
        for (operated, fellow) in [(-201, 0), (201, 0)] {
            let texts = ["2.01 D", "at most 2.00 D"];
            assert_finding(&RULE, eyes(operated, fellow), texts);
        }
    }

    /// 1 mm longer and both meridians of equal K: 2.7 D more myopic is what is expected. Found −0.50 D,
    /// expected −2.70 D: 2.20 D apart.
    #[test]
    fn a_longer_eye_is_expected_to_be_more_myopic() {
        let longer = |operated| {
            move |draft: &mut DraftUnderTest| {
                eyes(operated, 0)(draft);
                draft.set_axial_lengths("24.50 mm", "23.50 mm");
            }
        };
        assert_satisfied(&RULE, longer(-270));
        let finding = assert_finding(&RULE, longer(-50), ["2.20 D", "at most 2.00 D"]);
        let apart = Detail::RefractionsApart {
            found: diopters(-50),
            expected: diopters(-270),
        };
        assert_eq!(finding.details, [apart]);
    }

    #[test]
    fn a_hard_nucleus_explains_myopia_and_no_hyperopia() {
        let hard = |operated| {
            move |draft: &mut DraftUnderTest| {
                eyes(operated, 0)(draft);
                draft.set_hard_nucleus();
            }
        };
        assert_satisfied(&RULE, hard(-600));
        assert_finding(&RULE, hard(300), ["3.00 D", "at most 2.00 D"]);
    }

    #[test]
    fn what_is_needed_and_what_it_is_not_for() {
        assert_not_evaluated(&RULE, |_| {});
        assert_not_evaluated(&RULE, |draft| {
            eyes(-600, 0)(draft);
            draft.fellow().axial_length = None;
        });
        assert_not_evaluated(&RULE, |draft| {
            eyes(-600, 0)(draft);
            draft.fellow().keratometry = None;
        });
        assert_not_applicable(&RULE, |draft| {
            eyes(-600, 0)(draft);
            draft.fellow().earlier_operation = Some(earlier_operation(None));
        });
    }
}
