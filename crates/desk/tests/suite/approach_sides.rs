//! What speaks for each side stands side by side where there is room, what is said of pieces is what is counted, and
//! nothing written in a drawing is cut off.

use crate::support::{Bench, HARD_AND_SHALLOW, demo, harness, light, settings};
use egui::accesskit::Role;
use egui::{Rect, Shape};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _, by};
use millrace_core::biometry::Side;
use millrace_core::case::{Approach, Draft};
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;
use millrace_wording::Words;

const HARD_JUST_ABOVE: &str =
    include_str!("../../../../demo-data/cases/hard-just-above-the-limit.ron");
const WIDE: [f32; 2] = [1440.0, 3200.0];
const NARROW: [f32; 2] = [1000.0, 5200.0];

fn on_page(draft: Draft, settings: Settings, size: [f32; 2]) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], settings);
    bench.open(0);
    bench.desk.show_page(Page::Approach);
    harness(bench, size)
}

fn phaco() -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.approach.approach = Some(Approach::Phacoemulsification);
    draft.approach.pieces = Some(4);
    draft
}

const PHACO: &str = "In favor of phacoemulsification";
const SMALL_INCISION: &str = "In favor of manual small-incision surgery (SICS)";

fn heading(harness: &Harness<'_, Bench>, name: &str) -> Rect {
    harness.get(by().role(Role::Heading).label(name)).rect()
}

/// Two columns in a wide middle, phacoemulsification on the left; one under the other in a narrow one and with
/// text of twice the size; what shows no difference under both.
#[test]
fn either_side_stands_beside_the_other_where_there_is_room() {
    let twice = settings(ThemeChoice::Light, 200);
    for (settings, size, beside) in [
        (light(), WIDE, true),
        (light(), NARROW, false),
        (twice, [550.0, 5200.0], false),
    ] {
        let harness = on_page(demo(HARD_JUST_ABOVE), settings, size);
        let (left, right) = (heading(&harness, PHACO), heading(&harness, SMALL_INCISION));
        let below = heading(&harness, "In favor of neither");
        if beside {
            assert!((left.top() - right.top()).abs() < 1.0, "{left} {right}");
            assert!(left.right() < right.left(), "{left} {right}");
        } else {
            assert!(left.bottom() < right.top(), "{left} {right}");
            assert!((left.left() - right.left()).abs() < 1.0, "{left} {right}");
        }
        assert!(right.bottom() < below.top() && left.bottom() < below.top());
    }
}

/// Everything a screen reader is told in its order.
fn told(harness: &Harness<'_, Bench>) -> Vec<String> {
    let labels =
        harness.get_all(by().predicate(|node| matches!(node.role(), Role::Label | Role::Heading)));
    labels
        .filter_map(|node| {
            let node = node.accesskit_node();
            node.label().or_else(|| node.value())
        })
        .map(|text| text.replace('\u{a0}', " "))
        .collect()
}

/// One side whole, then the other, although they stand side by side; of each, this eye's findings come before what
/// was published, each in one line with what was measured and its limit.
#[test]
fn one_side_is_read_whole_before_the_other() {
    let harness = on_page(demo(HARD_JUST_ABOVE), light(), WIDE);
    let told = told(&harness);
    let place = |text: &str| {
        let found = told.iter().rposition(|said| said == text);
        found.unwrap_or_else(|| panic!("{text}: {told:#?}"))
    };
    let (left, right) = (place(PHACO), place(SMALL_INCISION));
    let end = place("In favor of neither");
    assert!(left < right && right < end, "{left} {right} {end}");
    let of_phaco = &told[left..right];
    let line = "Deep enough to divide a hard nucleus  2.90 mm from the epithelium (limit: at least 2.80 mm \
                from the epithelium)";
    let first = |text: &str| of_phaco.iter().position(|said| said == text);
    let (eye, finding) = (first("This eye"), first(line));
    assert_eq!(eye, Some(1), "{of_phaco:#?}");
    assert_eq!(finding, Some(2), "{of_phaco:#?}");
    let published = of_phaco
        .iter()
        .position(|said| said.starts_with("Published"));
    assert!(finding < published, "{of_phaco:#?}");
    let of_sics = &told[right..end];
    assert_eq!(of_sics[1], "No finding of this eye");
    assert!(of_sics.iter().any(|said| said.starts_with("Published")));
}

