//! Painted text: with which letters, in which color.

use egui::{Align2, Color32, FontId, Pos2, Ui};

/// How a text is painted.
#[derive(Clone, Debug, PartialEq)]
pub struct Ink {
    pub font: FontId,
    pub color: Color32,
}

impl Ink {
    pub const fn new(font: FontId, color: Color32) -> Self {
        Self { font, color }
    }

    pub fn write(&self, ui: &Ui, at: Pos2, anchor: Align2, text: &str) {
        ui.painter()
            .text(at, anchor, text, self.font.clone(), self.color);
    }
}
