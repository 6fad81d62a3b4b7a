use super::{APART, CONVERTED, FAR_APART, OTHER_RECORD, RANGE};
use crate::case::Slot;
use crate::finding::{ConstantValue, LensConstant};
use crate::iol_power::{AConstant, Formula, HaigisConstants, PersonalizedAcd, SurgeonFactor};
use crate::lens::{
    BiometryKind, Constant, LensRecord, Obtained, OtherRecord, Place, RecordConstants,
};
use crate::rules::testing::{
    DraftUnderTest, assert_finding, assert_found, assert_not_applicable, assert_not_evaluated,
    assert_satisfied, diopters, verdict_of_backup,
};
use crate::rules::testing_lens::{chamber_record, lens_record};
use crate::rules::{Detail, Fact, Limit, Verdict};

/// A record with these constants: A, pACD, surgeon factor and a0 (with a1 0.4 and a2 0.1).
#[derive(Clone, Copy)]
struct Constants {
    a: Option<f64>,
    acd: Option<f64>,
    factor: Option<f64>,
    a0: Option<f64>,
    /// Of all but A, which is given.
    obtained: Obtained,
}

impl Constants {
    const NONE: Self = Self {
        a: None,
        acd: None,
        factor: None,
        a0: None,
        obtained: Obtained::Given,
    };

    fn record(self) -> LensRecord {
        let obtained = self.obtained;
        let haigis = self
            .a0
            .map(|a0| HaigisConstants::new(a0, 0.4, 0.1).unwrap());
        LensRecord {
            constants: RecordConstants {
                a_constant: self.a.map(|a| Constant {
                    value: AConstant::new(a).unwrap(),
                    obtained: Obtained::Given,
                }),
                personalized_acd: self.acd.map(|acd| Constant {
                    value: PersonalizedAcd::new(acd).unwrap(),
                    obtained,
                }),
                surgeon_factor: self.factor.map(|factor| Constant {
                    value: SurgeonFactor::new(factor).unwrap(),
                    obtained,
                }),
                haigis: haigis.map(|value| Constant { value, obtained }),
            },
            ..lens_record()
        }
    }

    fn planned(self) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| draft.plan_with(self.record())
    }
}

fn value(which: LensConstant, thousandths: i32) -> ConstantValue {
    ConstantValue { which, thousandths }
}

/// By hand for A 118.7 (`conversions.md`): pACD 5.37376, surgeon factor 1.61981, a0 1.71433.
const CONVERTED_118_7: Constants = Constants {
    a: Some(118.7),
    acd: Some(5.37),
    factor: Some(1.62),
    a0: Some(1.71),
    obtained: Obtained::ConvertedFromA,
};

#[test]
fn what_the_conversion_gives_passes_as_rounded_and_one_step_beyond_does_not() {
    let with = |acd| Constants {
        acd: Some(acd),
        ..CONVERTED_118_7
    };
    for acd in [5.37376, 5.4, 5.324, 5.423] {
        assert_satisfied(&CONVERTED, with(acd).planned());
    }
    for (acd, thousandths) in [(5.323, 5_323), (5.424, 5_424)] {
        let recorded = vec![value(LensConstant::PersonalizedAcd, thousandths)];
        let given = vec![value(LensConstant::PersonalizedAcd, 5_374)];
        let limit = Limit::Converted(given);
        assert_found(
            &CONVERTED,
            with(acd).planned(),
            Fact::Constants(recorded),
            limit,
        );
    }
}

/// Half a unit of the third decimal: 0.4005 less 0.4 is no binary 0.0005, and passes all the same.
#[test]
fn a_factor_at_its_limit_passes_and_one_step_beyond_does_not() {
    let with = |a1| {
        let mut record = CONVERTED_118_7.record();
        let value = HaigisConstants::new(1.71, a1, 0.1).unwrap();
        record.constants.haigis.as_mut().unwrap().value = value;
        move |draft: &mut DraftUnderTest| draft.plan_with(record)
    };
    for a1 in [0.3995, 0.4005] {
        assert_satisfied(&CONVERTED, with(a1));
    }
    assert_found(
        &CONVERTED,
        with(0.401),
        Fact::Constants(vec![value(LensConstant::A1, 401)]),
        Limit::Converted(vec![value(LensConstant::A1, 400)]),
    );
}

