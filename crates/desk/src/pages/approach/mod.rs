//! How the nucleus comes out: the choice and the incision, the chamber to scale with how near
//! the pieces come, what speaks for either approach, and the risk.

mod both_sides;
mod chamber;
mod choice;
mod hardness;
mod incision_effect;
mod kinds;
mod nucleus;
mod passage;
mod pieces_table;
mod risk;
mod texts;
mod working;

use egui::Ui;
use millrace_core::biometry::Side;
use millrace_core::case::{Approach, Command};

use super::CaseView;
use super::incision_parts::IncisionParts;
use crate::theme::measures;
use crate::widgets::{HalfEntered, beside, cell, muted, open_ring, small};

/// What the page remembers beside the draft.
#[derive(Debug, Default)]
pub struct ApproachState {
    /// The eye and the approach that what is half entered was entered for.
    entered_for: (Option<Side>, Option<Approach>),
    /// The surgeon's figures of the incision's effect, not all of them entered.
    effect: HalfEntered<IncisionParts>,
    /// A size of the nucleus that is not whole.
    nucleus: HalfEntered<nucleus::NucleusParts>,
    /// Hard or not: what somebody is about to give a reason for.
    judging: Option<bool>,
    /// The division under the pointer.
    hovered: Option<u8>,
    /// The division looked at while nothing is divided.
    looked_at: Option<u8>,
}

impl ApproachState {
    /// Figures of another eye or another incision say nothing here; those entered before an approach was
    /// chosen belong to the chosen one.
    fn keep_only_for(&mut self, eye: Option<Side>, approach: Option<Approach>) {
        let (of_eye, by) = core::mem::replace(&mut self.entered_for, (eye, approach));
        if of_eye != eye {
            self.nucleus = HalfEntered::default();
            self.judging = None;
        }
        if of_eye != eye || (by.is_some() && by != approach) {
            self.effect = HalfEntered::default();
        }
    }
}

/// From this width on, things stand side by side.
const WIDE: f32 = 760.0;
/// Name of a field.
const LABEL: f32 = 122.0;
/// Name of a second field in the same line.
const SECOND_LABEL: f32 = 96.0;
/// Unit behind a field, and what sets the next one apart.
const UNIT: f32 = 40.0;

pub fn approach_page(ui: &mut Ui, view: &CaseView<'_>, state: &mut ApproachState) -> Vec<Command> {
    state.keep_only_for(view.draft.operation.eye, view.draft.approach.approach);
    let mut commands = choice::show(ui, view);
    commands.extend(incision_effect::show(ui, view, &mut state.effect));
    commands.extend(hardness::show(ui, view, &mut state.judging));
    commands.extend(chamber::show(ui, view, state));
    both_sides::show(ui, view);
    risk::show(ui, view);
    commands
}

/// The unit behind a field, in its column.
fn unit(ui: &mut Ui, unit: &str) {
    cell(ui, UNIT, |ui| muted(ui, unit));
}

/// Explains the field above it, under the field.
fn under_field(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.add_space(LABEL + measures::NEAR);
        ui.vertical(|ui| small(ui, texts::unparted(text)));
    });
}

/// What is missing or not taken yet: an open ring and words.
fn open_point(ui: &mut Ui, text: &str) {
    let ring = |ui: &mut Ui| {
        open_ring(ui);
    };
    beside(ui, ring, |ui| ui.label(text));
}

/// Two columns of the same width, where there is room for two.
fn half_width(ui: &Ui) -> Option<f32> {
    let width = ui.available_width();
    (WIDE <= width).then_some((width - measures::FAR) / 2.0)
}
