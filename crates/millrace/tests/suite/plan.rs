//! `millrace plan` on the demo cases and on files that must be refused.

use std::fs;
use std::path::PathBuf;

use crate::support::{millrace_in, root};

pub(crate) fn demo_cases() -> Vec<PathBuf> {
    let mut paths: Vec<_> = fs::read_dir(root().join("demo-data/cases"))
        .expect("the demo is there")
        .map(|entry| entry.expect("an entry reads").path())
        .collect();
    paths.sort();
    paths
}

pub(crate) fn plan(case: &str, more: &[&str]) -> crate::support::Run {
    let mut arguments = vec!["plan", case];
    arguments.extend(more);
    millrace_in(&root(), &arguments)
}

/// The plan on one screen, and in full.
fn both(case: &str, width: &str) -> [crate::support::Run; 2] {
    [&[][..], &["--full"]].map(|more| plan(case, &[&["--width", width], more].concat()))
}

/// Every demo case as it prints; each picture was read by eye before it was accepted.
#[test]
fn demo_cases_print_as_reviewed() {
    for path in demo_cases() {
        let name = path
            .file_stem()
            .expect("a name")
            .to_str()
            .expect("a plain name")
            .to_owned();
        for (extent, more) in [("screen", &[][..]), ("plan", &["--full"])] {
            let more = [&["--width", "100"], more].concat();
            let run = plan(path.to_str().expect("a plain path"), &more);
            assert_eq!(run.err, "", "{name}");
            insta::with_settings!({ snapshot_path => "snapshots", prepend_module_to_snapshot => false, omit_expression => true }, {
                insta::assert_snapshot!(format!("{extent}-{name}"), format!("exit status {}\n{}", run.code, run.out));
            });
        }
    }
}

/// A unit, a sign or an angle alone at the start of a line is read for another number's.
#[test]
fn no_line_starts_with_a_unit() {
    const LONE: [&str; 8] = ["D", "mm", "mm³", "µm", "%", "/", "×", "@"];
    for path in demo_cases() {
        let path = path.to_str().expect("a plain path");
        for width in ["72", "80", "100", "120"] {
            let [screen, full] = both(path, width);
            for line in screen.out.lines().chain(full.out.lines()) {
                let first = line.split_whitespace().next().unwrap_or_default();
                let bare = first.trim_end_matches(['.', ',', ';', ':', ')']);
                assert!(!LONE.contains(&bare), "{path} at {width}: {line}");
                assert!(!bare.starts_with('°'), "{path} at {width}: {line}");
            }
        }
    }
}

/// What no page may lack: both identifiers, the eye in words, signs, the caution; and no line
/// wider than asked.
#[test]
fn every_plan_carries_identity_eye_and_caution() {
    for path in demo_cases() {
        let path = path.to_str().expect("a plain path");
        let widths = ["72", "100", "120"].into_iter();
        for (width, run) in widths.flat_map(|width| both(path, width).map(|run| (width, run))) {
            assert!(run.out.contains("No. "), "{path}");
            let eyes = ["RIGHT EYE", "LEFT EYE"].map(|eye| run.out.contains(eye));
            assert_ne!(eyes[0], eyes[1], "{path}: exactly one eye is named");
            assert!(run.out.contains("Not a certified medical device"), "{path}");
            assert!(
                !run.out.contains('\u{1b}'),
                "{path}: no color where no terminal reads"
            );
            for line in run.out.lines() {
                let wide = line.chars().count();
                assert!(
                    wide <= width.parse().expect("a number"),
                    "{path} at {width}: {line}"
                );
            }
        }
    }
}

#[test]
fn json_carries_the_plan() {
    for path in demo_cases() {
        let path = path.to_str().expect("a plain path");
        let run = plan(path, &["--format", "json"]);
        let plan: serde_json::Value = serde_json::from_str(&run.out).expect("valid JSON");
        assert_eq!(plan["format"], "millrace plan");
        assert_eq!(
            plan["results"]["stopped"].as_bool(),
            Some(run.code == 1),
            "{path}"
        );
        assert!(
            plan["results"]["rules"]
                .as_array()
                .is_some_and(|rules| 50 < rules.len()),
            "{path}"
        );
    }
}

