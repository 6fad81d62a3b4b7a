//! Who, and which eye: two identifiers and the operated eye in words, always in sight.

use egui::{Align, FontId, Layout, RichText, Ui};
use millrace_core::biometry::Side;
use millrace_core::case::Draft;

use crate::theme::{Palette, bold, measures};
use crate::widgets::{facing_eyes, small};
use crate::words::{capital_family_name, day};

/// Shows the banner of the open case.
pub fn show(ui: &mut Ui, draft: &Draft) {
    let stacked = ui.available_width() < measures::NARROW;
    if stacked {
        ui.vertical(|ui| {
            who(ui, draft);
            ui.horizontal_wrapped(|ui| eye(ui, draft.operation.eye));
        });
        return;
    }
    let eye_width = 340.0;
    ui.horizontal(|ui| {
        let width = ui.available_width() - eye_width;
        ui.allocate_ui_with_layout(egui::vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
            ui.set_width(width);
            who(ui, draft);
        });
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            eye_from_the_right(ui, draft.operation.eye);
        });
    });
}

fn who(ui: &mut Ui, draft: &Draft) {
    let palette = Palette::current(ui);
    let patient = &draft.patient;
    let identifier = |text: Option<String>, missing: &str| match text {
        Some(text) => RichText::new(text).heading().color(palette.ink),
        None => RichText::new(missing).heading().color(palette.stop),
    };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        let name = patient.name.as_deref().map(capital_family_name);
        ui.label(identifier(name, "Name missing"));
        let number = patient
            .number
            .as_ref()
            .map(|number| format!("No. {number}"));
        ui.label(identifier(number, "Number missing"));
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        let born = match (patient.birth_date, draft.age()) {
            (Some(born), Some(age)) => format!("Born {} ({age} years)", day(born)),
            (Some(born), None) => format!("Born {}", day(born)),
            (None, _) => "Birth date missing".to_owned(),
        };
        ui.label(RichText::new(born).color(palette.muted));
        let when = draft.operation.date.map_or_else(
            || "Operation day not set".to_owned(),
            |date| format!("Operation {}", day(date)),
        );
        ui.label(RichText::new(when).color(palette.muted));
    });
}

fn eye_text(ui: &Ui, eye: Option<Side>) -> RichText {
    let palette = Palette::current(ui);
    let font = FontId::new(measures::EYE, bold());
    match eye {
        Some(side) => RichText::new(side.capitals()).font(font).color(palette.ink),
        None => RichText::new("EYE NOT CHOSEN")
            .font(font)
            .color(palette.stop),
    }
}

fn eye(ui: &mut Ui, eye: Option<Side>) {
    ui.label(eye_text(ui, eye));
    if let Some(side) = eye {
        facing_eyes(ui, side);
    }
}

fn eye_from_the_right(ui: &mut Ui, eye: Option<Side>) {
    if let Some(side) = eye {
        ui.vertical(|ui| {
            ui.add_space(2.0);
            facing_eyes(ui, side);
            small(ui, "facing you");
        });
    }
    ui.label(eye_text(ui, eye));
}
