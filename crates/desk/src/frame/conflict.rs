//! Two people, one case: nothing was overwritten, and somebody chooses, value by value.

use std::collections::{BTreeMap, BTreeSet};

use egui::{Button, Grid, Ui};
use millrace_core::case::Draft;
use millrace_core::case_file::{Apart, ChangedBy, Difference, SideOf, apart};
use millrace_core::rules::Severity;
use millrace_wording::Words;
use millrace_wording::desk::frame as say;

use crate::exchange::{Conflict, Who};
use crate::message::{Message, Whose};
use crate::theme::{Palette, measures};
use crate::widgets::{muted, notice, small, typed};
use crate::words::in_use;
use millrace_wording::sentence;

/// What was chosen so far.
#[derive(Clone, Debug, Default)]
pub struct Choices {
    /// Of which state of the draft: another one is chosen anew.
    of: u64,
    chosen: BTreeMap<Vec<String>, Whose>,
}

/// Both sides.
#[derive(Clone, Copy)]
pub struct ConflictView<'a> {
    pub conflict: &'a Conflict,
    pub mine: &'a Draft,
    /// Counts the changes of one's own.
    pub version: u64,
    /// Who is at which desk here.
    pub here: &'a Who,
}

/// Shows each value in which the two differ, with its two sides, and the way on.
pub fn show(ui: &mut Ui, view: &ConflictView<'_>, choices: &mut Choices) -> Option<Message> {
    if choices.of != view.version {
        *choices = Choices {
            of: view.version,
            ..Choices::default()
        };
    }
    let words = in_use(ui);
    let conflict = view.conflict;
    let base = conflict.base.as_deref();
    notice(ui, Severity::Review, |ui| {
        let theirs = who(words, &conflict.by);
        typed(ui, say::changed_elsewhere(words, theirs));
        match apart(base, view.mine, &conflict.theirs) {
            Ok(found) if found.is_empty() => {
                ui.label(say::same(words));
                let saves = ui.button(say::keep_mine(words)).clicked();
                saves.then_some(Message::GoOnFrom(Whose::Mine))
            }
            Ok(found) => {
                each(ui, view, &found, choices);
                ways(ui, view, &found, choices)
            }
            Err(error) => {
                ui.label(say::cannot_compare(words, error));
                whole(ui, view)
            }
        }
    })
}

/// One side as it is, where the two cannot be compared.
fn whole(ui: &mut Ui, view: &ConflictView<'_>) -> Option<Message> {
    let words = in_use(ui);
    let theirs = say::take_theirs(words, who(words, &view.conflict.by));
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        for (text, whose) in [
            (say::keep_mine(words), Whose::Mine),
            (&theirs, Whose::Theirs),
        ] {
            if ui.button(text).clicked() {
                chosen = Some(Message::GoOnFrom(whose));
            }
        }
    });
    chosen
}

/// A line for each value to be chosen, and quietly what only one side changed.
fn each(ui: &mut Ui, view: &ConflictView<'_>, found: &[Apart], choices: &mut Choices) {
    let words = in_use(ui);
    if found.iter().any(|value| value.is_chosen) {
        muted(ui, say::choose_each(words));
    }
    for value in found.iter().filter(|value| value.is_chosen) {
        one(ui, view, value, choices);
    }
    for value in found.iter().filter(|value| !value.is_chosen) {
        taken(ui, view, value);
    }
}

/// Every entry of a value that only one side changed: none is taken without being said.
fn taken(ui: &mut Ui, view: &ConflictView<'_>, value: &Apart) {
    let words = in_use(ui);
    let theirs = who(words, &view.conflict.by);
    for entry in &value.entries {
        let (stored, who) = match value.changed_by {
            ChangedBy::One(SideOf::Second) => (&entry.second, theirs.as_str()),
            _ => (&entry.first, say::you(words)),
        };
        let name = sentence(&say::entry(words, &entry.entry));
        let stored = self::value(words, stored.as_deref());
        small(ui, say::taken_as_changed(words, name, stored, who));
    }
}

