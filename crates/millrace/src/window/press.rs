//! The thread on which sheets are set, written, viewed and printed. It may take seconds, for a whole day
//! of them, and neither the window nor a save waits.

use std::ffi::OsStr;
use std::fs::{self, File, OpenOptions};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Sender, unbounded};
use millrace_core::case::Draft;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::signing::SignedPlan;
use millrace_desk::exchange::{Answer, PagePicture, PagesOf};
use millrace_sheet::{PageImage, Sheet};

use crate::day_sheets::{self, DaySheets};
use crate::output::Over;
use crate::sheet;
use crate::style::Style;

/// Of the pictures on the desk: sharp at twice the size.
const PIXELS_PER_POINT: f32 = 2.0;

/// A sheet that is to be set.
pub(crate) struct ToSet {
    pub(crate) content: Content,
    pub(crate) style: Style,
}

/// What stands on it.
pub(crate) enum Content {
    /// The draft, planned by these limits.
    Draft(Box<Draft>, Box<Limits>),
    /// What was signed.
    Signed(Box<SignedPlan>),
}

/// What becomes of it.
pub(crate) enum Job {
    /// Pictures of its pages.
    Show(PagesOf, ToSet),
    /// A file.
    Write(ToSet, PathBuf, Replaces),
    /// The viewer of the system; the file lies in this directory.
    View(ToSet, PathBuf),
    /// The printing of the system; the file lies in this directory.
    Print(ToSet, PathBuf),
    /// Every sheet of a day, in this directory.
    Day(DaySheets, Style, PathBuf),
}

/// What may be written over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Replaces {
    /// Nothing: the path was typed.
    Nothing,
    /// What is there: the dialog asked.
    WhatIsThere,
}

/// The thread, reached by messages.
pub(crate) struct Press {
    jobs: Option<Sender<Job>>,
    thread: Option<JoinHandle<()>>,
}

impl Press {
    /// Starts the thread; each answer is handed to `tell`.
    pub(crate) fn start(tell: impl Fn(Answer) + Send + 'static) -> Result<Self, std::io::Error> {
        let (jobs, incoming) = unbounded::<Job>();
        let thread = thread::Builder::new()
            .name("press".to_owned())
            .spawn(move || {
                for job in incoming {
                    let answer = job.done(&tell);
                    tell(answer);
                }
            })?;
        Ok(Self {
            jobs: Some(jobs),
            thread: Some(thread),
        })
    }

    /// Hands a job over; jobs are done in order.
    pub(crate) fn hand(&self, job: Job) {
        if let Some(jobs) = &self.jobs {
            // The thread ends only with the press: there is always somebody to take it.
            let _ = jobs.send(job);
        }
    }
}

