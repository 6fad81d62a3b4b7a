use std::os::unix::fs::PermissionsExt as _;

use millrace_core::case::Draft;
use millrace_desk::exchange::{Listed, Listing};

use super::*;
use crate::seen::Outside;

fn store(directory: &Path) -> RegisterStore {
    let place = directory.join("register.sqlite3");
    RegisterStore::at(&place, Outside::default()).unwrap()
}

/// A store with one case, of this name.
fn with_case(directory: &Path) -> (RegisterStore, CaseId) {
    let mut store = store(directory);
    let mut draft = Draft::default();
    draft.patient.name = Some("Ferris, Ada".to_owned());
    let Answer::Opened { case, .. } = store.begin(&draft).unwrap() else {
        panic!("a case begins");
    };
    (store, case)
}

fn typed(case: &CaseId, text: &str) -> TypedText {
    TypedText {
        case: case.clone(),
        page: "biometry".to_owned(),
        field: u64::MAX - 5,
        what: "Axial length, right eye".to_owned(),
        text: text.to_owned(),
    }
}

fn kept(store: &mut RegisterStore, texts: Vec<TypedText>) {
    assert_eq!(store.keep_typed(texts), []);
}

fn beside(directory: &Path) -> Vec<PathBuf> {
    files_beside(&directory.join("register.sqlite3"))
}

/// The only answer, which offers texts.
fn offered(store: &mut RegisterStore) -> Vec<LeftText> {
    match store.look_for_left().as_slice() {
        [Answer::Left(texts)] => texts.clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_typed_stands_beside_the_register_for_its_owner_alone_until_it_is_saved() {
    let directory = tempfile::tempdir().unwrap();
    let (mut store, case) = with_case(directory.path());
    kept(&mut store, vec![typed(&case, "23")]);
    kept(&mut store, vec![typed(&case, "23.4")]);
    let [file] = beside(directory.path()).try_into().unwrap();
    for path in [&file, &file.with_extension("lock")] {
        let mode = path.metadata().unwrap().permissions().mode() & 0o777;
        assert_eq!(mode, 0o600, "{}", path.display());
    }
    let text = fs::read_to_string(&file).unwrap();
    assert!(
        text.contains("\"23.4\"") && !text.contains("\"23\""),
        "{text}"
    );
    kept(&mut store, Vec::new());
    assert!(beside(directory.path()).is_empty());
    assert!(!file.with_extension("lock").exists());
}

#[test]
fn the_file_of_a_living_window_is_left_alone() {
    let directory = tempfile::tempdir().unwrap();
    let (mut first, case) = with_case(directory.path());
    kept(&mut first, vec![typed(&case, "23.4")]);
    let mut second = store(directory.path());
    assert_eq!(second.look_for_left(), []);
    kept(&mut second, vec![typed(&case, "24")]);
    assert_eq!(beside(directory.path()).len(), 2);
    kept(&mut second, Vec::new());
    assert_eq!(beside(directory.path()).len(), 1);
    assert_eq!(second.look_for_left(), []);
}

/// A window that ended without giving up what stood in its fields.
#[test]
fn what_a_window_left_is_offered_by_one_until_all_of_it_is_settled() {
    let directory = tempfile::tempdir().unwrap();
    let (mut first, case) = with_case(directory.path());
    let mut other = typed(&case, "24.1");
    other.field = 3;
    kept(&mut first, vec![typed(&case, "23.4"), other.clone()]);
    drop(first);
    let mut second = store(directory.path());
    let left = offered(&mut second);
    let texts: Vec<_> = left.iter().map(|left| left.typed.clone()).collect();
    assert_eq!(texts, [typed(&case, "23.4"), other.clone()]);
    assert_eq!(left[0].patient.as_deref(), Some("Ferris, Ada"));
    // Told once, and to nobody else as long as this window lives.
    assert_eq!(second.look_for_left(), []);
    assert_eq!(store(directory.path()).look_for_left(), []);
    assert_eq!(second.settle_left(left[0].id), []);
    drop(second);
    let mut third = store(directory.path());
    let left = offered(&mut third);
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].typed, other);
    assert_eq!(third.settle_left(left[0].id), []);
    assert!(beside(directory.path()).is_empty());
    assert_eq!(store(directory.path()).look_for_left(), []);
}

#[test]
fn a_file_that_cannot_be_read_is_told_once_and_left_as_it_is() {
    let directory = tempfile::tempdir().unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let (mut first, case) = with_case(directory.path());
    let (_, foreign) = with_case(elsewhere.path());
    kept(&mut first, vec![typed(&case, "23.4")]);
    let [file] = beside(directory.path()).try_into().unwrap();
    let good = fs::read_to_string(&file).unwrap();
    drop(first);
    fs::remove_file(&file).unwrap();
    let bad = [
        ("damaged", good.replace("version", "ver")),
        ("cut", good[..good.len() / 2].to_owned()),
        ("newer", good.replace("version: 1", "version: 2")),
        ("of another register", good.replace(&case.0, &foreign.0)),
        ("of no case", good.replace(&case.0, "../../etc/passwd")),
        ("of no page", good.replace("biometry", "nowhere")),
        ("of no time", good.replace("at: \"2", "at: \"x")),
        ("huge", format!("{good}{}", " ".repeat(1 << 20))),
        ("empty", String::new()),
    ];
    for (what, text) in bad {
        assert_ne!(text, good, "{what}");
        fs::write(&file, &text).unwrap();
        let mut store = store(directory.path());
        let told = store.look_for_left();
        let [Answer::Failed { message }] = told.as_slice() else {
            panic!("{what}: {told:?}");
        };
        assert!(message.contains(&file.display().to_string()), "{message}");
        assert_eq!(store.look_for_left(), [], "{what}: once");
        assert_eq!(fs::read_to_string(&file).unwrap(), text, "{what}");
        let left = fs::read_dir(directory.path()).unwrap();
        let names = left.map(|entry| entry.unwrap().file_name().into_string().unwrap());
        assert_eq!(names.filter(|name| name.contains("typed")).count(), 1);
    }
    // No file at all.
    fs::remove_file(&file).unwrap();
    fs::create_dir(&file).unwrap();
    assert_eq!(store(directory.path()).look_for_left().len(), 1);
    assert!(file.is_dir());
}

#[test]
fn where_nothing_can_be_kept_it_is_told_once() {
    let directory = tempfile::tempdir().unwrap();
    let (mut store, case) = with_case(directory.path());
    let long = "9".repeat(1 << 17);
    for expected in [1, 0, 0] {
        let told = store.keep_typed(vec![typed(&case, &long)]);
        assert_eq!(told.len(), expected, "{told:?}");
    }
    kept(&mut store, vec![typed(&case, "23.4")]);
    assert_eq!(beside(directory.path()).len(), 1);
}

#[test]
fn the_invented_cases_keep_nothing() {
    let mut store = RegisterStore::throw_away(&[Draft::default()], Words::ENGLISH).unwrap();
    let listed = store.list(("", Listing::Planned), &(0..1), None);
    let Ok(Answer::Listed(Listed { rows, .. })) = listed else {
        panic!("a list");
    };
    let case = rows[0].case.clone();
    kept(&mut store, vec![typed(&case, "23.4")]);
    assert!(files_beside(store.register.path()).is_empty());
}
