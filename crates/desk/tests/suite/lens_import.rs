//! Lens records from a file are seen before they are taken, and taken whole; those of the clinic are written out.

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::iol_power::AConstant;
use millrace_core::lens::LensRecord;
use millrace_desk::exchange::{Answer, Place, Request};

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, demo, demo_lenses, enter, harness, light, texts,
};

const TALL: [f32; 2] = [1100.0, 1400.0];

fn records() -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, TALL);
    click(&mut harness, "Settings");
    click(&mut harness, "Part of the settings, Lens records");
    harness
}

fn kept(harness: &Harness<'static, Bench>) -> Vec<Vec<LensRecord>> {
    let told = harness.state().told.iter();
    told.filter_map(|request| match request {
        Request::KeepLenses(lenses) => Some(lenses.clone()),
        _ => None,
    })
    .collect()
}

fn says(harness: &Harness<'static, Bench>, text: &str) -> bool {
    texts(harness).iter().any(|said| said.contains(text))
}

/// The second as it is, the first with another constant, and a new one.
fn brought() -> Vec<LensRecord> {
    let known = demo_lenses();
    let (mut other, mut new) = (known[0].clone(), known[2].clone());
    let constant = other.constants.a_constant.as_mut().unwrap();
    constant.value = AConstant::new(117.03).unwrap();
    "Millpond one-piece".clone_into(&mut new.name);
    vec![known[1].clone(), other, new]
}

fn read(harness: &mut Harness<'static, Bench>, records: Vec<LensRecord>) {
    let desk = &mut harness.state_mut().desk;
    desk.accept(Answer::LensesRead(records));
    harness.run();
}

#[test]
fn what_a_file_would_change_is_seen_and_taken_by_an_act() {
    let mut harness = records();
    let case = harness.state().draft().clone();
    click(&mut harness, "Import lens records…");
    enter(&mut harness, "Path of the file", "/tmp/records.ron");
    let asked = Request::ReadLenses(Place::Typed("/tmp/records.ron".to_owned()));
    assert!(harness.state().told.contains(&asked));
    read(&mut harness, brought());
    // As the file of the demo writes it.
    for said in [
        "3 lens records from a file",
        "Another content, one record",
        "Constants, a constant, value: 118.66 → 117.03",
        "New, one record",
        "Millpond one-piece",
        "The same as here, one record",
    ] {
        assert!(says(&harness, said), "{said}: {:?}", texts(&harness));
    }
    // Seeing is not taking.
    assert_eq!(kept(&harness), Vec::<Vec<LensRecord>>::new());
    click(&mut harness, "Take them: 1 new, 1 replaced");
    let mut expected = demo_lenses();
    let [_, other, new] = brought().try_into().unwrap();
    expected[0] = other;
    expected.push(new);
    assert_eq!(kept(&harness), [expected]);
    assert_eq!(*harness.state().draft(), case);
    // Taken back as a whole.
    click(&mut harness, "Undo");
    assert_eq!(kept(&harness)[1], demo_lenses());
}

#[test]
fn what_is_left_changes_nothing() {
    let mut harness = records();
    read(&mut harness, brought());
    click(&mut harness, "Leave the records as they are");
    assert!(harness.query_by_label("Import lens records…").is_some());
    // The same records again are nothing to take.
    read(&mut harness, demo_lenses());
    assert!(says(&harness, "There is nothing to take"));
    click(&mut harness, "Leave the records as they are");
    // Too many together are refused, and that is said.
    let many = (0..2_000).map(|number| {
        let mut record = demo_lenses().remove(0);
        record.name = format!("Record {number}");
        record
    });
    read(&mut harness, many.collect());
    assert!(says(&harness, "They cannot be taken"));
    click(&mut harness, "Leave the records as they are");
    assert_eq!(kept(&harness), Vec::<Vec<LensRecord>>::new());
}

/// The word of what was wrong with the file is told, and the list stands as it was.
#[test]
fn a_refused_file_is_told_with_its_place() {
    let mut harness = records();
    let message = "line 6, column 9: unexpected field: /tmp/records.ron".to_owned();
    harness.state_mut().desk.accept(Answer::Failed { message });
    harness.run();
    assert!(says(&harness, "line 6, column 9"));
    assert!(harness.query_by_label("Import lens records…").is_some());
}

#[test]
fn all_records_are_written_to_a_file() {
    let mut harness = records();
    click(&mut harness, "Export lens records…");
    enter(&mut harness, "Path of the file", "/tmp/records.ron");
    let place = Place::Typed("/tmp/records.ron".to_owned());
    let asked = Request::WriteLenses(demo_lenses(), place);
    assert!(harness.state().told.contains(&asked));
}

#[test]
fn records_from_a_file_in_light() {
    let mut harness = records();
    read(&mut harness, brought());
    harness.snapshot("lens_import_light");
}
