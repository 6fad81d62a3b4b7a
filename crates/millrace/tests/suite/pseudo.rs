//! The command line in the pseudo-language: what is left of plain English on a page cannot be said in
//! another language, and a number or a stored fact that depends on the language would show.

use std::collections::BTreeSet;
use std::fs;

use millrace_core::reference::FORMULAS;
use millrace_wording::check::{numbers, restored, untouched};

use crate::support::place::{Place, demo};
use crate::support::{Run, millrace_in, root};

const PSEUDO: [&str; 2] = ["--language", "en-XA"];

/// What no language changes: the program's name, what it is called by, numerals.
const FIXED: [&str; 8] = [
    "millrace",
    "--help",
    "--who",
    "--register",
    "--force",
    "II",
    "III",
    "IV",
];

/// Every text in quotation marks of a case file: what people typed. A family name stands in capitals
/// at the head of a plan.
fn typed(case: &str) -> BTreeSet<String> {
    let quoted = case.split('"').skip(1).step_by(2);
    let families = quoted.clone().filter_map(|text| text.split_once(','));
    let families = families.map(|(family, given)| format!("{},{given}", family.to_uppercase()));
    quoted.map(str::to_owned).chain(families).collect()
}

/// The plain English of a page: codes, which have digits, are none.
fn english_of(page: &str, typed: &BTreeSet<String>) -> Vec<String> {
    let mut left = words_of(page);
    let mut several: Vec<_> = typed.iter().filter(|text| text.contains(' ')).collect();
    several.sort_by_key(|text| core::cmp::Reverse(text.len()));
    for text in several {
        left = left.replace(text.as_str(), " ");
    }
    let is_code = |word: &&str| word.bytes().any(|byte| byte.is_ascii_digit());
    let left: Vec<_> = left.split(' ').filter(|word| !is_code(word)).collect();
    let allowed = typed.iter().map(String::as_str).chain(FIXED);
    untouched(&left.join(" "), allowed)
}

