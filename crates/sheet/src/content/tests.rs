//! A sheet says the numbers of its document and none of its own.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use millrace_core::biometry::{EyeState, Keratometry, Measured, Side};
use millrace_core::case_file;
use millrace_core::document::{FormulaAnswer, LadderResult, Outcome};
use millrace_core::iol_power::sulcus::StepwisePower;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::quantity::{Diopters, Micrometers, Millimeters, decimal};
use millrace_core::rules::risk::{BASE_RATE_PERCENT, OddsFactor};
use serde_json::Value;

use super::*;

fn documents() -> Vec<PlanDocument> {
    let directory = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-data/cases");
    let mut paths: Vec<_> = fs::read_dir(directory)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let document = |path| {
        let draft = case_file::read(&fs::read_to_string(path).unwrap()).unwrap();
        let plan = Plan::of(&draft, Limits::shipped()).unwrap();
        PlanDocument::of(&plan, "millrace test")
    };
    paths.into_iter().map(document).collect()
}

/// What the template gets for a signed sheet.
fn data(document: &PlanDocument) -> Value {
    let data = Subject::of_signed(document, Words::ENGLISH)
        .data(Paper::A4, None)
        .unwrap();
    serde_json::to_value(data).unwrap()
}

fn numbers(text: &str, found: &mut BTreeSet<String>) {
    for run in text.split(|letter: char| !letter.is_ascii_digit() && letter != '.') {
        let number = run.trim_matches('.');
        if !number.is_empty() {
            found.insert(number.to_owned());
        }
    }
}

fn numbers_of_texts(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::String(text) => numbers(text, found),
        Value::Array(list) => list.iter().for_each(|value| numbers_of_texts(value, found)),
        Value::Object(fields) => fields
            .values()
            .for_each(|value| numbers_of_texts(value, found)),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// Every way a number of the results may be printed: computed ones to two decimals, as a percentage or
/// as whole degrees; exact ones as they are, or in their unit.
fn printed(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Number(number) => {
            if let Some(whole) = number.as_i64() {
                let whole = i32::try_from(whole).unwrap().abs();
                let texts = [(0, 0), (1, 1), (2, 2), (3, 2), (3, 3)];
                found.extend(texts.map(|(scale, shown)| decimal::write(whole, scale, shown)));
            } else {
                let number = number.as_f64().unwrap().abs();
                found.insert(format!("{number:.2}"));
                found.insert(format!("{number:.0}"));
                found.insert(format!("{:.0}", number * 100.0));
            }
        }
        Value::Array(list) => list.iter().for_each(|value| printed(value, found)),
        Value::Object(fields) => fields.values().for_each(|value| printed(value, found)),
        Value::String(text) => numbers(text, found),
        Value::Null | Value::Bool(_) => {}
    }
}

/// Alters every number by an amount of its own, more than a diopter or a millimeter for a computed one.
fn alter(key: &str, value: &mut Value, count: &mut u32) {
    match value {
        Value::Number(number) => {
            *count += 1;
            *value = match number.as_i64() {
                // A direction or a meridian stays one.
                Some(whole @ 170..=360) => (whole - 1).into(),
                Some(whole) => (whole + 1).into(),
                None => {
                    let number = number.as_f64().unwrap();
                    let by = f64::from(101 + *count % 89);
                    if key.starts_with("chance") || key.ends_with("share") {
                        ((number + 0.13) % 1.0).into()
                    } else {
                        // Whole hundredths stay whole.
                        let hundredths = number * 100.0;
                        let whole = hundredths.round();
                        let near = (hundredths - whole).abs() < 1e-9;
                        ((if near { whole } else { hundredths } + by) / 100.0).into()
                    }
                }
            };
        }
        Value::Array(list) => list.iter_mut().for_each(|value| alter(key, value, count)),
        Value::Object(fields) => {
            for (key, value) in fields {
                alter(key, value, count);
            }
        }
        Value::Null | Value::Bool(_) | Value::String(_) => {}
    }
}

/// Whatever stands on a sheet of altered results is one of them, was entered, or stands there whatever
/// the results.
#[test]
fn an_altered_document_gives_its_own_numbers_and_nothing_computed_again() {
    let (mut altered_numbers, mut shown) = (0, 0);
    // A published ratio is said with the name of its factor, by the code that the finding holds; so are
    // the rate of the same audit, and the share an interval is called by, and the ratio assumed of a posterior cornea not measured.
    let mut published = vec![
        format!("{BASE_RATE_PERCENT:.2}"),
        "95".to_owned(),
        "0.81".to_owned(),
    ];
    // What the marks of the dial are called.
    published.extend(["30", "60", "120", "150"].map(str::to_owned));
    published.extend(OddsFactor::ALL.map(|factor| format!("{:.2}", factor.ratio())));
    let mut strangers = Vec::new();
    for document in documents() {
        let mut value = serde_json::to_value(&document).unwrap();
        let (mut of_before, mut of_after) = (BTreeSet::new(), BTreeSet::new());
        printed(&value["results"], &mut of_before);
        alter("", &mut value["results"], &mut altered_numbers);
        printed(&value["results"], &mut of_after);
        let mut entered = BTreeSet::new();
        numbers(&value["case"].to_string(), &mut entered);
        let altered: PlanDocument = serde_json::from_value(value).unwrap();
        let (mut before, mut after) = (BTreeSet::new(), BTreeSet::new());
        numbers_of_texts(&data(&document), &mut before);
        numbers_of_texts(&data(&altered), &mut after);
        for number in after {
            let whatever = published.contains(&number)
                || before.contains(&number) && !of_before.contains(&number);
            let is_altered = of_after.contains(&number);
            if !whatever && !is_altered && !entered.contains(&number) {
                strangers.push((number.clone(), document.case.patient.name.clone()));
            }
            shown += u32::from(is_altered && !before.contains(&number));
        }
    }
    assert_eq!(
        strangers,
        [],
        "on a sheet, and neither entered nor in its document"
    );
    assert!(
        12_000 < altered_numbers && 450 < shown,
        "{altered_numbers} {shown}"
    );
}

