//! Every known danger stands in the plan in words and in its document.

use std::fs;

use millrace_core::case_file;
use millrace_wording::{Show as _, Words, rules as say};
use serde_json::Value;

use crate::support::place::Place;

#[path = "../../../../tests/dangers/mod.rs"]
mod table;

use table::{ALL, Danger, close};

fn run(place: &Place, danger: &Danger, more: &[&str]) -> String {
    let path = place.path("case.ron");
    fs::write(&path, case_file::write(&danger.draft()).unwrap()).unwrap();
    let path = path.to_str().unwrap();
    let run = place.millrace(Some("okafor"), &[&["plan", path], more].concat());
    assert_eq!(run.err, "", "{}", danger.name);
    run.out
}

#[test]
fn every_danger_stands_in_the_plan_in_words() {
    let place = Place::new();
    for danger in ALL {
        let plan = danger.plan();
        let (found, finding) = danger.found(&plan).unwrap();
        let page = close(&run(&place, danger, &["--full", "--width", "100"]));
        let title = say::title(Words::ENGLISH, found.rule.title, danger.backup);
        for text in [&*title, &*finding.show(Words::ENGLISH)] {
            assert!(
                page.to_lowercase().contains(&close(text).to_lowercase()),
                "{}: {text}",
                danger.name
            );
        }
    }
}

#[test]
fn every_danger_stands_in_the_document_that_is_printed() {
    let place = Place::new();
    for danger in ALL {
        let printed: Value =
            serde_json::from_str(&run(&place, danger, &["--format", "json"])).unwrap();
        let rules = printed["results"]["rules"].as_array().unwrap();
        let backup = danger
            .backup
            .map(|backup| serde_json::to_value(backup).unwrap());
        let entry = rules
            .iter()
            .find(|it| it["id"] == danger.rule && it.get("backup").cloned() == backup);
        let entry = entry.unwrap_or_else(|| panic!("{}: no {}", danger.name, danger.rule));
        assert!(entry["verdict"]["finding"].is_object(), "{}", danger.name);
        let severity = serde_json::to_value(danger.severity).unwrap();
        assert_eq!(entry["severity"], severity, "{}", danger.name);
    }
}
