//! Patient and measurements: the operated eye in fields, the fellow eye beside it as text.
//!
//! The two eyes never share a layout. The fellow eye is a narrow column of text for comparison;
//! to edit it, the page is turned around, says so, and puts the operated eye into the column.

mod circumstances;
mod columns;
mod contact_lenses;
mod depth;
mod earlier;
mod eye_choice;
mod keratometry;
mod keratometry_entry;
mod keratometry_fields;
mod measurements;
mod nucleus;
mod patient;
mod posterior;
mod refraction;
mod row;
mod signs;
mod sitting;
mod state;
mod surgery;

use core::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use egui::{Align, Id, Key, Layout, Modifiers, Rect, RichText, Ui, UiBuilder};
use millrace_core::biometry::table::{KERATOMETRY, SECOND_KERATOMETRY};
use millrace_core::biometry::{EyeRecord, Item, PerEye, Side};
use millrace_core::case::{Command, Draft};
use millrace_core::quantity::Meridian;
use millrace_core::rules::Severity;
use millrace_wording::Words;
use millrace_wording::desk::{biometry as say, eye_section as say_section};
use millrace_wording::measurements::head;
use millrace_wording::terms;

use super::CaseView;
use crate::figures::eye_section::EyeFigure;
use crate::theme::{measures, strong_style};
use crate::widgets::waiting::Waiting;
use crate::widgets::{
    HalfEntered, column, half_typed, is_heading, minor_button, notice, problem, small, value_order,
};
use crate::words::in_use;
use circumstances::Circumstances;
use columns::{Columns, Strip};
use earlier::EarlierParts;
use eye_choice::EyeQuestion;
use keratometry_entry::KeratometryEntry;
use refraction::RefractionParts;
use sitting::{Offer, Sitting};

/// What the page remembers beside the draft: who measures each eye, half-entered readings, what is open.
#[derive(Debug, Default)]
pub struct BiometryState {
    edits_fellow: bool,
    sitting: PerEye<Sitting>,
    posterior_steep: PerEye<Option<Meridian>>,
    keratometry: BTreeMap<(Side, Item), KeratometryEntry>,
    /// Measurements beyond an ordinary printout that are wanted.
    further: BTreeSet<(Side, Item)>,
    refraction: PerEye<HalfEntered<RefractionParts>>,
    earlier: PerEye<HalfEntered<EarlierParts>>,
    surgery: PerEye<surgery::SurgeryEntry>,
    details: BTreeSet<(Side, Item)>,
    patient_open: Option<bool>,
    eye_question: EyeQuestion,
    /// Each field of the eye shown last, and the same field of the other eye.
    twins: Vec<(Id, Id)>,
    /// The field of the other eye that the next pass goes to.
    turning: Option<Id>,
    /// To measure the eye in the fields as the other one.
    offer: Offer,
    /// Whether the next pass goes to the offer that leads on to the other eye.
    leads_on: bool,
}

impl BiometryState {
    /// Keratometry that is not whole yet: only the page knows what was entered so far.
    pub fn unfinished(&self, words: Words, draft: &Draft) -> Vec<Waiting> {
        let mut waiting = Vec::new();
        for slot in [KERATOMETRY, SECOND_KERATOMETRY] {
            for side in [Side::Right, Side::Left] {
                let entry = self.keratometry.get(&(side, slot.item));
                let open = entry.filter(|entry| entry.has_numbers());
                if let (Some(entry), None) = (open, (slot.of)(draft.eyes.get(side))) {
                    waiting.push(Waiting {
                        field: None,
                        what: say::of_eye(words, head(words, slot.item), side),
                        why: entry.why_not_whole(words),
                    });
                }
            }
        }
        waiting
    }
}

/// What the rows of one eye share.
struct EyePage<'a> {
    view: &'a CaseView<'a>,
    /// The eye in the fields.
    side: Side,
    /// It.
    eye: &'a EyeRecord,
    /// The eye in the column of text.
    other: &'a EyeRecord,
    columns: Columns,
    words: Words,
    /// How most of this eye was measured: only what differs stands beside a value.
    common: Option<Circumstances>,
    commands: Vec<Command>,
    twins: RefCell<Vec<(Id, Id)>>,
}

impl EyePage<'_> {
    /// An id of this case and this eye.
    fn id(&self, what: impl core::hash::Hash + core::fmt::Debug) -> Id {
        let id = id_of(self.view, self.side, &what);
        let twin = id_of(self.view, self.side.other(), &what);
        self.twins.borrow_mut().push((id, twin));
        id
    }

    /// What is wrong, under the field it is about and no wider than this eye's column.
    fn wrong(&self, ui: &mut Ui, why: &str) {
        self.beneath(ui, |ui| problem(ui, why));
    }

    /// Small text under a row, as wide as this eye's column.
    fn tell(&self, ui: &mut Ui, text: &str) {
        self.beneath(ui, |ui| {
            small(ui, text);
        });
    }

    fn beneath(&self, ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
        let place = self.columns;
        ui.scope(|ui| {
            ui.spacing_mut().interact_size.y = 0.0;
            ui.horizontal_top(|ui| {
                ui.add_space(place.indent() + place.label + measures::NEAR);
                ui.vertical(|ui| {
                    ui.set_max_width(place.own() - place.label - measures::NEAR);
                    add(ui);
                });
            });
        });
    }

    /// Who is asked for, in the accessibility tree: only the eye that is not operated is named, so
    /// that a field of the operated eye has its plain name.
    fn name(&self, what: &str) -> String {
        if self.view.draft.operation.eye == Some(self.side) {
            return what.to_owned();
        }
        say::of_eye(self.words, what, self.side)
    }
}

