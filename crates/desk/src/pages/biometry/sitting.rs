//! Who measures an eye, when and with what: said once for each eye, written beside each number entered from
//! then on. Nothing said of one eye holds for the other by itself: it is offered there, and taken by an act.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use egui::{Id, Ui};
use millrace_core::biometry::{DepthStart, Item, Method, PerEye, Side};
use millrace_core::quantity::KeratometricIndex;
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::{depth_from_endothelium, depth_from_epithelium, name};
use millrace_wording::{Show as _, Words, sentence};

use super::keratometry_entry::ReadingUnit;
use super::nucleus::Scale;
use super::{BiometryState, EyePage, id_of};
use crate::theme::measures;
use crate::widgets::value_order::{self, Step};
use crate::widgets::{Field, Pick, cell, date_field, muted, text_field};

/// How one eye is measured now. Nothing is assumed.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Sitting {
    pub(super) on: Option<NaiveDate>,
    pub(super) by: Option<String>,
    pub(super) method: Option<Method>,
    /// Of what the instrument above does not measure.
    pub(super) methods: BTreeMap<Item, Method>,
    /// What its corneal readings are in.
    pub(super) unit: Option<ReadingUnit>,
    pub(super) index: Option<KeratometricIndex>,
    pub(super) depth_start: Option<DepthStart>,
    /// The scale that nuclei are graded on.
    pub(super) scale: Option<Scale>,
}

impl Sitting {
    /// The method of what is measured next; two keratometries by one method are none to compare.
    pub(super) fn method_of(&self, item: Item) -> Option<Method> {
        let general = self
            .method
            .filter(|method| item.methods().contains(method) && item != Item::SecondKeratometry);
        self.methods.get(&item).copied().or(general)
    }

    /// All that is said here: "Optical  ·  20 Nov 2026  ·  T. Lindqvist  ·  in D at 1.3375".
    pub(super) fn said(&self, words: Words) -> String {
        let mut parts = Vec::new();
        parts.extend(self.method.map(|it| sentence(&it.show(words))));
        parts.extend(self.on.map(|day| words.day(day)));
        parts.extend(self.by.clone());
        match (self.unit, self.index) {
            (Some(ReadingUnit::Radius), _) => parts.push(say::in_millimeters(words).to_owned()),
            (Some(ReadingUnit::Power), Some(index)) => {
                parts.push(say::in_diopters_at(words, index));
            }
            (Some(ReadingUnit::Power), None) => parts.push(say::in_diopters(words).to_owned()),
            (None, _) => {}
        }
        parts.extend(self.depth_start.map(|start| match start {
            DepthStart::Epithelium => depth_from_epithelium(words).to_owned(),
            DepthStart::Endothelium => depth_from_endothelium(words).to_owned(),
        }));
        parts.extend(self.scale.map(|scale| say::nuclei_by(words, scale.name())));
        for (item, method) in &self.methods {
            let method = method.show(words);
            parts.push(say::measured_by(words, name(words, *item), method));
        }
        parts.join("  ·  ")
    }
}

/// The offer to measure one eye as the other one, while the page is shown.
#[derive(Debug, Default)]
pub(super) struct Offer {
    /// What has the focus there.
    button: Option<Id>,
    /// The field that it leads to, where somebody was on the way to one.
    field: Option<Id>,
    /// Whether the next pass goes there.
    is_next: bool,
}

impl Offer {
    /// On the way to a field, this is asked first.
    pub(super) fn before(field: Id) -> Self {
        Self {
            button: None,
            field: Some(field),
            is_next: true,
        }
    }

    /// Whether it is asked in the next pass.
    pub(super) const fn is_next(&self) -> bool {
        self.is_next
    }

    /// The field that the offer stands for, if it has the focus.
    pub(super) fn field_at(&self, focused: Option<Id>) -> Option<Id> {
        self.field
            .filter(|_| focused.is_some() && focused == self.button)
    }
}

/// Whether an eye is offered what was said of the other one: while nothing was said of it.
pub(super) fn is_offered(sittings: &PerEye<Sitting>, side: Side) -> bool {
    let blank = Sitting::default();
    *sittings.get(side) == blank && *sittings.get(side.other()) != blank
}

/// An eye is measured as the other one from now on: only by an act that says so.
pub(super) fn take_over(sittings: &mut PerEye<Sitting>, side: Side) {
    let of_other = sittings.get(side.other()).clone();
    *sittings.get_mut(side) = of_other;
}

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, state: &mut BiometryState) {
    offer(ui, page, state);
    let (place, words) = (page.columns, page.words);
    let sitting = state.sitting.get_mut(page.side);
    let mut problems = Vec::new();
    ui.horizontal(|ui| {
        ui.add_space(place.indent());
        cell(ui, place.label, |ui| muted(ui, say::measured_on_by(words)));
        let called = page.name(say::day_of_measurement(words));
        let field = Field::called(page.id("sitting day"), &called);
        let day = date_field(ui, field, sitting.on);
        problems.extend(day.problem);
        if let Some(commit) = day.commit {
            sitting.on = commit.value();
        }
        let called = page.name(say::person(words));
        let field = Field::called(page.id("sitting person"), &called);
        let value = sitting.by.as_deref();
        let width = place.own() - place.label - 104.0 - 2.0 * measures::NEAR;
        let by = text_field(ui, field, value, "name of the person", width);
        problems.extend(by.problem);
        if let Some(commit) = by.commit {
            sitting.by = commit.value();
        }
    });
    method_and_today(ui, page, sitting);
    for why in problems {
        page.wrong(ui, &why);
    }
    page.tell(ui, &say::written_beside(words, page.side));
    if let Some(common) = &page.common {
        page.tell(ui, &say::most_recorded(words, common.said(words)));
    }
    ui.add_space(measures::NEAR);
}

fn method_and_today(ui: &mut Ui, page: &EyePage<'_>, sitting: &mut Sitting) {
    let (view, words) = (page.view, page.words);
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent());
        cell(ui, page.columns.label, |ui| {
            muted(ui, say::measured_with(words))
        });
        let methods = Method::ALL.map(|method| (method, sentence(&method.show(words))));
        let called = page.name(say::method_of_measurement(words));
        let id = page.id("sitting method");
        let chosen = Pick::new(id, &called, &methods, sitting.method).show(ui, 160.0);
        if chosen.is_some() {
            sitting.method = chosen;
        }
        if sitting.on.is_none() && !view.author.is_empty() {
            let today = say::today(words, view.author);
            if value_order::act(ui, page.id("today"), &today, Step::Choice).clicked() {
                sitting.on = Some(view.today);
                sitting.by = Some(view.author.to_owned());
            }
        }
    });
}

/// What was said of the other eye, in words, and the act that takes it over for this one.
fn offer(ui: &mut Ui, page: &EyePage<'_>, state: &mut BiometryState) {
    state.offer.button = None;
    if !is_offered(&state.sitting, page.side) {
        return;
    }
    let (words, other) = (page.words, page.side.other());
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent() + page.columns.label + measures::NEAR);
        let id = page.id("as the other eye");
        let button = value_order::act(ui, id, &say::as_other(words, other), Step::Act);
        state.offer.button = Some(button.id);
        if core::mem::take(&mut state.offer.is_next) {
            button.request_focus();
        }
        if button.clicked() {
            take_over(&mut state.sitting, page.side);
            let first = id_of(page.view, page.side, &Item::AxialLength);
            let field = state.offer.field.take().unwrap_or(first);
            ui.memory_mut(|memory| memory.request_focus(field));
        }
    });
    page.tell(ui, &state.sitting.get(other).said(words));
}
