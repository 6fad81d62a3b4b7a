//! A desk's session: requests go in as the pages make them, answers come out.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_core::quantity::HundredthDiopters;
use millrace_core::signing::SheetNumber;
use millrace_desk::exchange::{
    Answer, CaseId, Place, Request, Revision, SaveRequest, SheetRequest, SheetRow, SheetUse,
    SignRequest, Which, Who,
};
use millrace_desk::settings::PaperSize;
use millrace_press::Press;
use millrace_wording::Words;

use super::{TIGHT, this_program};
use crate::window::register_store::RegisterStore;
use crate::window::worker::Worker;

const HARD_AND_SHALLOW: &str = include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");
/// How long an answer is waited for; none is expected to take so long.
const PATIENCE: Duration = Duration::from_mins(3);
const LOOK: Duration = Duration::from_millis(5);

pub(super) struct Session {
    worker: Worker,
    case: CaseId,
    seen: Revision,
    draft: Draft,
    directory: PathBuf,
}

impl Session {
    /// On a new register with one case.
    pub(super) fn new(directory: &Path) -> Self {
        let mut store = RegisterStore::open(&directory.join("register.sqlite3")).unwrap();
        store.press = breakable(directory);
        let draft = case_file::read(HARD_AND_SHALLOW).unwrap();
        let begun = store.begin(&draft).unwrap();
        let Answer::Opened { case, revision, .. } = begun else {
            panic!("{begun:?}");
        };
        Self {
            worker: Worker::start(store, known(directory), || ()).unwrap(),
            case,
            seen: revision,
            draft,
            directory: directory.to_owned(),
        }
    }

    /// Hands a request over.
    pub(super) fn ask(&self, request: Request) {
        self.worker.hand(request, Words::ENGLISH);
    }

    /// The next answer.
    pub(super) fn answer(&self) -> Answer {
        let mut waited = Duration::ZERO;
        loop {
            let mut answers = self.worker.answers();
            if let Some(answer) = answers.pop() {
                assert!(answers.is_empty(), "{answers:?}");
                return answer;
            }
            assert!(waited < PATIENCE, "no answer");
            std::thread::sleep(LOOK);
            waited += LOOK;
        }
    }

    /// Saves a change: what is signed as it stands is not signed again.
    pub(super) fn change(&mut self, technique: String) {
        self.draft.theatre.technique = vec![technique];
        self.ask(Request::Save(SaveRequest {
            case: self.case.clone(),
            seen: self.seen.clone(),
            draft: Box::new(self.draft.clone()),
            by: Who::default(),
        }));
        match self.answer() {
            Answer::Saved { revision, .. } => self.seen = revision,
            other => panic!("{other:?}"),
        }
    }

    /// Signs the case, and returns every sheet of it, or why it is not signed.
    pub(super) fn sign(&self) -> Result<Vec<SheetRow>, Vec<String>> {
        self.ask(Request::Sign(SignRequest {
            case: self.case.clone(),
            seen: self.seen.clone(),
            name: "A. Okafor".to_owned(),
            role: "consultant surgeon".to_owned(),
            target: HundredthDiopters::new(-30),
            limits: Box::new(Limits::shipped().clone()),
        }));
        match self.answer() {
            Answer::Signed { sheets, .. } => sheets,
            other => panic!("{other:?}"),
        }
    }

    /// Lets every further press that a signature is tried with end at once.
    pub(super) fn break_signing(&self) {
        std::fs::write(self.directory.join("broken"), "").unwrap();
    }

    pub(super) fn mend_signing(&self) {
        std::fs::remove_file(self.directory.join("broken")).unwrap();
    }

    /// Asks for a sheet as a file; the answer is still to come.
    pub(super) fn ask_for(&self, number: SheetNumber, file: &Path) {
        let request = SheetRequest {
            which: Which::Signed(number),
            draft: Box::default(),
            limits: Box::new(Limits::shipped().clone()),
            paper: PaperSize::A4,
        };
        let place = Place::Typed(file.display().to_string());
        self.ask(Request::Sheet(SheetUse::Write(place), request));
    }

    /// The arrangement beside the register, or none.
    pub(super) fn arrange(&self, middle: Option<&str>) {
        let file = self.directory.join("sheet.typ");
        match middle {
            Some(middle) => {
                let text = format!("#let middle(data) = {middle}\n#let end(data) = []");
                std::fs::write(file, text).unwrap();
            }
            None => std::fs::remove_file(file).unwrap(),
        }
    }

    /// The process that sets sheets.
    pub(super) fn process(&self) -> String {
        let id = std::fs::read_to_string(self.directory.join("press")).unwrap();
        id.trim().to_owned()
    }
}

/// A press that ends at once while a file says so.
fn breakable(directory: &Path) -> Press {
    let mark = directory.join("broken");
    let program = move || {
        if !mark.exists() {
            return this_program();
        }
        let mut command = Command::new("/bin/sh");
        command.args(["-c", "kill -9 $$"]);
        Ok(command)
    };
    Press::of(program, TIGHT)
}

/// A press that writes its process down.
fn known(directory: &Path) -> Press {
    let file = directory.join("press");
    let program = move || {
        let program = this_program()?;
        let mut command = Command::new("/bin/sh");
        command
            .args(["-c", "echo $$ > \"$0\"; exec \"$@\""])
            .arg(&file)
            .arg(program.get_program())
            .args(program.get_args());
        for (name, value) in program.get_envs() {
            command.env(name, value.unwrap_or_default());
        }
        Ok(command)
    };
    Press::of(program, TIGHT)
}

/// Ends a process as the system does that runs out of memory, and waits until it is gone.
pub(super) fn kill(process: &str) {
    let killed = Command::new("kill").args(["-9", process]).status();
    assert!(killed.unwrap().success());
    // It is gone when the last of its threads is.
    let threads = || std::fs::read_dir(format!("/proc/{process}/task"));
    while threads().is_ok_and(|threads| 1 < threads.count())
        || state(process).is_some_and(|state| !state.starts_with('Z'))
    {
        std::thread::sleep(LOOK);
    }
}

/// Waits until a process has worked so much more, hundredths of a second.
pub(super) fn wait_for_work(process: &str, more: u64) {
    let worked = || -> u64 {
        let state = state(process).unwrap();
        state.split(' ').nth(11).unwrap().parse().unwrap()
    };
    let before = worked();
    while worked() < before + more {
        std::thread::sleep(LOOK);
    }
}

/// What the system says of a process, from its state on.
fn state(process: &str) -> Option<String> {
    let all = std::fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
    let (_, state) = all.rsplit_once(") ")?;
    Some(state.to_owned())
}