/// None known is said, and what was not asked is not there: no reader can take one for the other.
#[test]
fn json_tells_what_theatre_needs() {
    let case = |case: &str| {
        let path = format!("demo-data/cases/{case}.ron");
        let run = plan(&path, &["--format", "json"]);
        let plan: serde_json::Value = serde_json::from_str(&run.out).expect("valid JSON");
        plan["case"].clone()
    };
    let stated = case("hard-and-shallow");
    let theatre = &stated["theatre"];
    assert_eq!(
        theatre["allergies"],
        serde_json::json!({ "these": ["penicillin"] })
    );
    assert_eq!(theatre["medicines"], "none_known");
    assert_eq!(theatre["technique"].as_array().map(Vec::len), Some(4));
    let powers = |case: &serde_json::Value| -> Vec<serde_json::Value> {
        let lenses = case["lens"]["lenses"].as_array().unwrap().iter();
        lenses.map(|lens| lens["power"].clone()).collect()
    };
    let chosen = ["+22.50 D", "+22.00 D", "+21.00 D", "+18.50 D"];
    assert_eq!(powers(&stated), chosen);
    let blank = case("astigmatic-eye");
    assert!(blank["theatre"]["allergies"].is_null());
    let [planned, backup @ ..] = &powers(&blank)[..] else {
        panic!("a planned lens");
    };
    assert!(!planned.is_null() && backup.iter().all(serde_json::Value::is_null));
}

/// Exit status 0 for a plan, 1 for a plan with a Stop finding, 2 for refused input.
#[test]
fn exit_status_tells_plan_stop_and_refusal() {
    assert_eq!(plan("demo-data/cases/ordinary-eye.ron", &[]).code, 0);
    assert_eq!(plan("demo-data/cases/wild-fellow-eye.ron", &[]).code, 1);
    assert_eq!(plan("demo-data/cases/no-such-case.ron", &[]).code, 2);
}

