//! Lens records from a file: what they would change, seen before it is done, and taken by an act.

use egui::{RichText, Ui};
use millrace_core::case_file::{Difference, LensChange, LensChangeKind, LensImport, lens_import};
use millrace_core::lens::LensRecord;
use millrace_wording::desk::{frame, lens_records as say};
use millrace_wording::{Words, sentence};

use super::summary;
use crate::theme::{measures, strong_style};
use crate::widgets::{muted, problem, section, small};
use crate::words::in_use;

/// What the person did with them.
pub(super) enum End {
    /// Nothing yet.
    Open(Vec<LensRecord>),
    Left,
    /// All records of the clinic as they are from now on.
    Taken(Vec<LensRecord>),
}

/// Shows what they would change.
pub(super) fn show(ui: &mut Ui, known: &[LensRecord], brought: Vec<LensRecord>) -> End {
    let words = in_use(ui);
    section(ui, &say::brought(words, brought.len()));
    let import = match lens_import(known, brought.clone()) {
        Ok(import) => import,
        Err(error) => {
            problem(ui, &say::not_together(words, error));
            let is_left = ui.button(say::leave_as_it_is(words)).clicked();
            return if is_left {
                End::Left
            } else {
                End::Open(brought)
            };
        }
    };
    muted(ui, say::not_taken_yet(words));
    ui.add_space(measures::NEAR);
    let [new, other, _] = counts(&import);
    let mut end = End::Open(brought);
    ui.horizontal_wrapped(|ui| {
        if 0 < new + other {
            if ui.button(say::take(words, new, other)).clicked() {
                end = End::Taken(import.records.clone());
            }
        } else {
            ui.label(say::nothing_to_take(words));
        }
        if ui.button(say::leave_as_it_is(words)).clicked() {
            end = End::Left;
        }
    });
    changes(ui, &import);
    end
}

/// How many are new, another, and the same.
fn counts(import: &LensImport) -> [usize; 3] {
    let mut counts = [0; 3];
    for change in &import.changes {
        let [new, other, same] = &mut counts;
        *match change.kind {
            LensChangeKind::New => new,
            LensChangeKind::Other(_) => other,
            LensChangeKind::Same => same,
        } += 1;
    }
    counts
}

/// What becomes of each, what changes first.
fn changes(ui: &mut Ui, import: &LensImport) {
    let words = in_use(ui);
    let [new, other, same] = counts(import);
    let of = |is: fn(&LensChangeKind) -> bool| {
        let changes = import.changes.iter();
        changes.filter(move |change| is(&change.kind))
    };
    if 0 < other {
        section(ui, &say::other_ones(words, other));
        for change in of(|kind| matches!(kind, LensChangeKind::Other(_))) {
            name(ui, change);
            if let LensChangeKind::Other(differences) = &change.kind {
                for difference in differences {
                    small(ui, becomes(words, difference));
                }
            }
            ui.add_space(measures::TIGHT);
        }
    }
    if 0 < new {
        section(ui, &say::new_ones(words, new));
        for change in of(|kind| *kind == LensChangeKind::New) {
            name(ui, change);
            let record = import.records.iter().find(|it| it.name == change.name);
            if let Some(record) = record {
                small(ui, summary(words, record));
            }
            ui.add_space(measures::TIGHT);
        }
    }
    if 0 < same {
        section(ui, &say::same_ones(words, same));
        let names = of(|kind| *kind == LensChangeKind::Same).map(|it| &it.name);
        muted(ui, words.list(names));
    }
}

fn name(ui: &mut Ui, change: &LensChange) {
    ui.label(RichText::new(&change.name).text_style(strong_style()));
}

/// "Constants, a constant, value: 118.7 → 118.71".
fn becomes(words: Words, difference: &Difference) -> String {
    let value = |of: &Option<String>| match of {
        None => say::nothing_there(words).to_owned(),
        Some(text) => match text.strip_prefix('-') {
            Some(number) if number.starts_with(|letter: char| letter.is_ascii_digit()) => {
                format!("\u{2212}{number}")
            }
            _ => text.clone(),
        },
    };
    let entry = sentence(&frame::entry(words, &difference.entry));
    say::becomes(
        words,
        entry,
        value(&difference.first),
        value(&difference.second),
    )
}
