//! The grid of the page: where label, field, unit, method and the other eye stand.

use egui::{Color32, CornerRadius, Rect, RichText, Shape, Ui, layers::ShapeIdx, pos2};
use millrace_core::biometry::Side;

use crate::pages::CaseView;
use crate::theme::{Palette, measures, strong_style};
use crate::widgets::small;
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
const STACKED: f32 = 540.0;

impl Columns {
    pub(super) fn of(width: f32, is_turned: bool) -> Self {
        let is_stacked = width < STACKED;
        let (label, field, unit, more) = (142.0, 84.0, 34.0, 26.0);
        let method = 128.0;
        let gaps = 5.0 * measures::NEAR;
        let rest = width - (label + field + unit + method + more + gaps);
        Self {
            label,
            field,
            unit,
            method,
            more,
            other: rest.clamp(84.0, 160.0),
            is_turned,
            is_stacked,
        }
    }

    /// Head of the column of the other eye; `true` if the page is to be turned around.
    pub(super) fn head(
        &self,
        ui: &mut Ui,
        (view, side): (&CaseView<'_>, Side),
        is_edited: bool,
    ) -> bool {
        if self.is_stacked || is_edited {
            return !is_edited && self.edit_button(ui, side.other());
        }
        let is_operated = view.draft.operation.eye == Some(side.other());
        let mut turn = false;
        ui.horizontal(|ui| {
            let used = self.label + self.field + self.unit + self.method + self.more;
            ui.add_space(used + 5.0 * measures::NEAR);
            ui.vertical(|ui| {
                ui.label(RichText::new(words::eye(side.other())).text_style(strong_style()));
                small(
                    ui,
                    if is_operated {
                        "operated"
                    } else {
                        "to compare"
                    },
                );
                turn = self.edit_button(ui, side.other());
            });
        });
        turn
    }

    fn edit_button(&self, ui: &mut Ui, other: Side) -> bool {
        let button = ui.small_button(if self.is_stacked {
            format!("Edit the {other}…")
        } else {
            "Edit…".to_owned()
        });
        let clicked = button.clicked();
        button.accessible_name(format!("Edit the {other}…"));
        clicked
    }
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
                left + columns.other,
                ui.min_rect().bottom() + measures::TIGHT,
            ),
        );
        let color: Color32 = Palette::current(ui).quiet;
        let shape = Shape::rect_filled(rect, CornerRadius::same(measures::ROUNDING), color);
        ui.painter().set(self.0, shape);
    }
}
