//! Patient and measurements: the operated eye in fields, the fellow eye beside it as text.
//!
//! The two eyes never share a layout. The fellow eye is a narrow column of text for comparison;
//! to edit it, the page is turned around, says so, and puts the operated eye into the column.

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

use std::collections::{BTreeMap, BTreeSet};

use egui::{Id, RichText, Ui};
use millrace_core::biometry::table::{KERATOMETRY, SECOND_KERATOMETRY};
use millrace_core::biometry::{DepthStart, EyeRecord, Item, Method, PerEye, Side};
use millrace_core::case::{Command, Draft};
use millrace_core::quantity::Meridian;
use millrace_core::rules::Severity;
use millrace_wording::Words;
use millrace_wording::desk::biometry as say;
use millrace_wording::measurements::head;

use super::CaseView;
use crate::theme::{measures, strong_style};
use crate::widgets::waiting::Waiting;
use crate::widgets::{HalfEntered, minor_button, notice};
use crate::words::in_use;
use columns::{Columns, Strip};
use earlier::EarlierParts;
use keratometry_entry::KeratometryEntry;
use refraction::RefractionParts;
use sitting::Sitting;

/// What the page remembers beside the draft: who measures now, half-entered readings, what is open.
#[derive(Debug, Default)]
pub struct BiometryState {
    edits_fellow: bool,
    sitting: Sitting,
    methods: BTreeMap<(Side, Item), Method>,
    depth_start: PerEye<Option<DepthStart>>,
    posterior_steep: PerEye<Option<Meridian>>,
    keratometry: BTreeMap<(Side, Item), KeratometryEntry>,
    second_open: PerEye<bool>,
    refraction: PerEye<HalfEntered<RefractionParts>>,
    earlier: PerEye<HalfEntered<EarlierParts>>,
    surgery: PerEye<surgery::SurgeryEntry>,
    nucleus_scale: PerEye<Option<nucleus::Scale>>,
    details: BTreeSet<(Side, Item)>,
    patient_open: Option<bool>,
    changes_eye: bool,
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
    commands: Vec<Command>,
}

impl EyePage<'_> {
    /// An id of this case and this eye.
    fn id(&self, what: impl core::hash::Hash + core::fmt::Debug) -> Id {
        self.view.ground.with(("biometry", self.side, what))
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

/// Shows the page.
pub fn biometry_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut BiometryState) -> Vec<Command> {
    let mut commands = patient::show(ui, view, &mut state.patient_open);
    commands.extend(eye_choice::show(ui, view, &mut state.changes_eye));
    let Some(operated) = view.draft.operation.eye else {
        return commands;
    };
    let side = if state.edits_fellow {
        operated.other()
    } else {
        operated
    };
    commands.extend(one_eye(ui, view, state, operated, side));
    commands
}

fn one_eye(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut BiometryState,
    operated: Side,
    side: Side,
) -> Vec<Command> {
    let is_turned = operated != side;
    ui.add_space(measures::APART);
    if is_turned && fellow_notice(ui, operated) {
        state.edits_fellow = false;
        ui.request_repaint();
    }
    let columns = Columns::of(ui.available_width(), operated, side);
    let mut page = EyePage {
        view,
        side,
        eye: view.draft.eyes.get(side),
        other: view.draft.eyes.get(side.other()),
        columns,
        words: in_use(ui),
        commands: Vec::new(),
    };
    let strip = Strip::begin(ui);
    if columns.head(ui, operated, side) {
        state.edits_fellow = true;
        ui.request_repaint();
    }
    sitting::show(ui, &page, &mut state.sitting);
    measurements::show(ui, &mut page, state);
    state::show(ui, &mut page, state);
    earlier::show(ui, &mut page, state);
    strip.end(ui, &columns);
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
