//! The list of the theatre by days: its heads, where it opens, what comes into sight, and names of any length.

use chrono::{Days, NaiveDate};
use egui::accesskit::Role;
use egui::{Key, Rect};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Draft, ListNumber};
use millrace_desk::settings::{Settings, ThemeChoice};

use crate::support::{
    Bench, HARD_AND_SHALLOW, SMALLEST, click, date, demo, enter, harness, light, settings, texts,
};

fn named(name: &str, day: Option<NaiveDate>) -> Draft {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.patient.name = Some(name.to_owned());
    draft.operation.date = day;
    draft
}

/// Ten operations on each of forty days before and of forty days from today on, and two cases without a day.
fn many() -> Vec<Draft> {
    let today = date(2026, 11, 24);
    let first = today - Days::new(40);
    let mut drafts: Vec<_> = (0..800_u64)
        .map(|index| {
            named(
                &format!("Case {index:03}"),
                Some(first + Days::new(index / 10)),
            )
        })
        .collect();
    drafts.extend(["Undated A", "Undated B"].map(|name| named(name, None)));
    drafts
}

/// Where what has this name stands, if it is in sight.
fn stands(harness: &Harness<'_, Bench>, name: &str) -> Option<Rect> {
    let nodes = harness.root().children_recursive();
    let mut found = nodes.filter(|node| {
        let node = node.accesskit_node();
        // The day view beside it has buttons.
        let is_of_list = matches!(node.role(), Role::ListBoxOption | Role::Heading);
        is_of_list && node.label().unwrap_or_default().starts_with(name)
    });
    let rect = found.next()?.rect();
    assert!(found.next().is_none(), "{name} stands there twice");
    Some(rect)
}

#[test]
fn it_opens_at_today_under_the_head_of_the_day() {
    let harness = harness(Bench::new(many(), light()), SMALLEST);
    // The fortieth day is today: its cases are 400 to 409.
    let head = stands(&harness, "Tuesday 24 Nov 2026, 10 operations").unwrap();
    let first = stands(&harness, "Case 400, ").unwrap();
    let second = stands(&harness, "Case 401, ").unwrap();
    assert!(head.bottom() <= first.top() + 0.5, "{head} {first}");
    assert!(first.bottom() <= second.top() + 0.5, "{first} {second}");
    assert_eq!(stands(&harness, "Case 399, "), None);
    let last = stands(&harness, "Case 409, ");
    let next = stands(&harness, "Wednesday 25 Nov 2026, 10 operations");
    if let (Some(last), Some(next)) = (last, next) {
        assert!(last.bottom() <= next.top() + 0.5);
    }
}

#[test]
fn cases_without_a_day_stand_last_in_a_group_of_their_own() {
    let mut harness = harness(Bench::new(many(), light()), SMALLEST);
    click(&mut harness, "Search name or number");
    harness.key_press(Key::ArrowDown);
    harness.run();
    harness.key_press(Key::End);
    harness.run();
    let head = stands(&harness, "No day, 2 cases").unwrap();
    let first = stands(&harness, "Undated A, ").unwrap();
    let last = stands(&harness, "Undated B, ").unwrap();
    assert!(head.bottom() <= first.top() + 0.5 && first.bottom() <= last.top() + 0.5);
    harness.key_press(Key::Home);
    harness.run();
    assert!(stands(&harness, "Case 000, ").is_some());
}

#[test]
fn a_case_that_is_opened_comes_into_sight() {
    let mut harness = harness(Bench::new(many(), light()), SMALLEST);
    for index in [12, 790, 405] {
        let name = format!("Case {index:03}, ");
        harness.state_mut().open(index);
        harness.run();
        let row = stands(&harness, &name).unwrap_or_else(|| panic!("{name} is out of sight"));
        assert!(0.0 < row.top() && row.bottom() < SMALLEST[1], "{row}");
    }
}

/// Rows above it whose names take more than a line are found out only when they are laid out.
#[test]
fn below_long_names_the_opened_case_stands_whole() {
    let today = date(2026, 11, 24);
    let long = |index: u32| format!("Case {index:02} Featherstonehaugh-Marchetti-Vale, Wilhelmina");
    let drafts = (0..15).map(|index| named(&long(index), Some(today)));
    let mut harness = harness(Bench::new(drafts.collect(), light()), [1280.0, 820.0]);
    for index in [7, 14, 0, 9] {
        harness.state_mut().open(index);
        harness.run();
        let row = stands(&harness, &format!("Case {index:02} "));
        let row = row.unwrap_or_else(|| panic!("{index} is out of sight"));
        let foot = harness.get_by_label("Settings").rect();
        let above = harness.get_by_label("Check a sheet, fingerprint").rect();
        assert!(
            above.bottom() <= row.top() && row.bottom() <= foot.top(),
            "{index}: {row}"
        );
    }
}

