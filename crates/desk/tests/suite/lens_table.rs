//! The lens power table: what is in sight, what its keys do, and that each thing stands under its head.

use crate::reach_measurements::pick;
use crate::support::{Bench, HARD_AND_SHALLOW, demo, harness, light, settings};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, Rect, TouchPhase, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Command, Draft, Slot, update};
use millrace_core::iol_power::Formula;
use millrace_core::quantity::HundredthDiopters;
use millrace_desk::settings::{Settings, ThemeChoice};
use millrace_desk::whereabouts::Page;

const ULTRASOUND: &str = include_str!("../../../../demo-data/cases/contact-ultrasound-only.ron");
const OPERATED: &str = include_str!("../../../../demo-data/cases/after-myopic-surgery.ron");
const FIRST: [f32; 2] = [1280.0, 820.0];
const SMALL: [f32; 2] = [1100.0, 720.0];
const TABLE: &str = "Lens power table";
const CHART: &str = "Chart of the predicted refraction by power";

fn lens(draft: Draft, settings: Settings, size: [f32; 2]) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![draft], settings);
    bench.open(0);
    bench.desk.show_page(Page::Lens);
    let mut harness = harness(bench, size);
    harness.run();
    harness
}

fn first() -> Harness<'static, Bench> {
    lens(demo(HARD_AND_SHALLOW), light(), FIRST)
}

fn power(hundredths: i32) -> HundredthDiopters {
    HundredthDiopters::new(hundredths)
}

fn table(harness: &Harness<'_, Bench>) -> Rect {
    harness.get_by_label(TABLE).rect()
}

/// The lines of the table that are whole in sight, from the top: what each says, and where.
fn lines(harness: &Harness<'_, Bench>) -> Vec<(String, Rect)> {
    let window = Rect::from_min_size(egui::Pos2::ZERO, FIRST.into());
    let sight = table(harness).intersect(window).expand(0.5);
    let nodes = harness.root().children_recursive();
    let rows = nodes.filter(|node| node.accesskit_node().role() == Role::RadioButton);
    let named = rows.filter_map(|node| Some((node.accesskit_node().label()?, node.rect())));
    let lines = named.filter(|(_, rect)| sight.contains_rect(*rect));
    lines.collect()
}

fn focus(harness: &mut Harness<'_, Bench>) {
    harness.get_by_label(TABLE).focus();
    harness.run();
}

fn press(harness: &mut Harness<'_, Bench>, key: Key) -> Option<HundredthDiopters> {
    harness.key_press(key);
    harness.run();
    harness.state().draft().lens.power()
}

fn wheel(harness: &mut Harness<'_, Bench>, over: Rect, points: f32) {
    harness.hover_at(over.center());
    harness.run();
    harness.event(Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        delta: vec2(0.0, points),
        phase: TouchPhase::Move,
        source: MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    });
    harness.run();
}

/// Twelve lines at least, the proposal among the middle ones, and no line laid out that is not in sight.
#[test]
fn twelve_powers_are_in_sight_around_the_proposal() {
    let harness = first();
    let lines = lines(&harness);
    assert!(12 <= lines.len(), "{lines:#?}");
    let mut names = lines.iter();
    let proposed = names.position(|(name, _)| name.contains("D, proposed, "));
    let proposed = proposed.expect("the proposal is in sight");
    assert!((5..lines.len() - 4).contains(&proposed), "{lines:#?}");
    let nodes = harness.root().children_recursive();
    let rows = nodes.filter(|node| {
        let node = node.accesskit_node();
        let name = node.label().unwrap_or_default();
        node.role() == Role::RadioButton && name.contains("chance within")
    });
    assert!(rows.count() <= lines.len() + 2);
}

/// Each line says power, prediction of the formula planned by, chances, then the rest.
#[test]
fn a_line_is_told_in_the_order_in_which_it_is_read() {
    let harness = first();
    for (name, _) in lines(&harness) {
        let parts = [
            "SRK/T ",
            "chance ",
            "within ±0.50 D of the target",
            "over +0.50 D",
            "mean ",
            "T2 ",
            "Haigis ",
        ];
        let mut from = 0;
        for part in parts {
            let found = name[from..].find(part);
            from += found.unwrap_or_else(|| panic!("{part} in {name}"));
        }
        assert!(name.starts_with(['+', '\u{2212}']), "{name}");
    }
}

