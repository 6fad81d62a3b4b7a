//! The desk's process is killed while somebody types: the next one offers the text.

use std::path::{Path, PathBuf};
use std::process::{Child, Command};
use std::time::Duration;

use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, CaseId, Listed, Listing, Request, TypedText};
use millrace_wording::Words;

use super::press;
use super::session::kill;
use crate::window::left_behind::files_beside;
use crate::window::register_store::RegisterStore;
use crate::window::worker::Worker;

/// Set for the process that is to be killed: the directory of its register.
const VICTIM: &str = "MILLRACE_VICTIM_OF_THE_WINDOW_TESTS";
const LOOK: Duration = Duration::from_millis(5);
/// How often it is looked: none of it takes so long.
const LOOKS: usize = 6_000;

fn register(directory: &Path) -> PathBuf {
    directory.join("register.sqlite3")
}

fn typed(case: CaseId) -> TypedText {
    TypedText {
        case,
        page: "biometry".to_owned(),
        field: 5,
        what: "Axial length, right eye".to_owned(),
        text: "23.4".to_owned(),
    }
}

/// A window that is handed a text to keep, and waits to be killed; otherwise nothing.
#[test]
fn the_victim_of_these_tests() {
    let Some(directory) = std::env::var_os(VICTIM) else {
        return;
    };
    let directory = PathBuf::from(directory);
    let store = RegisterStore::open(&register(&directory)).unwrap();
    let listed = store.list(("", Listing::Planned), &(0..1), None);
    let Ok(Answer::Listed(Listed { rows, .. })) = listed else {
        panic!("a list");
    };
    let worker = Worker::start(store, press(), || ()).unwrap();
    let texts = vec![typed(rows[0].case.clone())];
    worker.hand(Request::KeepTyped(texts), Words::ENGLISH);
    loop {
        std::thread::sleep(LOOK);
    }
}

fn victim(directory: &Path) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args([
            "--exact",
            "window::testing::killed::the_victim_of_these_tests",
        ])
        .env(VICTIM, directory)
        .spawn()
        .unwrap()
}

/// Waits until the file of the typed text is there.
fn wait_for_the_text(directory: &Path) {
    for _ in 0..LOOKS {
        if !files_beside(&register(directory)).is_empty() {
            return;
        }
        std::thread::sleep(LOOK);
    }
    panic!("nothing was kept");
}

#[test]
fn a_text_that_was_being_typed_survives_a_kill() {
    let directory = tempfile::tempdir().unwrap();
    let mut store = RegisterStore::open(&register(directory.path())).unwrap();
    let Answer::Opened { case, .. } = store.begin(&Draft::default()).unwrap() else {
        panic!("a case begins");
    };
    let mut child = victim(directory.path());
    wait_for_the_text(directory.path());
    assert_eq!(store.look_for_left(), [], "its window still lives");
    kill(&child.id().to_string());
    let _ = child.wait();
    let left = store.look_for_left();
    let [Answer::Left(texts)] = left.as_slice() else {
        panic!("{left:?}");
    };
    let found: Vec<_> = texts.iter().map(|left| left.typed.clone()).collect();
    assert_eq!(found, [typed(case)]);
}
