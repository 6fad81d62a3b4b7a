//! The second implementation: closed forms in Python at 50 digits, against the vergence chain here.

use millrace_core::iol_power::{
    AConstant, CornealHistory, CornealRadii, Formula, FormulaConstants, FormulaInputs,
    HaigisConstants, PersonalizedAcd, Refusal, SurgeonFactor,
};
use millrace_core::quantity::{Diopters, Millimeters};

use crate::support::table;

pub(crate) const EYES: &str = "tests/check-values/oracle_eyes.csv";
const POLES: &str = "tests/check-values/oracle_poles.csv";

struct Row {
    header: csv::StringRecord,
    cells: csv::StringRecord,
}

impl Row {
    fn text(&self, column: &str) -> &str {
        let index = self.header.iter().position(|name| name == column);
        &self.cells[index.unwrap_or_else(|| panic!("no column {column}"))]
    }

    fn number(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| {
            text.parse()
                .unwrap_or_else(|e| panic!("{column} {text}: {e}"))
        })
    }

    fn inputs(&self) -> FormulaInputs {
        let number = |column: &str| self.number(column).expect("every eye is complete");
        let mm = |column: &str| Millimeters::new(number(column));
        let [a0, a1, a2] = ["a0_mm", "a1", "a2"].map(number);
        FormulaInputs {
            cornea: Some(CornealRadii(mm("k1_mm"), mm("k2_mm"))),
            acd: Some(mm("acd_mm")),
            history: CornealHistory::Untouched,
            constants: FormulaConstants {
                a_constant: AConstant::new(number("a_constant")).ok(),
                personalized_acd: PersonalizedAcd::new(number("pacd_mm")).ok(),
                surgeon_factor: SurgeonFactor::new(number("surgeon_factor_mm")).ok(),
                haigis: HaigisConstants::new(a0, a1, a2).ok(),
            },
            ..FormulaInputs::absent()
        }
        .with_length(mm("axial_length_mm"))
    }
}

fn rows(path: &str) -> Vec<Row> {
    let mut reader = table(path);
    let header = reader.headers().unwrap().clone();
    reader
        .into_records()
        .map(|cells| Row {
            header: header.clone(),
            cells: cells.unwrap(),
        })
        .collect()
}

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
