//! Every limit in a table: meaning, value, what ships, and on what it rests.

use egui::{Id, RichText, Ui, vec2};
use millrace_core::limits::{AboutLimit, LimitEntry, LimitError, Limits};

use crate::settings::Decimals;
use crate::theme::{measures, strong_style};
use crate::widgets::{
    Commit, Field, JudgedField, Segments, cell, changed_shape, minor_button, muted, problem,
    section, small,
};

/// What is sought, and what can be taken back.
#[derive(Debug, Default)]
pub(super) struct LimitsState {
    filter: String,
    only_changed: bool,
    before: Vec<Limits>,
    /// Ctrl+Z was pressed.
    pub(super) asks_to_undo: bool,
}

/// Width of value and unit.
const VALUE: [f32; 2] = [84.0, 120.0];
/// Under this width, what ships stands under the value.
const STACKED: f32 = 700.0;

/// Shows the table; returns other limits when one was changed.
pub(super) fn show(ui: &mut Ui, limits: &Limits, state: &mut LimitsState) -> Option<Limits> {
    let catalog = limits.catalog();
    let differing = catalog.iter().filter(|entry| entry.is_changed()).count();
    ui.add_space(measures::NEAR);
    muted(
        ui,
        "They count for every case planned from now on; a plan names each one that differs from the shipped",
    );
    let undo = core::mem::take(&mut state.asks_to_undo);
    if head(ui, state, differing) || undo {
        return state.before.pop();
    }
    let mut change = None;
    let mut group = "";
    let sought = state.filter.trim().to_lowercase();
    let mut found = false;
    for entry in &catalog {
        let is_shown = (!state.only_changed || entry.is_changed()) && matches(entry, &sought);
        if !is_shown {
            continue;
        }
        found = true;
        if group != entry.about.group {
            group = &entry.about.group;
            head_of_group(ui, group);
        }
        change = row(ui, limits, entry).or(change);
    }
    if !found {
        ui.add_space(measures::APART);
        muted(ui, "No limit matches");
    }
    if change.is_some() {
        state.before.push(limits.clone());
    }
    change
}

/// Filter and undo; `true` if the last change is to be taken back.
fn head(ui: &mut Ui, state: &mut LimitsState, differing: usize) -> bool {
    ui.horizontal_wrapped(|ui| {
        let field = egui::TextEdit::singleline(&mut state.filter)
            .id(Id::unique("limits filter"))
            .hint_text("Search limits, rules, standings")
            .desired_width(230.0)
            .min_size(vec2(230.0, measures::CONTROL))
            .align(egui::Align2::LEFT_CENTER);
        ui.add(field).accessible_name("Search limits");
        let count = match differing {
            0 => "None differs from the shipped".to_owned(),
            1 => "Only the 1 that differs".to_owned(),
            many => format!("Only the {many} that differ"),
        };
        state.only_changed &= 0 < differing;
        ui.add_enabled(
            0 < differing,
            egui::Checkbox::new(&mut state.only_changed, count),
        );
        let button = egui::Button::new("Undo");
        let button = ui.add_enabled(!state.before.is_empty(), button);
        button
            .on_hover_text("Take the last change of a limit back (Ctrl+Z)")
            .clicked()
    })
    .inner
}

/// The first sentence as a heading, the rest as its explanation.
fn head_of_group(ui: &mut Ui, group: &str) {
    let (title, rest) = group.split_once(". ").unwrap_or((group, ""));
    section(
        ui,
        &Decimals::current(ui).write(title.trim_end_matches('.')),
    );
    if !rest.is_empty() {
        small(ui, rest);
    }
}

fn matches(entry: &LimitEntry, sought: &str) -> bool {
    let AboutLimit {
        name,
        what,
        standing,
        ..
    } = entry.about;
    let words = format!("{what} {standing} {}", name.replace('_', " ")).to_lowercase();
    sought.split_whitespace().all(|word| words.contains(word))
}

fn row(ui: &mut Ui, limits: &Limits, entry: &LimitEntry) -> Option<Limits> {
    let about = entry.about;
    let width = ui.available_width();
    let values = VALUE[0] + VALUE[1] + 3.0 * measures::NEAR;
    let is_stacked = width < STACKED;
    let share = if is_stacked {
        width - values
    } else {
        (width - values) * 0.56
    };
    let mut asked = Asked::default();
    ui.horizontal_top(|ui| {
        let label = text_cell(ui, share, |ui| ui.label(about.what)).id;
        asked = value(ui, limits, entry, label);
        if !is_stacked {
            text_cell(ui, ui.available_width(), |ui| small(ui, shipped(about)));
        }
    });
    if is_stacked {
        small(ui, shipped(about));
    }
    if let Some(why) = &asked.problem {
        problem(ui, why);
    }
    if entry.is_changed() {
        asked.change = differs(ui, limits, about).or(asked.change);
    }
    ui.add_space(measures::TIGHT);
    asked.change
}

