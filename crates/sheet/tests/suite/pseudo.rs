//! The sheet in the pseudo-language: what is left of plain English on it cannot be said in another
//! language. What was signed, and every number, is the same.

use millrace_core::biometry::Side;
use millrace_core::case::{Draft, Told};
use millrace_core::case_file;
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Outdated, Paper, Setting, Sheet, SheetError, Template, WithoutSheet};
use millrace_wording::check::{numbers, restored, untouched};
use millrace_wording::{Show as _, Words, command_line};

use crate::contents::codes;
use crate::outdated::{changed, superseded};
use crate::support::hard::{full_theatre, named, thirty_findings, toric_and_hard};
use crate::support::{SIGNER, case, date, document, not_signed, signed};

/// What no language changes: the program, its command, numerals of a scale, who signed and why.
const FIXED: [&str; 6] = [
    "millrace",
    "millrace verify",
    "II",
    SIGNER,
    "consultant surgeon",
    "Measured again on the other device; discussed with the patient",
];

const LANGUAGES: [Words; 2] = [Words::ENGLISH, Words::PSEUDO];

fn set<T>(words: Words, make: impl FnOnce(Setting<'_>) -> T) -> T {
    let template = Template::shipped();
    make(Setting {
        paper: Paper::A4,
        template: &template,
        words,
    })
}

fn outdated_sheets(plan: &SignedPlan, why: Outdated) -> [Sheet; 2] {
    LANGUAGES.map(|words| {
        set(words, |setting| {
            Sheet::outdated(plan, why, setting).unwrap()
        })
    })
}

fn signed_sheets(plan: &SignedPlan) -> [Sheet; 2] {
    LANGUAGES.map(|words| set(words, |setting| Sheet::signed(plan, setting).unwrap()))
}

/// Every run of text in the order of painting, then what only a reader of the file hears: its title and
/// the texts of its pictures.
pub(crate) fn said(sheet: &Sheet) -> String {
    let runs = sheet.texts().into_iter().map(|run| run.text);
    let file = lopdf::Document::load_mem(&sheet.pdf().unwrap()).unwrap();
    let objects = file.objects.values();
    let dictionaries = objects.filter_map(|object| object.as_dict().ok());
    let heard = dictionaries.flat_map(|dictionary| {
        let texts = [&b"Alt"[..], b"Title"].into_iter();
        texts.filter_map(|key| lopdf::decode_text_string(dictionary.get(key).ok()?).ok())
    });
    let all: Vec<_> = runs.chain(heard).collect();
    let text = all.join(" ").replace('\u{200b}', "");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    // A number with its unit is a run of its own: "12/10 mm".
    text.replace("/ ", "/")
}

/// Every text of a case: what people typed, days, and numbers with their unit.
fn typed(draft: &Draft) -> Vec<String> {
    fn texts(value: &serde_json::Value, found: &mut Vec<String>) {
        match value {
            serde_json::Value::String(text) => found.push(text.clone()),
            serde_json::Value::Array(values) => {
                for value in values {
                    texts(value, found);
                }
            }
            serde_json::Value::Object(fields) => {
                for value in fields.values() {
                    texts(value, found);
                }
            }
            _ => {}
        }
    }
    let case: serde_json::Value =
        serde_json::from_str(&case_file::write_json(draft).unwrap()).unwrap();
    let mut found = Vec::new();
    texts(&case, &mut found);
    // Codes of the file are lower-case words; what theatre is told may look like one.
    let is_code = |it: u8| it.is_ascii_lowercase() || it == b'_';
    found.retain(|text| !text.bytes().all(is_code));
    let theatre = &draft.theatre;
    found.extend(theatre.technique.iter().chain(&theatre.in_room).cloned());
    found.extend(theatre.viscoelastic.clone());
    for told in [&theatre.allergies, &theatre.medicines] {
        if let Some(Told::These(these)) = told {
            found.extend(these.clone());
        }
    }
    found
}

/// The plain English of a text; what has digits is a number or a code.
fn english_of(text: &str, typed: &[String]) -> Vec<String> {
    let mut left = text.to_owned();
    let mut several: Vec<_> = typed.iter().filter(|text| text.contains(' ')).collect();
    several.sort_by_key(|text| core::cmp::Reverse(text.len()));
    for text in several {
        left = left.replace(text.as_str(), " ");
    }
    let is_code = |word: &&str| word.bytes().any(|byte| byte.is_ascii_digit());
    let left: Vec<_> = left.split(' ').filter(|word| !is_code(word)).collect();
    untouched(
        &left.join(" "),
        typed.iter().map(String::as_str).chain(FIXED),
    )
}

/// Both say the same, word for word and number for number, and one of them nothing in English.
fn assert_same(what: &str, [english, pseudo]: [&Sheet; 2], typed: &[String]) {
    assert_eq!(pseudo.overlaps(), Vec::<[_; 2]>::new(), "{what}");
    let [english, pseudo] = [english, pseudo].map(said);
    assert_eq!(english_of(&pseudo, typed), [""; 0], "{what}\n{pseudo}");
    assert_eq!(restored(&english), restored(&pseudo), "{what}");
    assert_eq!(numbers(&english), numbers(&pseudo), "{what}");
    assert!(20 < english_of(&english, typed).len(), "{what}\n{english}");
}

/// Everything that a sheet can say: a hard nucleus in a shallow chamber, a toric lens, refused formulas,
/// a second eye, every finding there is, everything told to theatre.
fn drafts() -> Vec<(&'static str, Draft)> {
    let demo = [
        "hard-and-shallow",
        "astigmatic-eye",
        "after-myopic-surgery",
        "silicone-oil",
        "second-eye",
        "wild-fellow-eye",
        "contact-ultrasound-only",
    ];
    let mut drafts: Vec<_> = demo.map(|name| (name, case(name))).into();
    drafts.push(("toric and hard", toric_and_hard()));
    drafts.push(("thirty findings", thirty_findings()));
    drafts.push(("full theatre", full_theatre(case("ordinary-eye"))));
    drafts.push(("nothing is known", empty()));
    drafts
}

/// Nothing but the eye.
fn empty() -> Draft {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Left);
    draft
}