/// The sign of the surgeon factor, and an A constant changed after the conversion: 0.5663 · 117.8 −
/// 65.600 = 1.11014, 0.58357 · 117.8 − 63.896 = 4.848546, 0.62467 · 117.8 − 72.434 = 1.152126.
#[test]
fn a_lost_sign_and_a_changed_a_constant_are_found() {
    let factor = Constants {
        factor: Some(-1.62),
        ..CONVERTED_118_7
    };
    assert_found(
        &CONVERTED,
        factor.planned(),
        Fact::Constants(vec![value(LensConstant::SurgeonFactor, -1_620)]),
        Limit::Converted(vec![value(LensConstant::SurgeonFactor, 1_620)]),
    );
    let changed = Constants {
        a: Some(117.8),
        ..CONVERTED_118_7
    };
    let of = |values: [i32; 3]| {
        use LensConstant::{A0, PersonalizedAcd, SurgeonFactor};
        let which = [PersonalizedAcd, SurgeonFactor, A0];
        let pairs = which.into_iter().zip(values);
        pairs.map(|(which, it)| value(which, it)).collect()
    };
    assert_found(
        &CONVERTED,
        changed.planned(),
        Fact::Constants(of([5_370, 1_620, 1_710])),
        Limit::Converted(of([4_849, 1_110, 1_152])),
    );
}

#[test]
fn an_a_constant_is_converted_from_nothing_and_nothing_without_one() {
    assert_found(
        &CONVERTED,
        |draft| {
            let mut record = Constants::NONE.record();
            record.constants.a_constant = Some(Constant {
                value: AConstant::new(118.7).unwrap(),
                obtained: Obtained::ConvertedFromA,
            });
            draft.plan_with(record);
        },
        Fact::Constants(vec![value(LensConstant::A, 118_700)]),
        Limit::Converted(Vec::new()),
    );
    let without = Constants {
        a: None,
        ..CONVERTED_118_7
    };
    assert_not_evaluated(&CONVERTED, without.planned());
    assert_not_applicable(&CONVERTED, DraftUnderTest::plan_lens);
    assert_not_evaluated(&CONVERTED, |_| {});
}

#[test]
fn constants_that_no_lens_has_are_named_with_the_range() {
    use LensConstant::{A, HaigisPosition, PersonalizedAcd, SurgeonFactor};
    type Change = fn(&mut Constants, f64);
    let at = |change: fn(&mut Constants, f64), number| {
        let mut constants = Constants::NONE;
        change(&mut constants, number);
        constants.planned()
    };
    let a: Change = |constants, a| constants.a = Some(a);
    let acd: Change = |constants, acd| constants.acd = Some(acd);
    let factor: Change = |constants, factor| constants.factor = Some(factor);
    // Position in the mean eye: a0 + 0.4 · 3.11 + 0.1 · 23.5 = a0 + 3.594.
    let a0: Change = |constants, a0| constants.a0 = Some(a0);
    for (change, which, [least, most], beyond) in [
        (a, A, [115.0, 121.0], [(114.9, 114_900), (130.0, 130_000)]),
        (
            acd,
            PersonalizedAcd,
            [3.2, 6.8],
            [(3.1, 3_100), (10.0, 10_000)],
        ),
        (
            factor,
            SurgeonFactor,
            [-0.5, 3.0],
            [(-1.62, -1_620), (3.1, 3_100)],
        ),
        (
            a0,
            HaigisPosition,
            [-1.093, 3.155],
            [(-1.2, 2_394), (3.3, 6_894)],
        ),
    ] {
        for passes in [least, most] {
            assert_satisfied(&RANGE, at(change, passes));
        }
        for (number, thousandths) in beyond {
            let range = match which {
                A => [115_000, 121_000],
                PersonalizedAcd => [3_200, 6_800],
                SurgeonFactor => [-500, 3_000],
                _ => [2_500, 6_750],
            };
            assert_found(
                &RANGE,
                at(change, number),
                Fact::Constants(vec![value(which, thousandths)]),
                Limit::UsualConstants(vec![range.map(|end| value(which, end))]),
            );
        }
    }
}

#[test]
fn an_anterior_chamber_iol_has_a_range_of_its_own() {
    let verdict = |a: f64| {
        verdict_of_backup(&RANGE, Place::AnteriorChamber, |draft| {
            let mut record = chamber_record();
            record.constants.a_constant = Some(Constant {
                value: AConstant::new(a).unwrap(),
                obtained: Obtained::Given,
            });
            draft.lay_ready(Place::AnteriorChamber, record);
        })
    };
    assert_eq!(verdict(115.42), Verdict::Satisfied);
    assert!(matches!(verdict(118.7), Verdict::Finding(_)));
}