fn one(ui: &mut Ui, view: &ConflictView<'_>, value: &Apart, choices: &mut Choices) {
    let words = in_use(ui);
    let name = name(words, value);
    ui.label(&name);
    let only = match value.entries.as_slice() {
        [only] => Some(only),
        _ => None,
    };
    let chosen = choices.chosen.get(&value.value).copied();
    // One under the other: beside the next text a circle is taken for its own.
    ui.vertical(|ui| {
        let raised = Palette::current(ui).raised;
        let states = &mut ui.visuals_mut().widgets;
        // On the ground of bars a circle that is not chosen looks chosen.
        for state in [
            &mut states.inactive,
            &mut states.hovered,
            &mut states.active,
        ] {
            state.bg_fill = raised;
        }
        for whose in [Whose::Mine, Whose::Theirs] {
            let stored = only.map(|only| match whose {
                Whose::Mine => self::value(words, only.first.as_deref()),
                Whose::Theirs => self::value(words, only.second.as_deref()),
            });
            let text = side(words, view, whose, stored);
            let button = ui.radio(chosen == Some(whose), &text);
            if button.clicked() {
                choices.chosen.insert(value.value.clone(), whose);
            }
            button.accessible_name(say::of_value(words, &name, text));
        }
    });
    if only.is_none() {
        let theirs = who(words, &view.conflict.by);
        both(ui, &value.entries, theirs, &name);
    }
}

/// "B. Sato (measuring room)".
pub(crate) fn who(words: Words, who: &Who) -> String {
    match &who.desk {
        Some(desk) => say::person_at_desk(words, &who.person, desk),
        None => who.person.clone(),
    }
}

/// The side in front of which somebody sits.
fn here(words: Words, here: &Who) -> String {
    let person = if here.person.is_empty() {
        sentence(say::you(words))
    } else {
        here.person.clone()
    };
    match &here.desk {
        Some(desk) => say::person_at_this_desk(words, person, desk),
        None => say::person_here(words, person),
    }
}

/// "A. Okafor, here (room 2): −0.30 D".
fn side(words: Words, view: &ConflictView<'_>, whose: Whose, stored: Option<String>) -> String {
    let who = match whose {
        Whose::Mine => here(words, view.here),
        Whose::Theirs => who(words, &view.conflict.by),
    };
    match stored {
        Some(stored) => say::person_and_value(words, who, stored),
        None => who,
    }
}

/// One entry that differs is called by its own name, "Lens, target".
fn name(words: Words, value: &Apart) -> String {
    if value.value == ["operation", "eye"] {
        return say::eye_and_plan(words).to_owned();
    }
    let named = match value.entries.as_slice() {
        [only] => &only.entry,
        _ => &value.value,
    };
    sentence(&say::entry(words, named))
}

/// Choosing all of one side, and the act that saves.
fn ways(
    ui: &mut Ui,
    view: &ConflictView<'_>,
    found: &[Apart],
    choices: &mut Choices,
) -> Option<Message> {
    let words = in_use(ui);
    let to_choose = || found.iter().filter(|value| value.is_chosen);
    let is_whole = to_choose().all(|value| choices.chosen.contains_key(&value.value));
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        let saves = ui.add_enabled(is_whole, Button::new(say::save_these(words)));
        if saves.clicked() {
            asked = Some(Message::SaveTogether {
                of_theirs: of_theirs(found, choices),
                version: view.version,
            });
        }
        let all_theirs = say::all_theirs(words, who(words, &view.conflict.by));
        for (text, whose) in [
            (say::all_mine(words), Whose::Mine),
            (&all_theirs, Whose::Theirs),
        ] {
            if ui.button(text).clicked() {
                let all = to_choose().map(|value| (value.value.clone(), whose));
                choices.chosen = all.collect();
            }
        }
    });
    asked
}

/// The values that are the other side's.
fn of_theirs(found: &[Apart], choices: &Choices) -> BTreeSet<Vec<String>> {
    let is_theirs = |value: &&Apart| {
        if value.is_chosen {
            choices.chosen.get(&value.value) == Some(&Whose::Theirs)
        } else {
            value.changed_by == ChangedBy::One(SideOf::Second)
        }
    };
    let theirs = found.iter().filter(is_theirs);
    theirs.map(|value| value.value.clone()).collect()
}

/// How many differing entries are shown; the rest is counted.
const SHOWN: usize = 12;

/// Both values of each entry that differs.
fn both(ui: &mut Ui, differences: &[Difference], theirs: String, name: &str) {
    let words = in_use(ui);
    Grid::new(("differences", name))
        .num_columns(3)
        .spacing([measures::APART, measures::TIGHT])
        .show(ui, |ui| {
            muted(ui, say::column_entry(words));
            muted(ui, say::column_yours(words));
            muted(ui, theirs);
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
