//! Registers of every released schema stay openable: one of each lies in `fixtures`, and is never made
//! anew once its schema is released.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod support;

use std::path::PathBuf;

use jiff::civil::date;
use millrace_core::biometry::Side;
use millrace_core::case::State;
use millrace_register::{CaseId, Register, Window};
use support::{aimed_at, by, check, demo};

fn fixture() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/schema-1.sqlite3")
}

fn cases() -> [CaseId; 2] {
    [1, 2].map(|byte| CaseId::from_bytes([byte; 16]))
}

/// While schema 1 is not released: `MILLRACE_RENEW_FIXTURE=1 cargo test -p millrace-register`.
fn renew() {
    let path = fixture();
    let _ = std::fs::remove_file(&path);
    let mut register = Register::open(&path).unwrap();
    let [first, second] = cases();
    for (case, expected, draft, stamp) in [
        (first, None, aimed_at(0), by("A. Okafor")),
        (second, None, demo("hard-and-shallow"), by("A. Okafor")),
        (first, Some(1), aimed_at(-25), by("B. Weir")),
    ] {
        register.save(case, expected, &draft, stamp).unwrap();
    }
}

/// The hashes were recomputed from the file by `tests/oracle/register_chain.py`, which shares nothing
/// with the program; names, day and target are those of the demo cases it was made of.
#[test]
fn a_register_of_schema_1_opens_and_reads() {
    if std::env::var_os("MILLRACE_RENEW_FIXTURE").is_some() {
        renew();
    }
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    std::fs::copy(fixture(), &path).unwrap();
    let mut register = Register::open_existing(&path).unwrap();
    let report = check(&mut register);
    assert_eq!(
        (report.cases, report.revisions, report.problems),
        (2, 3, vec![])
    );

    let [first, second] = cases();
    assert_eq!(first.to_string(), "01040g2081040g2081040g2081");
    for (case, number, saved_by, hash) in [
        (
            first,
            1,
            "A. Okafor",
            "cdf31b61748679a3db896228529aa18385e27522ba028ba2c6c840c0b12ee5d1",
        ),
        (
            first,
            2,
            "B. Weir",
            "c213a84ad74bcd59ffca08b69140e06033fdafb97b1f8da2bd1e7eea0a157d3b",
        ),
        (
            second,
            1,
            "A. Okafor",
            "9598d3485d2fa0e43239839d4cffcf2bdfb1d9e6b620a125c7221b306ba9aa40",
        ),
    ] {
        let entry = register.load_revision(case, number).unwrap().entry;
        assert_eq!(entry.saved_by, saved_by);
        assert_eq!(entry.saved_at.to_string(), "2026-11-24T10:15:30.5Z");
        assert_eq!(entry.hash.to_string(), hash, "{case} {number}");
    }
    let target = |number| {
        let lens = register.load_revision(first, number).unwrap().draft.lens;
        lens.target.unwrap().to_string()
    };
    assert_eq!([target(1), target(2)], ["+0.00 D", "\u{2212}0.25 D"]);

    let found = register.search("okonjo", Window::ALL).unwrap();
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].case, second);
    assert_eq!(found[0].number.as_deref(), Some("40-2291"));
    assert_eq!(found[0].eye, Some(Side::Right));
    assert_eq!(found[0].state, State::Planned);
    assert_eq!(found[0].operation_date, Some(date(2026, 12, 3)));
    // It can be saved to like any other.
    let entry = register.save(second, Some(1), &aimed_at(0), by("B. Weir"));
    assert_eq!(entry.unwrap().number, 2);
}
