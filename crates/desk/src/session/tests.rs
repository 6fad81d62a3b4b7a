//! A session kept, stored and taken back.

use chrono::NaiveTime;
use millrace_core::biometry::Side;
use millrace_core::quantity::HundredthDiopters;

use super::*;

fn revision(text: &str) -> Revision {
    Revision(text.to_owned())
}

fn session() -> Session {
    let case = CaseId("a".to_owned());
    Session::open(case, revision("1"), Draft::default(), Limits::shipped())
}

fn target(hundredths: i32) -> Command {
    Command::SetTarget(Some(HundredthDiopters::new(hundredths)))
}

#[test]
fn changes_go_back_and_forth_whole() {
    let limits = Limits::shipped();
    let mut session = session();
    session.apply(Command::ChooseEye(Side::Right), limits);
    session.apply(target(-30), limits);
    session.apply(target(-30), limits);
    let last = Change::ByHand(Box::new(target(-30)));
    assert_eq!(session.undoes(), Some(&last));
    assert_eq!(last.show(Words::ENGLISH), "target refraction");
    session.undo(limits);
    assert_eq!(session.draft().lens.target, None);
    assert_eq!(session.redoes(), Some(&last));
    session.undo(limits);
    assert_eq!(session.draft(), &Draft::default());
    assert!(session.plan().is_err());
    session.undo(limits);
    session.redo(limits);
    session.redo(limits);
    assert_eq!(
        session.draft().lens.target,
        Some(HundredthDiopters::new(-30))
    );
    assert!(session.plan().is_ok());
    session.undo(limits);
    session.apply(target(-50), limits);
    assert_eq!(session.redoes(), None);
}

#[test]
fn a_refused_command_changes_only_the_message() {
    let limits = Limits::shipped();
    let mut session = session();
    session.apply(Command::SetPieces(Some(5)), limits);
    assert!(session.refused().is_some());
    assert_eq!(session.undoes(), None);
    assert_eq!(session.save_state(), SaveState::Saved);
    session.apply(target(0), limits);
    assert_eq!(session.refused(), None);
}

#[test]
fn what_changes_while_it_is_stored_is_stored_next() {
    let limits = Limits::shipped();
    let mut session = session();
    assert!(!session.wants_saving());
    session.apply(target(0), limits);
    assert!(session.wants_saving());
    assert_eq!(session.begin_saving(Who::default()).seen, revision("1"));
    session.apply(target(-25), limits);
    assert!(!session.wants_saving());
    assert_eq!(session.save_state(), SaveState::Saving);
    session.saved(revision("2"), NaiveTime::MIN);
    assert!(session.wants_saving());
    assert_eq!(session.begin_saving(Who::default()).seen, revision("2"));
    session.not_saved("the disk is full".to_owned());
    assert!(!session.wants_saving());
    session.retry_saving();
    assert!(session.wants_saving());
    session.begin_saving(Who::default());
    session.not_saved("the disk is full".to_owned());
    session.apply(target(-50), limits);
    assert!(session.wants_saving(), "the next change tries again");
}

#[test]
fn a_conflict_stays_until_somebody_chooses() {
    let limits = Limits::shipped();
    let mut session = session();
    session.apply(target(-25), limits);
    session.begin_saving(Who::default());
    session.conflicts();
    session.retry_saving();
    session.apply(target(-50), limits);
    assert_eq!(session.save_state(), SaveState::Conflict);
    assert!(!session.wants_saving());
    session.keep_mine(revision("7"));
    assert!(session.wants_saving());
    assert_eq!(session.begin_saving(Who::default()).seen, revision("7"));
}

#[test]
fn of_two_people_nobody_loses_anything() {
    let limits = Limits::shipped();
    let mut session = session();
    session.apply(target(-25), limits);
    session.begin_saving(Who::default());
    let theirs = update(&Draft::default(), target(-100)).unwrap();
    session.take_theirs(revision("7"), theirs.clone(), limits);
    assert_eq!(session.draft(), &theirs);
    assert_eq!(session.save_state(), SaveState::Saved);
    session.undo(limits);
    assert_eq!(
        session.draft().lens.target,
        Some(HundredthDiopters::new(-25))
    );
    assert!(session.wants_saving());
    assert_eq!(session.begin_saving(Who::default()).seen, revision("7"));
}