/// The lens is made from +4.50 to +35.50 D.
#[test]
fn home_and_end_go_to_the_ends_and_the_pages_by_what_is_in_sight() {
    let mut harness = first();
    focus(&mut harness);
    assert_eq!(press(&mut harness, Key::End), Some(power(3_550)));
    let shown = lines(&harness);
    assert!(
        shown.last().unwrap().0.starts_with("+35.50 D"),
        "{shown:#?}"
    );
    assert_eq!(press(&mut harness, Key::ArrowDown), Some(power(3_550)));
    assert_eq!(press(&mut harness, Key::Home), Some(power(450)));
    assert!(lines(&harness)[0].0.starts_with("+4.50 D"));
    let chosen = press(&mut harness, Key::PageDown).unwrap();
    let by = (chosen.hundredths() - 450) / 50;
    assert!((10..=16).contains(&by), "{chosen}");
    let shown = lines(&harness);
    assert!(
        shown
            .iter()
            .any(|(name, _)| name.starts_with(&chosen.to_string())),
        "{shown:#?}"
    );
    assert_eq!(press(&mut harness, Key::PageUp), Some(power(450)));
}

/// Without a choice the keys begin at the proposal, not at the weakest lens there is.
#[test]
fn the_keys_begin_at_the_proposal() {
    for key in [Key::ArrowDown, Key::ArrowUp, Key::PageDown] {
        let nothing = Command::ChoosePower(Slot::Planned, None);
        let draft = update(&demo(HARD_AND_SHALLOW), nothing).unwrap();
        let mut harness = lens(draft, light(), FIRST);
        assert_eq!(harness.state().draft().lens.power(), None);
        focus(&mut harness);
        assert_eq!(press(&mut harness, key), Some(power(2_250)), "{key:?}");
    }
}

/// The draft is what the command makes of it, the focus stays, and a left or right arrow is for nothing.
#[test]
fn an_arrow_chooses_the_power_and_changes_nothing_else() {
    let mut harness = first();
    let before = harness.state().draft().clone();
    focus(&mut harness);
    let chosen = press(&mut harness, Key::ArrowDown);
    assert_eq!(chosen, Some(power(2_300)));
    let expected = update(&before, Command::ChoosePower(Slot::Planned, chosen)).unwrap();
    assert_eq!(harness.state().draft(), &expected);
    for key in [Key::ArrowLeft, Key::ArrowRight] {
        press(&mut harness, key);
        assert_eq!(harness.state().draft(), &expected, "{key:?}");
        assert!(harness.get_by_label(TABLE).accesskit_node().is_focused());
    }
}

/// Scrolling is no choice: the line stays chosen out of sight, the table stays where it was scrolled to, and a
/// key goes on from what is chosen.
#[test]
fn the_chosen_line_survives_scrolling() {
    let mut harness = first();
    let body = table(&harness);
    wheel(&mut harness, body, 26.0 * 30.0);
    let top = lines(&harness)[0].0.clone();
    let shown = lines(&harness);
    assert!(shown.iter().all(|(name, _)| !name.starts_with("+22.50 D")));
    harness.run();
    assert_eq!(lines(&harness)[0].0, top);
    assert_eq!(harness.state().draft().lens.power(), Some(power(2_250)));
    focus(&mut harness);
    assert_eq!(lines(&harness)[0].0, top);
    assert_eq!(press(&mut harness, Key::ArrowDown), Some(power(2_300)));
    let shown = lines(&harness);
    assert!(
        shown.iter().any(|(name, _)| name.starts_with("+23.00 D")),
        "{shown:#?}"
    );
}

