//! The grid of the page: where label, field, unit, method and the other eye stand.

use egui::epaint::RectShape;
use egui::{
    Color32, CornerRadius, Rect, RichText, Shape, Stroke, StrokeKind, Ui, layers::ShapeIdx, pos2,
};
use millrace_core::biometry::Side;
use millrace_wording::desk::biometry as say;
use millrace_wording::terms;

use crate::theme::{Palette, measures, strong_style};
use crate::widgets::{cell, heading, minor_button, muted};
use crate::words;

/// Widths of the columns.
#[derive(Clone, Copy, Debug)]
pub(super) struct Columns {
    pub(super) label: f32,
    pub(super) field: f32,
    pub(super) unit: f32,
    pub(super) method: f32,
    pub(super) more: f32,
    /// Of the other eye's text.
    pub(super) other: f32,
    /// Whether the other eye stands on the left: the page is turned around.
    pub(super) is_turned: bool,
    /// Whether there is room for one control beside another only.
    pub(super) is_stacked: bool,
}

/// Under this width the other eye's column does not fit beside the fields.
const STACKED: f32 = 549.0;
/// Room for "44.37 D @ 170°".
const OTHER: f32 = 98.0;
/// Room for the least of what stands behind a number: its method.
const METHOD: f32 = 112.0;
/// Label, field, unit and the act behind them, with the gaps between all columns.
const FIXED: f32 = 158.0 + 84.0 + 34.0 + 26.0 + 5.0 * measures::NEAR;
/// Narrowest and widest picture of the eye beside the columns.
const PICTURE: [f32; 2] = [164.0, 400.0];

/// How wide the picture of the eye may be beside all columns; nothing where they need the room.
pub(super) fn beside(width: f32) -> Option<f32> {
    let [least, most] = PICTURE;
    let spare = |method: f32, other: f32| width - FIXED - method - other - measures::APART;
    let has_room = least <= spare(METHOD, OTHER);
    has_room.then(|| spare(190.0, 160.0).clamp(least, most))
}

impl Columns {
    /// For the eye in the fields: turned around if it is not the operated one.
    pub(super) fn of(width: f32, operated: Side, side: Side) -> Self {
        let is_turned = operated != side;
        let is_stacked = width < STACKED;
        let (label, field, unit, more) = (158.0, 84.0, 34.0, 26.0);
        let rest = width - FIXED;
        // First the other eye's column gets what its longest text needs, then the method.
        let method = (rest - OTHER).clamp(METHOD, 190.0);
        Self {
            label,
            field,
            unit,
            method,
            more,
            other: (rest - method).clamp(84.0, 260.0),
            is_turned,
            is_stacked,
        }
    }

    /// Width of everything but the other eye's column.
    pub(super) fn own(&self) -> f32 {
        self.label + self.field + self.unit + self.method + self.more + 4.0 * measures::NEAR
    }

    /// Room before the first column.
    pub(super) fn indent(&self) -> f32 {
        if self.is_turned && !self.is_stacked {
            self.other + measures::NEAR
        } else {
            0.0
        }
    }

    /// Headings of both parts in one row; `true` if the page is to be turned around.
    pub(super) fn head(&self, ui: &mut Ui, operated: Side, side: Side) -> bool {
        let mut turn = false;
        ui.horizontal(|ui| {
            if self.is_turned && !self.is_stacked {
                cell(ui, self.other, |ui| other_title(ui, operated, side.other()));
            }
            cell(ui, self.own(), |ui| {
                heading(ui, terms::eye_head(words::in_use(ui), side));
                if self.is_turned {
                    muted(ui, say::not_operated(words::in_use(ui)));
                }
            });
            if !self.is_turned && !self.is_stacked {
                cell(ui, self.other, |ui| {
                    ui.spacing_mut().item_spacing.x = measures::TIGHT;
                    other_title(ui, operated, side.other());
                    let edit = say::edit(words::in_use(ui));
                    turn = edit_button(ui, edit, side.other());
                });
            }
        });
        if self.is_stacked && !self.is_turned {
            let edit = say::edit_eye(words::in_use(ui), side.other());
            turn = edit_button(ui, &edit, side.other());
        }
        turn
    }
}

fn other_title(ui: &mut Ui, operated: Side, side: Side) {
    let text = RichText::new(terms::eye_head(words::in_use(ui), side)).text_style(strong_style());
    let about = if operated == side {
        say::operated_compared(words::in_use(ui))
    } else {
        say::only_compared(words::in_use(ui))
    };
    ui.label(text).on_hover_text(about);
}

fn edit_button(ui: &mut Ui, text: &str, other: Side) -> bool {
    let button = minor_button(ui, text);
    let clicked = button.clicked();
    button.accessible_name(say::edit_eye(words::in_use(ui), other));
    clicked
}

/// A strip behind the other eye's column, as long as the rows in front of it.
pub(super) struct Strip(ShapeIdx, f32);

impl Strip {
    /// Begins the strip; the rows come next.
    pub(super) fn begin(ui: &Ui) -> Self {
        Self(ui.painter().add(Shape::Noop), ui.cursor().top())
    }

    /// Ends the strip under the rows.
    pub(super) fn end(self, ui: &Ui, columns: &Columns) {
        if columns.is_stacked {
            return;
        }
        let whole = ui.max_rect();
        let used = columns.label + columns.field + columns.unit + columns.method + columns.more;
        let left = if columns.is_turned {
            whole.left()
        } else {
            whole.left() + used + 5.0 * measures::NEAR
        };
        let rect = Rect::from_min_max(
            pos2(left - measures::NEAR, self.1 - measures::TIGHT),
            pos2(
                whole.right().min(left + columns.other + measures::NEAR),
                ui.min_rect().bottom() + measures::TIGHT,
            ),
        );
        let color: Color32 = Palette::current(ui).quiet;
        let corners = CornerRadius::same(measures::ROUNDING);
        let edge = Stroke::new(measures::OUTLINE, Palette::current(ui).line);
        let shape = RectShape::new(rect, corners, color, edge, StrokeKind::Inside);
        ui.painter().set(self.0, shape);
    }
}