/// By its new day it stands elsewhere: the list goes with it.
#[test]
fn a_case_that_goes_to_another_day_stays_in_sight() {
    let mut bench = Bench::new(many(), light());
    bench.open(405);
    let mut harness = harness(bench, SMALLEST);
    click(&mut harness, "Patient and operation");
    enter(&mut harness, "Operation day", "2026-10-16");
    harness.run();
    let row = stands(&harness, "Case 405, ").unwrap();
    let neighbor = stands(&harness, "Case 010, ");
    assert!(0.0 < row.top() && row.bottom() < SMALLEST[1], "{row}");
    // Day 2 is the sixteenth of October: its own ten cases, and this one.
    assert!(neighbor.is_some() || stands(&harness, "Case 019, ").is_some());
}

/// What is found is few, and says its day itself; the whole list comes back at the day.
#[test]
fn what_is_found_has_no_heads_and_says_its_day() {
    let mut harness = harness(Bench::new(many(), light()), SMALLEST);
    click(&mut harness, "Search name or number");
    harness
        .get_by_label("Search name or number")
        .type_text("case 00");
    harness.run();
    assert!(stands(&harness, "Case 000, ").is_some());
    let has_head = |harness: &Harness<'_, Bench>| {
        texts(harness)
            .iter()
            .any(|text| text.ends_with(" operations"))
    };
    assert!(!has_head(&harness));
    for _ in 0.."case 00".len() {
        harness.key_press(Key::Backspace);
    }
    harness.run();
    assert!(has_head(&harness));
    assert!(stands(&harness, "Case 400, ").is_some());
}

const LONG: &str =
    "Wolffenbüttel-Ångströmsdóttir y Fernández de la Reguera, Maximiliane Theodora Wilhelmina";

/// A long name takes the lines it needs, in the size of every other name, and covers nothing.
#[test]
fn a_long_name_wraps_and_nothing_is_set_smaller() {
    for percent in [80, 100, 150, 200] {
        let day = Some(date(2026, 11, 24));
        let drafts = ["Abara", LONG, "Castell"].map(|name| named(name, day));
        let look = settings(ThemeChoice::Light, percent);
        let mut harness = harness(Bench::new(drafts.to_vec(), look), [1100.0, 1400.0]);
        if harness.query_by_label("Search name or number").is_none() {
            click(&mut harness, "Theatre list");
        }
        let row = |name| stands(&harness, name).unwrap();
        let [short, long, next] = ["Abara, ", LONG, "Castell, "].map(row);
        assert!(short.bottom() <= long.top() + 0.5, "{percent}");
        assert!(long.bottom() <= next.top() + 0.5, "{percent}");
        assert!((short.height() - next.height()).abs() < 0.5, "{percent}");
        if percent <= 100 {
            // Four lines in a column this narrow, which is three more than the others have.
            assert!(short.height() * 1.5 < long.height(), "{percent}: {long}");
        }
    }
}

fn picture(name: &str, look: Settings, size: [f32; 2]) {
    let mut drafts: Vec<_> = [
        ("Okonjo, Adaeze", 3),
        (LONG, 3),
        ("Thorvald-Ames, Ingrid", 3),
        ("Whitcombe, Aurelia", 4),
    ]
    .map(|(name, day)| named(name, Some(date(2026, 12, day))))
    .into();
    drafts.push(named("Lindgren-Osei, Matilda", None));
    for (draft, number) in drafts.iter_mut().zip([2, 1, 10]) {
        draft.operation.list_number = ListNumber::try_from(number).ok();
    }
    let mut bench = Bench::new(drafts, look);
    bench.open(1);
    let mut harness = harness(bench, size);
    if harness.query_by_label("Search name or number").is_none() {
        click(&mut harness, "Theatre list");
    }
    harness.snapshot(name);
}

#[test]
fn the_list_in_light() {
    picture("list_light", light(), SMALLEST);
}

#[test]
fn the_list_with_text_twice_as_large() {
    picture(
        "list_200",
        settings(ThemeChoice::Dark, 200),
        [1100.0, 1200.0],
    );
}
