//! The thread on which cases are stored and read, so that the window never waits.

use std::path::PathBuf;
use std::thread::{self, JoinHandle};

use chrono::NaiveDate;
use crossbeam_channel::{Receiver, Sender, unbounded};
use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, Place, Request, SheetRequest};
use millrace_desk::settings::PaperSize;

use super::press::{Job, Press, Replaces};
use super::register_store::{Change, RegisterStore};
use super::sheets::ToSign;

/// Something for the store.
pub(crate) enum Task {
    /// A request of the desk.
    Desk(Request),
    /// A draft that came from a file, to be kept as a new case.
    Begin(Box<Draft>),
    /// A sheet for the file that was chosen in the dialog.
    WriteSheet(SheetRequest, PathBuf),
    /// The sheets of a day for the directory that was chosen in the dialog.
    WriteDay(NaiveDate, PaperSize, PathBuf),
}

/// The store's thread, reached by messages.
pub(crate) struct Worker {
    tasks: Option<Sender<Task>>,
    answers: Receiver<Answer>,
    thread: Option<JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread; `wake` is called after each answer.
    pub(crate) fn start(
        mut store: RegisterStore,
        wake: impl Fn() + Clone + Send + 'static,
    ) -> Result<Self, std::io::Error> {
        let (tasks, incoming) = unbounded::<Task>();
        let (outgoing, answers) = unbounded();
        let press = Press::start({
            let (outgoing, wake) = (outgoing.clone(), wake.clone());
            move |answer| {
                // Nobody listens only while the window closes.
                let _ = outgoing.send(answer);
                wake();
            }
        })?;
        let thread = thread::Builder::new()
            .name("store".to_owned())
            .spawn(move || {
                'tasks: for task in incoming {
                    for answer in work(&mut store, &press, task) {
                        if outgoing.send(answer).is_err() {
                            break 'tasks;
                        }
                    }
                    wake();
                }
                // It writes beside the register, which a demo takes along.
                drop(press);
            })?;
        Ok(Self {
            tasks: Some(tasks),
            answers,
            thread: Some(thread),
        })
    }

    /// Hands something over; it is done in order.
    pub(crate) fn hand(&self, task: Task) {
        if let Some(tasks) = &self.tasks {
            // The thread ends only with the worker: there is always somebody to take it.
            let _ = tasks.send(task);
        }
    }

    /// The answers so far.
    pub(crate) fn answers(&self) -> Vec<Answer> {
        self.answers.try_iter().collect()
    }
}

impl Drop for Worker {
    /// What was handed over is finished before the program ends.
    fn drop(&mut self) {
        self.tasks = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn work(store: &mut RegisterStore, press: &Press, task: Task) -> Vec<Answer> {
    match task {
        Task::Begin(draft) => vec![store.begin(&draft, ""), Answer::ListChanged],
        Task::Desk(Request::NewCase) => {
            vec![store.begin(&Draft::default(), ""), Answer::ListChanged]
        }
        Task::Desk(Request::OpenCase(case)) => vec![store.reopen(&case)],
        Task::Desk(Request::List { search, rows }) => vec![store.list(&search, rows)],
        Task::Desk(Request::Save {
            case,
            seen,
            draft,
            author,
        }) => vec![store.save(
            &case,
            &Change {
                seen,
                draft: *draft,
                author,
            },
        )],
        Task::Desk(Request::Sign {
            case,
            seen,
            name,
            role,
            target,
            limits,
        }) => {
            let signed = store.sign(ToSign {
                case,
                seen,
                name,
                role,
                target,
                limits,
            });
            vec![signed]
        }
        Task::WriteSheet(sheet, path) => {
            let write = |to_set| Job::Write(to_set, path, Replaces::WhatIsThere);
            hand(press, store.to_set(sheet).map(write))
        }
        Task::WriteDay(day, size, path) => write_day(store, press, (day, size, path)),
        Task::Desk(other) => about_sheets(store, press, other),
    }
}

/// To the press, or why not.
fn hand(press: &Press, job: Result<Job, String>) -> Vec<Answer> {
    match job {
        Ok(job) => {
            press.hand(job);
            Vec::new()
        }
        Err(message) => vec![Answer::Failed { message }],
    }
}

fn write_day(
    store: &RegisterStore,
    press: &Press,
    (day, size, path): (NaiveDate, PaperSize, PathBuf),
) -> Vec<Answer> {
    let job = store
        .day(day)
        .and_then(|sheets| Ok(Job::Day(sheets, store.style(size)?, path)));
    hand(press, job)
}

fn about_sheets(store: &RegisterStore, press: &Press, request: Request) -> Vec<Answer> {
    let beside = store.directory.join("sheets");
    let job = match request {
        Request::ListSheets(case) => return vec![store.sheets(&case)],
        Request::Verify(text) => return vec![store.verify(&text)],
        Request::WriteDay(day, size, Place::Path(path)) => {
            return write_day(store, press, (day, size, path.into()));
        }
        Request::ShowSheet(of, sheet) => match store.to_set(sheet) {
            Ok(to_set) => Ok(Job::Show(of, to_set)),
            Err(why) => return vec![Answer::NoPages { of, why }],
        },
        Request::ViewSheet(sheet) => store.to_set(sheet).map(|sheet| Job::View(sheet, beside)),
        Request::PrintSheet(sheet) => store.to_set(sheet).map(|sheet| Job::Print(sheet, beside)),
        Request::WriteSheet(sheet, Place::Path(path)) => {
            let write = |to_set| Job::Write(to_set, path.into(), Replaces::Nothing);
            store.to_set(sheet).map(write)
        }
        // The rest is the window's.
        _ => return Vec::new(),
    };
    hand(press, job)
}
