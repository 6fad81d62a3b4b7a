//! `millrace register` as a person meets it: cases in, out and found again.

use std::fs;
use std::path::Path;

use crate::support::place::{Place, demo};

/// A case file without the comment that demo cases open with: what the program itself writes.
fn written(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let start = text.find("(\n").unwrap();
    text[start..].to_owned()
}

#[test]
fn what_is_imported_is_listed_exported_and_checked() {
    let place = Place::new();
    let cases = place.import(&[
        "ordinary-eye",
        "hard-and-shallow",
        "contact-ultrasound-only",
    ]);
    assert!(place.usual().is_file());

    let list = place.json(&["list", "--format", "json"]);
    assert_eq!(list["format"], "millrace register list");
    assert_eq!(list["version"], 1);
    assert_eq!(list["register"], place.usual().to_str().unwrap());
    // All on one day, so by name: Marchetti-Vale, Okonjo, Quaye.
    let names: Vec<_> = list["cases"]
        .as_array()
        .unwrap()
        .iter()
        .map(|case| {
            (
                case["case"].as_str().unwrap(),
                case["name"].as_str().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        names,
        [
            (&*cases[0], "Marchetti-Vale, Odile"),
            (&*cases[1], "Okonjo, Adaeze"),
            (&*cases[2], "Quaye, Emmanuel"),
        ]
    );
    let okonjo = &list["cases"][1];
    for (field, value) in [
        ("number", "40-2291"),
        ("birth_date", "1951-03-14"),
        ("eye", "right"),
        ("operation_date", "2026-12-03"),
        ("state", "planned"),
        ("saved_by", "okafor"),
    ] {
        assert_eq!(okonjo[field], value, "{field}");
    }
    assert_eq!(okonjo["revision"], 1);

    let found = place.run(&["list", "--search", "ada OKON"]);
    let (header, rows) = found.out.split_once('\n').unwrap();
    assert!(header.contains("Planned for"), "{header}");
    assert_eq!(rows.lines().count(), 1, "{rows}");
    for part in [
        "2026-12-03",
        "Okonjo, Adaeze",
        "40-2291",
        "RIGHT EYE",
        "planned",
        &cases[1][..10],
    ] {
        assert!(rows.contains(part), "{rows}");
    }
    let none = place.run(&["list", "--search", "nobody"]);
    assert_eq!(none.out, format!("No case: {}\n", place.usual().display()));
    assert_eq!(none.code, 0);

    for typed in [&*cases[1], &cases[1][..8], "40-2291"] {
        let export = place.run(&["export", typed]);
        assert_eq!((export.code, &*export.err), (0, ""));
        assert_eq!(export.out, written(&demo("hard-and-shallow")));
    }
    let check = place.run(&["check"]);
    let expected = format!(
        "Everything is as it was saved.\n3 cases, 3 revisions, 0 sheets read: {}\nHead 3-0-",
        place.usual().display()
    );
    assert!(check.out.starts_with(&expected), "{}", check.out);
}

#[test]
fn an_import_prints_case_and_revision() {
    let place = Place::new();
    let file = demo("ordinary-eye");
    let register = place.path("elsewhere.sqlite3");
    let register = register.to_str().unwrap();
    let run = place.run(&[
        "import",
        file.to_str().unwrap(),
        "--who",
        "A. Okafor",
        "--register",
        register,
    ]);
    let list = place.json(&["--register", register, "list", "--format", "json"]);
    let case = list["cases"][0]["case"].as_str().unwrap();
    let line = format!("saved {case} revision 1 (planned): {}\n", file.display());
    assert_eq!((run.code, run.out, &*run.err), (0, line, ""));
    assert_eq!(list["cases"][0]["saved_by"], "A. Okafor");
    assert!(!place.usual().exists());
}

#[test]
fn one_file_that_is_refused_keeps_all_out() {
    let place = Place::new();
    let good = demo("ordinary-eye");
    let bad = place.path("bad.ron");
    fs::write(&bad, written(&good).replace("version: 3", "version: 4")).unwrap();
    let run = place.run(&[
        "import",
        good.to_str().unwrap(),
        bad.to_str().unwrap(),
        "absent.ron",
    ]);
    assert_eq!((run.code, &*run.out), (2, ""));
    let lines: Vec<_> = run.err.lines().collect();
    assert_eq!(lines.len(), 3, "{}", run.err);
    assert_eq!(
        lines[0],
        format!(
            "millrace: case refused: the file has version 4; this program reads version 3: {}",
            bad.display()
        )
    );
    assert!(lines[1].ends_with(": absent.ron"), "{}", lines[1]);
    assert_eq!(
        lines[2],
        "millrace: nothing was imported: 2 of 3 files refused"
    );
    assert!(!place.usual().exists(), "no register is begun for nothing");
}

#[test]
fn nobody_imports_without_a_name() {
    let place = Place::new();
    let file = demo("ordinary-eye");
    let file = file.to_str().unwrap();
    let run = place.run_as(None, &["import", file]);
    let message = "millrace: the system does not tell who you are: name yourself with --who\n";
    assert_eq!((run.code, &*run.err), (2, message));
    let run = place.run_as(None, &["import", file, "--who", " "]);
    let message = format!(
        "millrace: nobody is named as the person who saves; nothing was saved: {}\n",
        place.usual().display()
    );
    assert_eq!((run.code, run.err), (2, message));
    assert_eq!(place.run_as(None, &["import", file, "--who", "A"]).code, 0);
}

#[test]
fn a_further_revision_follows_the_one_it_was_made_from() {
    let place = Place::new();
    let case = place.import(&["hard-and-shallow"]).remove(0);
    let file = place.path("changed.ron");
    let text = written(&demo("hard-and-shallow")).replace("\"-0.30 D\"", "\"-0.50 D\"");
    fs::write(&file, &text).unwrap();
    let file = file.to_str().unwrap();
    let revise = |revision| {
        place.run(&[
            "import",
            file,
            "--case",
            "40-2291",
            "--revision",
            revision,
            "--who",
            "B. Weir",
        ])
    };
    let run = revise("1");
    assert_eq!(
        run.out,
        format!("saved {case} revision 2 (planned): {file}\n")
    );
    let run = revise("1");
    assert_eq!((run.code, &*run.out), (2, ""));
    let conflict = "millrace: the case was changed meanwhile: revision 2 by B. Weir at ";
    assert!(run.err.starts_with(conflict), "{}", run.err);
    assert!(run.err.ends_with("; nothing was saved\n"), "{}", run.err);

    assert_eq!(place.run(&["export", &case]).out, text);
    let first = place.run(&["export", &case, "--revision", "1"]);
    assert_eq!(first.out, written(&demo("hard-and-shallow")));
    let missing = place.run(&["export", &case, "--revision", "3"]);
    let message = format!(
        "millrace: the case has no revision 3; its newest is 2: {}\n",
        place.usual().display()
    );
    assert_eq!((missing.code, missing.err), (2, message));

    let history = place.json(&["history", &case, "--format", "json"]);
    assert_eq!(history["case"], *case);
    let revisions = history["revisions"].as_array().unwrap();
    let by: Vec<_> = revisions
        .iter()
        .map(|one| one["saved_by"].as_str().unwrap())
        .collect();
    assert_eq!(by, ["okafor", "B. Weir"]);
    let text = place.run(&["history", "40-2291", "--width", "100"]).out;
    assert!(text.starts_with(&format!("Case {case}\n")), "{text}");
    for one in revisions {
        assert!(
            text.contains(&one["hash"].as_str().unwrap()[..12]),
            "{text}"
        );
        assert_eq!(one["saved_with"], "millrace 0.1.0");
    }
    let many = place.run(&["import", file, file, "--case", &case, "--revision", "2"]);
    let message = "millrace: a further revision of a case is imported from one file, not 2\n";
    assert_eq!((many.code, &*many.err), (2, message));
}

#[test]
fn an_export_overwrites_only_by_force() {
    let place = Place::new();
    place.import(&["ordinary-eye"]);
    let file = place.path("out.ron");
    fs::write(&file, "mine").unwrap();
    let run = place.run(&["export", "31-0042", "-o", "out.ron"]);
    let message = "millrace: the file exists; --force replaces it: out.ron\n";
    assert_eq!((run.code, &*run.err), (2, message));
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
    let run = place.run(&["export", "31-0042", "-o", "out.ron", "--force"]);
    assert_eq!((run.code, &*run.out), (0, ""));
    assert_eq!(
        fs::read_to_string(&file).unwrap(),
        written(&demo("ordinary-eye"))
    );
    let run = place.run(&["export", "31-0042", "-o", "new.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    // What was exported is a case like any other.
    let plan = crate::support::millrace_in(place.0.path(), &["plan", "new.ron"]);
    assert!(plan.out.contains("MARCHETTI-VALE, Odile"), "{}", plan.err);
    let run = place.run(&["export", "no-such"]);
    let message = format!(
        "millrace: no case of the register is called this: {}\n",
        place.usual().display()
    );
    assert_eq!((run.code, run.err), (2, message));
}
