//! `millrace sheet`: one sheet, a draft, and the sheets of a day.

use std::fs;
use std::path::Path;

use crate::reader;
use crate::support::place::{Place, demo};
use crate::support::{Run, millrace_in};

fn sheet(place: &Place, arguments: &[&str]) -> Run {
    let register = place.usual();
    let mut all = vec!["sheet"];
    all.extend(arguments);
    if !arguments.contains(&"--draft") {
        all.extend(["--register", register.to_str().unwrap()]);
    }
    millrace_in(place.0.path(), &all)
}

/// Imports the hard, shallow eye and signs it.
fn signed() -> Place {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    let arguments = ["sign", "40-2291", "--as", "A. Okafor", "--role"];
    let mut arguments = arguments.to_vec();
    arguments.extend(["consultant surgeon", "--target", "-0.30"]);
    let run = place.run(&arguments);
    assert_eq!((run.code, &*run.err), (0, ""));
    place
}

/// The title that a reader of the file sees.
fn title(path: &Path) -> String {
    let document = lopdf::Document::load(path).unwrap();
    let info = document.trailer.get(b"Info").unwrap().as_reference();
    let info = document.get_dictionary(info.unwrap()).unwrap();
    lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap()
}

#[test]
fn a_sheet_is_written_the_same_again_and_over_nothing() {
    let place = signed();
    let run = sheet(&place, &["--number", "1", "-o", "one.pdf"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_eq!(title(&place.path("one.pdf")), "Plan sheet 1");
    let run = sheet(&place, &["--number", "1", "-o", "again.pdf"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let one = fs::read(place.path("one.pdf")).unwrap();
    assert_eq!(fs::read(place.path("again.pdf")).unwrap(), one);

    fs::write(place.path("notes.pdf"), "notes").unwrap();
    let run = sheet(&place, &["--number", "1", "-o", "notes.pdf"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("the file exists"), "{}", run.err);
    assert_eq!(fs::read(place.path("notes.pdf")).unwrap(), b"notes");
    let run = sheet(&place, &["--number", "1", "-o", "notes.pdf", "--force"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_eq!(fs::read(place.path("notes.pdf")).unwrap(), one);
}

#[test]
fn a_sheet_nobody_signed_is_refused() {
    let place = signed();
    for number in ["0", "2"] {
        let run = sheet(&place, &["--number", number, "-o", "none.pdf"]);
        assert_eq!(run.code, 2, "{number}");
        assert!(!run.err.is_empty());
        assert!(!place.path("none.pdf").exists());
    }
}

#[test]
fn a_draft_is_printed_as_a_draft() {
    let place = Place::new();
    let case = demo("hard-and-shallow");
    let case = case.to_str().unwrap();
    for paper in ["a4", "letter"] {
        let file = format!("{paper}.pdf");
        let run = sheet(&place, &["--draft", case, "--paper", paper, "-o", &file]);
        assert_eq!((run.code, &*run.err), (0, ""));
        assert_eq!(title(&place.path(&file)), "Plan sheet, draft");
    }
}

/// What a machine reads on each page of a file.
fn pages(path: &Path) -> Vec<String> {
    reader::pages(&fs::read(path).unwrap())
}

/// Saves the signed case again with another target and signs it when asked to.
fn save_again(place: &Place) {
    let run = place.run(&["export", "40-2291", "-o", "again.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let text = fs::read_to_string(place.path("again.ron")).unwrap();
    assert_eq!(text.matches("-0.30").count(), 2, "{text}");
    fs::write(place.path("again.ron"), text.replace("-0.30", "-0.25")).unwrap();
    let further = [
        "import",
        "again.ron",
        "--case",
        "40-2291",
        "--revision",
        "1",
    ];
    let run = place.run(&further);
    assert_eq!((run.code, &*run.err), (0, ""));
}

fn sign_again(place: &Place) {
    let arguments = ["sign", "40-2291", "--as", "A. Okafor", "--role"];
    let mut arguments = arguments.to_vec();
    arguments.extend(["consultant surgeon", "--target", "-0.25"]);
    let run = place.run(&arguments);
    assert_eq!((run.code, &*run.err), (0, ""));
}

#[test]
fn a_sheet_that_is_no_longer_what_to_work_by_says_so_on_paper_and_terminal() {
    let place = signed();
    let one = ["--number", "1", "-o", "one.pdf", "--force"];
    assert_eq!(sheet(&place, &one).code, 0);
    let as_signed = pages(&place.path("one.pdf"));

    save_again(&place);
    let run = sheet(&place, &one);
    assert_eq!((run.code, &*run.out), (1, ""), "{}", run.err);
    assert!(
        run.err
            .starts_with("changed since: the case was saved again as revision 2"),
        "{}",
        run.err
    );
    for page in pages(&place.path("one.pdf")) {
        assert_eq!(
            page.matches("CHANGED SINCE IT WAS SIGNED").count(),
            2,
            "{page}"
        );
    }

    sign_again(&place);
    let run = sheet(&place, &one);
    assert_eq!((run.code, &*run.out), (1, ""), "{}", run.err);
    assert!(
        run.err.starts_with("superseded by sheet 2 on "),
        "{}",
        run.err
    );
    assert_eq!(
        title(&place.path("one.pdf")),
        "Plan sheet 1, superseded by sheet 2"
    );
    let marked = pages(&place.path("one.pdf"));
    for page in &marked {
        assert_eq!(page.matches("SUPERSEDED BY SHEET 2").count(), 2, "{page}");
    }
    // What was signed is still what is there: the target of the first sheet, and its fingerprint.
    let all = |pages: &[String]| pages.concat();
    for value in ["-0.30 D", "+22.50 D"].map(|value| value.replace('-', "\u{2212}")) {
        let count = |pages: &[String]| all(pages).matches(&value).count();
        assert!(0 < count(&as_signed), "{value}");
        assert_eq!(count(&marked), count(&as_signed), "{value}");
    }
    let run = sheet(&place, &["--number", "2", "-o", "two.pdf"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert!(!all(&pages(&place.path("two.pdf"))).contains("SUPERSEDED"));
}

/// An earlier sheet that lies in the folder is marked, and not left there to be printed with the rest.
#[test]
fn the_sheets_of_a_day_leave_no_earlier_sheet_unmarked() {
    let place = signed();
    let day = ["--day", "2026-12-03", "-o", "theatre", "--force"];
    assert_eq!(sheet(&place, &day).code, 0);
    save_again(&place);
    let run = sheet(&place, &day);
    assert_eq!((run.code, &*run.err), (1, ""));
    assert!(
        run.out.contains("changed since sheet 1 was signed"),
        "{}",
        run.out
    );
    let first = place.path("theatre/sheet-1.pdf");
    assert!(
        pages(&first)
            .iter()
            .all(|page| page.contains("CHANGED SINCE IT WAS SIGNED"))
    );

    sign_again(&place);
    // Without being asked nothing is written over, the earlier sheet neither.
    fs::remove_file(place.path("theatre/theatre-list-2026-12-03.pdf")).unwrap();
    let run = sheet(&place, &day[..4]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("sheet-1.pdf"), "{}", run.err);
    let run = sheet(&place, &day);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert!(run.out.starts_with("1 sheet written"), "{}", run.out);
    assert!(
        pages(&first)
            .iter()
            .all(|page| page.contains("SUPERSEDED BY SHEET 2"))
    );
    let second = pages(&place.path("theatre/sheet-2.pdf"));
    assert!(!second.concat().contains("SUPERSEDED"));

    // Where none lies, none is put.
    let run = sheet(&place, &["--day", "2026-12-03", "-o", "new"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert!(!place.path("new/sheet-1.pdf").exists());
}

/// What is shipped is written out, adapted, and stands beside the register.
#[test]
fn a_clinics_own_arrangement_is_used_or_the_sheet_refused() {
    let place = signed();
    let run = sheet(&place, &["--number", "1", "-o", "shipped.pdf"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let adapt = ["sheet", "--arrangement-to-adapt", "-o", "shipped.typ"];
    let run = millrace_in(place.0.path(), &adapt);
    assert_eq!((run.code, &*run.err), (0, ""));
    let shipped = fs::read_to_string(place.path("shipped.typ")).unwrap();
    let beside = place.usual().parent().unwrap().join("sheet.typ");
    let set = |arrangement: &str, file: &str| {
        fs::write(&beside, arrangement).unwrap();
        sheet(&place, &["--number", "1", "-o", file, "--force"])
    };

    let run = set(&shipped, "same.pdf");
    assert_eq!((run.code, &*run.err), (0, ""));
    let of = |file: &str| fs::read(place.path(file)).unwrap();
    assert_eq!(of("same.pdf"), of("shipped.pdf"));
    let own = shipped.replace("tick(labels.eye_marked)", "tick[In our theatre]");
    let run = set(&own, "own.pdf");
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_ne!(of("own.pdf"), of("shipped.pdf"));

    let run = set("#let nothing = 1", "refused.pdf");
    assert_eq!(run.code, 2);
    let refused = "no sheet is written: the template of the sheet cannot be laid out";
    assert!(run.err.contains(refused), "{}", run.err);
    assert!(!place.path("refused.pdf").exists());

    // One that is named goes before the one beside the register, and a draft takes one too.
    let named = [
        "--number",
        "1",
        "--arrangement",
        "shipped.typ",
        "-o",
        "named.pdf",
    ];
    let run = sheet(&place, &named);
    assert_eq!((run.code, &*run.err), (0, ""));
    assert_eq!(of("named.pdf"), of("shipped.pdf"));
    let case = demo("hard-and-shallow");
    let draft = [
        "--draft",
        case.to_str().unwrap(),
        "--arrangement",
        "none.typ",
        "-o",
        "draft.pdf",
    ];
    let run = sheet(&place, &draft);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("none.typ"), "{}", run.err);
}

#[test]
fn the_sheets_of_a_day_come_with_their_list() {
    let place = signed();
    let day = ["--day", "2026-12-03", "-o", "theatre"];
    let run = sheet(&place, &day);
    assert_eq!((run.code, &*run.err), (0, ""));
    let list = Path::new("theatre/theatre-list-2026-12-03.pdf");
    let told = format!("1 sheet written; the list: {}\n", list.display());
    assert_eq!(run.out, told);
    let list = place.path(list.to_str().unwrap());
    assert_eq!(title(&list), "Theatre list, 3 Dec 2026");
    assert_eq!(title(&place.path("theatre/sheet-1.pdf")), "Plan sheet 1");

    // Nothing is written over, and nothing is written beside it.
    fs::remove_file(&list).unwrap();
    let run = sheet(&place, &day);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("sheet-1.pdf"), "{}", run.err);
    assert!(!list.exists());

    // Somebody of the same day has no sheet: said, and the others are written.
    let text = fs::read_to_string(demo("hard-and-shallow")).unwrap();
    let other = text
        .replace("40-2291", "40-2292")
        .replace("Adaeze", "Ifeoma");
    fs::write(place.path("other.ron"), other).unwrap();
    let run = place.run(&["import", "other.ron"]);
    assert_eq!((run.code, &*run.err), (0, ""));
    let run = sheet(&place, &["--day", "2026-12-03", "-o", "theatre", "--force"]);
    assert_eq!((run.code, &*run.err), (1, ""));
    let expected = "No sheet: Okonjo, Ifeoma, No. 40-2292: not signed\n";
    assert!(run.out.starts_with("1 sheet written"), "{}", run.out);
    assert!(run.out.ends_with(expected), "{}", run.out);
    assert!(list.exists());

    let run = sheet(&place, &["--day", "2026-12-04", "-o", "theatre"]);
    assert_eq!(run.code, 2);
    let nobody = "no case of the register is planned for 4 Dec 2026";
    assert!(run.err.contains(nobody), "{}", run.err);
}
