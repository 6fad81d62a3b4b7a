//! The cuts of a division, as they are counted: in the section of the nucleus those between rings and layers
//! and the axis where the sectors meet, and from the front those between sectors and rings.

use core::f64::consts::TAU;

use egui::{Stroke, vec2};
use millrace_core::chamber::Division;
use millrace_core::quantity::math;

use super::geometry::single;
use super::{Canvas, ChamberFigure, Shown};
use crate::theme::measures;

/// Radius of the nucleus seen from the front, points.
const FRONT: f32 = 18.0;

/// Radii of the cuts between rings, as shares of that of the nucleus.
fn between_rings(division: Division) -> impl Iterator<Item = f32> {
    let rings = f32::from(division.rings);
    (1..division.rings).map(move |ring| f32::from(ring) / rings)
}

/// Directions of the cuts between sectors, each from the axis outward, one to the right.
fn between_sectors(division: Division) -> impl Iterator<Item = [f32; 2]> {
    let step = TAU / f64::from(division.sectors);
    (0..division.sectors).map(move |sector| {
        let angle = step * f64::from(sector);
        [single(math::cos(angle)), single(math::sin(angle))]
    })
}

/// In the section along a cut between sectors: the axis, each ring on both sides, and the equator where
/// there are two layers. Millimeters from the middle of the nucleus.
fn in_section(division: Division, [across, along]: [f32; 2]) -> Vec<[[f32; 2]; 2]> {
    let upright = |share: f32| {
        let height = along * (1.0 - share * share).max(0.0).sqrt();
        [-height, height].map(|depth| [across * share, depth])
    };
    let mut cuts = vec![upright(0.0)];
    for share in between_rings(division) {
        cuts.extend([upright(-share), upright(share)]);
    }
    if 1 < division.layers {
        cuts.push([[-across, 0.0], [across, 0.0]]);
    }
    cuts
}

impl ChamberFigure<'_> {
    /// Whether the nucleus is drawn with its cuts.
    pub fn has_cuts(&self) -> bool {
        self.division().is_some() && self.nucleus.is_some() && self.section.lens_back.is_some()
    }

    fn division(&self) -> Option<Division> {
        match self.shown? {
            Shown::Piece { near, .. } => Some(near.division),
            Shown::Whole { .. } => None,
        }
    }

    /// In the nucleus, and in the lower right corner from the front.
    pub(super) fn paint_cuts(&self, canvas: &Canvas<'_>, center: [f32; 2], half_axes: [f32; 2]) {
        let Some(division) = self.division() else {
            return;
        };
        let (painter, palette) = (canvas.painter, canvas.palette);
        let thin = Stroke::new(measures::OUTLINE, palette.review);
        for cut in in_section(division, half_axes) {
            let ends = cut.map(|[x, depth]| canvas.scale.at([center[0] + x, center[1] + depth]));
            painter.line_segment(ends, thin);
        }
        let corner = vec2(FRONT + measures::NEAR, FRONT + measures::NEAR);
        let middle = canvas.rect.right_bottom() - corner;
        let edge = Stroke::new(1.5, palette.review);
        painter.circle(middle, FRONT, palette.review_wash, edge);
        for share in between_rings(division) {
            painter.circle_stroke(middle, FRONT * share, thin);
        }
        for [x, y] in between_sectors(division) {
            painter.line_segment([middle, middle + vec2(x, y) * FRONT], thin);
        }
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::chamber::DIVISIONS;

    use super::*;

    /// Fields between the cuts from the front, times layers between those in the section: the numbers of the table.
    #[test]
    fn what_is_drawn_is_what_is_counted() {
        let drawn = DIVISIONS.map(|division| {
            let in_front =
                between_sectors(division).count() * (between_rings(division).count() + 1);
            let across = in_section(division, [4.0, 2.0]);
            let equators = across
                .iter()
                .filter(|[from, to]| (from[1] - to[1]).abs() < 1e-6)
                .count();
            in_front * (equators + 1)
        });
        assert_eq!(drawn, [4, 6, 8, 12, 16, 24, 32]);
    }

    /// By hand, a nucleus of 9.0 × 4.2 mm in 8 sectors and 3 rings: cuts at 1.5 and 3.0 mm, where the surface
    /// stands 2.1·√(8/9) = 1.980 and 2.1·√(5/9) = 1.565 mm off the equator; none between layers.
    #[test]
    fn rings_are_cut_at_equal_steps_up_to_the_surface() {
        let division = Division::with_pieces(24).unwrap();
        let cuts = in_section(division, [4.5, 2.1]);
        let expected = [
            (0.0, 2.1),
            (-1.5, 1.980),
            (1.5, 1.980),
            (-3.0, 1.565),
            (3.0, 1.565),
        ];
        assert_eq!(cuts.len(), expected.len());
        for ([from, to], (x, height)) in cuts.into_iter().zip(expected) {
            for (found, by_hand) in [
                (from[0], x),
                (to[0], x),
                (from[1], -height),
                (to[1], height),
            ] {
                assert!((found - by_hand).abs() < 1e-3, "{found} {by_hand}");
            }
        }
    }

    /// Quarters meet at right angles.
    #[test]
    fn sectors_are_cut_at_equal_angles() {
        let division = Division::with_pieces(4).unwrap();
        let expected = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]];
        for (found, by_hand) in between_sectors(division).zip(expected) {
            for (found, by_hand) in found.into_iter().zip(by_hand) {
                assert!((found - by_hand).abs() < 1e-6_f32, "{found} {by_hand}");
            }
        }
        assert_eq!(between_sectors(division).count(), 4);
    }
}
