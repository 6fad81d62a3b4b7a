//! `millrace lens`: the clinic's records from and to a file.

use std::fs;

use millrace_core::case_file::{read_lenses, write_lenses};
use millrace_core::lens::LensRecord;

use crate::support::Run;
use crate::support::place::Place;
use crate::support::root;

fn demo() -> Vec<LensRecord> {
    let text = fs::read_to_string(root().join("demo-data/lenses.ron")).unwrap();
    let records = read_lenses(&text).unwrap();
    assert!(3 <= records.len());
    records
}

fn lens(place: &Place, arguments: &[&str]) -> Run {
    place.millrace(None, &[&["lens"], arguments].concat())
}

fn kept(place: &Place) -> Option<String> {
    fs::read_to_string(place.usual().with_file_name("lenses.ron")).ok()
}

fn put(place: &Place, file: &str, records: &[LensRecord]) {
    fs::write(place.path(file), write_lenses(records).unwrap()).unwrap();
}

#[test]
fn records_come_in_and_go_out_as_they_are() {
    let (place, records) = (Place::new(), demo());
    let run = lens(&place, &["export"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    assert!(run.err.contains("no lens record is kept"), "{}", run.err);

    put(&place, "one.ron", &records[..1]);
    put(&place, "rest.ron", &records[1..]);
    let run = lens(&place, &["import", "one.ron", "rest.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let added: Vec<_> = records
        .iter()
        .map(|it| format!("added {}", it.name))
        .collect();
    assert_eq!(run.out.lines().collect::<Vec<_>>(), added);
    assert!(!place.usual().exists(), "no register is begun");

    let run = lens(&place, &["export"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_eq!(read_lenses(&run.out).unwrap(), records);
    let run = lens(&place, &["export", "-o", "out.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let written = fs::read_to_string(place.path("out.ron")).unwrap();
    assert_eq!(read_lenses(&written).unwrap(), records);

    // The same again changes nothing.
    let before = kept(&place);
    let run = lens(&place, &["import", "out.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_eq!(run.out.matches("the same already: ").count(), records.len());
    assert_eq!(kept(&place), before);
}

#[test]
fn nothing_is_overwritten_unless_it_is_asked_for() {
    let (place, records) = (Place::new(), demo());
    put(&place, "all.ron", &records);
    assert_eq!(lens(&place, &["import", "all.ron"]).code, 0);
    let before = kept(&place);
    let mut changed = records.clone();
    changed[1].model = "Another Z".to_owned();
    let mut new = records[0].clone();
    new.name = "Quite new".to_owned();
    put(&place, "changed.ron", &[changed[1].clone(), new.clone()]);
    let run = lens(&place, &["import", "changed.ron"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    let named = format!("another lens record is called \"{}\"", records[1].name);
    assert!(run.err.contains(&named), "{}", run.err);
    assert!(run.err.contains("nothing was imported"), "{}", run.err);
    assert!(!run.err.contains("Quite new"), "{}", run.err);
    assert_eq!(kept(&place), before);

    let run = lens(&place, &["import", "changed.ron", "--replace"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let expected = format!("replaced {}\nadded Quite new\n", records[1].name);
    assert_eq!(run.out, expected);
    changed.push(new);
    assert_eq!(read_lenses(&kept(&place).unwrap()).unwrap(), changed);

    // Nor by the way out: not a file that is there, and never the records themselves.
    fs::write(place.path("notes.ron"), "notes").unwrap();
    let run = lens(&place, &["export", "-o", "notes.ron"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("the file exists"), "{}", run.err);
    assert_eq!(fs::read(place.path("notes.ron")).unwrap(), b"notes");
    assert_eq!(
        lens(&place, &["export", "-o", "notes.ron", "--force"]).code,
        0
    );
    let own = place.usual().with_file_name("lenses.ron");
    let run = lens(&place, &["export", "--force", "-o", own.to_str().unwrap()]);
    assert_eq!(run.code, 2, "{}", run.out);
}

#[test]
fn a_bad_record_is_named_by_line_and_field_and_nothing_is_imported() {
    let (place, records) = (Place::new(), demo());
    put(&place, "good.ron", &records[..1]);
    let bad = write_lenses(&records[1..2]).unwrap();
    let diameter = bad
        .lines()
        .position(|line| line.contains("optic_diameter"))
        .unwrap();
    let line = bad.lines().nth(diameter).unwrap();
    let bad_file = |text: &str| fs::write(place.path("bad.ron"), text).unwrap();

    bad_file(&bad.replace(line, "            optic_diameter: \"19.00 mm\","));
    let run = lens(&place, &["import", "bad.ron"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    let said = "optic diameter 19.00 mm is outside 3.00 mm to 9.00 mm";
    assert!(
        run.err.contains("lens records refused: line ") && run.err.contains(said),
        "{}",
        run.err
    );
    bad_file(&bad.replace("optic_diameter", "optical_diameter"));
    let run = lens(&place, &["import", "good.ron", "bad.ron"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    let place_of = format!("line {}, column", diameter + 1);
    assert!(run.err.contains(&place_of), "{place_of}: {}", run.err);
    assert!(run.err.contains("optical_diameter"), "{}", run.err);
    assert!(run.err.contains("1 of 2 files refused"), "{}", run.err);
    assert_eq!(kept(&place), None);

    // One name for two records, in one file or in two; and a case is no file of records.
    put(
        &place,
        "twice.ron",
        &[records[0].clone(), records[0].clone()],
    );
    for files in [&["twice.ron"][..], &["good.ron", "good.ron"]] {
        let run = lens(&place, &[&["import"], files].concat());
        assert_eq!((run.code, &*run.out), (2, ""));
        assert!(run.err.contains("is named more than once"), "{}", run.err);
    }
    let case = crate::support::place::demo("ordinary-eye");
    let run = lens(&place, &["import", case.to_str().unwrap()]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("millrace lenses"), "{}", run.err);
    assert_eq!(kept(&place), None);

    // What is kept and damaged is not written over.
    fs::create_dir_all(place.path("data/millrace")).unwrap();
    fs::write(place.usual().with_file_name("lenses.ron"), "(half").unwrap();
    let run = lens(&place, &["import", "good.ron", "--replace"]);
    assert_eq!(run.code, 2);
    assert_eq!(kept(&place).as_deref(), Some("(half"));
}
