//! Every limit in a table: meaning, value, what ships, and on what it rests.

use egui::{Id, RichText, Ui, vec2};
use millrace_core::limits::{AboutLimit, LimitEntry, Limits};
use millrace_wording::desk::settings as say;
use millrace_wording::{Words, limits as said};

use crate::theme::{measures, strong_style};
use crate::widgets::quantity_kind::in_words;
use crate::widgets::{
    Commit, Field, JudgedField, Segments, cell, changed_shape, empty_boxes, minor_button, muted,
    problem, section, small,
};
use crate::words::in_use;

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
    let words = in_use(ui);
    muted(ui, say::what_limits_count_for(words));
    let undo = core::mem::take(&mut state.asks_to_undo);
    if head(ui, state, differing) || undo {
        return state.before.pop();
    }
    let mut change = None;
    let mut group = "";
    let sought = state.filter.trim().to_lowercase();
    let mut found = false;
    for entry in &catalog {
        let is_shown =
            (!state.only_changed || entry.is_changed()) && matches(words, entry, &sought);
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
        muted(ui, say::no_limit_matches(words));
    }
    if change.is_some() {
        state.before.push(limits.clone());
    }
    change
}

/// Filter and undo; `true` if the last change is to be taken back.
fn head(ui: &mut Ui, state: &mut LimitsState, differing: usize) -> bool {
    let words = in_use(ui);
    ui.horizontal_wrapped(|ui| {
        let field = egui::TextEdit::singleline(&mut state.filter)
            .id(Id::unique("limits filter"))
            .hint_text(say::search_hint(words))
            .desired_width(230.0)
            .min_size(vec2(230.0, measures::CONTROL))
            .align(egui::Align2::LEFT_CENTER);
        ui.add(field).accessible_name(say::search(words));
        let count = match differing {
            0 => say::none_differs(words).to_owned(),
            some => say::only_differing(words, some),
        };
        state.only_changed &= 0 < differing;
        empty_boxes(ui);
        ui.add_enabled(
            0 < differing,
            egui::Checkbox::new(&mut state.only_changed, count),
        );
        let button = egui::Button::new(say::undo(words));
        let button = ui.add_enabled(!state.before.is_empty(), button);
        button.on_hover_text(say::undo_limit(words)).clicked()
    })
    .inner
}

/// The first sentence as a heading, the rest as its explanation.
fn head_of_group(ui: &mut Ui, group: &'static str) {
    let group = in_use(ui).reference(group);
    let (title, rest) = group.split_once(". ").unwrap_or((group, ""));
    section(ui, title.trim_end_matches('.'));
    if !rest.is_empty() {
        small(ui, rest);
    }
}

fn matches(words: Words, entry: &LimitEntry, sought: &str) -> bool {
    let about = entry.about;
    let [what, standing] = [about.what, about.standing].map(|text| words.reference(text));
    let name = about.name.replace('_', " ");
    let text = format!("{what} {standing} {name}").to_lowercase();
    sought.split_whitespace().all(|word| text.contains(word))
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
        let label = text_cell(ui, share, |ui| ui.label(in_use(ui).reference(about.what))).id;
        asked = value(ui, limits, entry, label);
        if !is_stacked {
            text_cell(ui, ui.available_width(), |ui| {
                small(ui, shipped(in_use(ui), about))
            });
        }
    });
    if is_stacked {
        small(ui, shipped(in_use(ui), about));
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
        name,
        unit,
        words: choices,
        ..
    } = entry.about;
    let words = in_use(ui);
    let what = words.reference(entry.about.what);
    let id = Id::unique(("limit", name));
    if !choices.is_empty() {
        let options: Vec<_> = choices
            .iter()
            .map(|word| (*word, words.reference(word)))
            .collect();
        let current = choices.iter().copied().find(|word| *word == entry.in_use);
        let chosen = cell(ui, VALUE[0] + VALUE[1] + measures::NEAR, |ui| {
            Segments::new(id, what, &options, current).show(ui)
        });
        return Asked {
            change: chosen.and_then(|word| limits.with(name, word).ok()),
            problem: None,
        };
    }
    let judge = |text: &str| {
        let set = limits.with(name, &with_unit(text, unit));
        set.map(|_| ()).map_err(in_words(words))
    };
    let number = said::number(entry.about, &entry.in_use);
    let shipped = said::value(words, entry.about, &entry.about.shipped);
    let about = say::about_limit(words, words.reference(unit), shipped);
    let entered = JudgedField {
        field: Field::by(id, label, what),
        text: &words.number(number),
        about: &about,
        width: VALUE[0],
    }
    .show(ui, &judge);
    cell(ui, VALUE[1], |ui| muted(ui, words.reference(unit)));
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

fn shipped(words: Words, about: &AboutLimit) -> String {
    let value = said::value(words, about, &about.shipped);
    let standing = words.reference(about.standing).replace('_', " ");
    say::shipped(words, value, standing)
}

/// What differs says so in word and shape, and can be given back, unless another limit that was
/// changed stands in its way.
fn differs(ui: &mut Ui, limits: &Limits, about: &AboutLimit) -> Option<Limits> {
    let given_back = limits.with(about.name, &about.shipped);
    let words = in_use(ui);
    let back = ui
        .horizontal_wrapped(|ui| {
            changed_shape(ui);
            let text = say::differs(words, said::value(words, about, &about.shipped));
            ui.label(RichText::new(text).text_style(strong_style()));
            let back = say::give_back(words);
            let button = ui
                .add_enabled_ui(given_back.is_ok(), |ui| minor_button(ui, back))
                .inner;
            let clicked = button.clicked();
            button.accessible_name(say::give_back_of(words, words.reference(about.what)));
            clicked
        })
        .inner;
    if let Err(error) = &given_back {
        small(ui, say::cannot_give_back(words, error));
    }
    given_back.ok().filter(|_| back)
}
