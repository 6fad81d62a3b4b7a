//! From millimeters to points on the screen, and what every drawing is made of.

use egui::text::LayoutJob;
use egui::{Align2, Color32, Painter, Pos2, Rect, Shape, Stroke, pos2, vec2};

use crate::widgets::Ink;

/// One scale for both directions: a millimeter is as long across as it is deep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    origin: Pos2,
    points_per_mm: f32,
}

impl Scale {
    /// Fits so many millimeters into a rectangle, the axis in its middle and depth 0 at `top_mm`
    /// from the upper edge of what is drawn.
    pub(super) fn fit(rect: Rect, [width_mm, height_mm]: [f32; 2], top_mm: f32) -> Self {
        let points_per_mm = (rect.width() / width_mm).min(rect.height() / height_mm);
        let height = points_per_mm * height_mm;
        let top = rect.top() + (rect.height() - height) / 2.0;
        Self {
            origin: pos2(rect.center().x, top + points_per_mm * top_mm),
            points_per_mm,
        }
    }

    /// Where a place lies: millimeters beside the axis and under the vertex.
    pub(super) fn at(&self, [beside_mm, depth_mm]: [f32; 2]) -> Pos2 {
        self.origin + vec2(beside_mm, depth_mm) * self.points_per_mm
    }

    /// How long a length is.
    pub(super) fn length(&self, mm: f32) -> f32 {
        mm * self.points_per_mm
    }

    /// A line through places.
    pub(super) fn line(&self, places: &[[f32; 2]]) -> Vec<Pos2> {
        places.iter().map(|place| self.at(*place)).collect()
    }
}

/// Text with its back filled, so that no line runs through it.
pub(super) struct Label {
    pub(super) at: Pos2,
    pub(super) anchor: Align2,
    pub(super) ink: Ink,
    /// What its back is filled with.
    pub(super) ground: Color32,
}

impl Label {
    pub(super) fn write(self, painter: &Painter, text: String) {
        let color = self.ink.color;
        let mut job = LayoutJob::simple(text, self.ink.font, color, f32::INFINITY);
        job.halign = self.anchor.x();
        let galley = painter.layout_job(job);
        // A line that is not aligned to the left has its zero elsewhere than at its left edge.
        let rect = self.anchor.anchor_size(self.at, galley.size());
        painter.rect_filled(rect.expand(1.0), 2.0, self.ground);
        let zero = rect.min - galley.rect.min.to_vec2();
        painter.galley(zero, galley, color);
    }
}

/// A length with a bar at each end.
pub(super) fn dimension(painter: &Painter, ends: [Pos2; 2], stroke: Stroke) {
    painter.line_segment(ends, stroke);
    let [from, to] = ends;
    let across = (to - from).normalized().rot90() * 4.0;
    for end in ends {
        painter.line_segment([end - across, end + across], stroke);
    }
}

pub(super) fn dashed(painter: &Painter, ends: [Pos2; 2], stroke: Stroke) {
    painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 200 × 100 points for 10 × 10 mm: ten points a millimeter, 50 points left over on either side.
    #[test]
    fn both_directions_have_one_scale() {
        let rect = Rect::from_min_size(pos2(0.0, 0.0), vec2(200.0, 100.0));
        let scale = Scale::fit(rect, [10.0, 10.0], 2.0);
        assert!(scale.at([0.0, 0.0]).distance(pos2(100.0, 20.0)) < 1e-3);
        assert!(scale.at([-5.0, 8.0]).distance(pos2(50.0, 100.0)) < 1e-3);
        assert!((scale.length(1.0) - 10.0).abs() < 1e-4);
    }
}
