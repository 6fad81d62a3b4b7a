//! Where the focus is, is seen: a ring around every stop of the Tab key, on every page.

use std::collections::BTreeSet;

use crate::support::{Bench, HARD_AND_SHALLOW, demo, harness, settings};
use egui::{Color32, Key, Rect, Shape};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_desk::settings::ThemeChoice;
use millrace_desk::theme::{Palette, measures};
use millrace_desk::whereabouts::Page;

const ASTIGMATIC: &str = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
/// High enough that nothing scrolls, and what has the focus is drawn whole.
const HIGH: [f32; 2] = [1280.0, 6000.0];
/// More stops than any page has.
const STOPS: usize = 400;

/// What has the focus: its name and its place.
fn focused(harness: &Harness<'_, Bench>) -> Option<(String, Rect)> {
    let nodes = harness.root().children_recursive();
    let mut focused = nodes.filter(egui_kittest::Node::is_focused);
    focused.next().map(|node| {
        let node = (node.accesskit_node(), node.rect());
        (node.0.label().unwrap_or_default(), node.1)
    })
}

/// The rings that are drawn: outlines in the color of the focus, as wide as it is.
fn rings(shape: &Shape, color: Color32, found: &mut Vec<Rect>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|it| rings(it, color, found)),
        Shape::Rect(rect) if rect.stroke.color == color && measures::FOCUS <= rect.stroke.width => {
            found.push(rect.rect);
        }
        _ => {}
    }
}

fn is_ringed(harness: &Harness<'_, Bench>, color: Color32, place: Rect) -> bool {
    let mut found = Vec::new();
    for clipped in &harness.output().shapes {
        rings(&clipped.shape, color, &mut found);
    }
    found.iter().any(|ring| {
        // A group of choices has its ring around the one that the keys are at.
        let reach = ring.intersect(place.expand(measures::NEAR));
        reach.is_positive() && place.expand(measures::NEAR).contains_rect(*ring)
    })
}

#[test]
fn every_stop_of_every_page_shows_that_it_has_the_focus() {
    let mut unseen = BTreeSet::new();
    for (case, theme) in [
        (HARD_AND_SHALLOW, ThemeChoice::Light),
        (ASTIGMATIC, ThemeChoice::Dark),
    ] {
        for (page, _) in Page::ALL {
            let mut bench = Bench::new(vec![demo(case)], settings(theme, 100));
            bench.open(0);
            bench.desk.show_page(page);
            let mut harness = harness(bench, HIGH);
            let color = Palette::of(harness.ctx.theme()).accent;
            let mut stops = BTreeSet::new();
            for _ in 0..STOPS {
                harness.key_press(Key::Tab);
                harness.run();
                let Some((name, place)) = focused(&harness) else {
                    continue;
                };
                let stop = format!("{name} {}", place.min);
                if !stops.insert(stop.clone()) {
                    break;
                }
                if !is_ringed(&harness, color, place) {
                    unseen.insert(format!("{}: {stop}", page.code()));
                }
            }
            assert!(
                (12..STOPS).contains(&stops.len()),
                "{}: {}",
                page.code(),
                stops.len()
            );
        }
    }
    assert!(unseen.is_empty(), "{unseen:#?}");
}
