//! The keys: which there are, and the sheet that lists them.

use egui::{
    Frame, Grid, Id, Key, KeyboardShortcut, Margin, Modal, Modifiers, RichText, ScrollArea, Ui,
};

use crate::exchange::Request;
use crate::message::{FileUse, Message};
use crate::settings::Settings;
use crate::whereabouts::{Front, Page};
use crate::widgets::{heading, is_being_typed};

const SHEET: [(&str, &str); 18] = [
    (
        "Ctrl+1 to Ctrl+5",
        "Biometry, Lens, Approach, Sheet, Outcome",
    ),
    ("Ctrl+L", "Second look at the critical numbers"),
    ("Ctrl+comma", "Settings, or back to the page"),
    ("Tab, Shift+Tab", "Next and previous field"),
    ("Enter", "Take what was typed"),
    ("Escape", "Give back what stood there before"),
    ("← →", "Choose among options side by side"),
    (
        "↑ ↓, a letter",
        "Choose in a list that opens, without opening it",
    ),
    ("F6", "Next panel: list, page, findings"),
    ("Ctrl+F", "Search the theatre list; ↓ to what was found"),
    ("↑ ↓, Enter", "Move in the theatre list, open"),
    ("Ctrl+N", "New case"),
    ("Ctrl+O, Ctrl+E", "Open a case file, write the case to one"),
    ("Ctrl+S", "Save now; it is saved after each change anyway"),
    ("Ctrl+Z, Ctrl+Shift+Z", "Undo and redo whole changes"),
    ("Ctrl+plus, Ctrl+minus", "Larger and smaller text"),
    ("Ctrl+Q", "Quit"),
    ("F1", "This sheet"),
];

/// What the sheet needs around its lines: heading, button, margins, and some of what lies under it.
const AROUND: f32 = 130.0;

/// What the keys of this pass ask for.
#[must_use]
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

/// Shows the sheet; `true` once it is to be put away.
#[must_use]
pub fn sheet(ui: &Ui) -> bool {
    let frame = Frame::popup(ui.style()).inner_margin(Margin::same(20));
    let modal = Modal::new(Id::unique("shortcut sheet")).frame(frame);
    let modal = modal.show(ui.ctx(), |ui| {
        ui.spacing_mut().interact_size.y = 0.0;
        heading(ui, "Keys");
        ui.add_space(8.0);
        let height = ui.ctx().content_rect().height() - AROUND;
        ScrollArea::vertical().max_height(height).show(ui, |ui| {
            Grid::new("keys")
                .num_columns(2)
                .spacing([24.0, 6.0])
                .show(ui, |ui| {
                    for (keys, what) in SHEET {
                        let keys = RichText::new(keys).text_style(crate::theme::strong_style());
                        ui.label(keys);
                        ui.label(what);
                        ui.end_row();
                    }
                });
        });
        ui.add_space(12.0);
        ui.button("Close").clicked()
    });
    modal.inner || modal.should_close()
}