/// The words of a page, wherever its lines end.
fn words_of(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Both pages say the same, word for word and number for number, and one of them says nothing in
/// English.
fn assert_same_page(what: &str, english: &str, pseudo: &str, typed: &BTreeSet<String>) {
    assert_eq!(english_of(pseudo, typed), [""; 0], "{what}\n{pseudo}");
    let [one, other] = [english, pseudo].map(|page| words_of(&restored(page)));
    assert_eq!(one, other, "{what}");
    assert_eq!(numbers(english), numbers(pseudo), "{what}");
    assert!(one.is_empty() || english != pseudo, "{what}: {english}");
}

fn names_of_demo_cases() -> Vec<String> {
    let cases = fs::read_dir(root().join("demo-data/cases")).unwrap();
    let mut names: Vec<_> = cases
        .map(|case| case.unwrap().path())
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn no_plan_has_a_word_of_english_or_another_number() {
    let names = names_of_demo_cases();
    assert_eq!(names.len(), 15);
    for name in names {
        let path = demo(&name);
        let typed = typed(&fs::read_to_string(&path).unwrap());
        let path = path.to_str().unwrap();
        for extent in [&["--width", "100"][..], &["--full", "--width", "100"]] {
            let plan = [&["plan", path], extent].concat();
            let english = millrace_in(&root(), &plan);
            let pseudo = millrace_in(&root(), &[&plan[..], &PSEUDO].concat());
            assert_eq!((&*pseudo.err, pseudo.code), ("", english.code), "{name}");
            assert_same_page(&name, &english.out, &pseudo.out, &typed);
        }
        // The document is of codes and numbers.
        let document = ["plan", path, "--format", "json"];
        let english = millrace_in(&root(), &document);
        let pseudo = millrace_in(&root(), &[&document[..], &PSEUDO].concat());
        assert_eq!(english.out, pseudo.out, "{name}");
    }
}

fn both(place: &Place, arguments: &[&str]) -> [Run; 2] {
    let english = place.millrace(Some("okafor"), arguments);
    let pseudo = place.millrace(Some("okafor"), &[arguments, &PSEUDO].concat());
    assert_eq!(english.code, pseudo.code, "{arguments:?}");
    [english, pseudo]
}

/// A question whose answer changes nothing, asked in both languages.
fn ask(place: &Place, arguments: &[&str], typed: &BTreeSet<String>) -> i32 {
    let [english, pseudo] = both(place, arguments);
    let what = arguments.join(" ");
    assert_same_page(&what, &english.out, &pseudo.out, typed);
    assert_same_page(&what, &english.err, &pseudo.err, typed);
    let said = english.out.len() + english.err.len();
    assert!(0 < said, "{what}");
    english.code
}

fn sign(place: &Place, case: &str, target: &str, more: &[&str]) -> Run {
    let name = ["--as", "A. Okafor", "--role", "consultant surgeon"];
    let arguments = [
        &["register", "sign", case],
        &name[..],
        &["--target", target],
    ]
    .concat();
    place.millrace(Some("okafor"), &[&arguments, more].concat())
}

fn fingerprint(signed: &Run) -> &str {
    assert_eq!((signed.code, &*signed.err), (0, ""));
    let words = signed.out.split_whitespace();
    words.last().unwrap()
}

/// What of a place is no text of the program: where it lies, cases, who.
fn typed_at(place: &Place, cases: &[String]) -> BTreeSet<String> {
    let mut typed: BTreeSet<_> = ["A. Okafor", "okafor", "consultant surgeon"]
        .map(str::to_owned)
        .into();
    typed.extend(cases.iter().cloned());
    typed.extend(cases.iter().map(|case| case[..10].to_owned()));
    typed.insert(place.0.path().to_str().unwrap().to_owned());
    typed.insert("data/millrace/register.sqlite3".to_owned());
    typed
}

#[test]
fn a_register_is_read_signed_and_computed_again_without_a_difference() {
    let place = Place::new();
    // The first has recorded reasons, of which none may be outdated in another language.
    let cases = place.import(&["hard-and-shallow", "ordinary-eye"]);
    let mut all = typed_at(&place, &cases);
    for name in ["hard-and-shallow", "ordinary-eye"] {
        all.extend(typed(&fs::read_to_string(demo(name)).unwrap()));
    }
    let in_english = sign(&place, &cases[0], "-0.30", &[]);
    let in_pseudo = sign(&place, &cases[1], "-0.25", &PSEUDO);
    assert_eq!(
        english_of(&in_pseudo.out, &all),
        [""; 0],
        "{}",
        in_pseudo.out
    );
    let prints = [fingerprint(&in_english), fingerprint(&in_pseudo)].map(str::to_owned);
    all.extend(prints.clone());
    for (number, print) in ["1", "2"].into_iter().zip(&prints) {
        assert_eq!(ask(&place, &["verify", print], &all), 0, "{number}");
        let again = ["plan", "--recompute", number, "--width", "100"];
        // 0: no result differs.
        assert_eq!(ask(&place, &again, &all), 0, "{number}");
        let document = [&again[..3], &["--format", "json"]].concat();
        let [english, pseudo] = both(&place, &document);
        assert_eq!(english.out, pseudo.out);
    }
    let checked = place.millrace(Some("okafor"), &["register", "check"]);
    let head = checked
        .out
        .lines()
        .find_map(|line| line.strip_prefix("Head "));
    all.insert(head.unwrap().to_owned());
    for arguments in [
        &["register", "list"][..],
        &["register", "history", &cases[0]],
        &["register", "check"],
    ] {
        assert_eq!(ask(&place, arguments, &all), 0, "{arguments:?}");
    }
    // Signed as they stand, so neither is signed twice.
    for case in &cases {
        let refused = sign(&place, case, "-0.30", &PSEUDO);
        assert_eq!((refused.code, &*refused.out), (2, ""));
        assert_eq!(english_of(&refused.err, &all), [""; 0], "{}", refused.err);
    }
}

#[test]
fn refusals_say_the_same_in_both_languages() {
    let place = Place::new();
    let cases = place.import(&["hard-and-shallow", "wild-fellow-eye"]);
    let mut all = typed_at(&place, &cases);
    for name in ["hard-and-shallow", "wild-fellow-eye"] {
        all.extend(typed(&fs::read_to_string(demo(name)).unwrap()));
    }
    let broken = fs::read_to_string(demo("ordinary-eye")).unwrap();
    for (name, from, to) in [
        ("newer.ron", "version: 3", "version: 9"),
        ("other.ron", "\"millrace case\"", "\"recipe\""),
        ("unit.ron", "\"-0.25 D\"", "\"-0.25\""),
    ] {
        let changed = broken.replacen(from, to, 1);
        assert_ne!(changed, broken, "{name}");
        fs::write(place.path(name), changed).unwrap();
        all.insert(name.to_owned());
    }
    all.extend(["recipe", "millrace case", "nobody"].map(str::to_owned));
    all.extend(FORMULAS.iter().map(|formula| formula.key.to_owned()));
    let sign = [
        "--as",
        "A. Okafor",
        "--role",
        "surgeon",
        "--target",
        "+0.25",
    ];
    for arguments in [
        &["plan", "newer.ron"][..],
        &["plan", "other.ron"],
        &["plan", "--recompute", "0"],
        &["plan", "--recompute", "1"],
        &["verify", "0"],
        &["verify", "I"],
        &["verify", "1234-5678-9ABC-DEFG"],
        &["register", "history", "nobody"],
        &[&["register", "sign", &cases[0]], &sign[..]].concat(),
        &[&["register", "sign", &cases[1]], &sign[..]].concat(),
        &["register", "import", "newer.ron"],
        &["formulas", "nobody"],
        &["rules", "nobody"],
    ] {
        assert_eq!(ask(&place, arguments, &all), 2, "{arguments:?}");
    }
    // A value that cannot be is refused by the reader of files in its own words; where and which
    // file is said by the program.
    let [english, pseudo] = both(&place, &["plan", "unit.ron"]);
    let [one, other] = [&english, &pseudo].map(|run| words_of(&restored(&run.err)));
    assert_eq!((english.code, one), (2, other));
    assert!(
        english.err.contains("case refused: line"),
        "{}",
        english.err
    );
    assert!(!pseudo.err.contains("refused: line"), "{}", pseudo.err);
}

/// The title that a reader of a sheet hears.
fn title(path: &std::path::Path) -> String {
    let file = lopdf::Document::load(path).unwrap();
    let info = file.trailer.get(b"Info").unwrap().as_reference();
    let info = file.get_dictionary(info.unwrap()).unwrap();
    lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap()
}

/// What stands on it is seen by the sheet's own tests.
#[test]
fn sheets_are_printed_in_the_language_asked_for_and_are_the_same_sheets() {
    let place = Place::new();
    let cases = place.import(&["hard-and-shallow"]);
    let print = fingerprint(&sign(&place, &cases[0], "-0.30", &[])).to_owned();
    let draft = demo("ordinary-eye");
    let draft = draft.to_str().unwrap();
    for (what, file, named) in [
        (
            &["--number", "1", "-o", "one.pdf"][..],
            "one.pdf",
            "Plan sheet 1",
        ),
        (
            &["--draft", draft, "-o", "draft.pdf"],
            "draft.pdf",
            "Plan sheet, draft",
        ),
        (
            &["--day", "2026-12-03", "-o", "day"],
            "day/theatre-list-2026-12-03.pdf",
            "Theatre list, 3 Dec 2026",
        ),
    ] {
        let titles = [&[][..], &PSEUDO].map(|language| {
            let arguments = [&["sheet", "--force"], what, language].concat();
            let run = place.millrace(Some("okafor"), &arguments);
            assert_eq!((run.code, &*run.err), (0, ""), "{arguments:?}");
            title(&place.path(file))
        });
        assert_eq!(titles[0], named);
        assert_eq!(restored(&titles[1]), named);
        assert_ne!(titles[1], named);
    }
    let all = typed_at(&place, &cases);
    assert_eq!(ask(&place, &["verify", &print], &all), 0);
}