#[test]
fn a_print_of_a_draft_is_said_by_the_wording() {
    let at = "2026-12-01T10:00:00Z".parse().unwrap();
    for (name, draft) in drafts() {
        let document = document(&draft);
        let prints = LANGUAGES.map(|words| {
            set(words, |setting| {
                Sheet::draft(&document, at, setting).unwrap()
            })
        });
        assert_same(name, [&prints[0], &prints[1]], &typed(&draft));
    }
}

/// It supersedes another, and has findings that somebody went against.
#[test]
fn a_signed_sheet_is_said_by_the_wording_and_is_the_same_sheet() {
    let mut seen = 0;
    for (name, draft) in drafts() {
        let Ok(plan) = signed(&draft) else { continue };
        seen += 1;
        let before = (plan.encoded().to_owned(), plan.fingerprint());
        let sheets = signed_sheets(&plan);
        let print = plan.fingerprint().short().to_string();
        let mut typed = typed(plan.draft());
        typed.push(print.clone());
        assert_same(name, [&sheets[0], &sheets[1]], &typed);
        for sheet in &sheets {
            assert!(said(sheet).contains(&print), "{name}");
            assert_eq!(codes(sheet), [plan.fingerprint().code()], "{name}");
        }
        assert_eq!((plan.encoded().to_owned(), plan.fingerprint()), before);
    }
    assert!(6 <= seen, "{seen}");
}

#[test]
fn an_outdated_sheet_is_said_by_the_wording() {
    let plan = signed(&case("hard-and-shallow")).unwrap();
    let mut typed = typed(plan.draft());
    typed.push(plan.fingerprint().short().to_string());
    for (name, why) in [("superseded", superseded()), ("changed", changed())] {
        let sheets = outdated_sheets(&plan, why);
        assert_same(name, [&sheets[0], &sheets[1]], &typed);
    }
}

#[test]
fn the_page_that_lists_sheets_is_said_by_the_wording() {
    let plans: Vec<_> = ["hard-and-shallow", "astigmatic-eye"]
        .map(|name| signed(&case(name)).unwrap())
        .into();
    let mut names: Vec<_> = plans.iter().flat_map(|plan| typed(plan.draft())).collect();
    names.extend(
        plans
            .iter()
            .map(|plan| plan.fingerprint().short().to_string()),
    );
    names.extend(not_signed().name);
    let at = "2026-12-02T18:00:00Z".parse().unwrap();
    let pages = LANGUAGES.map(|words| {
        let without = WithoutSheet {
            why: command_line::not_signed_yet(words).to_owned(),
            ..not_signed()
        };
        let day = date(2026, 12, 3);
        set(words, |setting| {
            Sheet::list_page((&plans, &[without]), (day, at), setting).unwrap()
        })
    });
    let [english, pseudo] = [&pages[0], &pages[1]].map(said);
    assert_eq!(english_of(&pseudo, &names), [""; 0], "{pseudo}");
    assert_eq!(restored(&english), restored(&pseudo));
    assert_eq!(numbers(&english), numbers(&pseudo));
}

#[test]
fn why_there_is_no_sheet_is_said_by_the_wording() {
    let refused = |draft: &Draft, arrangement: Option<&str>| {
        let shipped = Template::shipped_arrangement();
        let template = Template::with_arrangement(arrangement.unwrap_or(shipped).to_owned());
        let setting = Setting {
            paper: Paper::A4,
            template: &template,
            words: Words::PSEUDO,
        };
        Sheet::signed(&signed(draft).unwrap(), setting).unwrap_err()
    };
    let at = "2026-12-01T10:00:00Z".parse().unwrap();
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::PSEUDO,
    };
    let hard = case("hard-and-shallow");
    let hides = "#let middle(data) = place(top + left, dy: -230pt, rect(width: 300pt, height: 60pt, \
                 fill: white))\n#let end(data) = []";
    let leaves = "#let middle(data) = move(dx: 600pt)[000]\n#let end(data) = []";
    let errors = [
        Sheet::draft(&document(&named("བསྟན")), at, setting).unwrap_err(),
        refused(&hard, Some(hides)),
        refused(&hard, Some(leaves)),
        SheetError::AnotherEye,
        SheetError::QrCode,
    ];
    for error in errors {
        let text = error.show(Words::PSEUDO);
        // The letter by its number.
        assert_eq!(untouched(&text, ["AE"]), [""; 0], "{text}");
        assert_eq!(restored(&text), error.show(Words::ENGLISH));
    }
}