/// Another formula proposes +22.00 D: after that act the table stands around it again.
#[test]
fn another_proposal_brings_the_table_back() {
    let mut harness = first();
    let body = table(&harness);
    wheel(&mut harness, body, 26.0 * 30.0);
    assert!(
        lines(&harness)
            .iter()
            .all(|(name, _)| !name.contains(", proposed, "))
    );
    pick(&mut harness, "Formula", "Haigis");
    assert_eq!(harness.state().draft().lens.formula, Some(Formula::Haigis));
    let shown = lines(&harness);
    let proposed = shown
        .iter()
        .position(|(name, _)| name.contains(", proposed, "));
    let proposed = proposed.expect("in sight again");
    assert!((5..shown.len() - 4).contains(&proposed), "{shown:#?}");
    assert!(shown[proposed].0.starts_with("+22.00 D"));
}

/// The heads stand side by side without touching into each other, the chart within its own, and what the
/// plot paints is cut off at the edges of the lines in sight.
#[test]
fn nothing_of_a_group_stands_under_the_head_of_another() {
    for (size, percent) in [
        (FIRST, 100),
        (SMALL, 100),
        ([1920.0, 1080.0], 100),
        (SMALL, 200),
    ] {
        let harness = lens(
            demo(HARD_AND_SHALLOW),
            settings(ThemeChoice::Light, percent),
            size,
        );
        let head = |name: &str| harness.get_by_label(name).rect();
        let mut heads = vec![
            head("Power"),
            head("Predicted by SRK/T, the chosen formula"),
            head("Refraction with its ranges, all formulas together; target \u{2212}0.30 D"),
            head("Chance to end within ±0.50 D of the target"),
            head("Chance to end over +0.50 D"),
        ];
        let of_chart = heads[2];
        for formula in ["T2", "Holladay 1", "Hoffer Q", "Haigis", "Thick lens"] {
            let name = format!("Predicted by {formula}");
            heads.extend(harness.query_by_label(&name).map(|node| node.rect()));
        }
        for pair in heads.windows(2) {
            assert!(
                pair[0].right() <= pair[1].left() + 0.1,
                "{size:?} {heads:?}"
            );
        }
        let chart = harness.get_by_label(CHART).rect();
        assert!(
            of_chart.x_range().contains(chart.left()),
            "{of_chart} {chart}"
        );
        assert!(
            of_chart.x_range().contains(chart.right()),
            "{of_chart} {chart}"
        );
        let body = table(&harness);
        let mut painted = 0;
        for shape in &harness.output().shapes {
            let clip = shape.clip_rect;
            let is_of_chart = (clip.left() - chart.left()).abs() < 1.5
                && (clip.right() - chart.right()).abs() < 1.5;
            if is_of_chart {
                painted += 1;
                assert!(clip.bottom() <= body.bottom() + 0.5, "{clip} {body}");
            }
        }
        assert!(20 < painted, "the chart paints within its group: {painted}");
    }
}

/// What each line in sight predicts, D, and whether the chart says that it lies beyond its axis.
fn beyond(harness: &Harness<'_, Bench>) -> Vec<(f64, bool)> {
    let chart = harness.get_by_label(CHART).accesskit_node();
    let words = chart.description().unwrap();
    let of_line = |(name, _): (String, Rect)| {
        let (power, rest) = name.split_once(" D").unwrap();
        let (_, predicted) = rest.split_once("SRK/T ").unwrap();
        let (predicted, _) = predicted.split_once(" D").unwrap();
        let (_, said) = words.split_once(&format!("{power} D: mean ")).expect(&name);
        let (said, _) = said.split_once(". ").unwrap_or((said, ""));
        let predicted = predicted.replace('\u{2212}', "-");
        (predicted.parse().unwrap(), said.contains("beyond the axis"))
    };
    lines(harness).into_iter().map(of_line).collect()
}

