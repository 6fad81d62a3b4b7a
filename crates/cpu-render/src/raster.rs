//! Filling triangles.

use egui::epaint::Vertex;
use egui::{Color32, Pos2, Rect, Vec2};

use crate::texture::Texture;

/// Steps of a pixel in which corners are placed.
const STEPS: f32 = 256.0;
/// The same as a whole number.
const STEP: i64 = 256;

/// The picture being drawn.
pub(crate) struct Target {
    width: i64,
    height: i64,
    pixels: Vec<Color32>,
    /// Left, top, right, bottom of what may be drawn now; right and bottom excluded.
    clip: [i64; 4],
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "pictures are thousands of pixels wide"
)]
fn whole(value: f32) -> i64 {
    value.round() as i64
}

#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "areas of a picture in 1/65536 of a pixel, used as shares"
)]
fn share(part: i64, whole: i64) -> f32 {
    (part as f64 / whole as f64) as f32
}

impl Target {
    pub(crate) fn new(size: Vec2) -> Self {
        let (width, height) = (whole(size.x).max(1), whole(size.y).max(1));
        let count = usize::try_from(width * height).unwrap_or_default();
        Self {
            width,
            height,
            pixels: vec![Color32::TRANSPARENT; count],
            clip: [0, 0, width, height],
        }
    }

    pub(crate) fn size(&self) -> (u32, u32) {
        let narrow = |length: i64| u32::try_from(length).unwrap_or_default();
        (narrow(self.width), narrow(self.height))
    }

    pub(crate) fn pixels(&self) -> &[Color32] {
        &self.pixels
    }

    pub(crate) fn clip(&mut self, rect: Rect, pixels_per_point: f32) {
        let at = |points: f32, last: i64| whole(points * pixels_per_point).clamp(0, last);
        self.clip = [
            at(rect.left(), self.width),
            at(rect.top(), self.height),
            at(rect.right(), self.width),
            at(rect.bottom(), self.height),
        ];
    }

    pub(crate) fn triangle(
        &mut self,
        [a, b, c]: [&Vertex; 3],
        texture: &Texture,
        pixels_per_point: f32,
    ) {
        let place = |vertex: &Vertex| {
            let at = vertex.pos * pixels_per_point * STEPS;
            (whole(at.x), whole(at.y))
        };
        let (pa, mut pb, mut pc) = (place(a), place(b), place(c));
        let (mut b, mut c) = (b, c);
        let mut area = cross(pa, pb, pc);
        if area == 0 {
            return;
        }
        if area < 0 {
            core::mem::swap(&mut pb, &mut pc);
            core::mem::swap(&mut b, &mut c);
            area = -area;
        }
        let step = STEP;
        let bound = |points: [i64; 3], [low, high]: [i64; 2]| {
            let [one, two, three] = points;
            let first = one.min(two).min(three).div_euclid(step).max(low);
            let last = (one.max(two).max(three).div_euclid(step) + 1).min(high);
            first..last
        };
        let [left, top, right, bottom] = self.clip;
        for y in bound([pa.1, pb.1, pc.1], [top, bottom]) {
            for x in bound([pa.0, pb.0, pc.0], [left, right]) {
                let point = (x * step + step / 2, y * step + step / 2);
                let weights = [(pb, pc), (pc, pa), (pa, pb)]
                    .map(|(from, to)| (cross(from, to, point), is_top_left(from, to)));
                let covered = weights
                    .iter()
                    .all(|(weight, owns_edge)| 0 < *weight || (*weight == 0 && *owns_edge));
                if covered {
                    let shares = weights.map(|(weight, _)| share(weight, area));
                    self.blend((x, y), fragment([a, b, c], shares, texture));
                }
            }
        }
    }

