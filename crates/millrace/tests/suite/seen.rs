//! A register that is not what it was when this computer saw it last.

use std::fs;

use crate::support::place::Place;

fn heads(text: &str) -> usize {
    let head = |word: &&str| {
        let parts: Vec<_> = word.trim_end_matches([',', ';', ':']).split('-').collect();
        parts.len() == 6 && parts[2..].iter().all(|part| part.len() == 4)
    };
    text.split(' ').filter(head).count()
}

/// Set back to an older copy, it is refused by every command that uses it, naming both heads, until somebody
/// accepts it; checked it is all the same.
#[test]
fn a_register_that_was_set_back_is_refused_until_it_is_accepted() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    assert_eq!(place.run(&["backup", "monday"]).code, 0);
    place.import(&["ordinary-eye"]);
    let restored = place.run(&["restore", "monday"]);
    assert_eq!(restored.code, 0, "{}", restored.err);
    for command in [
        &["list"][..],
        &["history", "40-2291"],
        &["export", "40-2291"],
        &["backup", "tuesday"],
        &[
            "sign", "40-2291", "--as", "A", "--role", "surgeon", "--target", "-0.30",
        ],
    ] {
        let run = place.run(command);
        assert_eq!(run.code, 2, "{command:?} {}", run.out);
        assert!(run.err.contains("was set back"), "{}", run.err);
        assert_eq!(heads(&run.err), 2, "{}", run.err);
    }
    let sheet = place.millrace(None, &["sheet", "--number", "1", "-o", "sheet.pdf"]);
    assert_eq!(sheet.code, 2);
    let checked = place.run(&["check"]);
    assert_eq!(checked.code, 1, "{}", checked.out);
    assert!(checked.out.contains("Everything is as it was saved."));
    assert!(checked.out.contains("was set back"), "{}", checked.out);

    let accepted = place.run(&["accept"]);
    assert_eq!((accepted.code, &*accepted.err), (0, ""));
    assert!(
        accepted.out.starts_with("Accepted as it is: 1-0-"),
        "{}",
        accepted.out
    );
    assert!(
        accepted.out.contains("Seen before: 2-0-"),
        "{}",
        accepted.out
    );
    assert_eq!(place.run(&["list"]).code, 0);
    assert_eq!(place.run(&["check"]).code, 0);
}

/// As much is in it, and something else.
#[test]
fn another_register_in_its_place_is_refused() {
    let (place, other) = (Place::new(), Place::new());
    place.import(&["hard-and-shallow"]);
    other.import(&["ordinary-eye"]);
    assert_eq!(other.run(&["backup", "copy"]).code, 0);
    fs::copy(other.path("copy"), place.usual()).unwrap();
    let run = place.run(&["list"]);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.err.contains("written anew"), "{}", run.err);
    assert_eq!(heads(&run.err), 2, "{}", run.err);
}

/// The file in which it is remembered is not believed when it is not what was written.
#[test]
fn a_damaged_memory_is_told() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    let folder = place.path(".local/state/millrace/seen");
    let kept: Vec<_> = fs::read_dir(&folder).unwrap().collect();
    assert_eq!(kept.len(), 1);
    fs::write(kept[0].as_ref().unwrap().path(), "millrace seen head 9\n").unwrap();
    let run = place.run(&["list"]);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.err.contains("cannot be read"), "{}", run.err);
    assert_eq!(place.run(&["accept"]).code, 0);
    assert_eq!(place.run(&["list"]).code, 0);
}

/// What cannot be remembered is told, and keeps nobody from working.
#[cfg(unix)]
#[test]
fn where_nothing_can_be_remembered_the_work_goes_on() {
    let place = Place::new();
    fs::create_dir_all(place.path(".local")).unwrap();
    fs::write(place.path(".local/state"), "no folder").unwrap();
    let case = crate::support::place::demo("hard-and-shallow");
    let run = place.run(&["import", case.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.err.contains("could not be remembered"), "{}", run.err);
    assert_eq!(place.run(&["list"]).code, 0);
}
