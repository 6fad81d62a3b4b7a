//! Each rule at its limit, one step beyond, without what it needs, and switched off.

use super::*;
use crate::lens::BiometryKind;
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::Verdict;
use crate::rules::testing::{
    DraftUnderTest, assert_not_applicable, assert_shows, not_evaluated_strictly, verdict_strictly,
    verdict_with_powers,
};

fn both_powers(draft: &mut DraftUnderTest, power: &str) {
    draft.set_keratometry(power, power);
}

/// The operated eye's 43.50 and 44.00 D have a mean of 43.75 D.
fn fellow_powers(draft: &mut DraftUnderTest, power: &str) {
    draft.set_fellow_keratometry(power, power);
}

fn fellow_length(draft: &mut DraftUnderTest, length: &str) {
    draft.set_axial_lengths("23.50 mm", length);
}

#[test]
fn at_the_limits_and_one_step_beyond() {
    type Set = fn(&mut DraftUnderTest, &str);
    type Failing = &'static [(&'static str, &'static str)];
    let rows: [(&Rule, Set, &[&str], Failing, &str); 4] = [
        (
            &LENGTH,
            DraftUnderTest::set_axial_length,
            &["22.00 mm", "22.001 mm", "24.999 mm", "25.00 mm"],
            &[("21.999 mm", "21.999 mm"), ("25.001 mm", "25.001 mm")],
            "22.00 mm to 25.00 mm",
        ),
        (
            &MEAN_K,
            both_powers,
            &[
                "40.00 D at 1.3375",
                "40.01 D at 1.3375",
                "46.99 D at 1.3375",
                "47.00 D at 1.3375",
            ],
            &[
                ("39.99 D at 1.3375", "39.99 D"),
                ("47.01 D at 1.3375", "47.01 D"),
            ],
            "40.00 D to 47.00 D",
        ),
        (
            &MEAN_K_APART,
            fellow_powers,
            &[
                "44.74 D at 1.3375",
                "44.75 D at 1.3375",
                "42.75 D at 1.3375",
            ],
            &[
                ("44.76 D at 1.3375", "1.01 D"),
                ("42.74 D at 1.3375", "1.01 D"),
            ],
            "at most 1.00 D",
        ),
        (
            &LENGTHS_APART,
            fellow_length,
            &["23.20 mm", "23.201 mm", "23.80 mm"],
            &[("23.199 mm", "0.301 mm"), ("23.801 mm", "0.301 mm")],
            "at most 0.30 mm",
        ),
    ];
    for (rule, set, passing, failing, limit) in rows {
        for value in passing {
            let verdict = verdict_strictly(rule, |draft| set(draft, value));
            assert_eq!(verdict, Verdict::Satisfied, "{} {value}", rule.id);
        }
        for (value, measured) in failing {
            let verdict = verdict_strictly(rule, |draft| set(draft, value));
            assert_shows(verdict, [measured, limit]);
        }
    }
}

#[test]
fn what_is_missing_is_not_passed_over() {
    type Remove = fn(&mut DraftUnderTest);
    let rows: [(&Rule, Remove); 15] = [
        (&LENGTH, |draft| draft.operated().axial_length = None),
        (&MEAN_K, |draft| draft.operated().keratometry = None),
        (&MEAN_K_APART, |draft| draft.operated().keratometry = None),
        (&MEAN_K_APART, |draft| draft.fellow().keratometry = None),
        (&LENGTHS_APART, |draft| draft.operated().axial_length = None),
        (&LENGTHS_APART, |draft| draft.fellow().axial_length = None),
        (&POWER, |_| {}),
        (&POWER, |draft| {
            draft.choose_lens(BiometryKind::Optical).average_power = None;
        }),
        (&POWER, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.0.lens.formula = None;
        }),
        (&POWER, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        }),
        (&POWERS_APART, |_| {}),
        (&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.operated().axial_length = None;
        }),
        (&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.fellow().axial_length = None;
        }),
        (&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.0.lens.formula = None;
        }),
        (&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            draft.without_lens();
        }),
    ];
    for (rule, remove) in rows {
        not_evaluated_strictly(rule, remove);
    }
    for power_d in [f64::NAN, f64::INFINITY] {
        assert!(matches!(for_power(power_d), Verdict::NotEvaluated(_)));
    }
    let verdict = for_powers(21.50, f64::NAN);
    assert!(matches!(verdict, Verdict::NotEvaluated(_)));
}