/// A damaged copy of the ordinary demo case, and what the program says of it.
fn refusal_of(from: &str, to: &str) -> String {
    let directory = tempfile::tempdir().expect("a directory");
    let text = fs::read_to_string(root().join("demo-data/cases/ordinary-eye.ron")).expect("demo");
    assert!(text.contains(from), "{from}");
    let path = directory.path().join("case.ron");
    fs::write(&path, text.replacen(from, to, 1)).expect("written");
    let run = millrace_in(directory.path(), &["plan", "case.ron"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{to}");
    run.err
}

#[test]
fn files_that_cannot_be_are_refused_with_the_place_and_the_way_out() {
    assert_eq!(
        refusal_of("name: \"Marchetti", "nickname: \"x\", name: \"Marchetti"),
        "millrace: case refused: line 6, column 9: Unexpected field named `nickname` in `Patient`, \
         expected one of `name`, `number`, `birth_date`, `sex`, `alpha_blocker`, `anticoagulant`, or `diabetes` instead: case.ron\n"
    );
    assert_eq!(
        refusal_of("version: 3", "version: 7"),
        "millrace: case refused: the file has version 7; this program reads version 3: case.ron\n"
    );
    assert_eq!(
        refusal_of("\"43.50 D at 1.3375\"", "\"43.50 D\""),
        "millrace: case refused: line 29, column 27: keratometry \"43.50 D\" is a power without its \
         index, which can be off by 0.8 D: write \"43.50 D at 1.3375\" with the index of the \
         instrument, or the radius in mm: case.ron\n"
    );
    assert_eq!(
        refusal_of("sex: female", "sex: female,\n        sex: male"),
        "millrace: case refused: line 10, column 9: Unexpected duplicate field named `sex` in \
         `Patient`: case.ron\n"
    );
    assert_eq!(
        refusal_of("\"23.52 mm\"", "\"235.2 mm\""),
        "millrace: case refused: line 21, column 21: axial length 235.20 mm is outside 14.00 mm to \
         40.00 mm: case.ron\n"
    );
    assert_eq!(
        refusal_of("eye: right,", ""),
        "millrace: case refused: the operative eye is not chosen: set operation.eye to right or left: \
         case.ron\n"
    );
}

/// A reason needs words and a rule, an identifier is one visible line, a lens stands where it is made
/// to sit.
#[test]
fn files_with_forged_or_empty_words_are_refused() {
    let reasons = |rule: &str, reason: &str| {
        format!(
            "reasons: [(rule: \"{rule}\", measured: quantity(points(1)), limit: under(points(1)), reason: \"{reason}\", \
             by: \"A. Okafor\", on: \"2026-11-24\")],\n    patient: ("
        )
    };
    for (to, message) in [
        (
            reasons("AL-01", " "),
            "line 5, column 133: a reason is missing",
        ),
        (
            reasons("ZZ-99", "why"),
            "line 5, column 135: no rule is called ZZ-99",
        ),
    ] {
        let expected = format!("millrace: case refused: {message}: case.ron\n");
        assert_eq!(refusal_of("patient: (", &to), expected);
    }
    assert_eq!(
        refusal_of("name: \"Marchetti", "name: \"Smith\\nLEFT EYE"),
        "millrace: case refused: line 13, column 5: patient name holds an invisible or a control character \
         (U+000A): case.ron\n"
    );
    assert_eq!(
        refusal_of("site: bag", "site: anterior_chamber"),
        "millrace: case refused: line 335, column 9: the planned lens is made for the anterior chamber \
         and may not sit elsewhere: case.ron\n"
    );
}

/// With nothing measured, every rule that needs a measurement says so by its id.
#[test]
fn what_was_not_measured_is_listed_as_not_evaluated() {
    let directory = tempfile::tempdir().expect("a directory");
    let case = "(format: \"millrace case\", version: 2, patient: (), operation: (eye: left))";
    fs::write(directory.path().join("case.ron"), case).expect("written");
    let run = millrace_in(
        directory.path(),
        &["plan", "case.ron", "--full", "--width", "100"],
    );
    // A patient without identifiers is a Stop.
    assert_eq!(run.code, 1, "{}", run.err);
    let (_, list) = run
        .out
        .split_once("which does not mean that they passed.")
        .expect("the list is there");
    for id in [
        "AL-01", "KM-01", "WT-01", "DP-01", "EN-01", "FU-01", "PX-01", "AB-01", "ID-02",
    ] {
        assert!(list.contains(&format!("○ {id}")), "{id}: {list}");
    }
}

/// A reader that goes away early still learns from the status that a Stop finding stands.
#[cfg(unix)]
#[test]
fn a_closed_pipe_does_not_hide_a_stop() {
    use std::process::{Command, Stdio};

    let mut run = Command::new(env!("CARGO_BIN_EXE_millrace"))
        .args(["plan", "demo-data/cases/wild-fellow-eye.ron"])
        .current_dir(root())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(run.stdout.take());
    assert_eq!(run.wait().expect("it ends").code(), Some(1));
}

#[test]
fn a_clinics_limits_are_named_in_the_plan() {
    let directory = tempfile::tempdir().expect("a directory");
    let limits = fs::read_to_string(root().join("assets/limits.ron")).expect("shipped limits");
    let path = directory.path().join("ours.ron");
    fs::write(
        &path,
        limits.replace("chamber_depth: \"2.80 mm\"", "chamber_depth: \"2.50 mm\""),
    )
    .expect("written");
    let case = "demo-data/cases/hard-and-shallow.ron";
    let ours = plan(
        case,
        &[
            "--limits",
            path.to_str().expect("a plain path"),
            "--width",
            "100",
        ],
    );
    assert!(
        ours.out
            .contains("This clinic's limit chamber_depth is 2.50 mm; the shipped one is 2.80 mm")
    );
    assert!(!plan(case, &[]).out.contains("This clinic's limit"));
    let whole = ["--full", "--limits", path.to_str().expect("a plain path")];
    assert!(
        plan(case, &whole)
            .out
            .contains("This clinic's limit chamber_depth")
    );

    fs::write(&path, limits.replace("\"2.80 mm\"", "\"2.80\"")).expect("written");
    let refused = plan(case, &["--limits", path.to_str().expect("a plain path")]);
    assert_eq!(refused.code, 2);
    assert!(
        refused
            .err
            .contains("chamber_depth \"2.80\" needs its unit: write \"2.80 mm\""),
        "{}",
        refused.err
    );
}

#[test]
fn references_and_completions_print() {
    let formulas = millrace_in(&root(), &["formulas", "srk_t"]);
    assert!(formulas.out.contains("ACDc = 0.62467·A − 68.747"));
    let rule = millrace_in(&root(), &["rules", "dp-01"]);
    assert!(rule.out.contains("2.80 mm") && rule.out.contains("[common practice]"));
    let unknown = millrace_in(&root(), &["rules", "XX-99"]);
    assert_eq!(unknown.code, 2);
    assert!(
        unknown
            .err
            .starts_with("millrace: no rule is called \"XX-99\"; there are: ID-01")
    );
    assert!(
        millrace_in(&root(), &["completions", "bash"])
            .out
            .contains("millrace")
    );

    let directory = tempfile::tempdir().expect("a directory");
    let run = millrace_in(directory.path(), &["manual", "."]);
    assert_eq!(run.code, 0, "{}", run.err);
    for page in ["millrace.1", "millrace-plan.1", "millrace-tabulate.1"] {
        let text = fs::read_to_string(directory.path().join(page)).expect("a page");
        assert!(text.contains(".SH"), "{page}");
    }
}
