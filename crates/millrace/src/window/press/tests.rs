//! A printer of the test's own, and faults on the thread.
#![expect(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]

use std::fs::Permissions;
use std::os::unix::fs::PermissionsExt as _;
use std::sync::mpsc;

use millrace_core::case_file;
use millrace_sheet::Paper;

use super::*;
use crate::window::testing::press;

const HARD_AND_SHALLOW: &str = include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");

fn draft() -> ToSet {
    let draft = case_file::read(HARD_AND_SHALLOW).unwrap();
    let limits = Limits::shipped().clone();
    ToSet {
        content: Content::Draft(Box::new(draft), Box::new(limits)),
        style: Style::shipped(Paper::A4, Words::ENGLISH),
    }
}

/// A printer of the test's own.
fn printer(directory: &Path, script: &str) -> PathBuf {
    let path = directory.join("printer");
    fs::write(&path, format!("#!/bin/sh\n{script}\n")).unwrap();
    fs::set_permissions(&path, Permissions::from_mode(0o755)).unwrap();
    path
}

#[test]
fn the_printer_is_handed_the_file_and_what_it_says_is_told() {
    let directory = tempfile::tempdir().unwrap();
    let printed = directory.path().join("printed.pdf");
    let script = format!(
        "cp \"$3\" '{}'; echo \"request id is 7, $1 $2\"",
        printed.display()
    );
    let command = printer(directory.path(), &script);
    let answer = draft().print((directory.path(), command.as_os_str()), &mut press());
    let message = "Sent to the printer: request id is 7, -t Millrace sheet".to_owned();
    assert_eq!(answer, Ok(message));
    assert!(fs::read(printed).unwrap().starts_with(b"%PDF-"));
    // Nobody signed it: once it is printed no copy stays.
    assert!(!directory.path().join("draft.pdf").exists());
}

#[test]
fn a_viewed_draft_is_gone_once_it_is_forgotten() {
    let directory = tempfile::tempdir().unwrap();
    let kept = draft().kept(directory.path(), &mut press()).unwrap();
    assert!(kept.is_file());
    forget_draft(directory.path());
    assert!(!kept.exists());
    forget_draft(directory.path());
}

#[test]
fn a_printer_that_fails_or_is_missing_is_told_with_the_place_of_the_file() {
    let directory = tempfile::tempdir().unwrap();
    let file = directory.path().join("draft.pdf");
    let command = printer(directory.path(), "echo no paper >&2; exit 1");
    let answer = draft().print((directory.path(), command.as_os_str()), &mut press());
    let message = format!("Not printed: no paper. The file is {}", file.display());
    assert_eq!(answer, Err(message));

    let absent = directory.path().join("absent");
    let answer = draft().print((directory.path(), absent.as_os_str()), &mut press());
    let message = answer.unwrap_err();
    assert!(message.starts_with("Not printed: "), "{message}");
    assert!(message.ends_with(&format!("The file is {}", file.display())));
}

/// What failed is told, and the thread does the next job.
#[test]
fn a_fault_in_a_job_is_told_and_the_next_job_is_done() {
    let (outgoing, answers) = mpsc::channel();
    let thread = PressThread::start(press(), move |answer| outgoing.send(answer).unwrap()).unwrap();
    thread.hand(Words::ENGLISH, |_, _| panic!("a fault"));
    let directory = tempfile::tempdir().unwrap();
    let beside = directory.path().to_owned();
    thread.hand(Words::ENGLISH, move |press, _| {
        let place = Place::Typed(beside.join("draft.pdf").display().to_string());
        use_sheet(Ok(draft()), SheetUse::Write(place), &beside, press)
    });
    drop(thread);
    let answers: Vec<_> = answers.iter().collect();
    let fault =
        "this stopped by a fault of this program; what was stored and signed stays as it was";
    let [Answer::Failed { message }, Answer::Done { .. }] = answers.as_slice() else {
        panic!("{answers:?}");
    };
    assert_eq!(message, fault);
    let written = fs::read(directory.path().join("draft.pdf")).unwrap();
    assert!(written.starts_with(b"%PDF-"));
}
