//! One measurement in one row: name, number and unit; on demand, how it came to be.

use egui::{Id, Key, Modifiers, Ui};
use millrace_core::biometry::{Item, Measured, Method, Side};
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::head;
use millrace_wording::{Show as _, sentence, terms};

use super::circumstances::Circumstances;
use super::sitting::Sitting;
use super::{BiometryState, EyePage};
use crate::theme::measures;
use crate::widgets::{
    Commit, Field, Fielded, Kind, Named, NumberField, Pick, aside_button, cell, date_field, muted,
    text_field, value_order,
};

/// A row for a measurement of type `T` whose spread has type `S`.
pub(super) struct Row<'a, T: 'static, S: 'static> {
    pub(super) item: Item,
    pub(super) kind: &'a Kind<T>,
    /// How a spread is entered; nothing where the measurement has none.
    pub(super) spread: Option<&'a Kind<S>>,
    pub(super) current: Option<Measured<T, S>>,
    /// The other eye's value.
    pub(super) other: Option<String>,
    /// What has to be said before the number.
    pub(super) first: Option<&'a str>,
}

impl<T, S> Row<'_, T, S>
where
    T: Copy + PartialEq,
    S: Copy + PartialEq,
{
    /// Shows the row; tells a change of the measurement.
    pub(super) fn show(
        self,
        ui: &mut Ui,
        page: &EyePage<'_>,
        state: &mut BiometryState,
    ) -> Option<Commit<Measured<T, S>>> {
        let key = (page.side, self.item);
        let method = match &self.current {
            Some(measured) => Some(measured.method),
            None => state.sitting.get(page.side).method_of(self.item),
        };
        let id = page.id(self.item);
        if asks_details(ui, &[id]) {
            turn_details(state, key);
        }
        let entered = ui
            .horizontal(|ui| {
                let place = page.columns;
                if place.is_turned {
                    other_cell(
                        ui,
                        page,
                        &head(page.words, self.item),
                        self.other.as_deref(),
                    );
                }
                let entered = self.field(ui, page, id, method);
                cell(ui, place.unit, |ui| {
                    muted(ui, page.words.reference(self.kind.unit))
                });
                cell(ui, place.method, |_| ());
                let name = say::row_circumstances(page.words, head(page.words, self.item));
                more_cell(ui, page, state, (self.item, &page.name(&name)));
                if !place.is_turned {
                    other_cell(
                        ui,
                        page,
                        &head(page.words, self.item),
                        self.other.as_deref(),
                    );
                }
                entered
            })
            .inner;
        let mut change = entered
            .commit
            .and_then(|commit| with_value(&commit, method, state.sitting.get(page.side)));
        let current = self.current.as_ref().map(Circumstances::of);
        circumstances(ui, page, current.as_ref(), self.other.as_deref());
        let why = entered.problem;
        if let Some(why) = &why {
            page.wrong(ui, why);
        }
        let is_asked = why.as_deref() == Some(say::method_first(page.words));
        if is_asked
            || state.details.contains(&key)
            || value_order::is_in_list(ui, method_id(page, self.item))
        {
            change = self.details(ui, page, state, method).or(change);
        }
        ui.add_space(measures::TIGHT);
        change
    }

    fn field(&self, ui: &mut Ui, page: &EyePage<'_>, id: Id, method: Option<Method>) -> Fielded<T> {
        let name = head(page.words, self.item);
        let label = cell(ui, page.columns.label, |ui| ui.label(&name)).id;
        let full = page.name(&name);
        let named = if full == name {
            Named::By(label, &name)
        } else {
            Named::As(&full)
        };
        let first = self
            .first
            .or_else(|| method.is_none().then(|| say::method_first(page.words)));
        let value = self.current.as_ref().map(|measured| measured.value);
        let field = NumberField::new(id, named, self.kind, value).after(first);
        cell(ui, page.columns.field, |ui| field.show(ui))
    }

    /// The method, and of a value that is there also its spread, day and person.
    fn details(
        &self,
        ui: &mut Ui,
        page: &EyePage<'_>,
        state: &mut BiometryState,
        method: Option<Method>,
    ) -> Option<Commit<Measured<T, S>>> {
        let name = head(page.words, self.item);
        let mut next = self.current.clone();
        let mut problems = Vec::new();
        ui.horizontal_wrapped(|ui| {
            ui.add_space(page.columns.indent() + page.columns.label + measures::NEAR);
            let chosen = method_list(ui, page, (self.item, &name), method);
            match (&mut next, chosen) {
                (Some(measured), Some(chosen)) => measured.method = chosen,
                (None, Some(chosen)) => {
                    let sitting = state.sitting.get_mut(page.side);
                    sitting.methods.insert(self.item, chosen);
                    ui.request_repaint();
                }
                (_, None) => {}
            }
            if let Some(measured) = &mut next
                && state.details.contains(&(page.side, self.item))
            {
                self.spread(ui, page, measured, &mut problems);
                who_and_when(ui, page, self.item, measured, &mut problems);
            }
        });
        for why in problems {
            page.wrong(ui, &why);
        }
        next.filter(|next| self.current.as_ref() != Some(next))
            .map(Commit::Entered)
    }

    fn spread(
        &self,
        ui: &mut Ui,
        page: &EyePage<'_>,
        measured: &mut Measured<T, S>,
        problems: &mut Vec<String>,
    ) {
        let Some(kind) = self.spread else {
            return;
        };
        muted(ui, say::deviation(page.words));
        let name = page.name(&say::row_spread(page.words, head(page.words, self.item)));
        let id = page.id((self.item, "spread"));
        let field = NumberField::new(id, Named::As(&name), kind, measured.spread);
        let entered = field.width(64.0).show(ui);
        problems.extend(entered.problem);
        if let Some(commit) = entered.commit {
            measured.spread = commit.value();
        }
        muted(ui, kind.unit);
    }
}

