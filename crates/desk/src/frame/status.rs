//! The line at the foot: what is stored, what was refused, and the way to settings and keys.

use egui::{Align, Layout, RichText, Ui};

use super::Action;
use crate::session::{SaveState, Session};
use crate::theme::Palette;
use crate::widgets::small;

/// Shows the line.
pub fn show(ui: &mut Ui, session: Option<&Session>, author: &str) -> Vec<Action> {
    let mut actions = Vec::new();
    ui.horizontal_wrapped(|ui| {
        if let Some(session) = session {
            stored(ui, &session.save_state(), &mut actions);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if ui.small_button("Settings").clicked() {
                actions.push(Action::ShowSettings);
            }
            if ui.small_button("Keys (F1)").clicked() {
                actions.push(Action::ShowShortcuts);
            }
            if author.is_empty() {
                small(ui, "Your name is not set");
            } else {
                small(ui, author);
            }
        });
    });
    actions
}

fn stored(ui: &mut Ui, state: &SaveState, actions: &mut Vec<Action>) {
    match state {
        SaveState::Saved => {
            small(ui, "Saved");
        }
        SaveState::Saving | SaveState::Unsaved => {
            small(ui, "Saving…");
        }
        SaveState::Failed(why) => {
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(format!("Not saved: {why}")).color(color));
            if ui.small_button("Try again").clicked() {
                actions.push(Action::Save);
            }
        }
    }
}
