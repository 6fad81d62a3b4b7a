//! The thread on which sheets are asked for, written, viewed and printed. It may take seconds, for a whole
//! day of them, and neither the window nor a save waits. They are set by a process of its own, which it
//! holds ([`millrace_press`]).

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Sender, unbounded};
use millrace_core::case::Draft;
use millrace_core::document::PlanDocument;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::signing::SignedPlan;
use millrace_desk::exchange::{Answer, PagePicture, Place, SheetUse};
use millrace_press::{Press, PressError, Subject};
use millrace_sheet::{Outdated, PageImage};
use millrace_wording::{Show as _, Words, press as say_of_press, window as say};

use super::files;
use super::register_store::plain;
use crate::clock;
use crate::day_sheets::{self, DaySheets, Folder};
use crate::failure::Failure;
use crate::fault;
use crate::output::{Over, write_file};
use crate::register::PROGRAM;
use crate::standing::subject;
use crate::style::Style;
use crate::system::private_directory;

/// The copy of a draft that is viewed or printed.
const DRAFT: &str = "draft.pdf";

/// Of the pictures on the desk: sharp at twice the size.
const PIXELS_PER_POINT: f32 = 2.0;

/// A sheet that is to be set.
pub(crate) struct ToSet {
    pub(crate) content: Content,
    pub(crate) style: Style,
}

pub(crate) enum Content {
    Draft(Box<Draft>, Box<Limits>),
    /// With why it is no longer the one to work by.
    Signed(Box<SignedPlan>, Option<Outdated>),
}

/// Hears of a job while it is done.
type Tell = dyn Fn(Answer);
type Work = Box<dyn FnOnce(&mut Press, &Tell) -> Answer + Send>;

/// Work, and the words to say in that it failed.
struct Job {
    work: Work,
    words: Words,
}

/// The thread, reached by messages.
pub(crate) struct PressThread {
    jobs: Option<Sender<Job>>,
    thread: Option<JoinHandle<()>>,
}

impl PressThread {
    /// Starts the thread; each answer is handed to `tell`.
    pub(crate) fn start(
        mut press: Press,
        tell: impl Fn(Answer) + Send + 'static,
    ) -> Result<Self, std::io::Error> {
        let (jobs, incoming) = unbounded::<Job>();
        let thread = thread::Builder::new()
            .name("press".to_owned())
            .spawn(move || {
                // What keeps it from starting is told with the first sheet.
                let _ = press.warm();
                for Job { work, words } in incoming {
                    let done = fault::caught(|| work(&mut press, &tell));
                    // A fault in one job ends that job and not the thread.
                    tell(done.unwrap_or_else(|_| Answer::Failed {
                        message: say_of_press::fault(words).to_owned(),
                    }));
                }
            })?;
        Ok(Self {
            jobs: Some(jobs),
            thread: Some(thread),
        })
    }

    /// Hands a job over; jobs are done in order.
    pub(crate) fn hand(
        &self,
        words: Words,
        work: impl FnOnce(&mut Press, &Tell) -> Answer + Send + 'static,
    ) {
        let work = Box::new(work);
        if let Some(jobs) = &self.jobs {
            // The thread ends only with its holder: there is always somebody to take it.
            let _ = jobs.send(Job { work, words });
        }
    }
}

impl Drop for PressThread {
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
    press: &mut Press,
) -> Answer {
    let done = match sheet_use {
        SheetUse::Show(of) => {
            let pages = sheet.and_then(|sheet| sheet.pages(press));
            return Answer::Pages { of, pages };
        }
        SheetUse::Write(place) => sheet.and_then(|sheet| sheet.write(&place, press)),
        SheetUse::View => sheet.and_then(|sheet| sheet.view(beside, press)),
        SheetUse::Print => sheet.and_then(|sheet| sheet.print((beside, "lp".as_ref()), press)),
    };
    told(done)
}

