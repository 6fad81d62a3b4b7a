//! The thread on which cases are stored and read, so that the window never waits.

use std::path::{Path, PathBuf};
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Receiver, Sender, unbounded};
use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, Place, Request, SheetRequest};

use super::register_store::{Change, RegisterStore};
use super::sheets::{Replaces, ToSign};

/// Something for the store.
pub(crate) enum Task {
    /// A request of the desk.
    Desk(Request),
    /// A draft that came from a file, to be kept as a new case.
    Begin(Box<Draft>),
    /// A sheet for the file that was chosen in the dialog.
    WriteSheet(SheetRequest, PathBuf),
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
        wake: impl Fn() + Send + 'static,
    ) -> Result<Self, std::io::Error> {
        let (tasks, incoming) = unbounded::<Task>();
        let (outgoing, answers) = unbounded();
        let thread = thread::Builder::new()
            .name("store".to_owned())
            .spawn(move || {
                for task in incoming {
                    for answer in work(&mut store, task) {
                        if outgoing.send(answer).is_err() {
                            return;
                        }
                    }
                    wake();
                }
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

fn work(store: &mut RegisterStore, task: Task) -> Vec<Answer> {
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
            vec![store.write_sheet(&sheet, (&path, Replaces::WhatIsThere))]
        }
        Task::Desk(other) => about_sheets(store, other).into_iter().collect(),
    }
}

fn about_sheets(store: &RegisterStore, request: Request) -> Option<Answer> {
    Some(match request {
        Request::ListSheets(case) => store.sheets(&case),
        Request::ShowSheet(sheet) => store.pages(&sheet),
        Request::ViewSheet(sheet) => store.view_sheet(&sheet),
        Request::PrintSheet(sheet) => store.print_sheet(&sheet),
        Request::WriteSheet(sheet, Place::Path(path)) => {
            store.write_sheet(&sheet, (Path::new(&path), Replaces::Nothing))
        }
        Request::Verify(text) => store.verify(&text),
        // The rest is the window's.
        _ => return None,
    })
}
