use millrace_core::biometry::Side;
use millrace_core::case_file;
use millrace_desk::exchange::{Listed, Listing};

use super::*;

fn store(directory: &Path) -> RegisterStore {
    let place = directory.join("register.sqlite3");
    RegisterStore::at(&place, Outside::default()).unwrap()
}

fn change(case: &CaseId, seen: &Revision, eye: Side) -> SaveRequest {
    let mut draft = Draft::default();
    draft.operation.eye = Some(eye);
    SaveRequest {
        case: case.clone(),
        seen: seen.clone(),
        draft: Box::new(draft),
        by: Who {
            person: "B. Second".to_owned(),
            desk: Some("measuring room".to_owned()),
        },
    }
}

/// Two running copies on one register: the second sees the first's change and overwrites nothing.
#[test]
fn of_two_copies_the_second_overwrites_nothing() {
    let directory = tempfile::tempdir().unwrap();
    let mut first = store(directory.path());
    let mut second = store(directory.path());
    let begun = first.begin(&Draft::default()).unwrap();
    let Answer::Opened { case, revision, .. } = begun else {
        panic!("a case begins");
    };
    let saved = second.save(&change(&case, &revision, Side::Right));
    assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
    let late = first.save(&change(&case, &revision, Side::Left));
    let Answer::Conflict { conflict, .. } = late else {
        panic!("a conflict is told");
    };
    assert_eq!(conflict.theirs.operation.eye, Some(Side::Right));
    assert_eq!(conflict.by.person, "B. Second");
    assert_eq!(conflict.by.desk.as_deref(), Some("measuring room"));
    assert_eq!(conflict.base, Some(Box::default()));
    let Ok(Answer::Opened { draft, .. }) = first.reopen(&case) else {
        panic!("it opens");
    };
    assert_eq!(draft.operation.eye, Some(Side::Right));
}

/// The register is deleted while it is open: what was typed is not lost with it, and once it is saved
/// nothing is left aside.
#[cfg(unix)]
#[test]
fn what_cannot_be_saved_is_kept_aside_until_it_is() {
    let directory = tempfile::tempdir().unwrap();
    let mut store = store(directory.path());
    store.outside = Outside::at(directory.path().join("outside"));
    let Answer::Opened { case, revision, .. } = store.begin(&Draft::default()).unwrap() else {
        panic!("a case begins");
    };
    let register = directory.path().join("register.sqlite3");
    let away = directory.path().join("away");
    std::fs::rename(&register, &away).unwrap();
    let save = change(&case, &revision, Side::Left);
    let Answer::NotSaved { why, .. } = store.save(&save) else {
        panic!("it is saved nowhere");
    };
    let aside = directory.path().join("outside/not-saved");
    let kept = aside.join(format!("{}.ron", case.0));
    assert!(why.contains(&kept.display().to_string()), "{why}");
    let text = std::fs::read_to_string(&kept).unwrap();
    assert_eq!(case_file::read(&text).unwrap(), *save.draft);
    std::fs::rename(&away, &register).unwrap();
    let Some(Answer::Failed { message }) = store.told_of_aside(&case) else {
        panic!("it is told when the case is opened");
    };
    assert!(message.contains(&kept.display().to_string()), "{message}");
    let saved = store.save(&save);
    assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
    assert!(!kept.exists());
    assert_eq!(store.told_of_aside(&case), None);
}