    fn blend(&mut self, (x, y): (i64, i64), source: [f32; 4]) {
        let Ok(index) = usize::try_from(y * self.width + x) else {
            return;
        };
        let Some(pixel) = self.pixels.get_mut(index) else {
            return;
        };
        let kept = 1.0 - source[3] / 255.0;
        let mut mixed = pixel.to_array();
        for (channel, source) in mixed.iter_mut().zip(source) {
            *channel = byte(source + f32::from(*channel) * kept);
        }
        let [red, green, blue, alpha] = mixed;
        *pixel = Color32::from_rgba_premultiplied(red, green, blue, alpha);
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte"
)]
fn byte(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

/// Color of a point inside the triangle: mixed vertex color times texture, channels 0 to 255.
fn fragment(corners: [&Vertex; 3], shares: [f32; 3], texture: &Texture) -> [f32; 4] {
    let mut color = [0.0; 4];
    let mut uv = Vec2::ZERO;
    for (vertex, share) in corners.iter().zip(shares) {
        uv += vertex.uv.to_vec2() * share;
        for (channel, of_vertex) in color.iter_mut().zip(vertex.color.to_array()) {
            *channel += f32::from(of_vertex) * share;
        }
    }
    let texel = texture.sample(Pos2::ZERO + uv);
    for (channel, texel) in color.iter_mut().zip(texel) {
        *channel *= texel / 255.0;
    }
    color
}

/// Twice the signed area of a triangle; positive when it turns clockwise on the screen.
fn cross(a: (i64, i64), b: (i64, i64), c: (i64, i64)) -> i64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// Whether pixels on the edge belong to this triangle: top and left edges own theirs, so that two
/// triangles side by side neither overlap nor leave a gap.
fn is_top_left(from: (i64, i64), to: (i64, i64)) -> bool {
    let goes_right_along_the_top = from.1 == to.1 && from.0 < to.0;
    let goes_up_along_the_left = to.1 < from.1;
    goes_right_along_the_top || goes_up_along_the_left
}

#[cfg(test)]
mod tests {
    use egui::{ColorImage, pos2, vec2};

    use super::*;

    fn vertex(x: f32, y: f32, color: Color32) -> Vertex {
        Vertex {
            pos: pos2(x, y),
            uv: pos2(0.5, 0.5),
            color,
        }
    }

    fn white() -> Texture {
        Texture::new(&ColorImage::filled([1, 1], Color32::WHITE))
    }

    /// A half-transparent square of two triangles is one even tone: no pixel is drawn twice along the
    /// diagonal, none is left out. 128 of 255 over nothing stays 128.
    #[test]
    fn triangles_side_by_side_cover_each_pixel_once() {
        let half = Color32::from_rgba_premultiplied(128, 128, 128, 128);
        let mut target = Target::new(vec2(8.0, 8.0));
        let corners = [(1.0, 1.0), (7.0, 1.0), (7.0, 7.0), (1.0, 7.0)];
        let [a, b, c, d] = corners.map(|(x, y)| vertex(x, y, half));
        target.triangle([&a, &b, &c], &white(), 1.0);
        target.triangle([&a, &c, &d], &white(), 1.0);
        let drawn = target.pixels().iter().filter(|pixel| **pixel == half);
        assert_eq!(drawn.count(), 36);
        let empty = target.pixels().iter().filter(|pixel| pixel.a() == 0);
        assert_eq!(empty.count(), 64 - 36);
    }

    #[test]
    fn what_is_clipped_is_not_drawn() {
        let mut target = Target::new(vec2(4.0, 4.0));
        target.clip(Rect::from_min_max(pos2(0.0, 0.0), pos2(2.0, 4.0)), 1.0);
        let corners = [(-9.0, -9.0), (40.0, -9.0), (-9.0, 40.0)];
        let [a, b, c] = corners.map(|(x, y)| vertex(x, y, Color32::RED));
        target.triangle([&a, &b, &c], &white(), 1.0);
        let red = target
            .pixels()
            .iter()
            .filter(|pixel| **pixel == Color32::RED);
        assert_eq!(red.count(), 8);
    }

    /// Half of 200 over 100 is 200·0.5 + 100·0.5 = 150, by hand.
    #[test]
    fn colors_blend_with_premultiplied_alpha() {
        let mut target = Target::new(vec2(1.0, 1.0));
        target.blend((0, 0), [100.0, 100.0, 100.0, 255.0]);
        target.blend((0, 0), [100.0, 100.0, 100.0, 127.5]);
        assert_eq!(target.pixels()[0].to_array(), [150, 150, 150, 255]);
    }
}
