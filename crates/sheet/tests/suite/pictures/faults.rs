//! The comparison itself: what it must refuse, and what it must let pass.
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixels of one page"
)]

use image::{GrayImage, Luma};

use super::compare::{Mode, check, differ, pictures};
use crate::support::noise::Noise;
use crate::support::{case, sheet, signed};

const PAPER: Luma<u8> = Luma([255]);

struct Page {
    picture: GrayImage,
    /// Left, top, right and bottom of the lens power in pixels; the picture has one pixel per point.
    power: [u32; 4],
    eye: [u32; 4],
    /// Of the last line of the foot, whose letters are small.
    foot: [u32; 4],
}

fn page() -> Page {
    let plan = signed(&case("ordinary-eye")).unwrap();
    let sheet = sheet(&plan);
    let power = plan.draft().lens.power().unwrap().to_string();
    let texts = sheet.texts();
    let bounds = |found: Option<&millrace_sheet::PlacedText>| {
        let [left, top, right, bottom] = found.unwrap().bounds;
        [left.floor(), top.floor(), right.ceil(), bottom.ceil()].map(|at| at as u32)
    };
    Page {
        picture: pictures(&sheet).remove(0),
        power: bounds(
            texts
                .iter()
                .find(|text| power.starts_with(&text.text) && 30.0 < text.size),
        ),
        eye: bounds(texts.iter().find(|text| 40.0 < text.size)),
        foot: bounds(
            texts
                .iter()
                .find(|text| text.text.contains("Not a certified")),
        ),
    }
}

fn painted_over(picture: &GrayImage, [left, top, right, bottom]: [u32; 4]) -> GrayImage {
    let mut picture = picture.clone();
    for y in top..bottom {
        for x in left..right {
            picture.put_pixel(x, y, PAPER);
        }
    }
    picture
}

fn moved(
    picture: &GrayImage,
    [left, top, right, bottom]: [u32; 4],
    (dx, dy): (u32, u32),
) -> GrayImage {
    let mut moved = painted_over(picture, [left, top, right, bottom]);
    for y in top..bottom {
        for x in left..right {
            moved.put_pixel(x + dx, y + dy, *picture.get_pixel(x, y));
        }
    }
    moved
}

#[test]
fn a_missing_or_moved_part_is_refused() {
    let Page {
        picture,
        power,
        eye,
        foot,
    } = page();
    assert_eq!(differ(&picture, &picture), Ok(()));
    let [left, top, right, bottom] = power;
    let (width, height) = picture.dimensions();
    // The plus is the first fifth or so of the number; its middle rows are what a minus has.
    let plus = left + (right - left) / 5;
    let upright = |from: u32, to: u32| [left, from, plus, to];
    let middle = u32::midpoint(top, bottom);
    let minus = painted_over(&picture, upright(top, middle - 4));
    let minus = painted_over(&minus, upright(middle + 7, bottom));
    let faults = [
        ("the power painted over", painted_over(&picture, power)),
        ("a minus instead of the plus", minus),
        ("the eye painted over", painted_over(&picture, eye)),
        (
            "the small caution painted over",
            painted_over(&picture, foot),
        ),
        ("the power a point lower", moved(&picture, power, (0, 1))),
        (
            "the small caution two points to the right",
            moved(&picture, foot, (2, 0)),
        ),
        (
            "the lower half a point lower",
            moved(&picture, [0, height / 2, width, height - 1], (0, 1)),
        ),
        ("a gray page", {
            let mut gray = picture.clone();
            gray.pixels_mut()
                .for_each(|Luma([gray])| *gray = (*gray).min(238));
            gray
        }),
        (
            "a page cut off",
            image::imageops::crop_imm(&picture, 0, 0, width, height - 1).to_image(),
        ),
    ];
    for (what, fault) in faults {
        assert!(differ(&fault, &picture).is_err(), "{what} passes");
        assert!(
            differ(&picture, &fault).is_err(),
            "{what} passes the other way"
        );
    }
}

/// One step of gray on every two hundredth pixel, and three pixels that another machine set otherwise.
#[test]
fn rounding_of_outlines_passes() {
    let picture = page().picture;
    let mut rounded = picture.clone();
    let mut noise = Noise::new(41);
    let mut changed = 0;
    for Luma([gray]) in rounded.pixels_mut() {
        if noise.unit() < 0.005 {
            *gray = if *gray < 128 { *gray + 17 } else { *gray - 17 };
            changed += 1;
        }
    }
    for x in [100, 200, 300] {
        let Luma([gray]) = rounded.get_pixel_mut(x, 100);
        *gray = 255 - *gray;
    }
    assert!(2_000 < changed, "{changed}");
    assert_eq!(differ(&rounded, &picture), Ok(()));
}

/// In a directory of its own, so that nothing that is kept is touched.
#[test]
fn a_page_without_a_picture_and_a_picture_without_a_page_are_refused() {
    let directory = std::env::temp_dir().join(format!("millrace-pictures-{}", std::process::id()));
    std::fs::create_dir(&directory).unwrap();
    let page = GrayImage::from_pixel(40, 40, PAPER);
    let two = [page.clone(), page.clone()];
    let there = |mode| (directory.as_path(), mode);

    let missing = check("x", &two, there(Mode::Compare));
    assert_eq!(missing.len(), 2, "{missing:?}");
    assert!(
        missing[0].starts_with("x, page 1: no picture is kept at "),
        "{missing:?}"
    );
    // Missing still: what was drawn lies there under another name.
    assert_eq!(check("x", &two, there(Mode::Compare)), missing);

    assert_eq!(check("x", &two, there(Mode::Renew)), Vec::<String>::new());
    assert_eq!(check("x", &two, there(Mode::Compare)), Vec::<String>::new());
    assert_eq!(
        check("x", &two[..1], there(Mode::Compare)),
        ["x: a picture of page 2 is kept, and the sheet ends before"]
    );
    std::fs::write(directory.join("x-1.png"), b"no picture").unwrap();
    assert_eq!(check("x", &two, there(Mode::Compare)).len(), 1);
    std::fs::remove_dir_all(&directory).unwrap();
}
