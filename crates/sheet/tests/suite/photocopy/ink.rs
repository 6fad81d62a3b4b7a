//! Black and white pictures, 64 pixels at a time, and how well one fits another.

use image::GrayImage;

use super::copier::between;

#[derive(Clone)]
pub(super) struct Ink {
    pub(super) width: usize,
    pub(super) height: usize,
    /// Pixels from the left, lowest bit first; one word more than the row needs.
    rows: Vec<Vec<u64>>,
}

impl Ink {
    /// Of a page, at one pixel for each square of so many.
    pub(super) fn of(page: &GrayImage, square: usize) -> Self {
        let (width, height) = (
            page.width() as usize / square,
            page.height() as usize / square,
        );
        let raw = page.as_raw();
        Self::from_fn([width, height], |x, y| {
            let mut sum = 0;
            for row in y * square..(y + 1) * square {
                let start = row * page.width() as usize + x * square;
                sum += raw[start..start + square]
                    .iter()
                    .map(|gray| usize::from(*gray))
                    .sum::<usize>();
            }
            sum < 128 * square * square
        })
    }

    /// Of a word, made smaller and turned about its middle as the page is thought to be.
    pub(super) fn of_word(word: &GrayImage, scale: f32, turn_degrees: f32) -> Self {
        let (sine, cosine) = turn_degrees.to_radians().sin_cos();
        let size = [word.width() as f32, word.height() as f32];
        let [width, height] = size.map(|length| (length * scale) as usize);
        Self::from_fn([width, height], |x, y| {
            let x = (x as f32 + 0.5) / scale - size[0] / 2.0;
            let y = (y as f32 + 0.5) / scale - size[1] / 2.0;
            let from = [cosine * x + sine * y, cosine * y - sine * x];
            let at = [from[0] + size[0] / 2.0 - 0.5, from[1] + size[1] / 2.0 - 0.5];
            between(word, at) < 128.0
        })
    }

    fn from_fn([width, height]: [usize; 2], black: impl Fn(usize, usize) -> bool) -> Self {
        let rows = (0..height)
            .map(|y| {
                let mut row = vec![0; width / 64 + 2];
                for x in (0..width).filter(|x| black(*x, y)) {
                    row[x / 64] |= 1 << (x % 64);
                }
                row
            })
            .collect();
        Self {
            width,
            height,
            rows,
        }
    }

    /// Correlation of a word with what stands here, with this as its upper left corner: 1 if every
    /// pixel is the same, 0 if neither tells anything of the other.
    pub(super) fn fit(&self, word: &Self, [x, y]: [usize; 2]) -> f64 {
        let (mut both, mut here, mut there) = (0_u32, 0_u32, 0_u32);
        for (own, row) in word.rows.iter().zip(&self.rows[y..]) {
            for (index, bits) in own.iter().take(word.width.div_ceil(64)).enumerate() {
                let used = (word.width - 64 * index).min(64);
                let mask = if used == 64 {
                    u64::MAX
                } else {
                    (1 << used) - 1
                };
                let at = x + 64 * index;
                let (first, shift) = (at / 64, at % 64);
                let next = if shift == 0 {
                    0
                } else {
                    row[first + 1] << (64 - shift)
                };
                let seen = ((row[first] >> shift) | next) & mask;
                both += (seen & bits).count_ones();
                here += seen.count_ones();
                there += bits.count_ones();
            }
        }
        let all = (word.width * word.height) as f64;
        let [both, here, there] = [both, here, there].map(f64::from);
        let spread = (here * (all - here) * there * (all - there)).sqrt();
        if spread == 0.0 {
            0.0
        } else {
            (all * both - here * there) / spread
        }
    }
}