/// A cell for text that wraps; its first line stands level with the fields.
fn text_cell<R>(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.vertical(|ui| {
        ui.set_width(width);
        ui.add_space(5.0);
        add(ui)
    })
    .inner
}

#[derive(Default)]
struct Asked {
    change: Option<Limits>,
    problem: Option<String>,
}

fn value(ui: &mut Ui, limits: &Limits, entry: &LimitEntry, label: Id) -> Asked {
    let AboutLimit {
        name, unit, words, ..
    } = entry.about;
    let id = Id::unique(("limit", name));
    if !words.is_empty() {
        let options: Vec<_> = words.iter().map(|word| (*word, *word)).collect();
        let current = words.iter().copied().find(|word| *word == entry.in_use);
        let chosen = cell(ui, VALUE[0] + VALUE[1] + measures::NEAR, |ui| {
            Segments::new(id, entry.about.what, &options, current).show(ui)
        });
        return Asked {
            change: chosen.and_then(|word| limits.with(name, word).ok()),
            problem: None,
        };
    }
    let judge = |text: &str| {
        let set = limits.with(name, &with_unit(text, unit));
        set.map(|_| ()).map_err(|error| in_words(&error, name))
    };
    let number = entry.in_use.strip_suffix(unit).unwrap_or(&entry.in_use);
    let about = format!("{unit}, shipped {}", entry.about.shipped);
    let entered = JudgedField {
        field: Field::by(id, label, entry.about.what),
        text: number.trim(),
        about: &about,
        width: VALUE[0],
    }
    .show(ui, &judge);
    cell(ui, VALUE[1], |ui| muted(ui, *unit));
    Asked {
        change: match entered.commit {
            Some(Commit::Entered(text)) => limits.with(name, &with_unit(&text, unit)).ok(),
            // An empty field gives back what stood there: no plan is without a limit.
            _ => None,
        },
        problem: entered.problem,
    }
}

/// A bare number means the unit beside the field; anything else is the core's to refuse.
fn with_unit(text: &str, unit: &str) -> String {
    let text = text.trim();
    if text.ends_with(|last: char| last.is_ascii_digit()) {
        return format!("{text} {unit}");
    }
    text.to_owned()
}

/// What the core says of a value, without the name the file knows it by.
fn in_words(error: &LimitError, name: &str) -> String {
    if let LimitError::Order { lower, upper } = error {
        let what = |name: &str| {
            let catalog = Limits::shipped().catalog();
            let entry = catalog.into_iter().find(|entry| entry.about.name == name);
            entry.map_or("", |entry| entry.about.what)
        };
        return format!(
            "\u{201c}{}\u{201d} would lie over \u{201c}{}\u{201d}; change the other one first",
            what(lower),
            what(upper)
        );
    }
    let text = error.to_string();
    let text = text.strip_prefix("limits: ").unwrap_or(&text);
    let text = text.strip_prefix(name).unwrap_or(text);
    text.trim_start_matches([':', ' ']).to_owned()
}

fn shipped(about: &AboutLimit) -> String {
    let standing = about.standing.replace('_', " ");
    format!("shipped {}  ·  {standing}", about.shipped)
}

/// What differs says so in word and shape, and can be given back, unless another limit that was
/// changed stands in its way.
fn differs(ui: &mut Ui, limits: &Limits, about: &AboutLimit) -> Option<Limits> {
    let given_back = limits.with(about.name, &about.shipped);
    let back = ui
        .horizontal_wrapped(|ui| {
            changed_shape(ui);
            let text = format!("Differs from the shipped {}", about.shipped);
            let text = Decimals::current(ui).write(&text);
            ui.label(RichText::new(text).text_style(strong_style()));
            let words = "Give back the shipped value";
            let button = ui
                .add_enabled_ui(given_back.is_ok(), |ui| minor_button(ui, words))
                .inner;
            let clicked = button.clicked();
            button.accessible_name(format!("{words}, {}", about.what));
            clicked
        })
        .inner;
    if let Err(error) = &given_back {
        let why = in_words(error, about.name);
        small(ui, format!("It cannot be given back now: {why}"));
    }
    given_back.ok().filter(|_| back)
}
