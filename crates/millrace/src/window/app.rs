//! Runs the desk: hands its requests out and the answers in.

use core::error::Error;
use std::path::PathBuf;

use eframe::{App as Application, Frame};
use egui::{Context, RawInput, Ui, ViewportCommand};
use millrace_desk::desk::Desk;
use millrace_desk::exchange::{Answer, Place, Request, Surroundings};
use millrace_desk::widgets::FocusKeys;
use millrace_press::Press;
use millrace_wording::{Words, command_line};

use super::dialogs::Dialogs;
use super::kept::{Kept, Last};
use super::register_store::RegisterStore;
use super::register_store::plain;
use super::worker::Worker;
use super::{Opening, World};
use crate::clock;
use crate::computer::computer;

pub(super) struct App {
    desk: Desk,
    keys: FocusKeys,
    worker: Worker,
    kept: Option<Kept>,
    /// Where the person's own register is, for the way back from the demo.
    own: Option<PathBuf>,
    dialogs: Dialogs,
    may_close: bool,
    has_focus: bool,
}

impl App {
    pub(super) fn new(
        context: &Context,
        world: World,
        own: Option<PathBuf>,
    ) -> Result<Self, Box<dyn Error + Send + Sync>> {
        let around = Surroundings {
            today: clock::today(),
            limits: world.limits,
            lenses: world.lenses,
            keeps: world.keeps,
            computer: computer(),
        };
        let mut desk = Desk::new(around, world.settings);
        desk.come_back(world.first);
        Ok(Self {
            desk,
            keys: FocusKeys::default(),
            worker: start(world.store, context)?,
            kept: world.kept,
            own,
            dialogs: Dialogs::new(),
            may_close: false,
            has_focus: true,
        })
    }

    /// Settings, limits and lens records beside the register; the demo keeps nothing.
    fn keep(&mut self, keep: impl Fn(&Kept, Words) -> Result<(), String>) {
        if let Some(kept) = &self.kept
            && let Err(message) = keep(kept, self.desk.settings().words)
        {
            self.desk.accept(Answer::Failed { message });
        }
    }

    fn hand_out(&mut self, ui: &Ui, mut request: Request) {
        let words = self.desk.settings().words;
        if request.place_mut() == Some(&mut Place::Dialog) {
            let context = ui.ctx().clone();
            return self
                .dialogs
                .choose((request, words), move || context.request_repaint());
        }
        match request {
            Request::Quit => {
                let last = Last {
                    whereabouts: self.desk.whereabouts(),
                    size: size(ui),
                };
                self.keep(|kept, words| kept.keep_last(&last, words));
                self.may_close = true;
                ui.send_viewport_cmd(ViewportCommand::Close);
                // It is heard in the next pass.
                ui.request_repaint();
            }
            Request::OpenDemo => self.open_other(ui, &Opening::Demo),
            Request::OpenOwn => match &self.own {
                Some(path) => {
                    let own = Opening::Register(path.clone());
                    self.open_other(ui, &own);
                }
                None => self.desk.accept(Answer::Failed {
                    message: command_line::no_place(words).to_owned(),
                }),
            },
            Request::KeepSettings(settings) => {
                self.keep(|kept, words| kept.keep_settings(&settings, words));
            }
            Request::KeepLimits(limits) => {
                self.keep(|kept, words| kept.keep_limits(&limits, words));
            }
            Request::KeepLenses(lenses) => {
                self.keep(|kept, words| kept.keep_lenses(&lenses, words));
            }
            other => self.worker.hand(other, words),
        }
    }

    /// Leaves the register for the invented cases, with their own lenses and the shipped limits; or them for
    /// the person's own register.
    fn open_other(&mut self, ui: &Ui, opening: &Opening) {
        let words = self.desk.settings().words;
        let world = World::open(opening, words).map_err(plain(words));
        let started = world.and_then(|world| {
            let worker = start(world.store, ui.ctx()).map_err(|error| error.to_string())?;
            let around = Surroundings {
                today: clock::today(),
                limits: world.limits,
                lenses: world.lenses,
                keeps: world.keeps,
                computer: computer(),
            };
            Ok((worker, around, world.first, world.kept))
        });
        match started {
            Ok((worker, around, first, kept)) => {
                self.worker = worker;
                self.kept = kept;
                self.desk = Desk::new(around, self.desk.settings().clone());
                self.desk.come_back(first);
            }
            Err(message) => self.desk.accept(Answer::Failed { message }),
        }
    }

    /// Another copy may have stored something while this window was behind it.
    fn look_for_other_copies(&mut self, ui: &Ui) {
        let has_focus = ui.input(|input| input.focused);
        if has_focus && !self.has_focus {
            self.desk.accept(Answer::ListChanged);
        }
        self.has_focus = has_focus;
    }

    fn take_in(&mut self) {
        for answer in self.worker.answers() {
            self.desk.accept(answer);
        }
        let words = self.desk.settings().words;
        for request in self.dialogs.chosen() {
            self.worker.hand(request, words);
        }
    }
}

fn start(store: RegisterStore, context: &Context) -> Result<Worker, std::io::Error> {
    Worker::start(store, Press::default(), {
        let context = context.clone();
        move || context.request_repaint()
    })
}

/// Size of the window in points at 100 %, unless it fills the screen.
fn size(ui: &Ui) -> Option<[f32; 2]> {
    let zoom = ui.ctx().zoom_factor();
    let (rect, fills) = ui.input(|input| {
        let viewport = input.viewport();
        let fills = viewport.maximized == Some(true) || viewport.fullscreen == Some(true);
        (viewport.inner_rect, fills)
    });
    let rect = rect.filter(|_| !fills)?;
    Some([rect.width() * zoom, rect.height() * zoom])
}

impl Application for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut Frame) {
        self.desk.set_today(clock::today());
        self.take_in();
        self.look_for_other_copies(ui);
        if ui.input(|input| input.viewport().close_requested()) && !self.may_close {
            ui.send_viewport_cmd(ViewportCommand::CancelClose);
            self.desk.ask(Request::Quit);
            ui.request_repaint();
        }
        for file in ui.input(|input| input.raw.dropped_files.clone()) {
            let place = Place::Chosen(file.path().to_owned());
            self.desk.ask(Request::ImportFile(place));
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
