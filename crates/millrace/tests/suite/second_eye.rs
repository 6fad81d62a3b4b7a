//! The refinement by the first eye's error in the plan: offered, chosen, refused; never silent.

use std::fs;

use crate::support::{millrace_in, root};
use serde_json::Value;

/// The demo case with some of its text replaced: exit status, page, and document.
fn plan(replacements: &[(&str, &str)]) -> (i32, String, Value) {
    let path = root().join("demo-data/cases/second-eye.ron");
    let mut text = fs::read_to_string(path).expect("the demo reads");
    for (from, to) in replacements {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    let directory = tempfile::tempdir().expect("a directory");
    fs::write(directory.path().join("case.ron"), text).expect("written");
    let page = millrace_in(
        directory.path(),
        &["plan", "case.ron", "--full", "--width", "120"],
    );
    let json = millrace_in(directory.path(), &["plan", "case.ron", "--format", "json"]);
    assert_eq!((page.err.as_str(), page.code), ("", json.code));
    let json: Value = serde_json::from_str(&json.out).expect("valid JSON");
    (page.code, page.out, json["results"].clone())
}

const FORMULA: &str = "formula: srk_t,\n        convention";

fn choose(choice: &str) -> String {
    format!("convention: first_myopic, second_eye: {choice},")
}

const CONVENTION: &str = "convention: first_myopic,";

/// By hand: +0.06 less −0.47 is +0.53 D, half of it +0.265 D. SRK/T by `tests/oracle/closed_forms.py`
/// for AL 23.63 mm, 43.25 and 44.00 D, A 118.66: +21.00 D predicts −0.4522 D.
#[test]
fn offered_and_undecided_shows_both_predictions() {
    let (code, page, json) = plan(&[]);
    assert_eq!(code, 0);
    assert!(page.contains("0.53 D more hyperopic than predicted"));
    assert!(page.contains("achieved less predicted spherical equivalent"));
    assert!(page.contains("Offered, and not decided yet."));
    assert_eq!(page.matches("✓ met").count(), 7);
    let second = &json["second_eye"];
    assert_eq!(second["offer"], "offered");
    assert_eq!(second["choice"], Value::Null);
    assert_eq!(second["refined"]["shift_d"], 0.265);
    let chosen = &second["refined"]["chosen"];
    let number = |name: &str| chosen[name].as_f64().expect("a number");
    assert_eq!(format!("{:.2}", number("unrefined_refraction_d")), "-0.45");
    let shift = number("refined_refraction_d") - number("unrefined_refraction_d");
    assert_eq!(format!("{shift:.6}"), "0.265000");
    assert_eq!(json["predicted_d"], chosen["unrefined_refraction_d"]);
}

/// The first eye's lens and refractions are in the file and must not be on the page of this eye.
#[test]
fn the_first_eyes_numbers_are_not_printed() {
    let (_, page, json) = plan(&[
        ("lens_power: \"+21.00 D\"", "lens_power: \"+17.35 D\""),
        ("predicted: \"-0.47 D\"", "predicted: \"-9.17 D\""),
        ("achieved: \"+0.06 D\"", "achieved: \"-8.64 D\""),
    ]);
    assert!(page.contains("0.53 D more hyperopic than predicted"));
    for shown in [page, json.to_string()] {
        for number in ["17.35", "9.17", "8.64"] {
            assert!(!shown.contains(number), "{number}");
        }
    }
}

#[test]
fn a_decision_is_said_and_changes_no_ladder() {
    let (_, _, undecided) = plan(&[]);
    for (choice, said) in [
        ("refined", "Offered, and the refined prediction was chosen."),
        (
            "unrefined",
            "Offered, and declined: the unrefined prediction was chosen.",
        ),
    ] {
        let (code, page, json) = plan(&[(CONVENTION, &choose(choice))]);
        assert_eq!(code, 0);
        assert!(page.contains(said), "{page}");
        assert_eq!(json["second_eye"]["choice"], choice);
        assert_eq!(json["ladder"], undecided["ladder"]);
        assert!(page.contains("−0.45 D unrefined"), "{page}");
    }
}

#[test]
fn without_a_condition_no_refined_number_is_given_and_choosing_it_stops_the_plan() {
    for (from, to, outcome) in [
        ("complicated: false,", "complicated: true,", "✗ not met"),
        (
            "            complicated: false,\n",
            "",
            "? could not be evaluated",
        ),
        (FORMULA, "formula: t2,\n        convention", "✗ not met"),
    ] {
        let (code, page, json) = plan(&[(from, to)]);
        assert_eq!(code, 0);
        assert!(page.contains(outcome), "{page}");
        assert!(page.contains("no refined prediction is given"), "{page}");
        assert_ne!(json["second_eye"]["offer"], "offered");
        assert_eq!(json["second_eye"]["refined"], Value::Null);

        let (code, page, json) = plan(&[(from, to), (CONVENTION, &choose("refined"))]);
        assert_eq!(code, 1);
        assert!(page.contains("Stop    SE-02"), "{page}");
        assert_eq!(json["second_eye"]["refined"], Value::Null);
    }
}
