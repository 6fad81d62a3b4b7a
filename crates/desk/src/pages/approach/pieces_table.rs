//! Pieces, how the nucleus is divided into them, and how near they come at one plane: one stop of the Tab key,
//! the arrow keys choose.

use std::sync::Arc;

use egui::accesskit::{Role, Toggled};
use egui::{
    Align2, CornerRadius, CursorIcon, FontId, Galley, Id, Key, Rect, Response, Sense, Stroke,
    StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use millrace_core::chamber::{DIVISIONS, Division, DivisionProximity, PlaneProximity};
use millrace_core::quantity::Millimeters;
use millrace_wording::desk::approach as say;
use millrace_wording::desk::widgets::nothing_chosen;
use millrace_wording::text::proximity;

use super::texts;
use crate::theme::{Palette, bold, measures};
use crate::widgets::keep_up_and_down;
use crate::words::in_use;

/// What an arrow key or a click on a row does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    Choose,
    /// Only looks: nothing is divided.
    Look,
}

pub(super) struct PiecesTable<'a> {
    pub(super) id: Id,
    /// How near each division comes at the plane shown; nothing where it cannot be estimated.
    pub(super) near: Option<&'a PlaneProximity>,
    /// Why there is nothing to show.
    pub(super) unknown: &'a str,
    pub(super) purpose: Purpose,
    /// The row chosen, or looked at.
    pub(super) marked: Option<u8>,
}

#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct TableEnd {
    /// The row that was newly chosen, or is newly looked at.
    pub(super) marked: Option<u8>,
    /// The row under the pointer.
    pub(super) hovered: Option<u8>,
}

const ROW: f32 = 26.0;
const HEADER: f32 = 22.0;
/// Left edge of the division and right edges of the columns of numbers, as shares of the width.
const DIVIDED_LEFT: f32 = 0.14;
const RIGHT: [f32; 6] = [0.12, 0.485, 0.67, 0.75, 0.875, 0.985];
/// Room for the longest margin, points.
const MARGIN: f32 = 46.0;
/// Over and under what is written in a row.
const PADDING: f32 = 4.0;

