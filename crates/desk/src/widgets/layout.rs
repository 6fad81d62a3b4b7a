//! Where things stand on a page.

use egui::{
    Align, Button, Color32, CornerRadius, Frame, Layout, Margin, Response, RichText, Sense, Stroke,
    StrokeKind, TextStyle, TextWrapMode, Ui, UiBuilder, vec2,
};
use millrace_core::rules::Severity;
use millrace_wording::desk::widgets as say;

use super::reading_order::{reads_from_right, typed_text};
use super::shapes::{severity_color, severity_shape};
use crate::theme::{Palette, measures, section_style};
use crate::words::in_use;

/// A cell of a row: of this width, as high as a control, its content in the middle of the height.
pub fn cell<R>(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width, measures::CONTROL);
    let layout = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_size(size);
        ui.set_max_width(width);
        add(ui)
    })
    .inner
}

/// Boxes that are not ticked are empty from here on: the color of scroll handles, which the toolkit fills them
/// with, looks like a tick.
pub fn empty_boxes(ui: &mut Ui) {
    let field = Palette::current(ui).field;
    ui.visuals_mut().widgets.inactive.bg_fill = field;
}

/// Heading of a page or panel.
pub fn heading(ui: &mut Ui, text: &str) -> Response {
    let response = ui.label(RichText::new(text).heading());
    is_heading(ui, &response, text);
    response
}

/// Tells a screen reader that this text is a heading, and what it is called: only of a label is the value
/// read as its name.
pub fn is_heading(ui: &Ui, response: &Response, text: &str) {
    ui.accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::Heading);
        node.set_label(text);
        node.clear_value();
    });
}

/// A ring around what has the focus and draws none of its own.
pub fn ring(ui: &Ui, response: &Response) {
    if response.has_focus() {
        let stroke = Stroke::new(measures::FOCUS, Palette::current(ui).accent);
        let place = response.rect.expand(measures::TIGHT / 2.0);
        let rounding = measures::ROUNDING;
        ui.painter()
            .rect_stroke(place, rounding, stroke, StrokeKind::Inside);
    }
}

/// Heading of a section, with the space above that sets it apart.
pub fn section(ui: &mut Ui, text: &str) -> Response {
    ui.add_space(measures::APART);
    let response = ui.label(RichText::new(text).text_style(section_style()));
    is_heading(ui, &response, text);
    ui.add_space(measures::TIGHT);
    response
}

/// A column of this width; its content stands from the top down and wraps.
pub fn column<R>(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width, 0.0);
    let rect = egui::Rect::from_min_size(ui.cursor().min, size);
    let builder = UiBuilder::new()
        .max_rect(rect)
        .layout(Layout::top_down(Align::Min));
    ui.scope_builder(builder, |ui| {
        ui.set_width(width);
        add(ui)
    })
    .inner
}

/// Text that explains other text.
pub fn muted(ui: &mut Ui, text: impl Into<String>) -> Response {
    let (text, color) = (text.into(), Palette::current(ui).muted);
    if reads_from_right(&text) {
        return typed_text(ui, &text, TextStyle::Body.resolve(ui.style()), color);
    }
    ui.label(RichText::new(text).color(color))
}

/// Text that may hold what somebody typed.
pub fn typed(ui: &mut Ui, text: impl Into<String>) -> Response {
    let text = text.into();
    if reads_from_right(&text) {
        let font = TextStyle::Body.resolve(ui.style());
        return typed_text(ui, &text, font, Palette::current(ui).ink);
    }
    ui.label(text)
}

/// Small text that explains other text.
pub fn small(ui: &mut Ui, text: impl Into<String>) -> Response {
    let (text, color) = (text.into(), Palette::current(ui).muted);
    if reads_from_right(&text) {
        return typed_text(ui, &text, TextStyle::Small.resolve(ui.style()), color);
    }
    ui.label(RichText::new(text).small().color(color))
}

/// A row as low as its text, not as high as a control.
pub fn low_row<R>(ui: &mut Ui, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.scope(|ui| {
        ui.spacing_mut().interact_size.y = 0.0;
        ui.horizontal(add).inner
    })
    .inner
}

/// A button beside text, for what is asked for rarely.
pub fn minor_button(ui: &mut Ui, text: &str) -> Response {
    ui.scope(|ui| {
        let spacing = ui.spacing_mut();
        spacing.button_padding = vec2(7.0, 1.0);
        spacing.interact_size.y = 22.0;
        // Its word is never broken: it goes to the next line as a whole.
        let button = Button::new(RichText::new(text).small());
        ui.add(button.wrap_mode(TextWrapMode::Extend))
    })
    .inner
}

/// A button that the Tab key passes over: what it does is done by a key as well.
pub fn aside_button(ui: &mut Ui, text: &str) -> Response {
    let button = Button::new(RichText::new(text).small()).sense(Sense::CLICK);
    ui.scope(|ui| {
        let spacing = ui.spacing_mut();
        spacing.button_padding = vec2(7.0, 1.0);
        spacing.interact_size.y = 22.0;
        ui.add(button)
    })
    .inner
}

/// Something with a shape before it: what is added wraps beside the shape, not under it.
pub fn beside<R>(ui: &mut Ui, shape: impl FnOnce(&mut Ui), add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        shape(ui);
        ui.vertical(add).inner
    })
    .inner
}

/// What is wrong with what stands in a field, in words, with its shape.
pub fn problem(ui: &mut Ui, text: &str) {
    let shape = |ui: &mut Ui| {
        severity_shape(ui, Severity::Stop);
    };
    beside(ui, shape, |ui| {
        let color = Palette::current(ui).stop;
        let text = say::not_taken(in_use(ui), text);
        ui.label(RichText::new(text).color(color));
    });
}

/// A message that stands in the page, as strong as a finding of that severity.
pub fn notice<R>(ui: &mut Ui, severity: Severity, add: impl FnOnce(&mut Ui) -> R) -> R {
    let palette = Palette::current(ui);
    let wash: Color32 = match severity {
        Severity::Stop => palette.stop_wash,
        Severity::Review => palette.review_wash,
        Severity::Note => palette.note_wash,
    };
    Frame::new()
        .fill(wash)
        .stroke(Stroke::new(
            measures::OUTLINE,
            severity_color(palette, severity),
        ))
        .corner_radius(CornerRadius::same(measures::ROUNDING))
        .inner_margin(Margin::symmetric(10, 8))
        .show(ui, |ui| {
            let shape = |ui: &mut Ui| {
                severity_shape(ui, severity);
            };
            beside(ui, shape, |ui| {
                ui.set_width(ui.available_width());
                add(ui)
            })
        })
        .inner
}
