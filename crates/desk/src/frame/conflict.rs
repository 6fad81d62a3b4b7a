//! Two people, one case: nothing was overwritten, and somebody chooses.

use egui::{Grid, Ui};
use millrace_core::case::Draft;
use millrace_core::case_file::{Difference, differences};
use millrace_core::rules::Severity;
use millrace_wording::Words;
use millrace_wording::desk::frame as say;

use crate::exchange::Conflict;
use crate::message::{Message, Whose};
use crate::theme::measures;
use crate::widgets::{muted, notice, typed};
use crate::words::in_use;
use millrace_wording::sentence;

/// Shows both sides' differences and the two ways on.
pub fn show(ui: &mut Ui, conflict: &Conflict, mine: &Draft) -> Vec<Message> {
    let mut actions = Vec::new();
    let words = in_use(ui);
    notice(ui, Severity::Review, |ui| {
        let author = &conflict.author;
        typed(ui, say::changed_elsewhere(words, author));
        match differences(mine, &conflict.theirs) {
            Ok(found) if found.is_empty() => {
                ui.label(say::same(words));
            }
            Ok(found) => both(ui, &found, author),
            Err(error) => {
                ui.label(say::cannot_compare(words, error));
            }
        }
        ui.horizontal_wrapped(|ui| {
            if ui.button(say::keep_mine(words)).clicked() {
                actions.push(Message::GoOnFrom(Whose::Mine));
            }
            if ui.button(say::take_theirs(words, author)).clicked() {
                actions.push(Message::GoOnFrom(Whose::Theirs));
            }
        });
    });
    actions
}

/// How many differing entries are shown; the rest is counted.
const SHOWN: usize = 12;

/// Both values of each entry that differs.
fn both(ui: &mut Ui, differences: &[Difference], author: &str) {
    let words = in_use(ui);
    Grid::new("differences")
        .num_columns(3)
        .spacing([measures::APART, measures::TIGHT])
        .show(ui, |ui| {
            muted(ui, say::column_entry(words));
            muted(ui, say::column_yours(words));
            muted(ui, say::column_theirs(words, author));
            ui.end_row();
            for difference in differences.iter().take(SHOWN) {
                ui.label(sentence(&say::entry(words, &difference.entry)));
                typed(ui, value(words, difference.first.as_deref()));
                typed(ui, value(words, difference.second.as_deref()));
                ui.end_row();
            }
        });
    if let Some(more) = differences.len().checked_sub(SHOWN)
        && 0 < more
    {
        muted(ui, say::and_more(words, more));
    }
}

/// As its file writes it, but for the minus, which files have from the keyboard.
pub(crate) fn value(words: Words, stored: Option<&str>) -> String {
    let Some(text) = stored else {
        return say::nothing(words).to_owned();
    };
    match text.strip_prefix('-') {
        Some(number) if number.starts_with(|letter: char| letter.is_ascii_digit()) => {
            format!("\u{2212}{number}")
        }
        _ => text.to_owned(),
    }
}
