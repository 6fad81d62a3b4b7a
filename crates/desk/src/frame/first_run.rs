//! What an empty register says of itself.

use egui::{Align, Button, Layout, RichText, Ui, vec2};

use crate::exchange::Request;
use crate::message::{FileUse, Message};
use crate::theme::measures;

const LINES: [&str; 3] = [
    "Nothing is planned here yet.",
    "A case is one operation on one eye of one patient; it is stored on this computer as you type.",
    "The demo shows invented patients and changes nothing of yours.",
];

/// Shows the three lines and the three ways to begin.
pub fn show(ui: &mut Ui) -> Vec<Message> {
    let mut messages = Vec::new();
    ui.add_space(measures::FAR * 2.0);
    ui.with_layout(Layout::top_down(Align::Center), |ui| {
        ui.label(RichText::new("Millrace").heading());
        ui.add_space(measures::NEAR);
        for line in LINES {
            ui.label(line);
        }
        ui.add_space(measures::APART);
        for (words, message) in [
            ("New case", Message::Ask(Request::NewCase)),
            ("Open a case file…", Message::AskForFile(FileUse::Open)),
            ("Look at the demo", Message::Ask(Request::OpenDemo)),
        ] {
            let button = Button::new(words).min_size(vec2(220.0, 36.0));
            if ui.add(button).clicked() {
                messages.push(message);
            }
        }
    });
    messages
}

/// Shown where cases are stored and none is open.
pub fn none_open(ui: &mut Ui) -> Vec<Message> {
    let mut messages = Vec::new();
    ui.add_space(measures::FAR * 2.0);
    ui.with_layout(Layout::top_down(Align::Center), |ui| {
        ui.label("Choose a case from the theatre list, or begin one");
        ui.add_space(measures::NEAR);
        if ui.button("New case").clicked() {
            messages.push(Message::Ask(Request::NewCase));
        }
    });
    messages
}
