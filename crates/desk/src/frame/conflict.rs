//! Two people, one case: nothing was overwritten, and somebody chooses.

use egui::{Grid, Ui};
use millrace_core::case::Draft;
use millrace_core::case_file::{Difference, differences};
use millrace_core::rules::Severity;

use crate::exchange::Conflict;
use crate::message::{Message, Whose};
use crate::theme::measures;
use crate::widgets::{muted, notice, said};
use crate::words::sentence;

/// Shows both sides' differences and the two ways on.
pub fn show(ui: &mut Ui, conflict: &Conflict, mine: &Draft) -> Vec<Message> {
    let mut actions = Vec::new();
    notice(ui, Severity::Review, |ui| {
        let author = &conflict.author;
        said(
            ui,
            format!(
                "This case was changed elsewhere by {author}; nothing was overwritten, and your changes are not stored yet"
            ),
        );
        match differences(mine, &conflict.theirs) {
            Ok(found) if found.is_empty() => {
                ui.label("Both read the same");
            }
            Ok(found) => both(ui, &found, author),
            Err(error) => {
                ui.label(error.to_string());
            }
        }
        ui.horizontal_wrapped(|ui| {
            if ui.button("Store mine as the newest").clicked() {
                actions.push(Message::GoOnFrom(Whose::Mine));
            }
            if ui.button(format!("Go on from {author}'s")).clicked() {
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
    Grid::new("differences")
        .num_columns(3)
        .spacing([measures::APART, measures::TIGHT])
        .show(ui, |ui| {
            muted(ui, "Entry");
            muted(ui, "Yours");
            muted(ui, format!("{author}'s"));
            ui.end_row();
            for difference in differences.iter().take(SHOWN) {
                ui.label(sentence(&difference.entry));
                said(ui, value(difference.first.as_deref()));
                said(ui, value(difference.second.as_deref()));
                ui.end_row();
            }
        });
    if let Some(more) = differences.len().checked_sub(SHOWN)
        && 0 < more
    {
        muted(ui, format!("and {more} more"));
    }
}

/// As the desk writes it: files carry the minus of the keyboard.
fn value(stored: Option<&str>) -> String {
    let Some(text) = stored else {
        return "nothing".to_owned();
    };
    match text.strip_prefix('-') {
        Some(number) if number.starts_with(|letter: char| letter.is_ascii_digit()) => {
            format!("\u{2212}{number}")
        }
        _ => text.to_owned(),
    }
}