fn answer(ladder: &mut LadderResult) -> &mut FormulaAnswer {
    match &mut ladder.formulas[0].outcome {
        Outcome::Answer(answer) => answer,
        Outcome::Refusal(refusal) => panic!("{refusal}"),
    }
}

/// Each number by its name, set by hand to one that no formula gives.
#[test]
fn every_number_stands_where_its_name_is() {
    let mut documents = documents();
    let document = documents
        .iter_mut()
        .find(|document| document.results.backups.len() == 3)
        .unwrap();
    let results = &mut document.results;
    results.age_years = Some(141);
    results.predicted_d = Some(Diopters::new(7.01));
    let derived = match results.eye {
        Side::Right => &mut results.derived.right,
        Side::Left => &mut results.derived.left,
    };
    derived.mean_k_d = Some(Diopters::new(71.02));
    derived.corneal_astigmatism_d = Some(Diopters::new(7.03));
    derived.aqueous_depth_mm = Some(Millimeters::new(7.04));
    let Outcome::Answer(ladder) = &mut results.ladder else {
        panic!("a ladder");
    };
    answer(ladder).predicted_d = Some(Diopters::new(7.05));
    let [bag, in_sulcus, chamber] = results.backups.as_mut_slice() else {
        panic!("three backup lenses");
    };
    answer(&mut bag.ladder).predicted_d = Some(Diopters::new(7.06));
    let sulcus = &mut in_sulcus.sulcus.as_mut().unwrap().powers[0];
    sulcus.stepwise = Some(StepwisePower::Between(
        Diopters::new(7.07),
        Diopters::new(7.08),
    ));
    sulcus.five_percent_d = Some(Diopters::new(7.09));
    sulcus.vergence = Outcome::Answer(Diopters::new(7.10));
    answer(&mut chamber.ladder).predicted_d = Some(Diopters::new(7.11));
    let closely = results
        .certainty
        .as_mut()
        .unwrap()
        .closely
        .as_mut()
        .unwrap();
    closely.formulas[0].spread.interval_95_d = [7.12, 7.13].map(Diopters::new);
    results.chamber.depth_limit_um = Micrometers::new(7_140);
    results.chamber.lens_thickness_mm = Some(Millimeters::new(7.15));
    let Outcome::Answer(section) = &mut results.chamber.section else {
        panic!("a section");
    };
    section.pupil_plane = Millimeters::new(7.16);
    section.aqueous_depth = Millimeters::new(7.17);
    let text = data(document).to_string();
    for wanted in [
        "(141 years)",
        "+7.01 D by SRK/T",
        "71.02 D",
        "7.03 D, steep @ ",
        "\"Aqueous depth\",\"taken\":null,\"value\":\"7.04 mm\"",
        "\"predicted\":\"+7.05 D\"",
        "predicted +7.06 D",
        "stepwise rule: +7.07 D to +7.08 D",
        "minus 5 %: +7.09 D",
        "by vergence: +7.10 D",
        "predicted +7.11 D",
        "+7.12 D to +7.13 D",
        "limit 7.14 mm",
        "Lens 7.15 mm thick",
        "chamber depth 7.16 mm from the epithelium, aqueous depth 7.17 mm",
    ] {
        assert!(text.contains(wanted), "{wanted}\n{text}");
    }
}

/// Another measurement in the case moves its own row and nothing that was computed from it.
#[test]
fn what_was_entered_is_not_computed_with() {
    for document in documents() {
        let mut other = document.clone();
        let eye = other.case.eyes.get_mut(other.results.eye);
        eye.keratometry = eye.keratometry.take().map(|measured| Measured {
            value: Keratometry {
                flat: measured.value.steep,
                steep: measured.value.flat,
                ..measured.value
            },
            ..measured
        });
        eye.corneal_thickness = None;
        let [before, after] = [&document, &other].map(data);
        for part in ["lens", "formulas", "findings", "figures", "overrides"] {
            assert_eq!(before[part], after[part], "{part}");
        }
        assert_ne!(before["measurements"], after["measurements"]);
    }
}

/// Whatever was recorded out of the ordinary stands in a box of its own, whatever rules say of it.
#[test]
fn what_is_special_stands_on_the_sheet() {
    let mut document = documents().swap_remove(0);
    let side = document.results.eye;
    let special = |document: &PlanDocument| data(document)["special"].clone();
    document.case.patient.alpha_blocker = None;
    let state = &mut document.case.eyes.get_mut(side).state;
    *state = EyeState::default();
    assert_eq!(special(&document), serde_json::json!([]));
    let state = &mut document.case.eyes.get_mut(side).state;
    state.intravitreal_injections = Some(true);
    state.irregular_cornea = Some(false);
    state.glaucoma = Some(true);
    state.amblyopia = Some(true);
    state.polar_opacity = Some(Micrometers::new(4_200));
    state.lens_decentration = Some(Micrometers::new(900));
    document.case.patient.alpha_blocker = Some(true);
    // The other eye's are not this eye's.
    let other = document.case.eyes.get_mut(side.other());
    other.state.brunescent = Some(true);
    assert_eq!(
        special(&document),
        serde_json::json!([
            "intravitreal injections",
            "posterior polar opacity of 4.20 mm",
            "lens center 0.90 mm off the axis",
            "alpha-blocker now or before",
            "guarded prognosis: glaucoma, amblyopia",
        ])
    );
}