/// The table, the line over it, the caption and the picture say quarters, sectors, rings and layers.
#[test]
fn pieces_are_said_in_words_wherever_they_are_chosen() {
    let harness = on_page(phaco(), light(), WIDE);
    harness.get_by_label("4 quarters are chosen");
    harness.get_by_label_contains("4 quarters, chosen, in the pupil plane");
    harness.get_by_label_contains("limit 2.80 mm from the epithelium. Dilated");
    harness.get(
        by().role(Role::Image)
            .label_contains("4 quarters in the pupil plane"),
    );
    for row in [
        "4 pieces, 4 quarters, on average",
        "6 pieces, 6 sectors, on average",
        "8 pieces, 8 sectors, on average",
        "12 pieces, 6 sectors in 2 rings, on average",
        "16 pieces, 8 sectors in 2 rings, on average",
        "24 pieces, 8 sectors in 3 rings, on average",
        "32 pieces, 8 sectors in 2 rings and 2 layers, on average",
    ] {
        harness.get(by().role(Role::RadioButton).label_contains(row));
    }
    harness.get_by_label_contains("Thin lines in the nucleus: its cuts");
}

/// Nothing is divided, so no cut is spoken of.
#[test]
fn a_nucleus_delivered_whole_has_no_cuts() {
    let harness = on_page(demo(HARD_AND_SHALLOW), light(), WIDE);
    assert!(
        harness
            .query_by_label_contains("Thin lines in the nucleus")
            .is_none()
    );
}

/// What is written within a picture, and where, with what it is clipped to.
fn written(harness: &Harness<'_, Bench>, picture: Rect) -> Vec<(String, Rect, Rect)> {
    let mut texts = Vec::new();
    for clipped in &harness.output().shapes {
        if let Shape::Text(text) = &clipped.shape {
            let rect = clipped.shape.visual_bounding_rect();
            if picture.contains(rect.center()) {
                let said = text.galley.text().to_owned();
                texts.push((said, rect, clipped.clip_rect.intersect(picture)));
            }
        }
    }
    texts
}

/// Pictures of the chamber and of the margins, in a wide and a narrow window, with text of twice the size, and in a
/// language of longer words.
#[test]
fn no_label_of_a_drawing_is_cut_off() {
    let twice = settings(ThemeChoice::Light, 200);
    let long = Settings {
        words: Words::PSEUDO,
        ..twice.clone()
    };
    for (settings, size) in [
        (light(), WIDE),
        (twice, [550.0, 5200.0]),
        (long, [550.0, 6400.0]),
    ] {
        for draft in [phaco(), demo(HARD_JUST_ABOVE), demo(HARD_AND_SHALLOW)] {
            let harness = on_page(draft, settings.clone(), size);
            let mut seen = 0;
            for picture in harness.get_all_by_role(Role::Image) {
                for (text, rect, room) in written(&harness, picture.rect()) {
                    seen += 1;
                    assert!(
                        room.left() - 0.5 <= rect.left() && rect.right() <= room.right() + 0.5,
                        "{text} {rect} {room} {size:?}"
                    );
                }
            }
            // Eight measures of the chamber and three names of planes at least.
            assert!(11 <= seen, "{seen} {size:?}");
        }
    }
}

/// Without keratometry no margin is known; how the nucleus would be divided is, and the reason covers none of it.
#[test]
fn why_no_margin_is_known_covers_no_division() {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Left);
    let twice = settings(ThemeChoice::Light, 200);
    for (settings, size) in [(light(), WIDE), (light(), NARROW), (twice, [550.0, 5200.0])] {
        let harness = on_page(draft.clone(), settings, size);
        let shapes = &harness.output().shapes;
        let mut seen = 0;
        for (place, clipped) in shapes.iter().enumerate() {
            let Shape::Text(text) = &clipped.shape else {
                continue;
            };
            if !text.galley.text().starts_with("8 sectors in") {
                continue;
            }
            seen += 1;
            let written = clipped.shape.visual_bounding_rect().shrink(1.0);
            for over in &shapes[place..] {
                if let Shape::Rect(over) = &over.shape {
                    let covers = over.fill.is_opaque() && over.rect.intersects(written);
                    assert!(!covers, "{} {written} {}", text.galley.text(), over.rect);
                }
            }
        }
        assert_eq!(seen, 3, "{size:?}");
    }
}
