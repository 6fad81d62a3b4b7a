//! The care of a register: backups, checks, and what only an import may begin.

use std::fs;

use crate::support::place::Place;
use serde_json::Value;

/// A mistyped place is not answered with an empty register.
#[test]
fn only_an_import_begins_a_register() {
    let place = Place::new();
    for arguments in [
        vec!["list"],
        vec!["export", "40-2291"],
        vec!["history", "40-2291"],
        vec!["check"],
        vec!["backup", "b.sqlite3"],
        vec!["repair", "b.sqlite3"],
    ] {
        let run = place.run(&arguments);
        let message = format!(
            "millrace: there is no register here; import a case to start one, or name the place of \
             yours: {}\n",
            place.usual().display()
        );
        assert_eq!((run.code, run.err), (2, message), "{arguments:?}");
        assert!(!place.path("data").exists(), "{arguments:?}");
    }
}

#[test]
fn a_backup_is_a_register_and_overwrites_nothing() {
    let place = Place::new();
    let case = place.import(&["ordinary-eye"]).remove(0);
    let run = place.run(&["backup", "b.sqlite3"]);
    assert_eq!(
        (run.code, &*run.out),
        (0, "copied and read back: b.sqlite3\n")
    );
    let again = place.run(&["backup", "b.sqlite3"]);
    let message = "millrace: this file exists and is not overwritten; name a new file for the \
                   backup: b.sqlite3\n";
    assert_eq!((again.code, &*again.err), (2, message));
    let list = place.json(&["list", "--format", "json", "--register", "b.sqlite3"]);
    assert_eq!(list["cases"][0]["case"], *case);
    assert_eq!(place.run(&["check", "--register", "b.sqlite3"]).code, 0);
}

fn head(place: &Place) -> String {
    let check = place.run(&["check"]);
    let head = check
        .out
        .lines()
        .find_map(|line| line.strip_prefix("Head "));
    head.unwrap().to_owned()
}

/// The register is put back to what it was, and a head that was written down tells of it.
#[test]
fn a_restore_tells_what_it_moved_and_a_head_tells_of_the_restore() {
    let place = Place::new();
    place.import(&["ordinary-eye"]);
    let early = head(&place);
    assert_eq!(place.run(&["backup", "b.sqlite3"]).code, 0);
    place.import(&["hard-and-shallow"]);
    let late = head(&place);
    let grown = place.run(&["check", "--head", &early]);
    assert_eq!(grown.code, 0);
    let told = format!("Everything of {early} is in it, and more was saved or signed since.\n");
    assert!(grown.out.ends_with(&told), "{}", grown.out);

    let restored = place.run(&["restore", "b.sqlite3"]);
    let usual = place.usual();
    let usual = usual.display();
    // The register and the journal that the look for other programs began.
    let told = format!(
        "restored and read back: {usual}\n  moved away: {usual}.replaced-1\n  moved away: \
         {usual}.replaced-1-wal\n"
    );
    assert_eq!((restored.code, restored.out), (0, told));
    assert_eq!(place.run(&["accept"]).code, 0);
    let same = place.run(&["check", "--head", &early]);
    assert_eq!(same.code, 0, "{}", same.out);
    let set_back = place.run(&["check", "--head", &late]);
    assert_eq!(set_back.code, 1);
    let told =
        format!("The register was set back: it does not hold as much as it held at {late}.\n");
    assert!(set_back.out.ends_with(&told), "{}", set_back.out);
    let document = place.run(&["check", "--head", &late, "--format", "json"]);
    let document: Value = serde_json::from_str(&document.out).unwrap();
    assert_eq!(
        (&document["head"], &document["compared"]),
        (&early.into(), &"set_back".into())
    );
    let refused = place.run(&["check", "--head", "1204"]);
    assert_eq!((refused.code, &*refused.out), (2, ""));

    let repaired = place.run(&["repair", "r.sqlite3"]);
    let told = "1 cases, 1 revisions, 0 sheets written anew: r.sqlite3\n";
    assert_eq!((repaired.code, &*repaired.out), (0, told));
    assert_eq!(place.run(&["check", "--register", "r.sqlite3"]).code, 0);
}

/// Status 1 is damage, 2 is a file that cannot be checked.
#[test]
fn a_check_tells_damage_from_a_file_that_is_no_register() {
    let place = Place::new();
    place.import(&["ordinary-eye", "hard-and-shallow"]);
    let path = place.usual();
    let sound = fs::read(&path).unwrap();
    // A name in a stored body, one letter changed.
    let mut bytes = sound.clone();
    let at = sound
        .windows(21)
        .position(|window| window == b"\"name\":\"Okonjo, Adaez")
        .unwrap();
    bytes[at + 8] = b'E';
    fs::write(&path, &bytes).unwrap();
    let run = place.run(&["check"]);
    assert_eq!((run.code, &*run.err), (1, ""), "{}", run.out);
    assert!(
        run.out
            .starts_with("The register is damaged. Do not write to it"),
        "{}",
        run.out
    );
    assert!(
        run.out.contains("revision 1 is not what was saved\n"),
        "{}",
        run.out
    );
    let run = place.run(&["check", "--format", "json"]);
    let document: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!((run.code, &document["sound"]), (1, &Value::Bool(false)));
    assert!(!document["problems"].as_array().unwrap().is_empty());
    let run = place.run(&["export", "40-2291"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    assert!(run.err.contains("is not what was saved"), "{}", run.err);

    // So damaged that it cannot be opened.
    let mut bytes = sound;
    bytes[100..3_000].fill(0xff);
    fs::write(&path, &bytes).unwrap();
    let run = place.run(&["check"]);
    assert_eq!(run.code, 1, "{} {}", run.out, run.err);
    assert!(
        run.out.starts_with("The register is damaged."),
        "{}",
        run.out
    );

    fs::write(&path, "no register").unwrap();
    let run = place.run(&["check"]);
    assert_eq!((run.code, &*run.out), (2, ""));
    assert!(
        run.err.contains("this file is not a register of Millrace"),
        "{}",
        run.err
    );
}