impl Drop for Press {
    /// What was handed over is finished before the program ends.
    fn drop(&mut self) {
        self.jobs = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

impl Job {
    fn done(self, tell: &impl Fn(Answer)) -> Answer {
        match self {
            Self::Show(of, to_set) => match to_set.set() {
                Ok(sheet) => {
                    let pages = sheet.pages(PIXELS_PER_POINT);
                    let pages = pages.into_iter().filter_map(picture).collect();
                    Answer::Pages { of, pages }
                }
                Err(why) => Answer::NoPages { of, why },
            },
            Self::Write(to_set, path, replaces) => to_set.write(&path, replaces),
            Self::View(to_set, directory) => to_set.view(&directory),
            Self::Print(to_set, directory) => to_set.print(&directory, "lp".as_ref()),
            Self::Day(day, style, directory) => of_day(day, (&directory, &style), tell),
        }
    }
}

fn of_day(day: DaySheets, (directory, style): (&Path, &Style), tell: &impl Fn(Answer)) -> Answer {
    let written = day.write((directory, Over::Refuse), style, |progress| {
        tell(Answer::Done {
            message: format!("{} of {} sheets are set", progress.done, progress.of),
        });
    });
    match written {
        Ok(written) => {
            let message = day_sheets::words(&written).trim_end().to_owned();
            if written.without.is_empty() {
                Answer::Done { message }
            } else {
                Answer::Failed { message }
            }
        }
        Err(error) => Answer::Failed {
            message: error.to_string(),
        },
    }
}

impl ToSet {
    fn set(&self) -> Result<Sheet, String> {
        match &self.content {
            Content::Draft(draft, limits) => {
                let plan = Plan::of(draft, limits).map_err(|error| error.to_string())?;
                sheet::of_draft(draft, (&plan, limits), &self.style)
            }
            Content::Signed(plan) => sheet::of_signed(plan, &self.style),
        }
        .map_err(|error| error.to_string())
    }

    fn pdf(&self) -> Result<Vec<u8>, String> {
        self.set()?.pdf().map_err(|error| error.to_string())
    }

    /// Writes a new file, or over one that the person agreed to replace.
    fn write(&self, path: &Path, replaces: Replaces) -> Answer {
        let written = self.pdf().and_then(|pdf| {
            let mut options = OpenOptions::new();
            options.write(true);
            match replaces {
                Replaces::Nothing => options.create_new(true),
                Replaces::WhatIsThere => options.create(true).truncate(true),
            };
            let file = options.open(path);
            file.and_then(|file| fill(file, &pdf))
                .map_err(|error| format!("cannot write: {error}: {}", path.display()))
        });
        match written {
            Ok(()) => Answer::Done {
                message: format!("The sheet was written to {}", path.display()),
            },
            Err(message) => Answer::Failed { message },
        }
    }

    fn view(&self, directory: &Path) -> Answer {
        match self.kept(directory) {
            Ok(path) => match open::that_detached(&path) {
                // Only that a viewer was asked is known: the place of the file is told as well.
                Ok(()) => Answer::Done {
                    message: format!("The viewer was asked for {}", path.display()),
                },
                Err(error) => Answer::Failed {
                    message: format!("No viewer opened: {error}. The file is {}", path.display()),
                },
            },
            Err(message) => Answer::Failed { message },
        }
    }

    fn print(&self, directory: &Path, command: &OsStr) -> Answer {
        let path = match self.kept(directory) {
            Ok(path) => path,
            Err(message) => return Answer::Failed { message },
        };
        let ran = Command::new(command)
            .arg("-t")
            .arg("Millrace sheet")
            .arg(&path)
            .output();
        let problem = match ran {
            Ok(output) if output.status.success() => {
                let told = String::from_utf8_lossy(&output.stdout).trim().to_owned();
                return Answer::Done {
                    message: format!("Sent to the printer: {told}"),
                };
            }
            Ok(output) => String::from_utf8_lossy(&output.stderr).trim().to_owned(),
            Err(error) => format!("{}: {error}", command.display()),
        };
        Answer::Failed {
            message: format!("Not printed: {problem}. The file is {}", path.display()),
        }
    }

    /// What is viewed or printed lies beside the register first; the same sheet has the same bytes.
    fn kept(&self, directory: &Path) -> Result<PathBuf, String> {
        let pdf = self.pdf()?;
        let name = match &self.content {
            Content::Draft(..) => "draft.pdf".to_owned(),
            Content::Signed(plan) => format!("sheet-{}.pdf", plan.number()),
        };
        let path = directory.join(name);
        let write = || {
            fs::create_dir_all(directory)?;
            let mut file = tempfile::NamedTempFile::new_in(directory)?;
            file.write_all(&pdf)?;
            file.as_file().sync_all()?;
            file.persist(&path).map_err(|error| error.error)?;
            Ok::<_, std::io::Error>(())
        };
        write().map_err(|error| format!("cannot write: {error}: {}", path.display()))?;
        Ok(path)
    }
}

fn fill(mut file: File, bytes: &[u8]) -> std::io::Result<()> {
    file.write_all(bytes)?;
    file.sync_all()
}

fn picture(page: PageImage) -> Option<PagePicture> {
    Some(PagePicture {
        width: page.width.try_into().ok()?,
        height: page.height.try_into().ok()?,
        rgba: page.rgba,
    })
}

#[cfg(all(test, unix))]
#[expect(
    clippy::unwrap_used,
    reason = "evidence fails loudly, in helpers as in tests"
)]
mod tests {
    use std::fs::Permissions;
    use std::os::unix::fs::PermissionsExt as _;

    use millrace_core::case_file;
    use millrace_sheet::Paper;

    use super::*;

    const HARD_AND_SHALLOW: &str = include_str!("../../../../demo-data/cases/hard-and-shallow.ron");

    fn draft() -> ToSet {
        let draft = case_file::read(HARD_AND_SHALLOW).unwrap();
        let limits = Limits::shipped().clone();
        ToSet {
            content: Content::Draft(Box::new(draft), Box::new(limits)),
            style: Style::shipped(Paper::A4),
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
        let answer = draft().print(directory.path(), command.as_os_str());
        let message = "Sent to the printer: request id is 7, -t Millrace sheet".to_owned();
        assert_eq!(answer, Answer::Done { message });
        let kept = fs::read(directory.path().join("draft.pdf")).unwrap();
        assert!(kept.starts_with(b"%PDF-"));
        assert_eq!(fs::read(printed).unwrap(), kept);
    }

    #[test]
    fn a_printer_that_fails_or_is_missing_is_told_with_the_place_of_the_file() {
        let directory = tempfile::tempdir().unwrap();
        let file = directory.path().join("draft.pdf");
        let command = printer(directory.path(), "echo no paper >&2; exit 1");
        let answer = draft().print(directory.path(), command.as_os_str());
        let message = format!("Not printed: no paper. The file is {}", file.display());
        assert_eq!(answer, Answer::Failed { message });

        let absent = directory.path().join("absent");
        let answer = draft().print(directory.path(), absent.as_os_str());
        let Answer::Failed { message } = answer else {
            unreachable!("nothing prints: {answer:?}");
        };
        assert!(message.starts_with("Not printed: "), "{message}");
        assert!(message.ends_with(&format!("The file is {}", file.display())));
    }

    #[test]
    fn a_file_whose_path_was_typed_is_left_as_it_is() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("notes.pdf");
        fs::write(&path, "notes").unwrap();
        let answer = draft().write(&path, Replaces::Nothing);
        assert!(matches!(answer, Answer::Failed { .. }), "{answer:?}");
        assert_eq!(fs::read(&path).unwrap(), b"notes");
        let answer = draft().write(&path, Replaces::WhatIsThere);
        assert!(matches!(answer, Answer::Done { .. }), "{answer:?}");
        assert!(fs::read(&path).unwrap().starts_with(b"%PDF-"));
    }
}
