//! A bad photocopier.

use image::{GrayImage, Luma};

use crate::support::noise::Noise;

/// What it does to a page.
pub(super) struct Copier {
    pub(super) scale: f32,
    /// Clockwise.
    pub(super) turn_degrees: f32,
    /// Right and down, in pixels.
    pub(super) shift: [f32; 2],
    /// How often it blurs by a pixel or so.
    pub(super) blurs: usize,
    /// Standard deviation of the noise, of 255.
    pub(super) noise: f32,
    /// What is darker becomes black, everything else white.
    pub(super) black_below: f32,
    pub(super) seed: u64,
}

impl Copier {
    pub(super) fn copy(&self, page: &GrayImage) -> GrayImage {
        let mut picture = self.laid_askew(page);
        for _ in 0..self.blurs {
            picture = blurred(&picture);
        }
        let mut noise = Noise::new(self.seed);
        for Luma([gray]) in picture.pixels_mut() {
            let seen = f32::from(*gray) + self.noise * noise.normal();
            *gray = if seen < self.black_below { 0 } else { 255 };
        }
        picture
    }

    fn laid_askew(&self, page: &GrayImage) -> GrayImage {
        let middle = [page.width() as f32 / 2.0, page.height() as f32 / 2.0];
        let (sine, cosine) = self.turn_degrees.to_radians().sin_cos();
        GrayImage::from_fn(page.width(), page.height(), |x, y| {
            let x = (x as f32 - middle[0] - self.shift[0]) / self.scale;
            let y = (y as f32 - middle[1] - self.shift[1]) / self.scale;
            let from = [cosine * x + sine * y, cosine * y - sine * x];
            Luma([between(page, [from[0] + middle[0], from[1] + middle[1]]) as u8])
        })
    }
}

/// Gray between pixels; white beside the page.
pub(super) fn between(page: &GrayImage, [x, y]: [f32; 2]) -> f32 {
    let gray = |x: f32, y: f32| {
        let inside = 0.0 <= x && x < page.width() as f32 && 0.0 <= y && y < page.height() as f32;
        if inside {
            f32::from(page.get_pixel(x as u32, y as u32).0[0])
        } else {
            255.0
        }
    };
    let (left, top) = (x.floor(), y.floor());
    let (right, down) = (x - left, y - top);
    let upper = gray(left, top) * (1.0 - right) + gray(left + 1.0, top) * right;
    let lower = gray(left, top + 1.0) * (1.0 - right) + gray(left + 1.0, top + 1.0) * right;
    upper * (1.0 - down) + lower * down
}

/// Each pixel a mean of itself and its neighbors, by 1, 2, 1 along and across.
fn blurred(picture: &GrayImage) -> GrayImage {
    let along = |picture: &GrayImage, [dx, dy]: [u32; 2]| {
        let (width, height) = picture.dimensions();
        GrayImage::from_fn(width, height, |x, y| {
            let gray = |x: u32, y: u32| u16::from(picture.get_pixel(x, y).0[0]);
            let before = gray(x.saturating_sub(dx), y.saturating_sub(dy));
            let after = gray((x + dx).min(width - 1), (y + dy).min(height - 1));
            Luma([((before + 2 * gray(x, y) + after) / 4) as u8])
        })
    };
    along(&along(picture, [1, 0]), [0, 1])
}
