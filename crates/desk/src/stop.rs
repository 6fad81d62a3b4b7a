//! What stands in the window when the desk cannot be opened: why, and the ways on.

use egui::{Align, Button, CentralPanel, Layout, RichText, Ui, vec2};
use millrace_core::rules::Severity;
use millrace_wording::desk::frame as say;
use millrace_wording::sentence;

use crate::theme::measures;
use crate::widgets::{heading, notice};
use crate::words::in_use;

/// Lines longer than this are hard to read, points.
const WIDE: f32 = 720.0;

/// Why there is no desk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stop {
    /// In whole sentences.
    pub why: String,
    /// Where the register is.
    pub place: String,
    pub ways: Ways,
}

/// Which ways lead on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ways {
    /// The register is not what it was when it was seen last: whoever knows why takes it as it is.
    Accept,
    /// It is another try, once the cause is mended.
    Again,
}

/// The way that was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    Accept,
    Again,
    Close,
}

/// Shows it; the way that was chosen, once one is.
pub fn show(ui: &mut Ui, stop: &Stop) -> Option<Way> {
    let words = in_use(ui);
    let mut chosen = None;
    CentralPanel::default().show(ui, |ui| {
        ui.add_space(measures::FAR * 2.0);
        ui.with_layout(Layout::top_down(Align::Center), |ui| {
            ui.set_max_width(WIDE.min(ui.available_width()));
            ui.with_layout(Layout::top_down(Align::Min), |ui| {
                heading(ui, say::not_opened(words));
                ui.add_space(measures::NEAR);
                notice(ui, Severity::Stop, |ui| {
                    ui.label(sentence(&stop.why));
                });
                ui.add_space(measures::NEAR);
                if !stop.place.is_empty() {
                    ui.label(RichText::new(say::register_at(words, &stop.place)).small());
                }
                ui.add_space(measures::APART);
                // The way that changes nothing stands first.
                let on = match stop.ways {
                    Ways::Accept => (say::accept_register(words), Way::Accept),
                    Ways::Again => (say::try_again(words), Way::Again),
                };
                for (text, way) in [(say::close(words), Way::Close), on] {
                    let button = Button::new(text).min_size(vec2(220.0, 36.0));
                    if ui.add(button).clicked() {
                        chosen = Some(way);
                    }
                }
            });
        });
    });
    chosen
}
