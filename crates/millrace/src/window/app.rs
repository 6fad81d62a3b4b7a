//! Runs the desk: hands its requests out and the answers in.

use core::error::Error;

use eframe::{App as Application, Frame};
use egui::{Context, RawInput, Ui, ViewportCommand};
use jiff::ZonedDateTime;
use millrace_core::limits::Limits;
use millrace_desk::desk::{Desk, Surroundings};
use millrace_desk::exchange::{Answer, Request};
use millrace_desk::settings::Settings;
use millrace_desk::widgets::FocusKeys;

use super::dialogs::{Chosen, Dialogs};
use super::memory_store::MemoryStore;
use super::worker::{Task, Worker};
use super::{Opening, demo};

pub(super) struct App {
    desk: Desk,
    keys: FocusKeys,
    worker: Worker,
    dialogs: Dialogs,
    may_close: bool,
}

impl App {
    pub(super) fn new(
        context: &Context,
        store: MemoryStore,
        opening: Opening,
    ) -> Result<Self, Box<dyn Error + Send + Sync>> {
        let around = Surroundings {
            today: ZonedDateTime::now().date(),
            limits: Limits::shipped().clone(),
            lenses: demo::lenses()?,
        };
        let mut desk = Desk::new(around, Settings::default());
        if opening == Opening::Own {
            desk.accept(Answer::Failed {
                message:
                    "This build keeps cases in memory only: write them to files before you close it"
                        .to_owned(),
            });
        }
        Ok(Self {
            desk,
            keys: FocusKeys::default(),
            worker: start(store, context)?,
            dialogs: Dialogs::new(),
            may_close: false,
        })
    }

    fn hand_out(&mut self, ui: &Ui, request: Request) {
        let wake = waker(ui.ctx());
        match request {
            Request::Quit => {
                self.may_close = true;
                ui.send_viewport_cmd(ViewportCommand::Close);
            }
            Request::ImportFile => self.dialogs.import(wake),
            Request::ExportFile { draft } => self.dialogs.export(draft, wake),
            Request::OpenDemo => self.open_demo(ui),
            Request::KeepSettings(_) => {}
            other => self.worker.hand(Task::Desk(other)),
        }
    }

    fn open_demo(&mut self, ui: &Ui) {
        let opened = demo::store().map_err(|error| error.to_string());
        let started =
            opened.and_then(|store| start(store, ui.ctx()).map_err(|error| error.to_string()));
        match started {
            Ok(worker) => {
                self.worker = worker;
                self.desk.accept(Answer::ListChanged);
            }
            Err(message) => self.desk.accept(Answer::Failed { message }),
        }
    }

    fn take_in(&mut self) {
        for answer in self.worker.answers() {
            self.desk.accept(answer);
        }
        for chosen in self.dialogs.results() {
            match chosen {
                Chosen::Task(task) => self.worker.hand(task),
                Chosen::Tell(answer) => self.desk.accept(answer),
            }
        }
    }
}

fn start(store: MemoryStore, context: &Context) -> Result<Worker, std::io::Error> {
    Worker::start(store, {
        let context = context.clone();
        move || context.request_repaint()
    })
}

fn waker(context: &Context) -> impl FnOnce() + Send + 'static {
    let context = context.clone();
    move || context.request_repaint()
}

impl Application for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut Frame) {
        self.desk.set_today(ZonedDateTime::now().date());
        self.take_in();
        if ui.input(|input| input.viewport().close_requested()) && !self.may_close {
            ui.send_viewport_cmd(ViewportCommand::CancelClose);
            self.desk.ask_to_quit();
            ui.request_repaint();
        }
        for file in ui.input(|input| input.raw.dropped_files.clone()) {
            let path = file.path().to_owned();
            self.dialogs.read_dropped(path, waker(ui.ctx()));
        }
        self.desk.show(ui);
        for request in self.desk.take_requests() {
            self.hand_out(ui, request);
        }
    }

    fn raw_input_hook(&mut self, context: &Context, input: &mut RawInput) {
        if self.keys.isolate(input) {
            context.request_repaint();
        }
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
