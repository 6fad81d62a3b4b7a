//! Patient and measurements: the operated eye in fields, the fellow eye beside it as text.
//!
//! The two eyes never share a layout. The fellow eye is a narrow column of text for comparison;
//! to edit it, the page is turned around, says so, and puts the operated eye into the column.

mod columns;
mod depth;
mod eye_choice;
mod keratometry;
mod keratometry_entry;
mod measurements;
mod nucleus;
mod patient;
mod row;
mod signs;
mod sitting;
mod state;
mod surgery;

use std::collections::{BTreeMap, BTreeSet};

use egui::{Id, Ui};
use millrace_core::biometry::{DepthStart, EyeRecord, Method, PerEye, Side};
use millrace_core::case::Command;
use millrace_core::rules::Severity;

use super::CaseView;
use crate::widgets::{heading, muted, notice};
use crate::words;
use columns::Columns;
use keratometry_entry::KeratometryEntry;
use sitting::Sitting;

/// What the page remembers beside the draft: who measures now, half-entered readings, what is open.
#[derive(Debug, Default)]
pub struct BiometryState {
    edits_fellow: bool,
    sitting: Sitting,
    methods: BTreeMap<(Side, Item), Method>,
    depth_start: PerEye<Option<DepthStart>>,
    keratometry: PerEye<KeratometryEntry>,
    surgery: PerEye<surgery::SurgeryEntry>,
    nucleus_scale: PerEye<Option<nucleus::Scale>>,
    details: BTreeSet<(Side, Item)>,
    patient_open: Option<bool>,
    changes_eye: bool,
}

/// One measurement of an eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Item {
    AxialLength,
    Keratometry,
    ChamberDepth,
    LensThickness,
    CornealThickness,
    CornealDiameter,
    Pupil,
    PosteriorRadius,
    Endothelium,
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
        format!("{what}, {}", self.side)
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
    commands.extend(one_eye(ui, view, state, side));
    commands
}

fn one_eye(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut BiometryState,
    side: Side,
) -> Vec<Command> {
    let is_fellow = view.draft.operation.eye != Some(side);
    ui.add_space(crate::theme::measures::APART);
    if is_fellow {
        fellow_notice(ui, state, side);
    } else {
        heading(ui, words::eye(side));
    }
    sitting::show(ui, view, &mut state.sitting);
    let mut page = EyePage {
        view,
        side,
        eye: view.draft.eyes.get(side),
        other: view.draft.eyes.get(side.other()),
        columns: Columns::of(ui.available_width(), is_fellow),
        commands: Vec::new(),
    };
    if page.columns.head(ui, (view, side), state.edits_fellow) {
        state.edits_fellow = !state.edits_fellow;
        ui.request_repaint();
    }
    measurements::show(ui, &mut page, state);
    state::show(ui, &mut page, state);
    page.commands
}

fn fellow_notice(ui: &mut Ui, state: &mut BiometryState, side: Side) {
    let back = notice(ui, Severity::Review, |ui| {
        heading(ui, &format!("Editing the {side}, which is not operated"));
        muted(ui, "Its numbers serve comparison; no formula takes them");
        let words = format!("Back to the {}", side.other());
        ui.button(words).clicked()
    });
    if back {
        state.edits_fellow = false;
        ui.request_repaint();
    }
}