impl PiecesTable<'_> {
    /// Shows it; tells what was marked.
    pub(super) fn show(&self, ui: &mut Ui) -> TableEnd {
        header(ui);
        let heights = DIVISIONS.map(|division| row_height(ui, division));
        let height = heights.iter().sum();
        let size = vec2(ui.available_width(), height);
        let (rect, _) = ui.allocate_exact_size(size, Sense::HOVER);
        let group = ui.interact(rect, self.id, Sense::FOCUSABLE);
        if group.gained_focus() {
            ui.scroll_to_rect(rect.expand(measures::NEAR), None);
        }
        self.announce(ui, &group);
        let mut end = TableEnd {
            marked: self.marked_by_key(ui, &group),
            hovered: None,
        };
        let mut top = rect.top();
        for (division, row_height) in DIVISIONS.into_iter().zip(heights) {
            let row = Rect::from_min_size(pos2(rect.left(), top), vec2(rect.width(), row_height));
            top += row_height;
            let response = self.row(ui, row, division);
            if response.clicked() {
                group.request_focus();
                end.marked = Some(division.pieces());
            }
            if response.hovered() {
                end.hovered = Some(division.pieces());
            }
        }
        let palette = Palette::current(ui);
        if self.near.is_none() {
            self.write_unknown(ui, rect);
        }
        let outline = if group.has_focus() {
            Stroke::new(measures::FOCUS, palette.accent)
        } else {
            Stroke::new(measures::OUTLINE, palette.line)
        };
        let rounding = CornerRadius::same(measures::ROUNDING);
        ui.painter()
            .rect_stroke(rect, rounding, outline, StrokeKind::Outside);
        end.marked = end.marked.filter(|pieces| self.marked != Some(*pieces));
        end
    }

    fn announce(&self, ui: &Ui, group: &Response) {
        let words = in_use(ui);
        let name = match self.purpose {
            Purpose::Choose => say::number_of_pieces(words),
            Purpose::Look => say::number_to_look_at(words),
        };
        let marked = self.marked.map_or_else(
            || nothing_chosen(words).to_owned(),
            |pieces| pieces.to_string(),
        );
        group.widget_info(|| WidgetInfo::labeled(Role::RadioGroup, ui.is_enabled(), name));
        ui.accesskit_node_builder(group.id, |node| node.set_value(marked.as_str()));
    }

    fn row(&self, ui: &Ui, rect: Rect, division: Division) -> Response {
        let pieces = division.pieces();
        let is_marked = self.marked == Some(pieces);
        let response = ui
            .interact(rect, self.id.with(pieces), Sense::CLICK)
            .on_hover_cursor(CursorIcon::PointingHand);
        let palette = Palette::current(ui);
        let painter = ui.painter();
        if is_marked && self.purpose == Purpose::Choose {
            painter.rect_filled(rect, CornerRadius::ZERO, palette.selected);
        } else if is_marked || response.hovered() {
            painter.rect_filled(rect, CornerRadius::ZERO, palette.hovered);
        }
        if pieces != DIVISIONS[0].pieces() {
            let line = Stroke::new(measures::OUTLINE, palette.line);
            painter.hline(rect.x_range(), rect.top(), line);
        }
        self.mark(ui, rect, pieces);
        let near = self.near.and_then(|near| near.of_pieces(pieces));
        let font = if is_marked {
            chosen_font()
        } else {
            FontId::proportional(measures::BODY)
        };
        write_row(ui, rect, division, near, &font);
        let words = in_use(ui);
        let label = near.map_or_else(
            || say::row_unknown(words, pieces, self.unknown),
            |near| texts::row(words, near),
        );
        response.widget_info(|| {
            WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), is_marked, &label)
        });
        ui.accesskit_node_builder(response.id, |node| {
            node.set_toggled(if is_marked {
                Toggled::True
            } else {
                Toggled::False
            });
        });
        response
    }

    /// A ring to choose by, filled where chosen; nothing where nothing can be chosen.
    fn mark(&self, ui: &Ui, rect: Rect, pieces: u8) {
        let is_marked = self.marked == Some(pieces);
        if self.purpose == Purpose::Look {
            return;
        }
        let palette = Palette::current(ui);
        let center = pos2(rect.left() + 15.0, rect.center().y);
        let (color, width) = if is_marked {
            (palette.accent, measures::FOCUS)
        } else {
            (palette.outline, measures::OUTLINE)
        };
        let painter = ui.painter();
        painter.circle_stroke(center, 6.0, Stroke::new(width, color));
        if is_marked {
            painter.circle_filled(center, 3.0, color);
        }
    }

    fn write_unknown(&self, ui: &Ui, rect: Rect) {
        let palette = Palette::current(ui);
        // Clear of how the nucleus is divided, which is known all the same.
        let left = rect.left() + RIGHT[1] * rect.width() - MARGIN + PADDING;
        let room = Rect::from_min_max(pos2(left, rect.top()), rect.max).shrink(measures::APART);
        let text = say::cannot_be_estimated(in_use(ui), self.unknown);
        let font = FontId::proportional(measures::BODY);
        let galley = ui.painter().layout(text, font, palette.ink, room.width());
        let place = Align2::CENTER_CENTER.anchor_size(room.center(), galley.size());
        let back = Rect::from_min_max(pos2(left, rect.top()), rect.max).shrink(1.0);
        ui.painter()
            .rect_filled(back, CornerRadius::same(measures::ROUNDING), palette.raised);
        ui.painter().galley(place.min, galley, palette.ink);
    }

    fn marked_by_key(&self, ui: &Ui, group: &Response) -> Option<u8> {
        if !group.has_focus() || !ui.is_enabled() {
            return None;
        }
        keep_up_and_down(ui, group.id);
        let rows = DIVISIONS.map(Division::pieces);
        let now = rows.iter().position(|pieces| self.marked == Some(*pieces));
        let last = rows.len().checked_sub(1)?;
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        let next = if pressed(Key::Home) {
            0
        } else if pressed(Key::End) {
            last
        } else {
            match (pressed(Key::ArrowUp), pressed(Key::ArrowDown), now) {
                (true, false, Some(row)) => row.checked_sub(1)?,
                (false, true, Some(row)) => row + 1,
                (true, false, None) => last,
                (false, true, None) => 0,
                _ => return None,
            }
        };
        rows.get(next).copied()
    }
}

