//! What moves a case in the order of its day.

use egui::{Align, Button, Id, Layout, Rect, RichText, TextWrapMode, Ui, UiBuilder, vec2};
use millrace_wording::desk::day as say;

use super::row::text_width;
use crate::exchange::{CaseId, Toward};
use crate::theme::measures;
use crate::words::in_use;

/// Height of one act; they stand above each other.
const ACT: f32 = 22.0;
const BESIDE_TEXT: f32 = 7.0;

/// Where a case can go.
#[derive(Clone, Copy)]
pub(super) struct Ways {
    pub(super) earlier: bool,
    pub(super) later: bool,
}

/// How much room they ask for, from left to right.
pub(super) fn room(ui: &Ui) -> f32 {
    let words = in_use(ui);
    let widest = [say::earlier(words), say::later(words)]
        .map(|text| text_width(ui, text, measures::SMALL))
        .into_iter()
        .fold(0.0, f32::max);
    widest + 2.0 * BESIDE_TEXT
}

/// How much room they ask for, from top to bottom.
pub(super) const HEIGHT: f32 = 2.0 * ACT + 2.0;

/// Shows both acts. They belong to the case and not to the row: who moves it step by step stays on its act.
pub(super) fn show(
    ui: &mut Ui,
    place: Rect,
    (case, name): (&CaseId, &str),
    ways: Ways,
) -> Option<Toward> {
    let words = in_use(ui);
    let id = Id::unique(("acts of a day row", &case.0));
    let builder = UiBuilder::new()
        .scope_id(id)
        .max_rect(place)
        .layout(Layout::top_down_justified(Align::Center));
    let mut ui = ui.new_child(builder);
    let spacing = ui.spacing_mut();
    spacing.button_padding = vec2(BESIDE_TEXT, 1.0);
    spacing.interact_size.y = ACT;
    spacing.item_spacing.y = 2.0;
    let mut moved = None;
    for (text, spoken, is_way, toward) in [
        (
            say::earlier(words),
            say::move_earlier(words, name),
            ways.earlier,
            Toward::Earlier,
        ),
        (
            say::later(words),
            say::move_later(words, name),
            ways.later,
            Toward::Later,
        ),
    ] {
        let button = Button::new(RichText::new(text).small()).wrap_mode(TextWrapMode::Extend);
        let button = ui.add_enabled(is_way, button);
        ui.accesskit_node_builder(button.id, |node| node.set_label(spoken));
        if button.clicked() {
            moved = Some(toward);
        }
    }
    moved
}
