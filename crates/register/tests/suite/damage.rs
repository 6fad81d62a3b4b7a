//! Files that were damaged or changed behind the program's back: noticed, never planned with, and
//! never a panic.

use millrace_wording::{Show as _, Words};
use std::fs;
use std::ops::ControlFlow;
use std::sync::LazyLock;

use crate::support::{check, content, filled};
use millrace_register::{Cases, CheckProblem, Register, Window};
use proptest::prelude::*;
use rusqlite::Connection;

/// What somebody changes behind the program's back is found, and not planned with.
#[test]
fn a_changed_past_is_found() {
    type Expected = fn(&CheckProblem) -> bool;
    let tables: [(&str, &str, Expected); 9] = [
        (
            "revision_is_not_changed",
            "UPDATE revision SET body = replace(body, '23.', '24.') WHERE sequence = 1",
            |problem| matches!(problem, CheckProblem::Chain { revision: 1, .. }),
        ),
        (
            "revision_is_not_changed",
            "UPDATE revision SET saved_by = 'Somebody Else' WHERE sequence = 3",
            |problem| matches!(problem, CheckProblem::Chain { revision: 1, .. }),
        ),
        (
            "revision_is_not_changed",
            "UPDATE revision SET body = '{}' WHERE sequence = 2",
            |problem| matches!(problem, CheckProblem::Body { revision: 1, .. }),
        ),
        (
            "revision_is_not_changed",
            "UPDATE revision SET number = 9 WHERE number = 3",
            |problem| matches!(problem, CheckProblem::Order { revision: 9, .. }),
        ),
        (
            "revision_is_not_removed",
            "DELETE FROM revision WHERE number = 2",
            |problem| matches!(problem, CheckProblem::Missing { .. }),
        ),
        (
            "revision_is_not_removed",
            "PRAGMA foreign_keys = OFF; DELETE FROM revision WHERE number = 3",
            |problem| matches!(problem, CheckProblem::List { .. }),
        ),
        (
            "current_goes_forward",
            "UPDATE current SET eye = 'left' WHERE case_key = 1",
            |problem| matches!(problem, CheckProblem::List { .. }),
        ),
        (
            "search_changes",
            "UPDATE current SET sequence = sequence + 100, name_folded = 'x' WHERE case_key = 2",
            |problem| matches!(problem, CheckProblem::Search(_)),
        ),
        ("revision_is_not_removed", "SELECT 1", |problem| {
            matches!(problem, CheckProblem::Schema { .. })
        }),
    ];
    for (trigger, statement, expected) in tables {
        let directory = tempfile::tempdir().unwrap();
        let path = filled(directory.path());
        let connection = Connection::open(&path).unwrap();
        connection
            .execute_batch(&format!(
                "PRAGMA foreign_keys = OFF; DROP TRIGGER {trigger}; {statement};"
            ))
            .unwrap();
        drop(connection);
        let mut register = Register::open(&path).unwrap();
        let report = check(&mut register);
        assert!(
            report.problems.iter().any(expected),
            "{statement}: {report:?}"
        );
        for problem in &report.problems {
            assert!(!problem.show(Words::ENGLISH).is_empty());
        }
    }
}

#[test]
fn a_measurement_that_changed_on_the_drive_is_not_planned_with() {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let (case, newest) = {
        let register = Register::open(&path).unwrap();
        let first = Window {
            offset: 0,
            limit: 1,
        };
        let listed = &register.list(Cases::InUse, first).unwrap()[0];
        (listed.case, listed.revision)
    };
    let connection = Connection::open(&path).unwrap();
    connection
        .execute_batch("DROP TRIGGER revision_is_not_changed")
        .unwrap();
    let changed = connection
        .execute(
            "UPDATE revision SET body = replace(body, '.3', '.4') WHERE case_id = ?1",
            [case.to_string()],
        )
        .unwrap();
    assert!(1 <= changed);
    drop(connection);
    let register = Register::open(&path).unwrap();
    assert!(register.list(Cases::InUse, Window::ALL).is_err());
    assert!(register.history(case).is_err());
    let error = register.load(case).unwrap_err();
    assert_eq!(
        error.show(Words::ENGLISH),
        format!(
            "the register is damaged (revision {newest} of case {case} is not what was saved); \
             do not write to it, keep the file, and repair it into a new one or restore the latest \
             backup: {}",
            path.display()
        )
    );
}

static SOUND: LazyLock<(Vec<u8>, Vec<String>)> = LazyLock::new(|| {
    let directory = tempfile::tempdir().unwrap();
    let path = filled(directory.path());
    let content = content(&Register::open(&path).unwrap()).unwrap();
    (fs::read(&path).unwrap(), content)
});

/// Either an error, or a check that fails, or everything is as it was. Never a panic, and never
/// another content that passes for sound.
fn noticed_or_harmless(bytes: &[u8]) -> Result<&'static str, TestCaseError> {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    fs::write(&path, bytes).unwrap();
    let mut register = match Register::open(&path) {
        Ok(register) => register,
        Err(error) => {
            prop_assert!(!error.show(Words::ENGLISH).is_empty());
            return Ok("refused");
        }
    };
    let found = content(&register);
    let report = register.check(&mut |_| ControlFlow::Continue(()));
    let sound = report
        .as_ref()
        .is_ok_and(|report| report.problems.is_empty());
    match found {
        Err(error) => {
            prop_assert!(!sound, "{} but the check passes", error);
            Ok("unreadable")
        }
        Ok(found) if found == SOUND.1 => Ok(if sound { "as it was" } else { "found" }),
        Ok(_) => {
            prop_assert!(!sound, "another content passes the check");
            Ok("found")
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn flipped_bits_are_noticed_or_harmless(
        flips in prop::collection::vec((any::<prop::sample::Index>(), 0_u8..8), 1..4),
    ) {
        let mut bytes = SOUND.0.clone();
        for (at, bit) in flips {
            let at = at.index(bytes.len());
            bytes[at] ^= 1 << bit;
        }
        noticed_or_harmless(&bytes)?;
    }

    #[test]
    fn flipped_bits_of_the_header_are_noticed_or_harmless(at in 0_usize..100, bit in 0_u8..8) {
        let mut bytes = SOUND.0.clone();
        bytes[at] ^= 1 << bit;
        noticed_or_harmless(&bytes)?;
    }

    #[test]
    fn a_cut_file_is_noticed(keep in 0.0..1.0_f64) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a share of a small length"
        )]
        let length = (SOUND.0.len() as f64 * keep) as usize;
        let outcome = noticed_or_harmless(&SOUND.0[..length])?;
        // Less than a block may have been zeros, which a short block is filled up with.
        if length + 4_096 <= SOUND.0.len() {
            prop_assert_ne!(outcome, "as it was");
        }
    }

    /// A block that a failing drive leaves empty; one that is free holds nothing.
    #[test]
    fn a_block_of_zeros_is_noticed_or_harmless(page in any::<prop::sample::Index>()) {
        let mut bytes = SOUND.0.clone();
        let from = page.index(bytes.len() / 4_096) * 4_096;
        bytes[from..from + 4_096].fill(0);
        noticed_or_harmless(&bytes)?;
    }
}
