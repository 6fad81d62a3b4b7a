//! The line at the foot: what is stored, what was refused, and the way to settings and keys.

use egui::{Align, Layout, RichText, Ui};

use super::{Action, Side};
use crate::session::{SaveState, Session};
use crate::theme::Palette;
use crate::widgets::{minor_button, small};

/// Shows the line. Where there is no room beside the page, it also leads to list, findings and undo.
pub fn show(
    ui: &mut Ui,
    session: Option<&Session>,
    author: &str,
    narrow: Option<Side>,
) -> Vec<Action> {
    let mut actions = Vec::new();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        if let Some(session) = session {
            stored(ui, &session.save_state(), &mut actions);
            if let Some(shown) = narrow {
                beside_the_page(ui, session, shown, &mut actions);
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if minor_button(ui, "Settings").clicked() {
                actions.push(Action::ShowSettings);
            }
            if minor_button(ui, "Keys (F1)").clicked() {
                actions.push(Action::ShowShortcuts);
            }
            if session.is_some() && minor_button(ui, "Second look…").clicked() {
                actions.push(Action::ShowSecondLook);
            }
            if narrow.is_none() {
                small(
                    ui,
                    if author.is_empty() {
                        "Your name is not set"
                    } else {
                        author
                    },
                );
            }
        });
    });
    actions
}

fn beside_the_page(ui: &mut Ui, session: &Session, shown: Side, actions: &mut Vec<Action>) {
    for (side, name) in [(Side::List, "Theatre list"), (Side::Findings, "Findings")] {
        let words = if shown == side {
            "Back to the page"
        } else {
            name
        };
        if minor_button(ui, words).clicked() {
            actions.push(Action::ShowSide(side));
        }
    }
    for (word, is_possible, action) in [
        ("Undo", session.undoes().is_some(), Action::Undo),
        ("Redo", session.redoes().is_some(), Action::Redo),
    ] {
        let button = ui.add_enabled_ui(is_possible, |ui| minor_button(ui, word));
        if button.inner.clicked() {
            actions.push(action);
        }
    }
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
            if minor_button(ui, "Try again").clicked() {
                actions.push(Action::Save);
            }
        }
        SaveState::Conflict => {
            let words = "Not saved: changed elsewhere; choose on the page how to go on";
            let color = Palette::current(ui).stop;
            ui.label(RichText::new(words).color(color));
        }
    }
}
