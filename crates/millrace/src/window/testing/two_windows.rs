//! Two windows on one register: an idle one learns by itself what the other one stores.

use std::path::Path;

use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, Revision, SaveRequest, Who};

use super::press;
use crate::clock;
use crate::window::register_store::RegisterStore;
use crate::window::watch::EVERY;
use crate::window::worker::Worker;

fn store(directory: &Path) -> RegisterStore {
    RegisterStore::open(&directory.join("register.sqlite3")).unwrap()
}

/// A store in which a case is open.
fn with_case(directory: &Path) -> (RegisterStore, CaseId, Revision) {
    let mut store = store(directory);
    match store.begin(&Draft::default()).unwrap() {
        Answer::Opened { case, revision, .. } => (store, case, revision),
        other => panic!("{other:?}"),
    }
}

fn of_eye(case: &CaseId, seen: &Revision, eye: Side) -> SaveRequest {
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

#[test]
fn what_another_window_stores_is_noticed_and_ones_own_is_not() {
    let directory = tempfile::tempdir().unwrap();
    let (mut first, case, revision) = with_case(directory.path());
    assert_eq!(first.look_around(), [], "from here on");
    assert_eq!(first.look_around(), []);
    let saved = first.save(&of_eye(&case, &revision, Side::Right));
    let Answer::Saved { revision, .. } = saved else {
        panic!("{saved:?}");
    };
    assert_eq!(first.look_around(), [], "its own");
    let mut second = store(directory.path());
    let change = of_eye(&case, &revision, Side::Left);
    let saved = second.save(&change);
    let Answer::Saved { revision, .. } = saved else {
        panic!("{saved:?}");
    };
    let noticed = first.look_around();
    let [Answer::ListChanged, Answer::Newer(newer)] = noticed.as_slice() else {
        panic!("{noticed:?}");
    };
    assert_eq!((&newer.case, &newer.revision), (&case, &revision));
    assert_eq!(newer.draft, change.draft);
    assert_eq!(newer.by.person, "B. Second");
    assert_eq!(newer.by.desk.as_deref(), Some("measuring room"));
    assert_eq!(first.look_around(), [], "once");
    // Another case is news for the lists alone; the open one is as it was, and so are its sheets.
    second.begin(&Draft::default()).unwrap();
    let noticed = first.look_around();
    let [Answer::ListChanged, Answer::Sheets { sheets, .. }] = noticed.as_slice() else {
        panic!("{noticed:?}");
    };
    assert_eq!(*sheets, []);
}

/// Nobody asks for anything: the window is idle.
#[test]
fn an_idle_window_is_told_by_itself() {
    let directory = tempfile::tempdir().unwrap();
    let (first, case, revision) = with_case(directory.path());
    let worker = Worker::start(first, press(), || ()).unwrap();
    // Until it began to look.
    std::thread::sleep(EVERY / 4);
    let mut second = store(directory.path());
    let saved = second.save(&of_eye(&case, &revision, Side::Left));
    assert!(matches!(saved, Answer::Saved { .. }), "{saved:?}");
    let begin = clock::now();
    // Twenty times as long as it may take.
    for _ in 0..2_000 {
        let answers = worker.answers();
        if answers.iter().any(|it| matches!(it, Answer::Newer(_))) {
            return println!("told after {}", clock::now() - begin);
        }
        std::thread::sleep(EVERY / 100);
    }
    panic!("it is told nothing");
}

/// An idle window costs no more for it: what it costs is told, and bounded far above that.
#[test]
fn a_look_around_costs_next_to_nothing() {
    const LOOKS: u32 = 20_000;
    let directory = tempfile::tempdir().unwrap();
    let (mut first, ..) = with_case(directory.path());
    first.look_around();
    let begin = clock::now();
    for _ in 0..LOOKS {
        assert_eq!(first.look_around(), []);
    }
    let each = (clock::now() - begin).to_std().unwrap() / LOOKS;
    println!("a look takes {each:?}, every {EVERY:?}");
    assert!(each < EVERY / 100, "{each:?}");
}
