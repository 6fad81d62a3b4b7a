//! The thread on which cases are stored and read, so that the window never waits.

use std::path::PathBuf;
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Receiver, RecvTimeoutError, Sender, unbounded};
use millrace_core::case::Draft;
use millrace_core::case_file;
use millrace_desk::exchange::{Answer, CaseId, Request};
use millrace_press::Press;
use millrace_wording::{Words, window as say};

use super::files;
use super::press::{self, PressThread};
use super::register_store::{RegisterStore, plain};
use super::watch;
use crate::fault;

/// The store's thread, reached by messages.
pub(crate) struct Worker {
    requests: Option<Sender<(Request, Words)>>,
    answers: Receiver<Answer>,
    thread: Option<JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread; `wake` is called after each answer.
    pub(crate) fn start(
        mut store: RegisterStore,
        press: Press,
        wake: impl Fn() + Clone + Send + 'static,
    ) -> Result<Self, std::io::Error> {
        let (requests, incoming) = unbounded::<(Request, Words)>();
        let (outgoing, answers) = unbounded();
        let press = PressThread::start(press, {
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
                let sheets = store.directory.join("sheets");
                press::forget_draft(&sheets);
                let told = store.at_opening();
                if !told.is_empty() {
                    let message = told.join(". ");
                    // Nobody listens only while the window closes.
                    let _ = outgoing.send(Answer::Failed { message });
                    wake();
                }
                for answer in store.look_for_left() {
                    // Nobody listens only while the window closes.
                    let _ = outgoing.send(answer);
                    wake();
                }
                // From here on is looked for what others store.
                store.look_around();
                'requests: loop {
                    let (request, words) = match incoming.recv_timeout(watch::EVERY) {
                        Ok(handed) => handed,
                        Err(RecvTimeoutError::Timeout) => {
                            let noticed = watched(&mut store);
                            if !noticed.is_empty() {
                                for answer in noticed {
                                    // Nobody listens only while the window closes.
                                    let _ = outgoing.send(answer);
                                }
                                wake();
                            }
                            continue;
                        }
                        Err(RecvTimeoutError::Disconnected) => break,
                    };
                    store.words = words;
                    for answer in answered(&mut store, &press, request) {
                        if outgoing.send(answer).is_err() {
                            break 'requests;
                        }
                    }
                    wake();
                }
                // It writes beside the register, which a demo takes along.
                drop(press);
                press::forget_draft(&sheets);
            })?;
        Ok(Self {
            requests: Some(requests),
            answers,
            thread: Some(thread),
        })
    }

    /// Hands something over; it is done in order.
    pub(crate) fn hand(&self, request: Request, words: Words) {
        if let Some(requests) = &self.requests {
            // The thread ends only with the worker: there is always somebody to take it.
            let _ = requests.send((request, words));
        }
    }

    pub(crate) fn answers(&self) -> Vec<Answer> {
        self.answers.try_iter().collect()
    }
}