/// Another number is another measurement: spread, day and person of the old one say nothing of it.
fn with_value<T: Copy, S>(
    commit: &Commit<T>,
    method: Option<Method>,
    sitting: &Sitting,
) -> Option<Commit<Measured<T, S>>> {
    let Commit::Entered(value) = *commit else {
        return Some(Commit::Cleared);
    };
    Some(Commit::Entered(Measured {
        value,
        method: method?,
        spread: None,
        on: sitting.on,
        by: sitting.by.clone(),
    }))
}

/// Whether the details of a measurement are asked for: by the key in one of its fields.
pub(super) fn asks_details(ui: &Ui, fields: &[Id]) -> bool {
    let has_focus = |field: &Id| ui.memory(|memory| memory.has_focus(*field));
    let is_here = fields.iter().any(has_focus);
    is_here && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::F3))
}

/// Opens the details of a measurement, or closes them.
pub(super) fn turn_details(state: &mut BiometryState, key: (Side, Item)) {
    if !state.details.remove(&key) {
        state.details.insert(key);
    }
}

/// What opens the details with the pointer, called `name`.
pub(super) fn more_cell(
    ui: &mut Ui,
    page: &EyePage<'_>,
    state: &mut BiometryState,
    (item, name): (Item, &str),
) {
    cell(ui, page.columns.more, |ui| {
        let button = aside_button(ui, "…");
        if button.clicked() {
            turn_details(state, (page.side, item));
        }
        button.accessible_name(name);
    });
}

/// What the page calls the list of methods of a measurement.
pub(super) fn method_id(page: &EyePage<'_>, item: Item) -> Id {
    page.id((item, "method"))
}

/// The list of methods of a measurement called `name`; the one newly chosen.
pub(super) fn method_list(
    ui: &mut Ui,
    page: &EyePage<'_>,
    (item, name): (Item, &str),
    method: Option<Method>,
) -> Option<Method> {
    let mut methods = item.methods().to_vec();
    methods.extend(method.filter(|method| !item.methods().contains(method)));
    let options: Vec<_> = methods
        .into_iter()
        .map(|method| (method, sentence(&method.show(page.words))))
        .collect();
    let name = page.name(&say::row_method(page.words, name));
    Pick::new(method_id(page, item), &name, &options, method).show(ui, 176.0)
}

/// Day and person of a measurement, to be corrected.
pub(super) fn who_and_when<T, S>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    item: Item,
    measured: &mut Measured<T, S>,
    problems: &mut Vec<String>,
) {
    let words = page.words;
    let name = head(words, item);
    muted(ui, say::on(words));
    let day_name = page.name(&say::row_day(words, &name));
    let field = Field::called(page.id((item, "day")), &day_name);
    let entered = date_field(ui, field, measured.on);
    problems.extend(entered.problem);
    if let Some(commit) = entered.commit {
        measured.on = commit.value();
    }
    muted(ui, say::by(words));
    let person_name = page.name(&say::row_person(words, &name));
    let field = Field::called(page.id((item, "person")), &person_name);
    let by = measured.by.as_deref();
    let entered = text_field(ui, field, by, "name of the person", 120.0);
    problems.extend(entered.problem);
    if let Some(commit) = entered.commit {
        measured.by = commit.value();
    }
}

/// Under a row: how its value came to be, where that is not as with most of the eye, and the other eye's
/// text where there is no column for it.
pub(super) fn circumstances(
    ui: &mut Ui,
    page: &EyePage<'_>,
    current: Option<&Circumstances>,
    other: Option<&str>,
) {
    let (place, words) = (page.columns, page.words);
    let differs = current.filter(|it| page.common.as_ref() != Some(it));
    let mut parts: Vec<_> = differs.map(|it| it.said(words)).into_iter().collect();
    if let (true, Some(other)) = (place.is_stacked, other) {
        parts.push(say::of_other(words, page.side.other(), other));
    }
    if !parts.is_empty() {
        page.tell(ui, &parts.join("  ·  "));
    }
}

/// The other eye's value, as text only.
/// The other eye's value of what is called `name`: where it is read aloud it says which eye, and what.
pub(super) fn other_cell(ui: &mut Ui, page: &EyePage<'_>, name: &str, value: Option<&str>) {
    if page.columns.is_stacked {
        return;
    }
    cell(ui, page.columns.other, |ui| {
        let words = page.words;
        let told = value.unwrap_or_else(|| say::not_recorded(words));
        let told = say::of_the_other(words, terms::eye_head(words, page.side.other()), name, told);
        muted(ui, value.unwrap_or("–")).accessible_name(told);
    });
}
