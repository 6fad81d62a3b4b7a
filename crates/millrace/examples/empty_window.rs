//! An empty window of the library that the desk stands in: what `tests/window/first_frame.py` measures
//! the desk against.

use eframe::{App, Frame, NativeOptions};
use egui::{Ui, ViewportBuilder};

struct Empty;

impl App for Empty {
    fn ui(&mut self, _ui: &mut Ui, _frame: &mut Frame) {}
}

fn main() -> eframe::Result {
    let viewport = ViewportBuilder::default()
        .with_app_id("empty_window")
        .with_inner_size([1280.0, 820.0]);
    let options = NativeOptions {
        viewport,
        system_font_fallback: false,
        ..NativeOptions::default()
    };
    eframe::run_native("empty_window", options, Box::new(|_| Ok(Box::new(Empty))))
}