/// How the nucleus is divided, in as many lines as its column needs.
fn divided(ui: &Ui, division: Division, font: &FontId, width: f32) -> Arc<Galley> {
    let text = proximity::division(in_use(ui), division);
    let room = ((RIGHT[1] - DIVIDED_LEFT) * width - MARGIN).max(MARGIN);
    let ink = Palette::current(ui).ink;
    ui.painter().layout(text, font.clone(), ink, room)
}

/// As high as the division needs where it is chosen: choosing moves no row.
fn row_height(ui: &Ui, division: Division) -> f32 {
    let galley = divided(ui, division, &chosen_font(), ui.available_width());
    ROW.max(galley.size().y + 2.0 * PADDING)
}

fn chosen_font() -> FontId {
    FontId::new(measures::BODY, bold())
}

/// Names of the columns, over them.
fn header(ui: &mut Ui) {
    let size = vec2(ui.available_width(), HEADER);
    let (rect, response) = ui.allocate_exact_size(size, Sense::HOVER);
    let palette = Palette::current(ui);
    let font = FontId::proportional(measures::SMALL);
    let painter = ui.painter();
    let write = |x: f32, anchor, text: &str| {
        let at = pos2(x, rect.bottom() - 4.0);
        painter.text(at, anchor, text, font.clone(), palette.muted);
    };
    let x = |share: f32| rect.left() + share * rect.width();
    let words = in_use(ui);
    let heads = [
        say::column_pieces(words),
        say::column_margin(words),
        say::column_range(words),
        say::column_worst(words),
        say::column_nine_in_ten(words),
        say::column_touching(words),
    ];
    for (share, text) in RIGHT.into_iter().zip(heads) {
        write(x(share), Align2::RIGHT_BOTTOM, text);
    }
    let divided = say::column_divided(words);
    write(x(DIVIDED_LEFT), Align2::LEFT_BOTTOM, divided);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, say::columns(words)));
}

fn write_row(
    ui: &Ui,
    rect: Rect,
    division: Division,
    near: Option<&DivisionProximity>,
    font: &FontId,
) {
    let (palette, words) = (Palette::current(ui), in_use(ui));
    let painter = ui.painter();
    let x = |share: f32| rect.left() + share * rect.width();
    let y = rect.center().y;
    let write = |share: f32, text: String, ink| {
        painter.text(
            pos2(x(share), y),
            Align2::RIGHT_CENTER,
            text,
            font.clone(),
            ink,
        );
    };
    let [pieces, margin, range, worst, nine_in_ten, touching] = RIGHT;
    write(pieces, division.pieces().to_string(), palette.ink);
    let left = pos2(x(DIVIDED_LEFT), y);
    let galley = divided(ui, division, font, rect.width());
    let place = Align2::LEFT_CENTER.anchor_size(left, galley.size());
    painter.galley(place.min, galley, palette.ink);
    let Some(near) = near else { return };
    let number = |length: Millimeters| words.fixed(length.mm(), 2);
    write(margin, number(near.margin), palette.ink);
    write(range, proximity::margin_range(words, near), palette.ink);
    write(worst, number(near.worst), palette.ink);
    write(nine_in_ten, number(near.nine_in_ten), palette.ink);
    write(
        touching,
        proximity::share(words, near.touch_share),
        palette.ink,
    );
}
