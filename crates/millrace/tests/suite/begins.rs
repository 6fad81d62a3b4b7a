//! A register is begun by what is saved into it, and by nothing that is refused.

use std::fs;

use crate::support::place::{Place, demo};

#[test]
fn a_refused_import_leaves_no_register() {
    let place = Place::new();
    let case = demo("hard-and-shallow");
    let case = case.to_str().unwrap();
    fs::write(place.path("bad.ron"), "(version: 1)").unwrap();
    for arguments in [
        &["import", case, "--who", " "][..],
        &["import", case, "--who", "A. Okafor\u{202e}"],
        &["import", "missing.ron"],
        &["import", case, "bad.ron"],
        &["import", case, "--case", "40-2291", "--revision", "1"],
        &["list"],
        &["export", "40-2291"],
    ] {
        let run = place.run(arguments);
        assert_eq!((run.code, &*run.out), (2, ""), "{arguments:?}");
        assert!(!run.err.is_empty());
        assert!(!place.path("data").exists(), "{arguments:?}");
    }
    let run = place.run_as(None, &["import", case]);
    assert_eq!(run.code, 2);
    assert!(!place.path("data").exists());
    place.import(&["hard-and-shallow"]);
    assert!(place.usual().is_file());
}

#[cfg(target_os = "linux")]
#[test]
fn a_desk_that_does_not_start_leaves_no_register() {
    let place = Place::new();
    let run = place.desk_without_display();
    assert_eq!((run.code, &*run.out), (2, ""));
    assert!(run.err.contains("no window can be opened"), "{}", run.err);
    assert!(!place.path("data").exists());
}

/// One that is made in the place of a register that is gone would be taken for it.
#[test]
fn where_a_register_is_gone_none_is_made_until_somebody_accepts_it() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    fs::remove_file(place.usual()).unwrap();
    let case = demo("ordinary-eye");
    let import = ["import", case.to_str().unwrap()];
    for arguments in [&import[..], &["list"], &["history", "40-2291"]] {
        let run = place.run(arguments);
        assert_eq!((run.code, &*run.out), (2, ""), "{arguments:?}");
        let gone = "a register stood here and is gone: it was seen at 1-0-";
        assert!(run.err.contains(gone), "{}", run.err);
        assert!(!place.usual().exists(), "{arguments:?}");
    }
    let accepted = place.run(&["accept"]);
    assert_eq!((accepted.code, &*accepted.err), (0, ""));
    let said =
        "Accepted that it is gone: the next import begins a new register here.\nSeen before: 1-0-";
    assert!(accepted.out.starts_with(said), "{}", accepted.out);
    assert!(!place.usual().exists());
    assert_eq!(place.run(&["accept"]).code, 2);
    place.import(&["ordinary-eye"]);
}

#[test]
fn a_number_of_another_patient_is_told_at_the_import() {
    let place = Place::new();
    let first = place.import(&["hard-and-shallow"]).remove(0);
    let text = fs::read_to_string(demo("hard-and-shallow")).unwrap();
    assert!(text.contains("Okonjo, Adaeze") && text.contains("40-2291"));
    fs::write(place.path("fellow.ron"), &text).unwrap();
    let run = place.run(&["import", "fellow.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));

    let other = Place::new();
    let known = other.import(&["hard-and-shallow"]).remove(0);
    for (file, text) in [
        ("name.ron", text.replace("Adaeze", "Ifeoma")),
        ("number.ron", text.replace("40-2291", "40-2219")),
    ] {
        fs::write(other.path(file), text).unwrap();
    }
    let run = other.run(&["import", "name.ron"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.starts_with("saved "), "{}", run.out);
    let said = "millrace: Review: hospital number 40-2291 is in the register for Okonjo, Adaeze, born \
         14 Mar 1951, too (case ";
    assert!(run.err.starts_with(said), "{}", run.err);
    assert!(
        run.err.contains(&known[..4]) && run.err.ends_with(": name.ron\n"),
        "{}",
        run.err
    );
    assert_eq!(run.err.lines().count(), 1, "{}", run.err);

    let run = other.run(&["import", "number.ron"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let said = "millrace: Review: Okonjo, Adaeze, born 14 Mar 1951, is in the register under hospital \
         number 40-2291, too (case ";
    assert!(run.err.starts_with(said), "{}", run.err);
    assert_eq!(run.err.lines().count(), 1, "{}", run.err);

    // Of one import each is told of the other; a further revision too.
    let both = Place::new();
    for file in ["name.ron", "number.ron"] {
        fs::copy(other.path(file), both.path(file)).unwrap();
    }
    fs::write(both.path("same.ron"), text).unwrap();
    let run = both.run(&["import", "same.ron", "number.ron"]);
    assert_eq!((run.code, run.err.lines().count()), (0, 2), "{}", run.err);
    let further = ["import", "name.ron", "--revision", "1", "--case"];
    let run = place.run(&[&further[..], &[&first]].concat());
    assert_eq!(run.code, 2, "{}", run.out);
    fs::copy(other.path("name.ron"), place.path("name.ron")).unwrap();
    let run = place.run(&[&further[..], &[&first]].concat());
    assert_eq!((run.code, run.err.lines().count()), (0, 1), "{}", run.err);
}
