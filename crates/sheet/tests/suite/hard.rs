//! Cases that are hard to set: nothing truncated, nothing over something else, nothing injected.

use crate::support::hard::{
    MORE_NAMES, NAMES, full_theatre, named, thirty_findings, toric_and_hard,
};
use crate::support::{case, cases, document, reasoned, sheet, signed};
use millrace_core::case::{Draft, Slot};
use millrace_sheet::{Paper, Setting, Sheet, SheetError, Template};
use millrace_wording::{Show as _, Words};
use proptest::prelude::*;

fn assert_nothing_overlaps(name: &str, sheet: &Sheet) {
    let overlaps = sheet.overlaps();
    assert!(overlaps.is_empty(), "{name}: {overlaps:?}");
}

#[test]
fn nothing_overlaps_on_either_paper() {
    let template = Template::shipped();
    let mut drafts: Vec<(String, Draft)> = cases();
    drafts.push(("toric and hard".into(), toric_and_hard()));
    drafts.push(("thirty".into(), thirty_findings()));
    drafts.extend(NAMES.map(|(name, text)| (name.to_owned(), full_theatre(named(text)))));
    for (name, draft) in drafts {
        let Ok(plan) = signed(&draft) else { continue };
        for paper in Paper::ALL {
            let sheet = Sheet::signed(
                &plan,
                Setting {
                    paper,
                    template: &template,
                    words: Words::ENGLISH,
                },
            )
            .unwrap();
            assert_nothing_overlaps(&name, &sheet);
            sheet.pdf().unwrap();
        }
    }
}

/// Every letter of a name is laid out, in the typeface of its script.
#[test]
fn a_name_of_every_shipped_script_is_whole() {
    let more = MORE_NAMES.map(|name| (name, name));
    for (name, text) in NAMES.into_iter().chain(more) {
        let plan = signed(&named(text)).unwrap();
        let placed: String = sheet(&plan)
            .texts()
            .into_iter()
            .map(|text| text.text)
            .collect();
        for word in text.split([' ', '(', ')', ',', '-', '־']) {
            let seen = placed.replace('\u{200b}', "");
            assert!(seen.contains(word), "{name}: {word}");
        }
    }
}

#[test]
fn a_letter_without_a_typeface_is_refused() {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let refusal = |draft: &Draft| {
        // The net under the check at entry.
        let at = "2026-12-01T10:00:00Z".parse().unwrap();
        Sheet::draft(&document(draft), at, setting)
            .unwrap_err()
            .show(Words::ENGLISH)
            .into_owned()
    };
    assert_eq!(
        refusal(&named("བསྟན")),
        "the patient name holds 'བ' (U+0F56), which no typeface of this program has: write it in \
         another script, or fill in the sheet by hand"
    );
    let mut draft = case("ordinary-eye");
    draft.theatre.in_room = vec!["iris hooks 👁".to_owned()];
    assert!(refusal(&draft).starts_with("Have in the room holds '👁'"));
}

/// A number in a text that runs from right to left keeps its order: the sign is left of the digits,
/// the unit right of them.
#[test]
fn a_number_keeps_its_order_inside_arabic() {
    let mut draft = case("hard-and-shallow");
    draft.reasons.clear();
    let draft = reasoned(&draft, "تم اختيار +21.5 D بعد المناقشة");
    let texts = sheet(&signed(&draft).unwrap()).texts();
    let number = texts
        .iter()
        .filter(|text| text.text.contains("21.5"))
        .collect::<Vec<_>>();
    assert!(
        !number.is_empty(),
        "{:?}",
        texts.iter().map(|t| &t.text).collect::<Vec<_>>()
    );
    assert!(
        number.iter().any(|text| text.text == "+21.5 D"),
        "{number:?}"
    );
}

/// What would be markup, code or a command of the template engine, and what such a text would do.
const MARKUP: [&str; 12] = [
    "#panic(\"no\")",
    "#eval(\"1+1\")",
    "$x^2$",
    "= Heading",
    "*bold* _emph_",
    "`raw`",
    "<label> @label",
    "#import \"/fixed.typ\": *",
    "\\u{202e} \\n",
    "]#pagebreak()[",
    "\"}],\"signed\":null,\"x\":\"",
    "// comment /* x */",
];

