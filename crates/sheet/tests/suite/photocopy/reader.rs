//! Reads a bad copy as a person does who knows what could stand there: which of several words, set
//! on other sheets, fits best, and whether it is plainly the best.

use image::GrayImage;
use millrace_sheet::{PlacedText, Sheet};

use super::ink::Ink;

/// Pixels per point at 150 dpi.
pub(super) const SCALE: f32 = 150.0 / 72.0;
/// Pixels along each side that are one when the place is looked for.
const COARSE: usize = 4;
/// What fits less is not read at all.
const FITS: f64 = 0.6;
/// What is left that does not fit must be less than this part of what is left with any other word. A
/// plus and a minus before the same number differ in a fourteenth of their ink; they leave 0.77.
const PLAINLY: f64 = 0.85;

/// What is read.
#[derive(Clone, Copy, Debug)]
pub(super) enum Part {
    Eye,
    Name,
    Power,
}

impl Part {
    /// Where on the page a person looks for it: left, top, right and bottom in points.
    const fn place(self) -> [f32; 4] {
        match self {
            Self::Eye | Self::Name => [0.0, 0.0, 612.0, 135.0],
            Self::Power => [0.0, 60.0, 360.0, 250.0],
        }
    }

    fn is(self, text: &PlacedText) -> bool {
        let [_, top, ..] = text.bounds;
        text.page == 0
            && match self {
                Self::Eye => 40.0 < text.size,
                Self::Power => 30.0 < text.size && text.size < 40.0,
                // No other letters of the head are as large, and no smaller than 17 points.
                Self::Name => 16.5 < text.size && text.size < 23.0 && top < 100.0,
            }
    }

    /// The same part of another sheet, with the white around it: a longer word does not pass for
    /// the shorter one it begins with.
    pub(super) fn cut(self, sheet: &Sheet, page: &GrayImage) -> GrayImage {
        let texts = sheet.texts();
        let [left, top, right, bottom] = texts
            .iter()
            .filter(|text| self.is(text))
            .map(|text| text.bounds)
            .reduce(|one, other| {
                [
                    one[0].min(other[0]),
                    one[1].min(other[1]),
                    one[2].max(other[2]),
                    one[3].max(other[3]),
                ]
            })
            .unwrap();
        // The frame of the eye is farther away, and no other line comes in.
        let white = [6.0, 1.5];
        let pixels = |points: f64| (points * f64::from(SCALE)) as u32;
        let (x, y) = (pixels(left - white[0]), pixels(top - white[1]));
        let width = pixels(right + white[0]) - x;
        let height = pixels(bottom + white[1]) - y;
        image::imageops::crop_imm(page, x, y, width, height).to_image()
    }
}

/// How a page lies on the copy, as far as it was found out.
#[derive(Clone, Copy, Debug)]
struct Laid {
    scale: f32,
    turn_degrees: f32,
    at: [usize; 2],
    fit: f64,
}

/// A copy to read.
pub(super) struct Copy {
    fine: Ink,
    coarse: Ink,
}

impl Copy {
    pub(super) fn new(page: &GrayImage) -> Self {
        Self {
            fine: Ink::of(page, 1),
            coarse: Ink::of(page, COARSE),
        }
    }

    /// How well each word fits where it fits best.
    pub(super) fn fits(&self, part: Part, words: &[GrayImage]) -> Vec<f64> {
        words.iter().map(|word| self.best(part, word)).collect()
    }

    fn best(&self, part: Part, word: &GrayImage) -> f64 {
        let ends = part
            .place()
            .map(|points| (points * SCALE) as usize / COARSE);
        let right = ends[2].min(self.coarse.width);
        let bottom = ends[3].min(self.coarse.height);
        let mut best: Option<Laid> = None;
        for scale in [0.90, 0.93, 0.96, 0.99] {
            for turn_degrees in [-1.5, -0.5, 0.5, 1.5] {
                let small = Ink::of_word(word, scale / COARSE as f32, turn_degrees);
                for y in ends[1]..(bottom + 1).saturating_sub(small.height) {
                    for x in ends[0]..(right + 1).saturating_sub(small.width) {
                        let fit = self.coarse.fit(&small, [x, y]);
                        if best.is_none_or(|best| best.fit < fit) {
                            best = Some(Laid {
                                scale,
                                turn_degrees,
                                at: [x * COARSE, y * COARSE],
                                fit,
                            });
                        }
                    }
                }
            }
        }
        self.refined(word, best.unwrap())
    }

    fn refined(&self, word: &GrayImage, about: Laid) -> f64 {
        let mut best = 0.0_f64;
        for scale in [-0.02, -0.01, 0.0, 0.01, 0.02].map(|by| about.scale + by) {
            for turn in [-0.5, -0.25, 0.0, 0.25, 0.5].map(|by| about.turn_degrees + by) {
                let word = Ink::of_word(word, scale, turn);
                let [x, y] = about.at;
                for y in y.saturating_sub(2 * COARSE)..=y + 2 * COARSE {
                    for x in x.saturating_sub(2 * COARSE)..=x + 2 * COARSE {
                        if x + word.width <= self.fine.width && y + word.height <= self.fine.height
                        {
                            best = best.max(self.fine.fit(&word, [x, y]));
                        }
                    }
                }
            }
        }
        best
    }
}

/// The best, if it fits at all and plainly better than the next.
pub(super) fn told(fits: &[f64]) -> Option<usize> {
    let mut order: Vec<usize> = (0..fits.len()).collect();
    order.sort_by(|one, other| fits[*other].total_cmp(&fits[*one]));
    let [best, next, ..] = order[..] else {
        return None;
    };
    let left = [best, next].map(|index| 1.0 - fits[index]);
    (FITS <= fits[best] && left[0] <= PLAINLY * left[1]).then_some(best)
}