/// The axis reaches from −2.50 to +2.00 D around a target of −0.30 D; +35.50 D leaves the eye far more myopic. The
/// chart says so of every such line, and of none that lies on it; that each has its triangle is shown beside the
/// chart itself.
#[test]
fn a_power_beyond_the_axis_is_marked_and_said() {
    let mut harness = first();
    let near = beyond(&harness);
    assert!(near.iter().any(|(_, is_beyond)| !is_beyond));
    focus(&mut harness);
    press(&mut harness, Key::End);
    let far = beyond(&harness);
    assert!(
        12 <= far.iter().filter(|(_, is_beyond)| *is_beyond).count(),
        "{far:?}"
    );
    for (predicted_d, is_beyond) in near.into_iter().chain(far) {
        assert_eq!(
            is_beyond,
            !(-2.5..=2.0).contains(&predicted_d),
            "{predicted_d}"
        );
    }
}

/// Where there is no room the other formulas speak of the chosen power, under the table.
#[test]
fn in_a_narrow_window_the_other_formulas_stand_under_the_table() {
    for (size, percent) in [(SMALL, 100), (SMALL, 200)] {
        let narrow = settings(ThemeChoice::Light, percent);
        let harness = lens(demo(HARD_AND_SHALLOW), narrow, size);
        assert!(harness.query_by_label("Predicted by Haigis").is_none());
        harness.get_by_label_contains(
            "+22.50\u{a0}D by the other formulas: T2 \u{2212}0.49\u{a0}D*; ",
        );
    }
    let harness = first();
    harness.get_by_label("Predicted by Haigis");
    assert!(
        harness
            .query_by_label_contains("by the other formulas")
            .is_none()
    );
}

/// A formula for untouched corneas has no result after laser surgery: each line says so, and under the table stands
/// why. The other formulas go on.
#[test]
fn a_refused_formula_says_so_in_every_line_with_its_reason() {
    let mut draft = demo(OPERATED);
    draft.lens.formula = Some(Formula::SrkT);
    let harness = lens(draft, light(), FIRST);
    let shown = lines(&harness);
    assert!(12 <= shown.len(), "{shown:#?}");
    for (name, _) in shown {
        assert!(name.contains("SRK/T no result"), "{name}");
    }
    let table = table(&harness);
    let mut reasons = harness.get_all_by_label_contains("SRK/T: no result: ");
    assert!(reasons.any(|reason| {
        let from_table = reason.rect().top() - table.bottom();
        (0.0..60.0).contains(&from_table)
    }));
    // Whose chance it is then.
    harness.get_by_label_contains("By the other formulas together: chance ");
}

/// Of an irregular cornea no range is stated: no line shows a chance, and none shows nothing.
#[test]
fn withheld_chances_are_said_to_be_withheld_with_the_reason() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.eyes.right.state.irregular_cornea = Some(true);
    let harness = lens(draft, light(), FIRST);
    for (name, _) in lines(&harness) {
        assert!(name.contains("D, chances withheld, "), "{name}");
    }
    harness.get_by_label("Chances withheld");
    harness.get_by_label_contains("No range and no chance is stated: ");
}

/// A table of what nobody could compute says nothing; the page says why there is none.
#[test]
fn without_any_result_there_is_no_table() {
    let harness = lens(demo(ULTRASOUND), light(), [1280.0, 2000.0]);
    assert!(harness.query_by_label(TABLE).is_none());
    harness.get_by_label_contains("No lens power table: no formula has a result");
    harness.get_by_label_contains("SRK/T, T2");
}

/// Power, prediction, target and chances stay where they are while the page scrolls.
#[test]
fn the_plan_is_pinned_over_the_page() {
    let mut harness = lens(demo(HARD_AND_SHALLOW), light(), SMALL);
    let pinned = "Chosen +22.50 D, predicted \u{2212}0.49 D by SRK/T";
    let before = harness.get_by_label(pinned).rect();
    harness.get_by_label("Target \u{2212}0.30 D, consented");
    harness.get_by_label("Chance 66 % within ±0.50 D of the target, 1 % over +0.50 D as hyperopic");
    let target = harness.get_by_label("Target").rect();
    wheel(&mut harness, target, -200.0);
    let scrolled = harness.get_by_label("Target").rect();
    assert!(scrolled.top() < target.top() - 100.0, "{target} {scrolled}");
    assert_eq!(harness.get_by_label(pinned).rect(), before);
}
