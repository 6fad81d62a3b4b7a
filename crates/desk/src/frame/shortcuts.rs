//! The keys: which there are, and the sheet that lists them.

use egui::{
    Frame, Grid, Id, Key, KeyboardShortcut, Margin, Modal, Modifiers, Popup, RichText, ScrollArea,
    Ui,
};
use millrace_wording::desk::keys;

use crate::exchange::Request;
use crate::message::{FileUse, Message};
use crate::settings::Settings;
use crate::whereabouts::{Front, Page};
use crate::widgets::{heading, is_being_typed};
use crate::words::in_use;

/// What the sheet needs around its lines: heading, button, margins, and some of what lies under it.
const AROUND: f32 = 130.0;

/// What the keys of this pass ask for.
pub fn pressed(ui: &Ui, settings: &Settings) -> Vec<Message> {
    let mut messages = Vec::new();
    let mut on = |modifiers: Modifiers, key: Key, message: Message| {
        let shortcut = KeyboardShortcut::new(modifiers, key);
        if ui.input_mut(|input| input.consume_shortcut(&shortcut)) {
            messages.push(message);
        }
    };
    let ctrl = Modifiers::COMMAND;
    for (page, key) in Page::ALL {
        on(ctrl, key, Message::Show(page));
    }
    // While somebody types, undo belongs to the field.
    if !is_being_typed(ui) {
        on(ctrl | Modifiers::SHIFT, Key::Z, Message::Redo);
        on(ctrl, Key::Y, Message::Redo);
        on(ctrl, Key::Z, Message::Undo);
    }
    on(ctrl, Key::L, Message::Turn(Front::SecondLook));
    on(ctrl, Key::D, Message::Turn(Front::Day));
    on(ctrl, Key::Comma, Message::Turn(Front::Settings));
    on(ctrl, Key::S, Message::Save);
    on(ctrl, Key::Q, Message::Ask(Request::Quit));
    on(ctrl, Key::N, Message::Ask(Request::NewCase));
    on(ctrl, Key::O, Message::AskForFile(FileUse::Open));
    on(ctrl, Key::E, Message::AskForFile(FileUse::Write));
    on(ctrl, Key::F, Message::Search);
    let with_text = |text_size| {
        Message::Ask(Request::KeepSettings(Settings {
            text_size,
            ..settings.clone()
        }))
    };
    for key in [Key::Plus, Key::Equals] {
        on(ctrl, key, with_text(settings.text_size.larger()));
    }
    on(ctrl, Key::Minus, with_text(settings.text_size.smaller()));
    on(Modifiers::NONE, Key::F1, Message::ShowShortcuts);
    on(Modifiers::NONE, Key::F6, Message::NextPanel);
    messages
}

/// Whether the Escape key is for what covers the page, asked before it is shown: a text that is being typed and a
/// list that is open take it first.
pub fn may_leave(ui: &Ui) -> bool {
    leaves(ui) && !is_being_typed(ui) && !Popup::is_any_open(ui)
}

/// Whether the Escape key was pressed and nothing took it.
pub fn leaves(ui: &Ui) -> bool {
    ui.input(|input| input.key_pressed(Key::Escape))
}

/// Shows the sheet; `true` once it is to be put away.
pub fn sheet(ui: &Ui) -> bool {
    let frame = Frame::popup(ui.style()).inner_margin(Margin::same(20));
    let modal = Modal::new(Id::unique("shortcut sheet")).frame(frame);
    let modal = modal.show(ui.ctx(), |ui| {
        ui.spacing_mut().interact_size.y = 0.0;
        let words = in_use(ui);
        heading(ui, keys::title(words));
        ui.add_space(8.0);
        let height = ui.ctx().content_rect().height() - AROUND;
        ScrollArea::vertical().max_height(height).show(ui, |ui| {
            Grid::new("keys")
                .num_columns(2)
                .spacing([24.0, 6.0])
                .show(ui, |ui| {
                    for (keys, what) in keys::SHEET {
                        let keys =
                            RichText::new(keys(words)).text_style(crate::theme::strong_style());
                        ui.label(keys);
                        ui.label(what(words));
                        ui.end_row();
                    }
                });
        });
        ui.add_space(12.0);
        ui.button(keys::close(words)).clicked()
    });
    modal.inner || modal.should_close()
}
