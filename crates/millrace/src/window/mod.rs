//! The window around the desk: clock, store, files, and nothing that plans.

mod app;
mod demo;
mod dialogs;
mod icon;
mod memory_store;
mod store;
mod worker;

use std::process::ExitCode;

use app::App;
use eframe::NativeOptions;
use egui::ViewportBuilder;
use memory_store::MemoryStore;

use crate::failure::Failure;

/// Smallest window the desk is laid out for, in points.
const SMALLEST: [f32; 2] = [1100.0, 720.0];
const FIRST: [f32; 2] = [1280.0, 820.0];

/// What the desk opens on.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Opening {
    /// The person's own cases.
    Own,
    /// The invented ones; nothing is kept.
    Demo,
}

/// Opens the desk until it is closed.
pub(crate) fn run(opening: Opening) -> Result<ExitCode, Failure> {
    let store = match opening {
        Opening::Demo => demo::store().map_err(|error| Failure::Window(error.to_string()))?,
        Opening::Own => MemoryStore::default(),
    };
    let viewport = ViewportBuilder::default()
        .with_app_id("millrace")
        .with_title("Millrace")
        .with_icon(icon::icon())
        .with_min_inner_size(SMALLEST.map(|points| points / 2.0))
        .with_inner_size(FIRST);
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
            let app = App::new(&context.egui_ctx, store, opening)?;
            Ok(Box::new(app))
        }),
    )
    .map_err(|error| Failure::Window(plainly(&error)))?;
    Ok(ExitCode::SUCCESS)
}

/// The usual reason in plain words; the library's own texts name its source files.
fn plainly(error: &eframe::Error) -> String {
    match error {
        eframe::Error::WinitEventLoop(_) => {
            "no display was found (neither DISPLAY nor WAYLAND_DISPLAY leads to one)".to_owned()
        }
        other => other.to_string(),
    }
}