impl Drop for Worker {
    /// What was handed over is finished before the program ends.
    fn drop(&mut self) {
        self.requests = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// What the desk is told, also if this program is at fault while it does what was asked: a window that waits
/// for an answer would say for ever that it saves.
fn answered(store: &mut RegisterStore, press: &PressThread, request: Request) -> Vec<Answer> {
    let words = store.words;
    let broken = broken(&request);
    match fault::caught(|| answers_to(store, press, request)) {
        Ok(mut answers) => {
            if answers.iter().any(is_written) {
                let forgotten = store.remembered();
                answers.extend(forgotten.map(|message| Answer::Failed { message }));
            }
            answers
        }
        Err(problem) => vec![broken(say::fault(words, problem))],
    }
}

/// What others stored meanwhile; nothing if this program is at fault over it, for nobody asked.
fn watched(store: &mut RegisterStore) -> Vec<Answer> {
    fault::caught(|| store.look_around()).unwrap_or_default()
}

/// Whether something was saved or signed.
const fn is_written(answer: &Answer) -> bool {
    matches!(
        answer,
        Answer::Saved { .. }
            | Answer::ListChanged
            | Answer::Ordered(Ok(_))
            | Answer::Signed { sheets: Ok(_), .. }
    )
}

/// The answer to a request that was not done, from why not.
fn broken(request: &Request) -> impl FnOnce(String) -> Answer + use<> {
    enum Of {
        Save(CaseId),
        Order,
        Sign(CaseId),
        Other,
    }
    let of = match request {
        Request::Save(save) => Of::Save(save.case.clone()),
        Request::Order(_) => Of::Order,
        Request::Sign(sign) => Of::Sign(sign.case.clone()),
        _ => Of::Other,
    };
    move |message| match of {
        Of::Save(case) => Answer::NotSaved { case, why: message },
        Of::Sign(case) => Answer::Signed {
            case,
            sheets: Err(vec![message]),
        },
        Of::Order => Answer::Ordered(Err(message)),
        Of::Other => Answer::Failed { message },
    }
}

fn answers_to(store: &mut RegisterStore, press: &PressThread, request: Request) -> Vec<Answer> {
    let words = store.words;
    let opened = match &request {
        Request::OpenCase(case) => Some(case.clone()),
        _ => None,
    };
    let is_new = matches!(request, Request::NewCase | Request::ImportFile(_));
    let answer = match request {
        Request::NewCase => begin(store, Ok(Draft::default())),
        Request::ImportFile(place) => begin(store, files::read_case(&place, words)),
        Request::OpenCase(case) => store.reopen(&case),
        Request::List {
            search,
            listing,
            rows,
            open,
        } => store.list((&search, listing), &rows, open.as_ref()),
        Request::Day { day, limits } => store.operations_of(day, &limits),
        Request::Order(order) => Ok(Answer::Ordered(store.order(&order))),
        Request::Save(save) => Ok(store.save(&save)),
        Request::KeepAside(save) => return store.only_aside(&save),
        Request::KeepTyped(texts) => return store.keep_typed(texts),
        Request::SettleLeft(left) => return store.settle_left(left),
        Request::Sign(sign) => Ok(store.sign(sign)),
        Request::ListSheets(case) => store.sheets(&case),
        Request::Verify(text) => store.verify(&text),
        Request::ExportFile(draft, place) => case_file::write(&draft)
            .map_err(plain(words))
            .and_then(|text| files::write(&place, text.as_bytes(), words))
            .map(written(words, say::case_written)),
        Request::ReadLenses(place) => files::read_lenses(&place, words).map(Answer::LensesRead),
        Request::WriteLenses(records, place) => {
            files::write_lenses(&records, &place, words).map(written(words, say::lenses_written))
        }
        Request::Sheet(sheet_use, sheet) => {
            let (sheet, beside) = (store.to_set(sheet), store.directory.join("sheets"));
            press.hand(words, move |press, _| {
                press::use_sheet(sheet, sheet_use, &beside, press)
            });
            return Vec::new();
        }
        Request::WriteDay(day, paper, place) => {
            let (sheets, style) = (store.day(day), store.style(paper));
            press.hand(words, move |press, tell| {
                let day = sheets.and_then(|sheets| Ok((sheets, style?)));
                press::write_day(day, &place, (press, tell))
            });
            return Vec::new();
        }
        // The window's own.
        Request::OpenDemo
        | Request::OpenOwn
        | Request::KeepSettings(_)
        | Request::KeepLimits(_)
        | Request::KeepLenses(_)
        | Request::Quit => return Vec::new(),
    };
    let mut besides = Vec::new();
    if let Some(case) = opened {
        besides.extend(store.told_of_aside(&case));
        besides.extend(store.look_for_left());
    }
    let mut answers = match answer {
        Ok(answer) if is_new => vec![answer, Answer::ListChanged],
        Ok(answer) => vec![answer],
        Err(message) => vec![Answer::Failed { message }],
    };
    answers.extend(besides);
    answers
}

/// What is told of a file that was written.
fn written(words: Words, told: fn(Words, String) -> String) -> impl Fn(PathBuf) -> Answer {
    move |path| Answer::Done {
        message: told(words, path.display().to_string()),
    }
}

fn begin(store: &mut RegisterStore, draft: Result<Draft, String>) -> Result<Answer, String> {
    store.begin(&draft?)
}