#[test]
fn switched_off_none_applies() {
    type Change = fn(&mut DraftUnderTest);
    let rows: [(&Rule, Change); 6] = [
        (&LENGTH, |draft| draft.set_axial_length("21.00 mm")),
        (&MEAN_K, |draft| both_powers(draft, "39.00 D at 1.3375")),
        (&POWER, |draft| {
            let lens = draft.choose_lens(BiometryKind::Optical);
            lens.average_power = Some(HundredthDiopters::new(3_000));
        }),
        (&MEAN_K_APART, |draft| {
            fellow_powers(draft, "46.00 D at 1.3375");
        }),
        (&LENGTHS_APART, |draft| fellow_length(draft, "24.50 mm")),
        (&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            fellow_length(draft, "21.50 mm");
        }),
    ];
    for (rule, change) in rows {
        assert_not_applicable(rule, change);
    }
}

/// The verdict for this power and a lens whose average power is +21.00 D.
fn for_power(power_d: f64) -> Verdict {
    verdict_with_powers(&POWER, [Some(Diopters::new(power_d)), None], |draft| {
        draft.choose_lens(BiometryKind::Optical);
    })
}

fn for_powers(operated_d: f64, fellow_d: f64) -> Verdict {
    let powers = [operated_d, fellow_d].map(|power_d| Some(Diopters::new(power_d)));
    verdict_with_powers(&POWERS_APART, powers, |_| {})
}

fn hundredths([one, other]: [i32; 2]) -> [HundredthDiopters; 2] {
    [one, other].map(HundredthDiopters::new)
}

#[test]
fn powers_at_the_limit_and_one_step_beyond() {
    for power_d in [18.00, 18.01, 21.00, 23.99, 24.00] {
        assert_eq!(for_power(power_d), Verdict::Satisfied);
    }
    let above = assert_shows(for_power(24.01), ["3.01 D", "at most 3.00 D"]);
    let [power, average] = hundredths([2_401, 2_100]);
    assert_eq!(above.details, [Detail::EmmetropicPower { power, average }]);
    assert_shows(for_power(17.99), ["3.01 D", "at most 3.00 D"]);

    for fellow_d in [20.50, 20.51, 22.50] {
        assert_eq!(for_powers(21.50, fellow_d), Verdict::Satisfied);
    }
    let below = assert_shows(for_powers(21.50, 20.49), ["1.01 D", "at most 1.00 D"]);
    let [operated, fellow] = hundredths([2_150, 2_049]);
    assert_eq!(
        below.details,
        [Detail::EmmetropicPowers { operated, fellow }]
    );
    assert_shows(for_powers(21.50, 22.51), ["1.01 D", "at most 1.00 D"]);
}

/// SRK/T for 43.75 D and an A constant of 118.4, worked apart from this code: 20.3028 D for
/// 23.50 mm, 21.2218 D for 23.20 mm, 21.5327 D for 23.10 mm.
#[test]
fn the_powers_are_those_of_the_formula_planned_by() {
    let against_average = |average: i32| {
        verdict_strictly(&POWER, |draft| {
            let record = draft.choose_lens(BiometryKind::Optical);
            record.average_power = Some(HundredthDiopters::new(average));
        })
    };
    assert_eq!(against_average(1_730), Verdict::Satisfied);
    assert_shows(against_average(1_729), ["3.01 D", "at most 3.00 D"]);
    let against_fellow = |fellow| {
        verdict_strictly(&POWERS_APART, |draft| {
            draft.choose_lens(BiometryKind::Optical);
            fellow_length(draft, fellow);
        })
    };
    assert_eq!(against_fellow("23.20 mm"), Verdict::Satisfied);
    assert_shows(against_fellow("23.10 mm"), ["1.23 D", "at most 1.00 D"]);
}