#[test]
fn markup_in_any_text_is_only_text() {
    for text in MARKUP {
        let mut draft = full_theatre(named(text));
        draft.patient.number = Some(text.to_owned());
        draft.theatre.technique = vec![text.to_owned()];
        let lens = draft.lens.lenses.get_mut(Slot::Planned).unwrap();
        lens.record.name = text.to_owned();
        draft.reasons.clear();
        let draft = reasoned(&draft, text);
        let plan = signed(&draft).unwrap();
        let sheet = sheet(&plan);
        let placed: String = sheet.texts().into_iter().map(|text| text.text).collect();
        let close = |text: &str| text.replace([' ', '\u{200b}'], "");
        let count = close(&placed).matches(&close(text)).count();
        // Name twice, number twice, technique, lens, and at least one reason.
        assert!(7 <= count, "{text}: {count}");
        assert_eq!(sheet.page_count(), 2, "{text}");
        assert_nothing_overlaps(text, &sheet);
    }
}

#[test]
fn the_longest_reasons_are_all_there() {
    for reason in ["x".repeat(1_000), "word ".repeat(200), "مريم ".repeat(200)] {
        let mut draft = case("hard-and-shallow");
        draft.reasons.clear();
        let plan = signed(&reasoned(&draft, reason.trim())).unwrap();
        let sheet = sheet(&plan);
        assert_nothing_overlaps("1,000", &sheet);
        let letter = reason.chars().next().unwrap();
        let placed: String = sheet.texts().into_iter().map(|text| text.text).collect();
        let wanted = reason.matches(letter).count();
        assert!(wanted <= placed.matches(letter).count(), "{letter}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Any text at all either is laid out whole or refused with a message; never a panic, never less.
    #[test]
    fn any_text_is_whole_or_refused(name in any_text(60), reason in any_text(400)) {
        let template = Template::shipped();
        let mut draft = named(&name);
        draft.reasons.clear();
        let draft = reasoned(&draft, &reason);
        // What signing refuses never comes here.
        if let Ok(plan) = signed(&draft) {
            match Sheet::signed(&plan, Setting { paper: Paper::Letter, template: &template, words: Words::ENGLISH }) {
                Ok(sheet) => {
                    prop_assert!(sheet.pdf().is_ok());
                    prop_assert!(sheet.overlaps().is_empty(), "{:?}", sheet.overlaps());
                }
                Err(SheetError::NoGlyph { .. } | SheetError::Hidden { .. } | SheetError::TooLong { .. }) => {}
                // Where both directions meet at a sign, or a mark sits on a letter of another script, the page
                // may hold the text in another order than it was written in.
                Err(SheetError::BlockMissing { .. }) if is_reordered(&name) || is_reordered(&reason) => {}
                Err(error) => prop_assert!(false, "{error}"),
            }
        }
    }
}

/// Marks and joiners: what is set together with the letter before it.
const MARKS: [char; 4] = ['\u{200d}', '\u{200c}', '\u{301}', '\u{94d}'];

fn is_reordered(text: &str) -> bool {
    let from_right = |letter: char| ('\u{590}'..'\u{700}').contains(&letter);
    let has_both =
        text.contains(from_right) && text.contains(|letter: char| letter.is_ascii_graphic());
    has_both || text.contains(MARKS)
}

/// Letters of many scripts, markup, joiners, marks and control characters.
fn any_text(longest: usize) -> impl Strategy<Value = String> {
    let letter = prop_oneof![
        8 => prop::char::range('a', 'z'),
        2 => Just(' '),
        2 => prop::sample::select("#$*_`<>@\\/[](){}\"'~=-+.,;:0123456789%°".chars().collect::<Vec<_>>()),
        2 => prop::char::range('\u{5d0}', '\u{5ea}'),
        2 => prop::char::range('\u{621}', '\u{64a}'),
        2 => prop::char::range('\u{904}', '\u{939}'),
        1 => prop::char::range('\u{4e00}', '\u{9fff}'),
        1 => prop::char::range('\u{400}', '\u{45f}'),
        1 => prop::sample::select(MARKS.to_vec()),
        1 => Just('\u{a0}'),
        1 => prop::sample::select(vec!['\u{7}', '\u{202e}', '\u{ad}', '\n']),
    ];
    prop::collection::vec(letter, 1..longest).prop_map(|letters| letters.into_iter().collect())
}
