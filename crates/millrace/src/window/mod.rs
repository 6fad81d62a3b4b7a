//! The window around the desk: clock, store, files, and nothing that plans.

mod app;
mod demo;
mod dialogs;
mod files;
mod icon;
mod kept;
mod press;
mod register_store;
mod sheets;
#[cfg(all(test, target_os = "linux"))]
#[expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]
mod testing;
mod worker;

use std::path::PathBuf;
use std::process::ExitCode;

use app::App;
use eframe::NativeOptions;
use egui::ViewportBuilder;
use kept::Kept;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_desk::settings::Settings;
use millrace_desk::whereabouts::Whereabouts;
use millrace_wording::{Language, Words, window as say};
use register_store::{RegisterStore, plain};

use crate::failure::Failure;

/// Smallest window the desk is laid out for, in points.
const SMALLEST: [f32; 2] = [1100.0, 720.0];
const FIRST: [f32; 2] = [1280.0, 820.0];

/// What the desk opens on.
pub(crate) enum Opening {
    Register(PathBuf),
    /// The invented ones; nothing is kept.
    Demo,
}

/// What the desk is opened with.
struct World {
    store: RegisterStore,
    /// Where settings are kept; nowhere for the demo.
    kept: Option<Kept>,
    lenses: Vec<LensRecord>,
    limits: Limits,
    settings: Settings,
    /// Where the desk is when it opens.
    first: Whereabouts,
}

impl World {
    fn open(opening: &Opening, words: Words) -> Result<Self, Failure> {
        let path = match opening {
            Opening::Demo => {
                return Self::demo(words).map_err(Failure::Window);
            }
            Opening::Register(path) => path,
        };
        let store = RegisterStore::open(path)?;
        let kept = Kept::beside(path);
        let refused = Failure::Window;
        Ok(Self {
            store,
            lenses: kept.lenses(words).map_err(refused)?,
            limits: kept.limits(words).map_err(refused)?,
            settings: kept.settings(words).map_err(refused)?,
            first: kept.last().whereabouts,
            kept: Some(kept),
        })
    }

    fn demo(words: Words) -> Result<Self, String> {
        let store = demo::store(words)?;
        Ok(Self {
            first: demo::first_look(&store),
            store,
            kept: None,
            lenses: demo::lenses().map_err(plain(words))?,
            limits: Limits::shipped().clone(),
            settings: Settings::default(),
        })
    }
}

/// Opens the desk until it is closed; in this language, where one was asked for.
pub(crate) fn run(opening: &Opening, words: Words) -> Result<ExitCode, Failure> {
    let mut world = World::open(opening, words)?;
    if words.language != Language::default() {
        world.settings.words.language = words.language;
    }
    let last = world.kept.as_ref().map(Kept::last);
    let size = last.and_then(|last| last.size).unwrap_or(FIRST);
    let viewport = ViewportBuilder::default()
        .with_app_id("millrace")
        .with_title("Millrace")
        .with_icon(icon::icon())
        .with_min_inner_size(SMALLEST.map(|points| points / 2.0))
        .with_inner_size(size);
    let options = NativeOptions {
        viewport,
        system_font_fallback: false,
        ..NativeOptions::default()
    };
    eframe::run_native(
        "millrace",
        options,
        Box::new(move |context| {
            millrace_desk::theme::install(&context.egui_ctx);
            let app = App::new(&context.egui_ctx, world)?;
            Ok(Box::new(app))
        }),
    )
    .map_err(|error| Failure::Window(plainly(&error, words)))?;
    Ok(ExitCode::SUCCESS)
}

/// The usual reason in plain words; the library's own texts name its source files.
fn plainly(error: &eframe::Error, words: Words) -> String {
    match error {
        eframe::Error::WinitEventLoop(_) => say::no_display(words).to_owned(),
        other => other.to_string(),
    }
}
