//! Which length the formulas are given: an ultrasound length beside constants for optical biometry,
//! and the sum of segments for the thick-lens eye.

use egui::Ui;
use millrace_core::biometry::LengthMethod;
use millrace_core::case::{Command, UltrasoundChoice};

use super::NAMES;
use crate::pages::CaseView;
use crate::widgets::{Pick, Segments, cell};

const SEGMENTS: [(bool, &str); 2] = [(false, "as measured"), (true, "sum of segments")];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, commands: &mut Vec<Command>) {
    let lens = &view.draft.lens;
    if let Some(options) = ultrasound(view) {
        ui.horizontal(|ui| {
            cell(ui, NAMES, |ui| ui.label("Ultrasound length"));
            let id = view.ground.with("ultrasound length");
            let pick = Pick::new(id, "Ultrasound length", &options, Some(lens.ultrasound));
            commands.extend(pick.show(ui, 250.0).map(Command::ChooseUltrasound));
        });
    }
    let thick = lens
        .record
        .as_ref()
        .is_some_and(|record| record.shape.is_some());
    if thick || lens.sum_of_segments {
        let id = view.ground.with("sum of segments");
        let segments = Segments::new(
            id,
            "Length of the thick-lens eye",
            &SEGMENTS,
            Some(lens.sum_of_segments),
        );
        commands.extend(
            segments
                .row(ui, "Thick-lens length", NAMES)
                .map(Command::UseSumOfSegments),
        );
    }
}

/// What can be chosen where the length of the operated eye is from ultrasound, or was when somebody
/// chose.
fn ultrasound(view: &CaseView<'_>) -> Option<[(Option<UltrasoundChoice>, String); 3]> {
    let draft = view.draft;
    let length = draft
        .operation
        .eye
        .and_then(|side| draft.eyes.get(side).axial_length.as_ref());
    let method = length.and_then(|length| length.method.for_axial_length());
    let added = match method {
        Some(LengthMethod::Contact) => "with the mean difference of contact ultrasound added",
        Some(LengthMethod::Immersion) => "with the mean difference of immersion ultrasound added",
        Some(LengthMethod::Optical) | None => {
            draft.lens.ultrasound?;
            "with the published mean difference added"
        }
    };
    Some([
        (None, "not chosen".to_owned()),
        (Some(UltrasoundChoice::AsMeasured), "as measured".to_owned()),
        (
            Some(UltrasoundChoice::AddPublishedDifference),
            added.to_owned(),
        ),
    ])
}
