//! The thread on which cases are stored and read, so that the window never waits.

use std::thread::{self, JoinHandle};

use crossbeam_channel::{Receiver, Sender, unbounded};
use millrace_core::case::Draft;
use millrace_desk::exchange::{Answer, Request};

use super::store::{Change, Store};

/// Something for the store.
pub(crate) enum Task {
    /// A request of the desk.
    Desk(Request),
    /// A draft that came from a file, to be kept as a new case.
    Begin(Box<Draft>),
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
        mut store: Box<dyn Store>,
        wake: impl Fn() + Send + 'static,
    ) -> Result<Self, std::io::Error> {
        let (tasks, incoming) = unbounded::<Task>();
        let (outgoing, answers) = unbounded();
        let thread = thread::Builder::new()
            .name("store".to_owned())
            .spawn(move || {
                for task in incoming {
                    for answer in work(store.as_mut(), task) {
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

fn work(store: &mut dyn Store, task: Task) -> Vec<Answer> {
    match task {
        Task::Begin(draft) => vec![store.begin(*draft, ""), Answer::ListChanged],
        Task::Desk(Request::NewCase) => {
            vec![store.begin(Draft::default(), ""), Answer::ListChanged]
        }
        Task::Desk(Request::OpenCase(case)) => vec![store.open(&case)],
        Task::Desk(Request::List { search, rows }) => vec![store.list(&search, rows)],
        Task::Desk(Request::Save {
            case,
            seen,
            draft,
            author,
        }) => vec![store.save(
            &case,
            Change {
                seen,
                draft: *draft,
                author,
            },
        )],
        Task::Desk(_) => Vec::new(),
    }
}
