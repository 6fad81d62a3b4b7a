//! What an empty register says of itself.

use egui::{Align, Button, Layout, RichText, Ui, vec2};
use millrace_wording::desk::frame as say;

use crate::exchange::Request;
use crate::message::{FileUse, Message};
use crate::theme::measures;
use crate::words::in_use;

/// Shows the three lines and the three ways to begin.
pub fn show(ui: &mut Ui) -> Vec<Message> {
    let mut messages = Vec::new();
    let words = in_use(ui);
    ui.add_space(measures::FAR * 2.0);
    ui.with_layout(Layout::top_down(Align::Center), |ui| {
        ui.label(RichText::new("Millrace").heading());
        ui.add_space(measures::NEAR);
        for line in [say::nothing_yet, say::what_a_case_is, say::what_the_demo_is] {
            ui.label(line(words));
        }
        ui.add_space(measures::APART);
        for (text, message) in [
            (say::new_case(words), Message::Ask(Request::NewCase)),
            (
                say::open_case_file(words),
                Message::AskForFile(FileUse::Open),
            ),
            (say::open_demo(words), Message::Ask(Request::OpenDemo)),
        ] {
            let button = Button::new(text).min_size(vec2(220.0, 36.0));
            if ui.add(button).clicked() {
                messages.push(message);
            }
        }
    });
    messages
}
