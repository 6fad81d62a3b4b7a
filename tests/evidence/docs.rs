//! Generated pages that need more than core, and what the written ones name.

use millrace_core::reference;

use crate::firing;
use crate::support::{assert_current, read};

#[test]
fn the_page_on_uncertainty_is_current() {
    let lens = millrace_simulate::constants().unwrap();
    assert_current("docs/uncertainty.md", &reference::uncertainty(lens));
}

#[test]
fn the_rule_reference_is_current() {
    let mut page = String::from(
        "# Rules\n\nGenerated from the rules' own texts; `millrace rules` prints the same but for the last table.\nLimits are the shipped ones of `assets/limits.ron`; a clinic may set its own, and every plan names those that differ.\n**Stop** cannot be signed, **Review** needs a recorded reason, **Note** is to be known.\nOptions without a source are common practice.\n\nStanding of a number:\n\n",
    );
    page.push_str(&reference::standings());
    page.push('\n');
    page.push_str(reference::rules().trim_end());
    page.push_str("\n\n");
    page.push_str(&firing::section());
    assert_current("docs/rules.md", &page);
}

/// Every test that a page of evidence names exists.
#[test]
fn every_part_names_tests_that_exist() {
    let page = read("docs/evidence.md");
    let sources = sources();
    let named: Vec<_> = page.split('`').skip(1).step_by(2).collect();
    assert!(20 <= named.len(), "{} tests", named.len());
    for test in named {
        let function = format!("fn {test}(");
        let exists = sources.iter().any(|text| text.contains(&function));
        assert!(exists, "no test {test}");
    }
}

/// Every hazard names a control and a test, and the tests it names exist.
#[test]
fn every_hazard_names_tests_that_exist() {
    let page = read("docs/hazards.md");
    let sources = sources();
    let mut hazards = 0;
    for row in page.lines().filter(|line| line.starts_with("| H-")) {
        hazards += 1;
        let cells: Vec<_> = row.trim_matches('|').split('|').map(str::trim).collect();
        assert_eq!(cells.len(), 6, "{row}");
        let named: Vec<_> = cells[5].split('`').skip(1).step_by(2).collect();
        assert!(!named.is_empty(), "{} names no test", cells[0]);
        for test in named {
            let function = format!("fn {test}(");
            let rule = format!("id: \"{test}\"");
            let exists = |text: &String| text.contains(&function) || text.contains(&rule);
            assert!(sources.iter().any(exists), "{}: no test {test}", cells[0]);
        }
    }
    assert!(51 <= hazards, "{hazards} hazards");
}

fn sources() -> Vec<String> {
    crate::tidy::rust_files()
        .iter()
        .map(|path| std::fs::read_to_string(path).expect("a source file reads"))
        .collect()
}

/// Every abbreviation of the reference pages is in the glossary.
#[test]
fn the_glossary_knows_the_abbreviations() {
    let glossary = read("docs/glossary.md");
    for word in [
        "ACD", "AL", "CCT", "ELP", "IOL", "K", "LOCS III", "LT", "PE", "SE", "SF", "SICS", "WTW",
        "pACD", "AG", "LCOR",
    ] {
        assert!(glossary.contains(&format!("| {word} |")), "{word}");
    }
}
