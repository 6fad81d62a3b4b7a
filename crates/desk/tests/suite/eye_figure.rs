//! This eye, drawn to scale beside the fields of the Biometry page as its numbers come.

use egui::Rect;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_core::case::Draft;
use millrace_desk::settings::{Settings, ThemeChoice};

use crate::support::{
    Bench, HARD_AND_SHALLOW, SMALLEST, click, demo, enter, harness, light, settings, texts,
};

const ORDINARY: [f32; 2] = [1280.0, 820.0];
const WIDE: [f32; 2] = [1920.0, 1080.0];

fn opened(draft: Draft, look: Settings, size: [f32; 2]) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], look);
    bench.open(0);
    harness(bench, size)
}

/// The drawing, as a screen reader finds it: what it says, and where it stands.
fn drawing(harness: &Harness<'_, Bench>) -> Option<(String, Rect)> {
    let nodes = harness.root().children_recursive();
    let found = nodes.into_iter().find(|node| {
        let label = node.accesskit_node().label().unwrap_or_default();
        node.accesskit_node().role() == Role::Image && label.contains("a section to scale")
    })?;
    let text = found.accesskit_node().label().unwrap_or_default();
    Some((text.replace(['\u{a0}', '\u{202f}'], " "), found.rect()))
}

/// The fields of the page, between list and findings.
fn fields(harness: &Harness<'_, Bench>) -> Vec<Rect> {
    let nodes = harness.root().children_recursive();
    let fields = nodes.filter(|node| node.accesskit_node().role() == Role::TextInput);
    let rects = fields.map(|node| node.rect());
    rects.filter(|rect| 212.0 < rect.left()).collect()
}

#[test]
fn it_is_drawn_where_there_is_room_beside_the_fields() {
    for (size, percent, is_drawn) in [
        (ORDINARY, 100, true),
        (WIDE, 100, true),
        (SMALLEST, 100, false),
        (SMALLEST, 200, false),
        // List and findings make room for the page there.
        (WIDE, 200, true),
    ] {
        let look = settings(ThemeChoice::Light, percent);
        let harness = opened(demo(HARD_AND_SHALLOW), look, size);
        let found = drawing(&harness);
        assert_eq!(found.is_some(), is_drawn, "{size:?} at {percent} %");
        let Some((_, drawn)) = found else { continue };
        let fields = fields(&harness);
        assert!(8 <= fields.len(), "{fields:?}");
        for field in fields {
            assert!(field.right() < drawn.left(), "{field} under {drawn}");
        }
    }
}

/// The same fields stand in the same places, whether it is drawn beside them or the window is too narrow for it.
#[test]
fn it_moves_no_field() {
    let narrow = opened(demo(HARD_AND_SHALLOW), light(), SMALLEST);
    let wide = opened(demo(HARD_AND_SHALLOW), light(), ORDINARY);
    assert!(drawing(&narrow).is_none() && drawing(&wide).is_some());
    let place = |harness: &Harness<'_, Bench>, name: &str| {
        let nodes = harness.root().children_recursive();
        let mut found = nodes.filter(|node| {
            let node = node.accesskit_node();
            node.role() == Role::TextInput && node.label().as_deref() == Some(name)
        });
        found.next().unwrap().rect()
    };
    for name in [
        "Axial length",
        "Flat reading",
        "Steep meridian",
        "Anterior chamber depth",
    ] {
        let [narrow, wide] = [&narrow, &wide].map(|it| place(it, name));
        assert!(
            narrow.min.distance(wide.min) < 0.6,
            "{name}: {narrow} {wide}"
        );
        assert!((narrow.width() - wide.width()).abs() < 0.6, "{name}");
    }
}

#[test]
fn it_says_each_number_and_follows_it() {
    let mut harness = opened(demo(HARD_AND_SHALLOW), light(), ORDINARY);
    let said = |harness: &Harness<'_, Bench>| drawing(harness).unwrap().0;
    let before = said(&harness);
    for part in [
        "Right eye, a section to scale",
        "axial length 22.84 mm",
        "chamber depth 2.55 mm from the epithelium",
        "lens thickness 5.05 mm",
        "scheme",
    ] {
        assert!(before.contains(part), "{part}: {before}");
    }
    enter(&mut harness, "Axial length", "34.00");
    assert!(said(&harness).contains("axial length 34.00 mm"));
    enter(&mut harness, "Axial length", "18.00");
    assert!(said(&harness).contains("axial length 18.00 mm"));
    // What is typed and refused is no number: the last one that was taken stays drawn.
    enter(&mut harness, "Axial length", "99");
    assert!(said(&harness).contains("axial length 18.00 mm"));
    // Under the drawing the same numbers stand as text.
    let stands = texts(&harness);
    assert!(
        stands
            .iter()
            .any(|text| text.contains("AL, axial length 18.00\u{a0}mm"))
    );
}

#[test]
fn what_is_missing_is_not_drawn_and_said() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right.axial_length = None;
    draft.eyes.right.chamber_depth = None;
    let harness = opened(draft, light(), ORDINARY);
    let (text, _) = drawing(&harness).unwrap();
    for part in [
        "Not measured: Axial length, Anterior chamber depth",
        "The lens is not drawn without the place where it begins",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert!(!text.contains("circle"), "{text}");
    // Of an eye of which nothing is known there is nothing to draw, and that is said.
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right = draft.eyes.right.clone();
    let right = &mut draft.eyes.right;
    right.axial_length = None;
    right.keratometry = None;
    right.chamber_depth = None;
    right.lens_thickness = None;
    right.corneal_thickness = None;
    right.corneal_diameter = None;
    let harness = opened(draft, light(), ORDINARY);
    assert!(drawing(&harness).is_none());
    let is_said = |text: &String| text.starts_with("Not measured: Axial length, Keratometry");
    assert!(texts(&harness).iter().any(is_said));
}

/// It is the operative eye: with the fellow eye in the fields nothing is drawn that could be taken for it.
#[test]
fn the_fellow_eye_is_not_drawn() {
    let mut harness = opened(demo(HARD_AND_SHALLOW), light(), ORDINARY);
    click(&mut harness, "Edit the left eye…");
    assert!(drawing(&harness).is_none());
}

fn picture(name: &str, draft: Draft, look: Settings, size: [f32; 2]) {
    let mut harness = opened(draft, look, size);
    harness.run();
    harness.snapshot(name);
}

#[test]
fn the_eye_beside_its_fields() {
    picture("eye_1280", demo(HARD_AND_SHALLOW), light(), ORDINARY);
}

#[test]
fn the_eye_in_a_wide_window() {
    let dark = settings(ThemeChoice::Dark, 100);
    picture("eye_1920_dark", demo(HARD_AND_SHALLOW), dark, WIDE);
}

#[test]
fn the_eye_with_text_twice_as_large() {
    let large = settings(ThemeChoice::Light, 200);
    picture("eye_200", demo(HARD_AND_SHALLOW), large, WIDE);
}

#[test]
fn a_long_eye_with_missing_numbers() {
    let mut draft = demo(HARD_AND_SHALLOW);
    let right = &mut draft.eyes.right;
    right.axial_length.as_mut().unwrap().value = "34.00 mm".parse().unwrap();
    right.corneal_diameter = None;
    right.lens_thickness = None;
    picture("eye_long", draft, light(), WIDE);
}
