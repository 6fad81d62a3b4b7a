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
