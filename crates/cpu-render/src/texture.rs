//! Textures: premultiplied colors, sampled between four texels.

use egui::{Color32, ColorImage, Pos2};

pub(crate) struct Texture {
    width: usize,
    height: usize,
    texels: Vec<Color32>,
}

impl Texture {
    pub(crate) fn new(image: &ColorImage) -> Self {
        let [width, height] = image.size;
        Self {
            width,
            height,
            texels: image.pixels.clone(),
        }
    }

    pub(crate) fn patch(&mut self, [left, top]: [usize; 2], image: &ColorImage) {
        let [width, _] = image.size;
        for (row, pixels) in image.pixels.chunks_exact(width).enumerate() {
            let start = (top + row) * self.width + left;
            if let Some(target) = self.texels.get_mut(start..start + width) {
                target.copy_from_slice(pixels);
            }
        }
    }

    fn texel(&self, x: i64, y: i64) -> [f32; 4] {
        let within = |at: i64, length: usize| {
            let last = i64::try_from(length).unwrap_or(i64::MAX) - 1;
            usize::try_from(at.clamp(0, last)).unwrap_or_default()
        };
        let index = within(y, self.height) * self.width + within(x, self.width);
        let color = self.texels.get(index).copied().unwrap_or_default();
        color.to_array().map(f32::from)
    }

    /// Color at `uv` (0 to 1), each channel 0 to 255.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        reason = "textures are thousands of texels wide"
    )]
    pub(crate) fn sample(&self, uv: Pos2) -> [f32; 4] {
        let x = uv.x * self.width as f32 - 0.5;
        let y = uv.y * self.height as f32 - 0.5;
        let (left, top) = (x.floor(), y.floor());
        let (right_share, bottom_share) = (x - left, y - top);
        let (left, top) = (left as i64, top as i64);
        let mix = |one: [f32; 4], other: [f32; 4], share: f32| {
            let mut mixed = one;
            for (channel, other) in mixed.iter_mut().zip(other) {
                *channel += (other - *channel) * share;
            }
            mixed
        };
        let upper = mix(
            self.texel(left, top),
            self.texel(left + 1, top),
            right_share,
        );
        let lower = mix(
            self.texel(left, top + 1),
            self.texel(left + 1, top + 1),
            right_share,
        );
        mix(upper, lower, bottom_share)
    }
}
