//! Case files and limits that were damaged, cut and stirred: refused with a message or planned,
//! never a panic. What is read is written and read back the same.

use millrace_core::case_file;
use millrace_core::limits::{Limits, SHIPPED_TEXT};
use millrace_core::plan::Plan;
use proptest::prelude::*;

use crate::support::{demo_cases, root};

/// One act of damage, by positions as shares of the text.
#[derive(Clone, Debug)]
pub(crate) enum Damage {
    Cut(f64, f64),
    Insert(f64, String),
    Repeat(f64, f64),
    Digit(f64, char),
}

pub(crate) fn damage() -> impl Strategy<Value = Damage> {
    let share = || 0.0..1.0;
    prop_oneof![
        (share(), 0.0..0.05).prop_map(|(at, length)| Damage::Cut(at, length)),
        (share(), "\\PC{0,6}").prop_map(|(at, text)| Damage::Insert(at, text)),
        (share(), 0.0..0.05).prop_map(|(at, length)| Damage::Repeat(at, length)),
        (share(), prop::char::range('0', '9')).prop_map(|(at, digit)| Damage::Digit(at, digit)),
    ]
}

fn position(text: &[char], share: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a share of a small length"
    )]
    let at = (text.len() as f64 * share) as usize;
    at.min(text.len())
}

pub(crate) fn apply(text: &mut Vec<char>, damage: &Damage) {
    match damage {
        Damage::Cut(at, length) => {
            let (from, to) = (position(text, *at), position(text, at + length));
            text.drain(from..to);
        }
        Damage::Insert(at, inserted) => {
            let at = position(text, *at);
            text.splice(at..at, inserted.chars());
        }
        Damage::Repeat(at, length) => {
            let (from, to) = (position(text, *at), position(text, at + length));
            let part: Vec<_> = text[from..to].to_vec();
            text.splice(to..to, part);
        }
        Damage::Digit(at, digit) => {
            let from = position(text, *at);
            if let Some(found) = text[from..].iter().position(char::is_ascii_digit) {
                text[from + found] = *digit;
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    #[test]
    fn damaged_case_files_never_panic(
        which in any::<prop::sample::Index>(),
        damages in prop::collection::vec(damage(), 1..6),
    ) {
        let cases = demo_cases();
        let mut text: Vec<char> = which.get(&cases).chars().collect();
        for damage in &damages {
            apply(&mut text, damage);
        }
        let text: String = text.into_iter().collect();
        match case_file::read(&text) {
            Err(error) => prop_assert!(!error.to_string().is_empty()),
            Ok(draft) => {
                let written = case_file::write(&draft).unwrap();
                prop_assert_eq!(&case_file::read(&written).unwrap(), &draft);
                if let Ok(plan) = Plan::of(&draft, Limits::shipped()) {
                    prop_assert!(!plan.rules.is_empty());
                }
            }
        }
    }

    #[test]
    fn damaged_limits_never_panic(damages in prop::collection::vec(damage(), 1..6)) {
        let mut text: Vec<char> = SHIPPED_TEXT.chars().collect();
        for damage in &damages {
            apply(&mut text, damage);
        }
        let text: String = text.into_iter().collect();
        if let Ok(limits) = Limits::parse(&text) {
            // Limits that were read can be planned with, however odd a clinic's values.
            for case in demo_cases() {
                let draft = case_file::read(&case).unwrap();
                let _ = Plan::of(&draft, &limits).unwrap();
            }
        }
    }
}

/// Demo cases are stored as the program writes them, under their opening comment.
#[test]
fn demo_cases_read_back_to_the_same_text() {
    let cases = demo_cases();
    assert!(10 <= cases.len());
    for text in cases {
        let comment_lines = text
            .lines()
            .take_while(|line| line.starts_with("//"))
            .count();
        let body: Vec<_> = text.lines().skip(comment_lines).collect();
        assert!(0 < comment_lines, "a demo case opens with what it shows");
        let written = case_file::write(&case_file::read(&text).unwrap()).unwrap();
        assert_eq!(written.lines().collect::<Vec<_>>(), body);
    }
}

/// The lens records inside demo cases are the ones of the demo's list.
#[test]
fn demo_cases_use_the_listed_lenses() {
    let lenses = std::fs::read_to_string(root().join("demo-data/lenses.ron")).unwrap();
    let records = case_file::read_lenses(&lenses).unwrap();
    assert_eq!(case_file::write_lenses(&records).unwrap(), lenses);
    for text in demo_cases() {
        let lens = case_file::read(&text).unwrap().lens;
        for (_, lens) in lens.lenses.iter() {
            assert!(records.contains(&lens.record), "{}", lens.record.name);
        }
    }
}
