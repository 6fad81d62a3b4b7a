//! A register is begun with cases, or not at all.

use std::fs;

use millrace_register::{Cases, Fault, Register, SeenHeads, Stamp, Window};
use millrace_wording::{Show as _, Words};

use crate::support::{aimed_at, check, stamp};

#[test]
fn a_register_begins_with_its_cases_and_one_that_is_there_takes_them() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("new/register.sqlite3");
    let drafts = [aimed_at(0), aimed_at(-25)];
    let (mut register, saved) = Register::begin_with(&path, &drafts, stamp()).unwrap();
    assert_eq!(saved.len(), 2);
    for (entry, draft) in saved.iter().zip(&drafts) {
        assert_eq!(register.load(entry.case).unwrap().draft, *draft);
    }
    assert_eq!(check(&mut register).problems, []);
    drop(register);
    // As when another program was faster.
    let (register, more) = Register::begin_with(&path, &drafts[..1], stamp()).unwrap();
    assert_eq!((more.len(), register.count().unwrap()), (1, 3));
    drop(register);
    let names = fs::read_dir(path.parent().unwrap()).unwrap();
    assert_eq!(names.count(), 1);
}

#[test]
fn what_cannot_be_saved_begins_no_register() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("new/register.sqlite3");
    let forged = Stamp {
        by: "A. Okafor\u{202e}",
        desk: None,
        ..stamp()
    };
    let nobody = Stamp { by: " ", ..stamp() };
    let mut impossible = aimed_at(0);
    impossible.patient.name = Some("one line\nand another".to_owned());
    let refused = [
        Register::begin_with(&path, &[aimed_at(0)], forged),
        Register::begin_with(&path, &[aimed_at(0)], nobody),
        Register::begin_with(&path, &[aimed_at(0), impossible], stamp()),
    ];
    for refused in refused {
        let fault = refused.unwrap_err().fault;
        let known = matches!(fault, Fault::Hidden(_) | Fault::Nobody | Fault::Case(_));
        assert!(known, "{fault:?}");
    }
    assert_eq!(fs::read_dir(directory.path()).unwrap().count(), 0);
}

#[test]
fn where_a_register_was_seen_none_is_begun_until_it_is_forgotten() {
    let directory = tempfile::tempdir().unwrap();
    let seen = SeenHeads::in_folder(&directory.path().join("seen"));
    let place = directory.path().join("clinic");
    let path = place.join("register.sqlite3");
    seen.refuse_missing(&path).unwrap();
    assert!(matches!(
        seen.forget(&path).unwrap_err().fault,
        Fault::Absent
    ));

    // One that held nothing lost nothing.
    let empty = Register::open(&path).unwrap();
    seen.meet(&empty).unwrap();
    drop(empty);
    fs::remove_dir_all(&place).unwrap();
    seen.refuse_missing(&path).unwrap();

    let (register, _) = Register::begin_with(&path, &[aimed_at(0)], stamp()).unwrap();
    assert_eq!(register.list(Cases::InUse, Window::ALL).unwrap().len(), 1);
    let head = seen.meet(&register).unwrap();
    seen.refuse_missing(&path).unwrap();
    drop(register);
    // With its directory, or alone.
    fs::rename(&place, directory.path().join("away")).unwrap();
    for _ in 0..2 {
        let error = seen.refuse_missing(&path).unwrap_err();
        assert!(error.fault.is_another_head());
        let said = error.show(Words::ENGLISH).into_owned();
        let start = format!("a register stood here and is gone: it was seen at {head}; ");
        assert!(said.starts_with(&start), "{said}");
        fs::create_dir_all(&place).unwrap();
    }
    assert_eq!(seen.forget(&path).unwrap(), Some(head.whole()));
    seen.refuse_missing(&path).unwrap();
}
