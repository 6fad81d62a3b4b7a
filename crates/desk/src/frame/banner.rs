//! Who, and which eye: two identifiers and the operated eye in words, always in sight.

use egui::{Align, FontId, Layout, Rect, RichText, Ui, UiBuilder, pos2};
use millrace_core::biometry::Side;
use millrace_core::case::Draft;

use crate::theme::{Palette, bold, measures};
use crate::widgets::facing_eyes;
use crate::words::{capital_family_name, day};

/// Room for "RIGHT EYE" and the glyph.
const EYE_WIDTH: f32 = 236.0;

/// Shows the banner of the open case.
pub fn show(ui: &mut Ui, draft: &Draft) {
    // The eye keeps its place at the right; the name wraps in what is left.
    let whole = ui.available_rect_before_wrap();
    let split = whole.right() - EYE_WIDTH;
    let left = Rect::from_min_max(whole.min, pos2(split - measures::APART, whole.bottom()));
    let who_rect = ui
        .scope_builder(UiBuilder::new().max_rect(left), |ui| who(ui, draft))
        .response
        .rect;
    let right = Rect::from_min_max(
        pos2(split, who_rect.top()),
        pos2(whole.right(), who_rect.bottom()),
    );
    let layout = Layout::right_to_left(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(right).layout(layout), |ui| {
        eye(ui, draft.operation.eye);
    });
}

/// The banner while the critical numbers are entered a second time: name and birth date say whose
/// papers are wanted; number and eye are among what is entered.
pub fn without_what_is_entered(ui: &mut Ui, draft: &Draft) {
    let palette = Palette::current(ui);
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    let name = name.unwrap_or_else(|| "Name missing".to_owned());
    ui.label(RichText::new(name).heading().color(palette.ink));
    let born = patient.birth_date.map_or_else(
        || "Birth date missing".to_owned(),
        |born| format!("Born {}", day(born)),
    );
    let text = format!("{born}  ·  number and eye are hidden during the second look");
    ui.label(RichText::new(text).color(palette.muted));
}

fn who(ui: &mut Ui, draft: &Draft) {
    let palette = Palette::current(ui);
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    // A number is not parted from its "No.".
    let number = patient
        .number
        .as_ref()
        .map(|number| format!("No.\u{a0}{number}"));
    let size = identifier_size(ui, name.as_deref().unwrap_or_default());
    let identifier = |text: Option<String>, missing: &str| {
        let (text, color) = match text {
            Some(text) => (text, palette.ink),
            None => (missing.to_owned(), palette.stop),
        };
        RichText::new(text)
            .font(FontId::new(size, bold()))
            .color(color)
    };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        ui.spacing_mut().interact_size.y = 0.0;
        ui.label(identifier(name, "Name missing"));
        ui.label(identifier(number, "Number missing"));
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        ui.spacing_mut().interact_size.y = 0.0;
        let born = match (patient.birth_date, draft.age()) {
            (Some(born), Some(age)) => format!("Born {} ({age} years)", day(born)),
            (Some(born), None) => format!("Born {}", day(born)),
            (None, _) => "Birth date missing".to_owned(),
        };
        ui.label(RichText::new(unparted(&born)).color(palette.muted));
        let when = draft.operation.date.map_or_else(
            || "Operation day not set".to_owned(),
            |date| format!("Operation {}", day(date)),
        );
        ui.label(RichText::new(unparted(&when)).color(palette.muted));
    });
}

/// A short text that is not broken between its words.
fn unparted(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

/// A name that takes more than two lines is set smaller, and whole: an identifier is never cut.
fn identifier_size(ui: &Ui, name: &str) -> f32 {
    let fits = |size: f32| {
        let font = FontId::new(size, bold());
        let ink = Palette::current(ui).ink;
        let room = ui.available_width();
        let galley = ui.painter().layout(name.to_owned(), font, ink, room);
        galley.rows.len() <= 2
    };
    [measures::HEADING, measures::SECTION, measures::BODY]
        .into_iter()
        .find(|size| fits(*size))
        .unwrap_or(measures::SMALL)
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

/// The words, and beside them both eyes as seen facing the patient.
fn eye(ui: &mut Ui, eye: Option<Side>) {
    if let Some(side) = eye {
        facing_eyes(ui, side).on_hover_text("As seen facing the patient");
    }
    ui.label(eye_text(ui, eye));
}
