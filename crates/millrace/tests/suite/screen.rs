//! `millrace plan` on one screen, in full with its sources at the end, and of a case of the register.

use std::fs;

use crate::plan::{demo_cases, plan};
use crate::support::place::{Place, demo};

/// The screen of a demo case, and one on which everything is missing: what forbids signing, what has no
/// reason and what could not be evaluated is there by its id, and no source is.
#[test]
fn a_plan_stands_on_one_screen_with_everything_that_is_open() {
    let directory = tempfile::tempdir().expect("a directory");
    let blank = directory.path().join("blank.ron");
    let case = "(format: \"millrace case\", version: 2, patient: (), operation: (eye: left))";
    fs::write(&blank, case).expect("written");
    let mut open = 0;
    for path in demo_cases().into_iter().chain([blank]) {
        let path = path.to_str().expect("a plain path");
        let screen = plan(path, &["--width", "100"]).out;
        let lines = screen.lines().count();
        assert!(lines <= 24, "{path}: {lines} lines\n{screen}");
        let json = plan(path, &["--format", "json"]).out;
        let json: serde_json::Value = serde_json::from_str(&json).expect("valid JSON");
        let rules = json["results"]["rules"].as_array().expect("rules");
        let mut not_evaluated = 0;
        for rule in rules {
            let is_found = rule["verdict"]["finding"].is_object();
            let is_open = rule["severity"] == "stop"
                || rule["severity"] == "review" && rule["reason"] != "standing";
            if is_found && is_open {
                open += 1;
                let id = rule["id"].as_str().expect("an id");
                assert!(screen.contains(id), "{path}: {id}\n{screen}");
            }
            not_evaluated += usize::from(!rule["verdict"]["not_evaluated"].is_null());
        }
        let missing = format!("○ {not_evaluated} not evaluated, which is no pass: ");
        let told = not_evaluated == 0 || screen.contains(&missing);
        assert!(told, "{path}: {missing}\n{screen}");
        assert!(!screen.contains("Source"), "{screen}");
        for word in ["Lens ", "Power ", "Approach ", "Allergies ", "Medications "] {
            assert!(screen.contains(word), "{path}: {word}\n{screen}");
        }
    }
    assert!(10 < open, "{open}");
}

/// Each stands once in the list at the end, under the number it is cited by.
#[test]
fn sources_stand_once_at_the_end_of_the_whole_plan() {
    for path in demo_cases() {
        let run = plan(
            path.to_str().expect("a plain path"),
            &["--full", "--width", "120"],
        );
        let (cited, listed) = run
            .out
            .rsplit_once("\nSources ─")
            .expect("a list of sources");
        let numbered = |text: &str| {
            let parts = text.split('[').skip(1);
            let numbers = parts.filter_map(|part| part.split(']').next()?.parse().ok());
            numbers.collect::<std::collections::BTreeSet<usize>>()
        };
        let starts = listed.lines().filter(|line| line.starts_with(" ["));
        let texts: Vec<_> = starts.map(|line| &line[6..]).collect();
        let all: std::collections::BTreeSet<_> = (1..=texts.len()).collect();
        assert!(9 < texts.len(), "{}", path.display());
        assert_eq!(numbered(cited), all, "{}", path.display());
        assert_eq!(numbered(listed), all, "{}", path.display());
    }
}

#[test]
fn a_case_of_the_register_is_planned_and_printed_as_its_file_is() {
    let place = Place::new();
    let names = place.import(&["hard-and-shallow", "wild-fellow-eye"]);
    for (file, named) in [
        ("hard-and-shallow", "40-2291"),
        ("hard-and-shallow", &names[0]),
        ("wild-fellow-eye", &names[1][..8]),
    ] {
        let file = demo(file);
        for more in [&[][..], &["--full"], &["--format", "json"]] {
            let of = |case: &str| place.millrace(None, &[&["plan", case], more].concat());
            let (file, case) = (of(file.to_str().expect("a plain path")), of(named));
            assert_eq!((&*case.err, case.code), ("", file.code), "{named}");
            assert_eq!(case.out, file.out, "{named}");
        }
    }
    let draft = |case: &str, to: &str| place.millrace(None, &["sheet", "--draft", case, "-o", to]);
    let run = draft("40-2291", "draft.pdf");
    assert_eq!((run.code, &*run.err), (0, ""));
    assert!(place.path("draft.pdf").is_file());

    // A file of that name goes first, and a case that is in neither is told of both.
    let run = place.millrace(None, &["plan", "40-9999"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    let said = "\"40-9999\" is no file, and as a case of the register: no case of the register is called this";
    assert!(run.err.contains(said), "{}", run.err);
    fs::copy(demo("wild-fellow-eye"), place.path("40-2291")).expect("copied");
    assert_eq!(place.millrace(None, &["plan", "40-2291"]).code, 1);
    fs::remove_file(place.path("40-2291")).expect("removed");
    let run = place.millrace(None, &["plan", "none.ron"]);
    assert!(run.err.contains("cannot read"), "{}", run.err);

    // Once it is signed, the sheet is named beside the draft.
    let sign = [
        "sign", "40-2291", "--as", "A", "--role", "surgeon", "--target", "-0.30",
    ];
    assert_eq!(place.run(&sign).code, 0);
    for run in [
        place.millrace(None, &["plan", "40-2291"]),
        draft("40-2291", "again.pdf"),
    ] {
        assert_eq!(run.code, 0);
        let said = "millrace: the case is signed as it stands: sheet 1 is what to work by";
        assert!(run.err.starts_with(said), "{}", run.err);
    }
}