fn id_of(view: &CaseView<'_>, side: Side, what: &(impl core::hash::Hash + core::fmt::Debug)) -> Id {
    view.ground.with(("biometry", side, what))
}

/// Shows the page.
pub fn biometry_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut BiometryState) -> Vec<Command> {
    value_order::begin(ui);
    let commands = whole_page(ui, view, state);
    value_order::end(ui);
    commands
}

fn whole_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut BiometryState) -> Vec<Command> {
    let mut commands = patient::show(ui, view, &mut state.patient_open);
    commands.extend(eye_choice::show(ui, view, &mut state.eye_question));
    let Some(operated) = view.draft.operation.eye else {
        return commands;
    };
    turn(ui, view, state, operated);
    let side = side_in_fields(state, operated);
    commands.extend(one_eye(ui, view, state, operated, side));
    commands
}

const fn side_in_fields(state: &BiometryState, operated: Side) -> Side {
    if state.edits_fellow {
        operated.other()
    } else {
        operated
    }
}

/// By its key the page turns to the same field of the other eye, one pass later: what is being typed is
/// taken first.
fn turn(ui: &Ui, view: &CaseView<'_>, state: &mut BiometryState, operated: Side) {
    if let Some(field) = state.turning.take() {
        state.edits_fellow = !state.edits_fellow;
        // The offer takes it otherwise, once it is shown.
        if !state.offer.is_next() {
            ui.memory_mut(|memory| memory.request_focus(field));
        }
        return;
    }
    if !ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::F2)) {
        return;
    }
    let focused = ui.memory(egui::Memory::focused);
    let side = side_in_fields(state, operated);
    // The offer to measure this eye as the other one stands for the field that it leads to.
    let from = state.offer.field_at(focused).or(focused);
    let twins = state.twins.iter().find(|(here, _)| Some(*here) == from);
    let first = id_of(view, side.other(), &Item::AxialLength);
    go_to_other(state, side, twins.map_or(first, |(_, there)| *there));
    if let Some(focused) = focused {
        ui.memory_mut(|memory| memory.surrender_focus(focused));
    }
    ui.request_repaint();
}

/// The next pass turns from this eye to the other one, to that field of it. While nobody said how that eye is
/// measured, it is offered first what was said of this one.
fn go_to_other(state: &mut BiometryState, side: Side, field: Id) {
    state.turning = Some(field);
    state.offer = if sitting::is_offered(&state.sitting, side.other()) {
        Offer::before(field)
    } else {
        Offer::default()
    };
}

/// The eye in its rows, and beside those of the operated one its picture, where there is room.
fn one_eye(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut BiometryState,
    operated: Side,
    side: Side,
) -> Vec<Command> {
    ui.add_space(measures::APART);
    let width = ui.available_width();
    let picture = columns::beside(width).filter(|_| operated == side);
    let Some(wide) = picture else {
        return rows_of_eye(ui, view, state, operated, side);
    };
    let mut place = ui.available_rect_before_wrap();
    place.min.x = place.max.x - wide;
    let rows = width - wide - measures::APART;
    let commands = column(ui, rows, |ui| rows_of_eye(ui, view, state, operated, side));
    picture_of_eye(ui, place, side, view.draft.eyes.get(side));
    commands
}

/// It takes no room of the rows: they stand where they stand without it.
fn picture_of_eye(ui: &mut Ui, place: Rect, side: Side, eye: &EyeRecord) {
    let builder = UiBuilder::new()
        .max_rect(place)
        .layout(Layout::top_down(Align::Min));
    let mut ui = ui.new_child(builder);
    let words = in_use(&ui);
    let title = say_section::title(words, terms::eye_head(words, side));
    let label = ui.label(RichText::new(&title).text_style(strong_style()));
    is_heading(&ui, &label, &title);
    EyeFigure::of(side, eye).show(&mut ui);
}

fn rows_of_eye(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut BiometryState,
    operated: Side,
    side: Side,
) -> Vec<Command> {
    let is_turned = operated != side;
    if is_turned && fellow_notice(ui, operated) {
        state.edits_fellow = false;
        ui.request_repaint();
    }
    let columns = Columns::of(ui.available_width(), operated, side);
    let eye = view.draft.eyes.get(side);
    let mut page = EyePage {
        view,
        side,
        eye,
        other: view.draft.eyes.get(side.other()),
        columns,
        words: in_use(ui),
        common: Circumstances::of_most(eye),
        commands: Vec::new(),
        twins: RefCell::default(),
    };
    let strip = Strip::begin(ui);
    if columns.head(ui, operated, side) {
        state.edits_fellow = true;
        ui.request_repaint();
    }
    // Only fields of the other eye say whose they are.
    half_typed::of_eye(ui, (!is_turned).then_some(side));
    sitting::show(ui, &page, state);
    measurements::show(ui, &mut page, state);
    state::show(ui, &mut page, state);
    earlier::show(ui, &mut page, state);
    half_typed::of_eye(ui, None);
    strip.end(ui, &columns);
    state.twins = page.twins.take();
    page.commands
}

fn fellow_notice(ui: &mut Ui, operated: Side) -> bool {
    notice(ui, Severity::Review, |ui| {
        let fellow = operated.other();
        let words = in_use(ui);
        let text = say::editing_fellow(words, fellow);
        ui.label(RichText::new(text).text_style(strong_style()));
        minor_button(ui, &say::back_to(words, operated)).clicked()
    })
}
