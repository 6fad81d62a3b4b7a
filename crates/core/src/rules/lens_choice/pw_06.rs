//! `PW-06`: a chosen power is for another eye.

use super::in_place::predicted;
use crate::evidence::{HOUSE, OPTICS, STEEPLES_2016, Standing};
use crate::rules::{Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "PW-06",
    title: "The power does not belong to this eye",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "As PW-05, against the target ± 2.00 D. The limit itself passes.",
    why: "So far from the target the power was mistyped, or belongs to another eye, another place in the eye, or another lens. Of 178 reports of wrong lenses, 26 were of transcription, 21 of the biometry of another patient and 16 of wrong selection.",
    options: "Another power, or another lens, may be chosen; a target that no lens reaches may be discussed with the patient and changed. If it stands, the reason may be recorded.",
    sources: &[
        Standing::Assumption.of(HOUSE, "2.00 D, the clinic's to change"),
        Standing::Printed.of(
            STEEPLES_2016,
            "178 reports: transcription 26, wrong patient 21, wrong selection 16",
        ),
        Standing::Derived.of(OPTICS, "vergence with the lens in its place"),
    ],
    limits: &["target_band_widest", "sulcus_shift"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let predicted = predicted(facts)?;
    let within = facts.limits.target_band_widest;
    if predicted.off() <= within {
        return Ok(None);
    }
    let limit = Limit::NearTarget {
        within,
        target: predicted.target,
    };
    Finding::new(predicted.fact(), limit)
        .with(predicted.details())
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::iol_power::Formula;
    use crate::lens::{LensRecord, Place, PowerLabel};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied, diopters,
        verdict_of_backup,
    };
    use crate::rules::testing_lens::{
        chamber_record, choose_power, lens_record, sulcus_record, toric_steps,
    };
    use crate::rules::{Fact, Limit, Verdict};

    fn fact(formula: Formula, power: i32, refraction: i32) -> Fact {
        Fact::PredictedBy {
            formula,
            power: diopters(power),
            refraction: diopters(refraction),
        }
    }

    fn near(target: i32) -> Limit {
        Limit::NearTarget {
            within: diopters(200),
            target: diopters(target),
        }
    }

    fn aimed(power: i32, target: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            choose_power(power)(draft);
            draft.0.lens.target = Some(diopters(target));
        }
    }

    fn of_backup(place: Place, record: LensRecord, power: i32, formula: Formula) -> Verdict {
        verdict_of_backup(&RULE, place, |draft| {
            draft.plan_lens();
            draft.0.lens.formula = Some(formula);
            draft.lay_ready_with(place, record, power);
        })
    }

    #[track_caller]
    fn assert_stopped(verdict: Verdict, found: Fact) {
        let Verdict::Finding(finding) = verdict else {
            panic!("{verdict:?}");
        };
        assert_eq!((finding.measured, finding.limit), (found, near(0)));
    }

    /// SRK/T in closed form, as for PW-05: +24.00 D leaves −2.0783 D.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, aimed(2_400, -8));
        let found = fact(Formula::SrkT, 2_400, -208);
        assert_found(&RULE, aimed(2_400, -7), found, near(-7));
    }

    /// +9.18 D in an eye that needs +21 D: +7.0404 D in the bag, +6.7890 D half a millimeter forward.
    #[test]
    fn a_spare_for_another_eye_is_stopped_in_each_place() {
        let srk_t = Formula::SrkT;
        let bag = of_backup(Place::Bag, lens_record(), 918, srk_t);
        assert_stopped(bag, fact(srk_t, 918, 704));
        let sulcus = of_backup(Place::Sulcus, sulcus_record(), 918, srk_t);
        assert_stopped(sulcus, fact(srk_t, 918, 679));
        let planned = |draft: &mut DraftUnderTest| choose_power(2_150)(draft);
        assert_satisfied(&RULE, planned);
    }

    /// A 115.42: +20.00 D leaves −2.3067 D by SRK/T and −2.3104 D by T2, +17.50 D −0.2336 D by SRK/T. The
    /// record has no constant of Haigis.
    #[test]
    fn a_chamber_lens_is_judged_by_its_own_constant_and_without_the_planned_one_by_the_farthest() {
        let of =
            |power, formula| of_backup(Place::AnteriorChamber, chamber_record(), power, formula);
        assert_eq!(of(1_750, Formula::SrkT), Verdict::Satisfied);
        assert_stopped(of(2_000, Formula::SrkT), fact(Formula::SrkT, 2_000, -231));
        assert_stopped(of(2_000, Formula::Haigis), fact(Formula::T2, 2_000, -231));
    }

    /// A label of +21.00 D in the weakest meridian with a cylinder of 3.75 D is a mean of +22.875 D: by
    /// SRK/T, whose +22.50 D leaves −1.0116 D and +23.00 D −1.3630 D, about −1.27 D.
    #[test]
    fn a_label_of_the_weakest_meridian_counts_half_the_cylinder() {
        let toric = |power| {
            move |draft: &mut DraftUnderTest| {
                choose_power(power)(draft);
                draft.chosen().record.toric = toric_steps(PowerLabel::WeakestMeridian);
            }
        };
        assert_not_evaluated(&RULE, toric(2_250));
        // +22.50 D by label is +24.375 D, beyond +24.00 D with −2.0783 D.
        let verdict = crate::rules::testing::verdict(&RULE, |draft| {
            toric(2_250)(draft);
            draft.choose_toric(375, 90);
        });
        assert!(matches!(verdict, Verdict::Finding(_)), "{verdict:?}");
        assert_satisfied(&RULE, |draft| {
            toric(2_100)(draft);
            draft.choose_toric(375, 90);
        });
    }
}
