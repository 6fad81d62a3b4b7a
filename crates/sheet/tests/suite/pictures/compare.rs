//! Pictures of pages, beside those that were looked at and accepted.
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixels of one page"
)]

use std::path::{Path, PathBuf};

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, GrayImage, ImageEncoder as _, Luma};
use millrace_sheet::Sheet;

/// Pixels per point.
const SCALE: f32 = 1.0;
/// Grays of a picture are those of a file of four bits: it packs to half.
const STEP: f64 = 17.0;
/// A pixel that no rounding of an outline makes so different.
const CLEAR: u8 = 85;
/// So many of those pass. The upright stroke of a printed plus of the lens power has five times as many.
const CLEAR_PIXELS: usize = 8;
/// Mean difference that passes, of 255: one step of gray on every hundredth pixel.
const MEAN: f64 = 0.17;

/// What is done where a picture differs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mode {
    Compare,
    Renew,
}

impl Mode {
    /// Renewed on demand only, by the variable that renews those of the desk.
    pub(super) fn asked_for() -> Self {
        let asked = std::env::var("UPDATE_SNAPSHOTS").unwrap_or_default();
        if ["1", "true", "force"].contains(&asked.as_str()) {
            Self::Renew
        } else {
            Self::Compare
        }
    }
}

/// Where the pictures are kept.
pub(super) fn kept() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots")
}

/// Every page, small, in few grays.
pub(super) fn pictures(sheet: &Sheet) -> Vec<GrayImage> {
    sheet
        .pages(SCALE)
        .iter()
        .map(|page| {
            let mut picture = crate::support::gray(page);
            for Luma([gray]) in picture.pixels_mut() {
                *gray = ((f64::from(*gray) / STEP).round() * STEP) as u8;
            }
            picture
        })
        .collect()
}

/// Compares every page with its picture, and says what differs: a page, one too many, one too few.
pub(super) fn check(
    name: &str,
    pages: &[GrayImage],
    (directory, mode): (&Path, Mode),
) -> Vec<String> {
    let file = |number: usize, end: &str| directory.join(format!("{name}-{number}{end}.png"));
    let mut found = Vec::new();
    for (index, page) in pages.iter().enumerate() {
        let number = index + 1;
        let Err(why) = page_differs(page, &file(number, "")) else {
            continue;
        };
        if mode == Mode::Renew {
            save(page, &file(number, ""));
            continue;
        }
        save(page, &file(number, ".new"));
        found.push(format!("{name}, page {number}: {why}"));
    }
    let beyond = file(pages.len() + 1, "");
    if mode == Mode::Renew && beyond.exists() {
        std::fs::remove_file(&beyond).unwrap();
    }
    if beyond.exists() {
        found.push(format!(
            "{name}: a picture of page {} is kept, and the sheet ends before",
            pages.len() + 1
        ));
    }
    found
}

/// Packed as small as it goes; few grays pack best unfiltered.
fn save(page: &GrayImage, path: &Path) {
    let mut file = Vec::new();
    PngEncoder::new_with_quality(&mut file, CompressionType::Best, FilterType::NoFilter)
        .write_image(page, page.width(), page.height(), ExtendedColorType::L8)
        .unwrap();
    std::fs::write(path, file).unwrap();
}

fn page_differs(page: &GrayImage, kept: &Path) -> Result<(), String> {
    if !kept.exists() {
        return Err(format!("no picture is kept at {}", kept.display()));
    }
    let kept = image::open(kept).map_err(|error| error.to_string())?;
    differ(page, &kept.to_luma8())
}

/// What differs more than the rounding of an outline may.
pub(super) fn differ(page: &GrayImage, kept: &GrayImage) -> Result<(), String> {
    if page.dimensions() != kept.dimensions() {
        return Err(format!(
            "{:?} pixels instead of {:?}",
            page.dimensions(),
            kept.dimensions()
        ));
    }
    let (mut sum, mut clear, mut first) = (0.0, 0, None);
    for ((x, y, Luma([one])), Luma([other])) in page.enumerate_pixels().zip(kept.pixels()) {
        let difference = one.abs_diff(*other);
        sum += f64::from(difference);
        if CLEAR < difference {
            clear += 1;
            first.get_or_insert((x, y));
        }
    }
    let mean = sum / f64::from(page.width() * page.height());
    if clear <= CLEAR_PIXELS && mean <= MEAN {
        return Ok(());
    }
    Err(format!(
        "{clear} pixels clearly differ ({CLEAR_PIXELS} may), the first at {first:?}; the mean difference is \
         {mean:.3} ({MEAN} may be)"
    ))
}
