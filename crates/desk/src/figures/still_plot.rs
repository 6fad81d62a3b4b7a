//! A plot that is only looked at, and what is drawn in it.

use egui::{Color32, Id, Rect, Sense, Stroke, Vec2};
use egui_plot::{Bar, MarkerShape, Plot, Points};

/// A plot as large as `rect`, without ground and grid, that takes no wheel, no drag and no click from the
/// page under it.
pub(super) fn still_plot<'a>(id: Id, rect: Rect) -> Plot<'a> {
    Plot::new(id)
        .id(id)
        .min_size(Vec2::ZERO)
        .width(rect.width())
        .height(rect.height())
        .sense(Sense::HOVER)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .allow_axis_zoom_drag(false)
        .show_x(false)
        .show_y(false)
        .show_background(false)
        .show_grid(false)
        .show_axes(false)
}

/// A bar that lies, without an outline; `height` is in the unit of the upright axis.
pub(super) fn bar(y: f64, [from, to]: [f64; 2], height: f64, fill: Color32) -> Bar {
    Bar::new(y, to - from)
        .base_offset(from)
        .width(height)
        .fill(fill)
        .stroke(Stroke::NONE)
        .horizontal()
}

pub(super) fn marks<'a>(
    shape: MarkerShape,
    places: &[[f64; 2]],
    radius: f32,
    color: Color32,
) -> Points<'a> {
    Points::new("marks", places.to_vec())
        .shape(shape)
        .radius(radius)
        .color(color)
        .allow_hover(false)
}