/// Two drafts stand side by side until somebody chooses: a window killed in between loses nothing.
#[test]
fn of_two_drafts_the_one_that_is_not_saved_is_kept_aside() {
    let directory = tempfile::tempdir().unwrap();
    let mut store = store(directory.path());
    store.outside = Outside::at(directory.path().join("outside"));
    let Answer::Opened { case, revision, .. } = store.begin(&Draft::default()).unwrap() else {
        panic!("a case begins");
    };
    let saved = store.save(&change(&case, &revision, Side::Right));
    assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
    let late = change(&case, &revision, Side::Left);
    let met = store.save(&late);
    assert!(matches!(met, Answer::Conflict { .. }), "{met:?}");
    let kept = directory.path().join("outside/not-saved");
    let kept = kept.join(format!("{}.ron", case.0));
    let read = || case_file::read(&std::fs::read_to_string(&kept).unwrap()).unwrap();
    assert_eq!(read(), *late.draft);
    let mut later = late.clone();
    later.draft.patient.name = Some("Ferris, Ada".to_owned());
    assert_eq!(store.only_aside(&later), []);
    assert_eq!(read(), *later.draft);
}

/// It is told once, when the desk opens, not at the first save that fails.
#[cfg(unix)]
#[test]
fn a_register_that_is_only_read_says_so_from_the_start() {
    use std::os::unix::fs::PermissionsExt as _;

    let directory = tempfile::tempdir().unwrap();
    let mut first = store(directory.path());
    first.begin(&Draft::default()).unwrap();
    assert_eq!(first.at_opening(), Vec::<String>::new());
    drop(first);
    let place = directory.path().join("register.sqlite3");
    let allow = |mode| {
        let mode = std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(&place, mode).unwrap();
    };
    allow(0o400);
    // Whoever may do everything is kept from nothing.
    if std::fs::OpenOptions::new()
        .append(true)
        .open(&place)
        .is_err()
    {
        let told = store(directory.path()).at_opening();
        assert!(told[0].contains("read and not written to"), "{told:?}");
    }
    allow(0o600);
}

#[test]
fn what_was_kept_is_listed_and_found_after_the_window_was_closed() {
    let directory = tempfile::tempdir().unwrap();
    let mut draft = Draft::default();
    draft.patient.name = Some("Ångström, Élise".to_owned());
    draft.patient.number = Some("40-2291".to_owned());
    store(directory.path()).begin(&draft).unwrap();
    let again = store(directory.path());
    for (search, expected) in [("", 1), ("angstrom", 1), ("40-22", 1), ("nobody", 0)] {
        let listed = again.list((search, Listing::Planned), &(0..10), None);
        let Ok(Answer::Listed(Listed { total, rows, .. })) = listed else {
            panic!("a list");
        };
        assert_eq!((total, rows.len()), (expected, expected), "{search}");
    }
}

#[test]
fn what_cannot_be_done_is_said_in_the_words_of_the_desk() {
    let directory = tempfile::tempdir().unwrap();
    let mut store = store(directory.path());
    store.words = Words::PSEUDO;
    let unknown = CaseId("0".to_owned());
    let never_signed = store.verify("0000-0000-0000-0000");
    let refused = [
        store.reopen(&unknown),
        store.verify("1"),
        never_signed,
        store
            .day("2026-12-03".parse().unwrap())
            .map(|_| Answer::ListChanged),
    ];
    for refused in refused {
        let text = refused.unwrap_err();
        assert_eq!(millrace_wording::check::untouched(&text, []), [""; 0]);
    }
}

#[test]
fn where_a_register_was_seen_the_desk_begins_none() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("clinic/register.sqlite3");
    let outside = Outside::at(directory.path().join("state"));
    let mut store = RegisterStore::known_to(&path, outside.clone()).unwrap();
    store.begin(&Draft::default()).unwrap();
    outside.remember(&store.register).unwrap();
    drop(store);
    std::fs::remove_file(&path).unwrap();
    let error = RegisterStore::known_to(&path, outside).err().unwrap();
    assert!(error.fault.is_another_head(), "{error}");
    assert!(!path.exists());
}

#[test]
fn what_is_no_register_is_refused_with_a_message() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("register.sqlite3");
    std::fs::write(&path, "no register at all, only a text that somebody wrote").unwrap();
    let error = RegisterStore::open(&path).err().unwrap();
    assert!(!error.to_string().is_empty());
    let kept = std::fs::read_to_string(&path).unwrap();
    assert!(kept.starts_with("no register at all"));
}
