//! Which length the formulas are given: an ultrasound length beside constants for optical biometry,
//! and the sum of segments for the thick-lens eye.

use egui::Ui;
use millrace_core::biometry::LengthMethod;
use millrace_core::case::{Command, UltrasoundChoice};
use millrace_wording::Words;
use millrace_wording::desk::lens as say;

use super::NAMES;
use crate::pages::CaseView;
use crate::widgets::{Pick, Segments, cell};
use crate::words::in_use;

/// How an ultrasound length is used: before it is said, most formulas refuse.
pub(super) fn ultrasound_length(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let (lens, words) = (&view.draft.lens, in_use(ui));
    let Some(options) = ultrasound(words, view) else {
        return;
    };
    ui.horizontal(|ui| {
        cell(ui, NAMES, |ui| ui.label(say::ultrasound_length(words)));
        let id = view.ground.with("ultrasound length");
        let name = say::ultrasound_length(words);
        let pick = Pick::new(id, name, &options, Some(lens.ultrasound));
        commands.extend(pick.show(ui, 250.0).map(Command::ChooseUltrasound));
    });
}

pub(super) fn thick_lens_length(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let (lens, words) = (&view.draft.lens, in_use(ui));
    let is_thick = lens.record().is_some_and(|record| record.shape.is_some());
    if !(is_thick || lens.sum_of_segments) {
        return;
    }
    let id = view.ground.with("sum of segments");
    let options = [
        (false, say::as_measured(words)),
        (true, say::sum_of_segments(words)),
    ];
    let name = say::thick_eye_length(words);
    let segments = Segments::new(id, name, &options, Some(lens.sum_of_segments));
    let chosen = segments.row(ui, say::thick_length(words), NAMES);
    commands.extend(chosen.map(Command::UseSumOfSegments));
}

/// What can be chosen where the length of the operated eye is from ultrasound, or was when somebody
/// chose.
fn ultrasound(
    words: Words,
    view: &CaseView<'_>,
) -> Option<[(Option<UltrasoundChoice>, String); 3]> {
    let draft = view.draft;
    let length = draft
        .operation
        .eye
        .and_then(|side| draft.eyes.get(side).axial_length.as_ref());
    let method = length.and_then(|length| length.method.for_axial_length());
    let added = match method {
        Some(LengthMethod::Contact) => say::contact_added(words),
        Some(LengthMethod::Immersion) => say::immersion_added(words),
        Some(LengthMethod::Optical) | None => {
            draft.lens.ultrasound?;
            say::difference_added(words)
        }
    };
    Some([
        (None, say::not_chosen(words).to_owned()),
        (
            Some(UltrasoundChoice::AsMeasured),
            say::as_measured(words).to_owned(),
        ),
        (
            Some(UltrasoundChoice::AddPublishedDifference),
            added.to_owned(),
        ),
    ])
}