/// Writes every sheet of a day into a directory.
pub(crate) fn write_day(
    day: Result<(DaySheets, Style), String>,
    place: &Place,
    (press, tell): (&mut Press, &Tell),
) -> Answer {
    told(day.and_then(|(day, style)| {
        let words = style.words;
        let directory = files::path(place, words)?;
        let to = Folder {
            directory: &directory,
            over: Over::Refuse,
            read: &[],
        };
        let written = day.write(to, (&style, press), |progress| {
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

/// Takes away the copy of a draft that was viewed: it is of no plan that anybody signed. When the window opens
/// and closes, since nobody tells when a viewer is done.
pub(super) fn forget_draft(sheets: &Path) {
    // Mostly none is there.
    let _ = fs::remove_file(sheets.join(DRAFT));
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

    /// Hands over what is to be set, a draft as of now.
    fn set<T>(&self, set: impl FnOnce(&Subject<'_>) -> Result<T, PressError>) -> Result<T, String> {
        let set = match &self.content {
            Content::Draft(draft, limits) => {
                let plan = Plan::of(draft, limits).map_err(plain(self.words()))?;
                let document = &PlanDocument::of(&plan, PROGRAM);
                let at = clock::now();
                set(&Subject::Draft { document, at })
            }
            Content::Signed(plan, outdated) => set(&subject(plan, *outdated)),
        };
        set.map_err(|error| self.why_not(&error))
    }

    /// A sheet that was signed is not lost with the press.
    fn why_not(&self, error: &PressError) -> String {
        match &self.content {
            Content::Signed(plan, _) if error.is_of_the_press() => {
                say_of_press::still_signed(self.words(), error, plan.number().get())
            }
            _ => error.show(self.words()).into_owned(),
        }
    }

    fn pdf(&self, press: &mut Press) -> Result<Vec<u8>, String> {
        self.set(|subject| press.pdf(subject, self.style.setting()))
    }

    fn pages(&self, press: &mut Press) -> Result<Vec<PagePicture>, String> {
        let setting = self.style.setting();
        let pages = self.set(|subject| press.pages(subject, setting, PIXELS_PER_POINT))?;
        Ok(pages.into_iter().filter_map(picture).collect())
    }

    fn write(&self, place: &Place, press: &mut Press) -> Result<String, String> {
        let path = files::write(place, &self.pdf(press)?, self.words())?;
        Ok(say::sheet_written(self.words(), shown(&path)))
    }

    fn view(&self, directory: &Path, press: &mut Press) -> Result<String, String> {
        let (path, words) = (self.kept(directory, press)?, self.words());
        match open::that_detached(&path) {
            // Only that a viewer was asked is known: the place of the file is told as well.
            Ok(()) => Ok(say::viewer_asked(words, shown(&path))),
            Err(error) => Err(say::no_viewer(words, error.to_string(), shown(&path))),
        }
    }

    fn print(
        &self,
        (directory, command): (&Path, &OsStr),
        press: &mut Press,
    ) -> Result<String, String> {
        let (path, words) = (self.kept(directory, press)?, self.words());
        let ran = Command::new(command)
            .arg("-t")
            .arg(say::print_job(words))
            .arg(&path)
            .output();
        let problem = match ran {
            Ok(output) if output.status.success() => {
                let told = String::from_utf8_lossy(&output.stdout).trim().to_owned();
                if matches!(self.content, Content::Draft(..)) {
                    forget_draft(directory);
                }
                return Ok(say::sent_to_printer(words, told));
            }
            Ok(output) => String::from_utf8_lossy(&output.stderr).trim().to_owned(),
            Err(error) => format!("{}: {error}", command.display()),
        };
        Err(say::not_printed(words, problem, shown(&path)))
    }

    /// What is viewed or printed lies beside the register first; the same sheet has the same bytes.
    fn kept(&self, directory: &Path, press: &mut Press) -> Result<PathBuf, String> {
        let pdf = self.pdf(press)?;
        let name = match &self.content {
            Content::Draft(..) => DRAFT.to_owned(),
            Content::Signed(plan, _) => format!("sheet-{}.pdf", plan.number()),
        };
        let path = directory.join(name);
        let made = private_directory().create(directory);
        made.map_err(Failure::writing(directory))
            .and_then(|()| write_file(&path, Over::Replace, &[], &pdf))
            .map_err(plain(self.words()))?;
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

#[cfg(all(test, target_os = "linux"))]
mod tests;
