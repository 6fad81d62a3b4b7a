//! Choosing files, on a thread of its own: a dialog stops nothing.

use std::fs::File;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::thread;

use chrono::NaiveDate;
use crossbeam_channel::{Receiver, Sender, unbounded};
use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_desk::exchange::{Answer, SheetRequest};
use millrace_desk::settings::PaperSize;

use super::worker::Task;
use crate::failure::{Failure, read_text};

/// What became of a dialog.
pub(crate) enum Chosen {
    /// Something for the store.
    Task(Task),
    /// Something to tell.
    Tell(Answer),
}

/// Dialogs that are open, and what they brought.
pub(crate) struct Dialogs {
    sender: Sender<Chosen>,
    results: Receiver<Chosen>,
}

impl Dialogs {
    pub(crate) fn new() -> Self {
        let (sender, results) = unbounded();
        Self { sender, results }
    }

    pub(crate) fn results(&self) -> Vec<Chosen> {
        self.results.try_iter().collect()
    }

    /// Lets the person choose a case file and reads it.
    pub(crate) fn import(&self, wake: impl FnOnce() + Send + 'static) {
        self.aside(wake, || {
            let dialog = rfd::FileDialog::new().add_filter("Case files", &["ron"]);
            let path = dialog.set_title("Open a case file").pick_file()?;
            Some(read(&path))
        });
    }

    /// Reads a case file whose path was typed, or that was dropped on the window.
    pub(crate) fn read(&self, path: PathBuf, wake: impl FnOnce() + Send + 'static) {
        self.aside(wake, move || Some(read(&path)));
    }

    /// Lets the person choose a place and writes the case there.
    pub(crate) fn export(&self, draft: Box<Draft>, wake: impl FnOnce() + Send + 'static) {
        self.aside(wake, move || {
            let dialog = rfd::FileDialog::new().add_filter("Case files", &["ron"]);
            let dialog = dialog.set_title("Write the case to a file");
            let path = dialog.set_file_name("case.ron").save_file()?;
            let file = File::create(&path).map_err(Failure::writing(&path));
            Some(told(
                &path,
                file.and_then(|file| write(&path, file, &draft)),
            ))
        });
    }

    /// Lets the person choose where a sheet is written.
    pub(crate) fn write_sheet(&self, sheet: SheetRequest, wake: impl FnOnce() + Send + 'static) {
        self.aside(wake, move || {
            let dialog = rfd::FileDialog::new().add_filter("PDF", &["pdf"]);
            let dialog = dialog.set_title("Write the sheet to a file");
            let path = dialog.set_file_name("sheet.pdf").save_file()?;
            Some(Chosen::Task(Task::WriteSheet(sheet, path)))
        });
    }

    /// Lets the person choose the directory for the sheets of a day.
    pub(crate) fn write_day(
        &self,
        day: NaiveDate,
        paper: PaperSize,
        wake: impl FnOnce() + Send + 'static,
    ) {
        self.aside(wake, move || {
            let dialog = rfd::FileDialog::new();
            let dialog = dialog.set_title("A folder for the sheets of the day");
            let path = dialog.pick_folder()?;
            Some(Chosen::Task(Task::WriteDay(day, paper, path)))
        });
    }

    /// Writes the case to a file whose path was typed; one that exists is left as it is.
    pub(crate) fn write(
        &self,
        path: PathBuf,
        draft: Box<Draft>,
        wake: impl FnOnce() + Send + 'static,
    ) {
        self.aside(wake, move || {
            let file = File::create_new(&path).map_err(Failure::writing(&path));
            Some(told(
                &path,
                file.and_then(|file| write(&path, file, &draft)),
            ))
        });
    }

    fn aside(
        &self,
        wake: impl FnOnce() + Send + 'static,
        work: impl FnOnce() -> Option<Chosen> + Send + 'static,
    ) {
        let sender = self.sender.clone();
        thread::spawn(move || {
            if let Some(chosen) = work() {
                let _ = sender.send(chosen);
                wake();
            }
        });
    }
}

#[expect(clippy::needless_pass_by_value, reason = "told and done with")]
fn tell(failure: Failure) -> Chosen {
    Chosen::Tell(Answer::Failed {
        message: failure.to_string(),
    })
}

fn read(path: &Path) -> Chosen {
    let read = || -> Result<Draft, Failure> {
        let text = read_text(path)?;
        case_file::read(&text).map_err(|error| Failure::Case {
            path: path.to_owned(),
            error: Box::new(error),
        })
    };
    match read() {
        Ok(draft) => Chosen::Task(Task::Begin(Box::new(draft))),
        Err(failure) => tell(failure),
    }
}

fn told(path: &Path, written: Result<(), Failure>) -> Chosen {
    match written {
        Ok(()) => Chosen::Tell(Answer::Done {
            message: format!("The case was written to {}", path.display()),
        }),
        Err(failure) => tell(failure),
    }
}

fn write(path: &Path, mut file: File, draft: &Draft) -> Result<(), Failure> {
    let text = case_file::write(draft).map_err(|error| Failure::Case {
        path: path.to_owned(),
        error: Box::new(error),
    })?;
    file.write_all(text.as_bytes())
        .and_then(|()| file.sync_all())
        .map_err(Failure::writing(path))
}
