//! Who, and which eye: two identifiers and the operated eye in words, always in sight.

use egui::{Align, Color32, FontId, Layout, Rect, RichText, TextStyle, Ui, UiBuilder, pos2};
use millrace_core::biometry::{Side, Sign};
use millrace_core::case::{Draft, Special, Told};
use millrace_wording::desk::frame as say;
use millrace_wording::{Show as _, terms};

use crate::signed::Signed;
use crate::theme::{Palette, bold, measures};
use crate::widgets::{facing_eyes, reads_from_right, typed_galley, typed_text};
use crate::words::{capital_family_name, in_use};

/// Sizes of the banner's parts: with room to spare, or in a low window, where the page under it
/// needs the height.
struct Sizes {
    /// Name and number, if they fit.
    identifier: f32,
    /// Birth date and day of the operation.
    about: f32,
    eye: f32,
    /// Room for "RIGHT EYE" and the glyph.
    eye_width: f32,
}

const AMPLE: Sizes = Sizes {
    identifier: measures::HEADING,
    about: measures::BODY,
    eye: measures::EYE,
    eye_width: 236.0,
};
const SCARCE: Sizes = Sizes {
    identifier: measures::SECTION,
    about: measures::SMALL,
    eye: measures::HEADING,
    eye_width: 196.0,
};

/// Shows the banner of the open case, in a window `height` points high.
pub fn show(ui: &mut Ui, draft: &Draft, signed: Signed, height: f32) {
    let sizes = if height < measures::LOW {
        SCARCE
    } else {
        AMPLE
    };
    // The eye keeps its place at the right; the name wraps in what is left.
    let whole = ui.available_rect_before_wrap();
    let split = whole.right() - sizes.eye_width;
    let left = Rect::from_min_max(whole.min, pos2(split - measures::APART, whole.bottom()));
    let who_rect = ui
        .scope_builder(UiBuilder::new().max_rect(left), |ui| {
            who(ui, draft, signed, &sizes);
        })
        .response
        .rect;
    let right = Rect::from_min_max(
        pos2(split, who_rect.top()),
        pos2(whole.right(), who_rect.bottom()),
    );
    let layout = Layout::right_to_left(Align::Center);
    ui.scope_builder(UiBuilder::new().max_rect(right).layout(layout), |ui| {
        eye(ui, draft.operation.eye, sizes.eye);
    });
}

/// The banner while the critical numbers are entered a second time: name and birth date say whose
/// papers are wanted; number and eye are among what is entered.
pub fn without_what_is_entered(ui: &mut Ui, draft: &Draft) {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    let name = name.unwrap_or_else(|| say::name_missing(words).to_owned());
    let font = TextStyle::Heading.resolve(ui.style());
    identifier(ui, &name, font, palette.ink);
    let born = patient.birth_date.map_or_else(
        || say::birth_date_missing(words).to_owned(),
        |born| say::born(words, born),
    );
    let text = say::hidden_during_second_look(words, born);
    ui.label(RichText::new(text).color(palette.muted));
}

fn who(ui: &mut Ui, draft: &Draft, signed: Signed, sizes: &Sizes) {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let patient = &draft.patient;
    let name = patient.name.as_deref().map(capital_family_name);
    // A number is not parted from its "No.".
    let number = patient
        .number
        .as_ref()
        .map(|number| say::number(words, number));
    let size = identifier_size(ui, name.as_deref().unwrap_or_default(), sizes);
    let or_missing = |ui: &mut Ui, text: Option<String>, missing: &str| {
        let (text, color) = match text {
            Some(text) => (text, palette.ink),
            None => (missing.to_owned(), palette.stop),
        };
        identifier(ui, &text, FontId::new(size, bold()), color);
    };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        ui.spacing_mut().interact_size.y = 0.0;
        or_missing(ui, name, say::name_missing(words));
        or_missing(ui, number, say::number_missing(words));
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = measures::APART;
        ui.spacing_mut().interact_size.y = 0.0;
        let born = match (patient.birth_date, draft.age()) {
            (Some(born), Some(age)) => say::born_with_age(words, born, age),
            (Some(born), None) => say::born(words, born),
            (None, _) => say::birth_date_missing(words).to_owned(),
        };
        let about = |text: &str| {
            RichText::new(unparted(text))
                .size(sizes.about)
                .color(palette.muted)
        };
        ui.label(about(&born));
        let when = draft.operation.date.map_or_else(
            || say::operation_day_missing(words).to_owned(),
            |date| say::operation_on(words, date),
        );
        ui.label(about(&when));
        standing(ui, signed, sizes.about);
    });
    dangers(ui, draft, sizes.about);
}

/// What theatre holds in its hands, if it holds anything.
fn standing(ui: &mut Ui, signed: Signed, size: f32) {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let (text, color) = match signed {
        Signed::Never => return,
        Signed::As(sheet) => (say::signed(words, sheet), palette.ink),
        Signed::ChangedSince(sheet) => (say::changed_since(words, sheet), palette.stop),
        Signed::Unknown => (say::sheets_unknown(words).to_owned(), palette.stop),
    };
    let font = FontId::new(size, bold());
    ui.label(RichText::new(unparted(&text)).font(font).color(color));
}

/// What may harm the patient whatever the plan: allergies, the only seeing eye, what makes an operation bleed
/// or a pupil fail.
fn dangers(ui: &mut Ui, draft: &Draft, size: f32) {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let mut parts = Vec::new();
    if let Some(Told::These(allergies)) = &draft.theatre.allergies {
        parts.push(say::allergies(words, words.list(allergies.clone())));
    }
    let special = draft.operation.eye.map(|side| Special::all(draft, side));
    for special in special.unwrap_or_default() {
        if let Special::Sign(Sign::OnlyEye) | Special::Anticoagulant | Special::AlphaBlocker =
            special
        {
            parts.push(special.show(words).into_owned());
        }
    }
    if parts.is_empty() {
        return;
    }
    let font = FontId::new(size, bold());
    identifier(ui, &parts.join("  ·  "), font, palette.ink);
}

/// A name or a number, in the order in which it is read.
fn identifier(ui: &mut Ui, text: &str, font: FontId, color: Color32) {
    if reads_from_right(text) {
        typed_text(ui, text, font, color);
    } else {
        ui.label(RichText::new(text).font(font).color(color));
    }
}

/// A short text that is not broken between its words.
fn unparted(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

/// A name that takes more than two lines is set smaller, and whole: an identifier is never cut.
fn identifier_size(ui: &Ui, name: &str, sizes: &Sizes) -> f32 {
    let fits = |size: f32| {
        let font = FontId::new(size, bold());
        let ink = Palette::current(ui).ink;
        let room = ui.available_width();
        let galley = typed_galley(ui.painter(), (name, ink), font, room);
        galley.rows.len() <= 2
    };
    [sizes.identifier, measures::SECTION, measures::BODY]
        .into_iter()
        .find(|size| fits(*size))
        .unwrap_or(measures::SMALL)
}

fn eye_text(ui: &Ui, eye: Option<Side>, size: f32) -> RichText {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let (text, color) = match eye {
        Some(side) => (terms::eye_capitals(words, side), palette.ink),
        None => (say::eye_missing(words), palette.stop),
    };
    let font = FontId::new(size, bold());
    RichText::new(text).font(font).color(color)
}

/// The words, and beside them both eyes as seen facing the patient.
fn eye(ui: &mut Ui, eye: Option<Side>, size: f32) {
    if let Some(side) = eye {
        facing_eyes(ui, side).on_hover_text(say::facing(in_use(ui)));
    }
    ui.label(eye_text(ui, eye, size));
}
