//! The thread on which sheets are set, written, viewed and printed. It may take seconds, for a whole day
//! of them, and neither the window nor a save waits.

use std::ffi::OsStr;
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Sender, unbounded};
use millrace_core::case::Draft;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::signing::SignedPlan;
use millrace_desk::exchange::{Answer, PagePicture, Place, SheetUse};
use millrace_sheet::{PageImage, Sheet};
use millrace_wording::{Words, command_line, window as say};

use super::files;
use super::register_store::plain;
use crate::day_sheets::{self, DaySheets, Folder};
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

pub(crate) enum Content {
    Draft(Box<Draft>, Box<Limits>),
    Signed(Box<SignedPlan>),
}

/// Hears of a job while it is done.
type Tell = dyn Fn(Answer);
type Job = Box<dyn FnOnce(&Tell) -> Answer + Send>;

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
                    let answer = job(&tell);
                    tell(answer);
                }
            })?;
        Ok(Self {
            jobs: Some(jobs),
            thread: Some(thread),
        })
    }

    /// Hands a job over; jobs are done in order.
    pub(crate) fn hand(&self, job: impl FnOnce(&Tell) -> Answer + Send + 'static) {
        if let Some(jobs) = &self.jobs {
            // The thread ends only with the press: there is always somebody to take it.
            let _ = jobs.send(Box::new(job));
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

/// Does with a sheet what was asked; what is viewed or printed lies `beside` the register first.
pub(crate) fn use_sheet(
    sheet: Result<ToSet, String>,
    sheet_use: SheetUse,
    beside: &Path,
) -> Answer {
    let done = match sheet_use {
        SheetUse::Show(of) => {
            let pages = sheet.and_then(|sheet| sheet.pages());
            return Answer::Pages { of, pages };
        }
        SheetUse::Write(place) => sheet.and_then(|sheet| sheet.write(&place)),
        SheetUse::View => sheet.and_then(|sheet| sheet.view(beside)),
        SheetUse::Print => sheet.and_then(|sheet| sheet.print(beside, "lp".as_ref())),
    };
    told(done)
}

/// Writes every sheet of a day into a directory.
pub(crate) fn write_day(
    day: Result<(DaySheets, Style), String>,
    place: &Place,
    tell: &Tell,
) -> Answer {
    told(day.and_then(|(day, style)| {
        let words = style.words;
        let directory = files::path(place, words)?;
        let to = Folder {
            directory: &directory,
            over: Over::Refuse,
            read: &[],
        };
        let written = day.write(to, &style, |progress| {
            tell(Answer::Done {
                message: say::sheets_set(words, progress.done, progress.of),
            });
        });
        let written = written.map_err(plain(words))?;
        let message = day_sheets::text(&written, words).trim_end().to_owned();
        if written.without.is_empty() {
            Ok(message)
        } else {
            Err(message)
        }
    }))
}

fn told(done: Result<String, String>) -> Answer {
    match done {
        Ok(message) => Answer::Done { message },
        Err(message) => Answer::Failed { message },
    }
}

impl ToSet {
    const fn words(&self) -> Words {
        self.style.words
    }

    fn set(&self) -> Result<Sheet, String> {
        match &self.content {
            Content::Draft(draft, limits) => {
                let plan = Plan::of(draft, limits).map_err(plain(self.words()))?;
                sheet::of_plan(&plan, &self.style)
            }
            Content::Signed(plan) => sheet::of_signed(plan, &self.style),
        }
        .map_err(plain(self.words()))
    }

    fn pdf(&self) -> Result<Vec<u8>, String> {
        self.set()?.pdf().map_err(plain(self.words()))
    }

    fn pages(&self) -> Result<Vec<PagePicture>, String> {
        let pages = self.set()?.pages(PIXELS_PER_POINT);
        Ok(pages.into_iter().filter_map(picture).collect())
    }

    fn write(&self, place: &Place) -> Result<String, String> {
        let path = files::write(place, &self.pdf()?, self.words())?;
        Ok(say::sheet_written(self.words(), shown(&path)))
    }

    fn view(&self, directory: &Path) -> Result<String, String> {
        let (path, words) = (self.kept(directory)?, self.words());
        match open::that_detached(&path) {
            // Only that a viewer was asked is known: the place of the file is told as well.
            Ok(()) => Ok(say::viewer_asked(words, shown(&path))),
            Err(error) => Err(say::no_viewer(words, error.to_string(), shown(&path))),
        }
    }

    fn print(&self, directory: &Path, command: &OsStr) -> Result<String, String> {
        let (path, words) = (self.kept(directory)?, self.words());
        let ran = Command::new(command)
            .arg("-t")
            .arg(say::print_job(words))
            .arg(&path)
            .output();
        let problem = match ran {
            Ok(output) if output.status.success() => {
                let told = String::from_utf8_lossy(&output.stdout).trim().to_owned();
                return Ok(say::sent_to_printer(words, told));
            }
            Ok(output) => String::from_utf8_lossy(&output.stderr).trim().to_owned(),
            Err(error) => format!("{}: {error}", command.display()),
        };
        Err(say::not_printed(words, problem, shown(&path)))
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
        write().map_err(|error| {
            command_line::cannot_write(self.words(), error.to_string(), shown(&path))
        })?;
        Ok(path)
    }
}

fn shown(path: &Path) -> String {
    path.display().to_string()
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
        let answer = draft().print(directory.path(), command.as_os_str());
        let message = "Sent to the printer: request id is 7, -t Millrace sheet".to_owned();
        assert_eq!(answer, Ok(message));
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
        assert_eq!(answer, Err(message));

        let absent = directory.path().join("absent");
        let answer = draft().print(directory.path(), absent.as_os_str());
        let message = answer.unwrap_err();
        assert!(message.starts_with("Not printed: "), "{message}");
        assert!(message.ends_with(&format!("The file is {}", file.display())));
    }
}
