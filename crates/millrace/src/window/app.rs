//! Runs the desk: hands its requests out and the answers in.

use core::error::Error;

use eframe::{App as Application, Frame};
use egui::{Context, RawInput, Ui, ViewportCommand};
use jiff::ZonedDateTime;
use millrace_desk::desk::{Desk, Surroundings};
use millrace_desk::exchange::{Answer, Request};
use millrace_desk::widgets::FocusKeys;

use super::World;
use super::dialogs::{Chosen, Dialogs};
use super::kept::Kept;
use super::store::Store;
use super::worker::{Task, Worker};

pub(super) struct App {
    desk: Desk,
    keys: FocusKeys,
    worker: Worker,
    kept: Option<Kept>,
    dialogs: Dialogs,
    may_close: bool,
}

impl App {
    pub(super) fn new(
        context: &Context,
        world: World,
    ) -> Result<Self, Box<dyn Error + Send + Sync>> {
        let around = Surroundings {
            today: ZonedDateTime::now().date(),
            limits: world.limits,
            lenses: world.lenses,
        };
        Ok(Self {
            desk: Desk::new(around, world.settings),
            keys: FocusKeys::default(),
            worker: start(world.store, context)?,
            kept: world.kept,
            dialogs: Dialogs::new(),
            may_close: false,
        })
    }

    /// Settings, limits and lens records beside the register; the demo keeps nothing.
    fn keep(&mut self, keep: impl Fn(&Kept) -> Result<(), String>) {
        if let Some(kept) = &self.kept
            && let Err(message) = keep(kept)
        {
            self.desk.accept(Answer::Failed { message });
        }
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
            Request::KeepSettings(settings) => self.keep(|kept| kept.keep_settings(&settings)),
            Request::KeepLimits(limits) => self.keep(|kept| kept.keep_limits(&limits)),
            Request::KeepLenses(lenses) => self.keep(|kept| kept.keep_lenses(&lenses)),
            other => self.worker.hand(Task::Desk(other)),
        }
    }

    /// Leaves the register for the invented cases, with their own lenses and the shipped limits.
    fn open_demo(&mut self, ui: &Ui) {
        let world = World::demo().map_err(|error| error.to_string());
        let started = world.and_then(|world| {
            let worker = start(world.store, ui.ctx()).map_err(|error| error.to_string())?;
            let around = Surroundings {
                today: ZonedDateTime::now().date(),
                limits: world.limits,
                lenses: world.lenses,
            };
            Ok((worker, around))
        });
        match started {
            Ok((worker, around)) => {
                self.worker = worker;
                self.kept = None;
                self.desk = Desk::new(around, self.desk.settings().clone());
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

fn start(store: Box<dyn Store>, context: &Context) -> Result<Worker, std::io::Error> {
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