/// Powers in the mean eye by a chain of one's own (python, from the printed equations): A 118.7 +20.924 D
/// by SRK/T, A 117.8 +19.871, pACD 10 +34.289; surgeon factor 1.62 +20.935 by Holladay 1, −1.62 +15.802.
#[test]
fn constants_of_one_lens_are_held_against_each_other() {
    let two = |a: f64, factor: f64| {
        Constants {
            a: Some(a),
            factor: Some(factor),
            ..Constants::NONE
        }
        .planned()
    };
    assert_satisfied(&APART, two(118.7, 1.62));
    assert_satisfied(&FAR_APART, two(118.7, 1.62));
    let finding = assert_finding(&APART, two(117.8, 1.62), ["1.06 D", "at most 1.00 D"]);
    let extremes = Detail::Extremes {
        lowest: (Formula::SrkT, diopters(1_987)),
        highest: (Formula::Holladay1, diopters(2_093)),
    };
    assert_eq!(finding.details, [extremes]);
    assert_satisfied(&FAR_APART, two(117.8, 1.62));
    assert_not_applicable(&APART, two(118.7, -1.62));
    assert_finding(&FAR_APART, two(118.7, -1.62), ["5.12 D", "at most 2.00 D"]);
}

#[test]
fn converted_constants_and_a_lonely_one_are_not_compared() {
    assert_not_applicable(&APART, CONVERTED_118_7.planned());
    let lonely = Constants {
        a: Some(118.7),
        ..Constants::NONE
    };
    assert_not_applicable(&FAR_APART, lonely.planned());
}

/// A 118.7 and 117.8, as above: 20.924 − 19.871 = 1.053 D.
#[test]
fn two_records_of_one_model_are_held_against_each_other() {
    let record = |a| {
        Constants {
            a: Some(a),
            ..Constants::NONE
        }
        .record()
    };
    let both = |first: LensRecord, second: LensRecord| {
        move |draft: &mut DraftUnderTest| {
            draft.plan_with(first);
            draft.lay_ready(Place::Bag, second);
        }
    };
    let texts = ["1.05 D", "at most 0.50 D"];
    let finding = assert_finding(&OTHER_RECORD, both(record(118.7), record(117.8)), texts);
    let detail = Detail::SameModel {
        model: "TEST-1".to_owned(),
        formula: Formula::SrkT,
    };
    assert_eq!(finding.details, [detail]);
    assert_satisfied(&OTHER_RECORD, both(record(118.7), record(118.6)));
    let other_model = LensRecord {
        model: "TEST-2".to_owned(),
        ..record(117.8)
    };
    assert_not_applicable(&OTHER_RECORD, both(record(118.7), other_model));
    let other_kind = LensRecord {
        constants_for: BiometryKind::Ultrasound,
        ..record(117.8)
    };
    assert_not_applicable(&OTHER_RECORD, both(record(118.7), other_kind));
}

/// The same A constants in the clinic's records: the one that was not chosen contradicts the one that was.
#[test]
fn the_clinics_other_record_of_the_model_is_compared() {
    let record = |a| {
        Constants {
            a: Some(a),
            ..Constants::NONE
        }
        .record()
    };
    let chosen_beside = |clinic: Vec<LensRecord>| {
        move |draft: &mut DraftUnderTest| {
            draft.plan_with(record(118.7));
            let others = OtherRecord::of_same_model(&record(118.7), &clinic);
            draft.0.lens.lenses.set_others(Slot::Planned, others);
        }
    };
    let texts = ["1.05 D", "at most 0.50 D"];
    let clinic = vec![record(118.7), record(118.6), record(117.8)];
    assert_finding(&OTHER_RECORD, chosen_beside(clinic), texts);
    let clinic = vec![record(118.7), record(118.6)];
    assert_satisfied(&OTHER_RECORD, chosen_beside(clinic));
    // Nothing contradicts a record but another one, of the same model.
    let other_model = LensRecord {
        model: "TEST-2".to_owned(),
        ..record(117.8)
    };
    let clinic = vec![record(118.7), other_model];
    assert_not_applicable(&OTHER_RECORD, chosen_beside(clinic));
}
