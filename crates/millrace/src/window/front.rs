//! What stands in the window: the desk, or why there is none.

use core::error::Error;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use eframe::{App as Application, Frame};
use egui::{Context, RawInput, Ui, ViewportCommand};
use millrace_desk::stop::{self, Stop, Way, Ways};
use millrace_desk::words;
use millrace_register::RegisterError;
use millrace_wording::{Show as _, Words};

use super::app::App;
use super::{Opening, World};
use crate::failure::Failure;
use crate::seen;

pub(super) struct Front {
    stage: Stage,
    opening: Opening,
    words: Words,
    /// Whether no desk stands in it, for who started the program.
    stopped: Arc<AtomicBool>,
}

enum Stage {
    Desk(Box<App>),
    Stop(Stop),
}

impl Front {
    /// The desk on what was opened, or why nothing was.
    pub(super) fn new(
        context: &Context,
        (opening, words): (Opening, Words),
        opened: Result<World, Failure>,
        stopped: Arc<AtomicBool>,
    ) -> Result<Self, Box<dyn Error + Send + Sync>> {
        words::speak(context, words);
        let stage = match opened {
            Ok(world) => Stage::Desk(Box::new(App::new(context, world, opening.own())?)),
            Err(failure) => Stage::Stop(why(&failure, &opening, words)),
        };
        let front = Self {
            stage,
            opening,
            words,
            stopped,
        };
        front.tell();
        Ok(front)
    }

    fn tell(&self) {
        let is_stopped = matches!(self.stage, Stage::Stop(_));
        self.stopped.store(is_stopped, Ordering::Relaxed);
    }

    fn go(&mut self, ui: &Ui, way: Way) {
        let accepted = match way {
            Way::Close => return ui.send_viewport_cmd(ViewportCommand::Close),
            Way::Again => Ok(()),
            Way::Accept => match self.opening.register() {
                Some(path) => seen::accept(path).map(drop),
                None => Ok(()),
            },
        };
        let opened = accepted.and_then(|()| World::open(&self.opening, self.words));
        let app = opened.and_then(|world| {
            App::new(ui.ctx(), world, self.opening.own())
                .map_err(|error| Failure::Window(error.to_string()))
        });
        self.stage = match app {
            Ok(app) => Stage::Desk(Box::new(app)),
            Err(failure) => Stage::Stop(why(&failure, &self.opening, self.words)),
        };
        self.tell();
        ui.request_repaint();
    }
}

fn why(failure: &Failure, opening: &Opening, words: Words) -> Stop {
    let is_another = matches!(
        failure,
        Failure::Register(RegisterError { fault, .. }) if fault.is_another_head()
    );
    let place = opening.register().map(|path| path.display().to_string());
    Stop {
        why: failure.show(words).into_owned(),
        place: place.unwrap_or_default(),
        ways: if is_another {
            Ways::Accept
        } else {
            Ways::Again
        },
    }
}

impl Application for Front {
    fn ui(&mut self, ui: &mut Ui, frame: &mut Frame) {
        let chosen = match &mut self.stage {
            Stage::Desk(app) => return app.ui(ui, frame),
            Stage::Stop(stop) => stop::show(ui, stop),
        };
        if let Some(way) = chosen {
            self.go(ui, way);
        }
    }

    fn raw_input_hook(&mut self, context: &Context, input: &mut RawInput) {
        if let Stage::Desk(app) = &mut self.stage {
            app.raw_input_hook(context, input);
        }
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
