//! The second implementation: closed forms in Python at 50 digits, against the vergence chain here.

use millrace_core::iol_power::{Formula, Refusal};
use millrace_core::quantity::Diopters;

use crate::support::rows;

pub(crate) const EYES: &str = "tests/check-values/oracle_eyes.csv";
const POLES: &str = "tests/check-values/oracle_poles.csv";

/// Number of eyes for which the second implementation has an answer.
pub(crate) fn answered(formula: Formula) -> usize {
    let column = format!("{}_power_d", formula.key());
    rows(EYES)
        .iter()
        .filter(|row| row.number(&column).is_some())
        .count()
}

fn compare(path: &str, tolerance: impl Fn(f64) -> f64) -> usize {
    let mut compared = 0;
    for row in rows(path) {
        let inputs = row.inputs();
        let target = Diopters::new(row.number("target_d").unwrap());
        let lens_power = Diopters::new(row.number("lens_power_d").unwrap());
        for formula in Formula::THIN_LENS {
            let at = format!("{} {}", row.text("eye_id"), formula.key());
            let column = |name: &str| format!("{}_{name}", formula.key());
            let status = row.text(&column("status"));
            let power = formula
                .eye(&inputs)
                .and_then(|eye| eye.value.power_for(target));
            let refraction = formula
                .eye(&inputs)
                .and_then(|eye| eye.value.refraction_with(lens_power));
            if matches!(power, Err(Refusal::NoConstant { .. })) && path == POLES {
                // A few of these eyes need constants so extreme that their types refuse them.
                continue;
            }
            if status == "no_position" {
                for refused in [power, refraction] {
                    assert!(
                        matches!(
                            refused,
                            Err(Refusal::NoCornealHeight { .. } | Refusal::LensOutsideEye { .. })
                        ),
                        "{at}: {refused:?}"
                    );
                }
                continue;
            }
            let built = formula
                .eye(&inputs)
                .unwrap_or_else(|refusal| panic!("{at}: {refusal}"));
            let found_status = if built.cautions.is_empty() {
                "ok"
            } else {
                "caution"
            };
            assert_eq!(found_status, status, "{at}");
            let position = Ok(built.value.lens_position().mm());
            for (name, found) in [
                ("lens_position_mm", position),
                ("power_d", power.map(Diopters::d)),
                ("refraction_d", refraction.map(Diopters::d)),
            ] {
                match (row.number(&column(name)), found) {
                    (None, Err(Refusal::NoRealImage { .. })) => {}
                    (Some(expected), Ok(found)) => {
                        let off = (expected - found).abs();
                        assert!(
                            off <= tolerance(expected),
                            "{at} {name}: {expected} {found}"
                        );
                        compared += 1;
                    }
                    (expected, found) => panic!("{at} {name}: {expected:?} {found:?}"),
                }
            }
        }
    }
    compared
}

#[test]
fn every_eye_agrees_to_1e_9() {
    assert!(2_000 <= rows(EYES).len());
    let compared = compare(EYES, |_| 1e-9);
    assert!(30_000 <= compared, "{compared}");
}

/// At a pole numbers grow without bound, so the tolerance grows with them.
#[test]
fn refusals_at_the_poles_agree() {
    let compared = compare(POLES, |expected| 1e-9 * expected.abs().max(1.0));
    assert!(200 <= compared, "{compared}");
}
