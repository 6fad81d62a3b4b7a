//! The JSON of a case and of a plan, as the register keeps them: damaged, they are refused or read, never
//! a panic; and that of a case says exactly what the case file says.

use std::sync::LazyLock;

use millrace_core::case_file::{self, CaseFileError};
use millrace_core::document::PlanDocument;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use proptest::prelude::*;

use crate::fuzz::{apply, damage};
use crate::support::demo_cases;

static DOCUMENTS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let json = |text: &String| case_file::write_json(&case_file::read(text).unwrap()).unwrap();
    demo_cases().iter().map(json).collect()
});

static PLANS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let plan = |text: &String| {
        let draft = case_file::read(text).unwrap();
        let plan = Plan::of(&draft, Limits::shipped()).unwrap();
        serde_json::to_string(&PlanDocument::of(&plan, "millrace test")).unwrap()
    };
    demo_cases().iter().map(plan).collect()
});

/// The first demo case that holds a text, with another in its place.
fn demo_with(from: &str, to: &str) -> String {
    let cases = demo_cases();
    let found = cases.iter().find(|case| case.contains(from));
    found.expect("a demo case has it").replacen(from, to, 1)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    #[test]
    fn damaged_documents_never_panic(
        which in any::<prop::sample::Index>(),
        damages in prop::collection::vec(damage(), 1..4),
    ) {
        let mut text: Vec<char> = which.get(&DOCUMENTS).chars().collect();
        for damage in &damages {
            apply(&mut text, damage);
        }
        let text: String = text.into_iter().collect();
        match case_file::read_json(&text) {
            Err(error) => prop_assert!(!error.to_string().is_empty()),
            Ok(draft) => {
                let written = case_file::write_json(&draft).unwrap();
                prop_assert_eq!(&case_file::read_json(&written).unwrap(), &draft);
                let ron = case_file::write(&draft).unwrap();
                prop_assert_eq!(&case_file::read(&ron).unwrap(), &draft);
            }
        }
    }

    /// Whatever a case file can say, the document says too: one digit changed here and there, so
    /// that most of them still read.
    #[test]
    fn file_and_document_say_the_same(
        which in any::<prop::sample::Index>(),
        damages in prop::collection::vec((0.0..1.0, prop::char::range('0', '9')), 1..8),
    ) {
        let cases = demo_cases();
        let mut text: Vec<char> = which.get(&cases).chars().collect();
        for (at, digit) in damages {
            apply(&mut text, &crate::fuzz::Damage::Digit(at, digit));
        }
        let text: String = text.into_iter().collect();
        if let Ok(draft) = case_file::read(&text) {
            let document = case_file::write_json(&draft).unwrap();
            let back = case_file::read_json(&document).unwrap();
            prop_assert_eq!(&back, &draft);
            prop_assert_eq!(case_file::write_json(&back).unwrap(), document);
        }
    }

    /// Constants keep their last bit: a number written and read is the same number.
    #[test]
    fn constants_keep_their_last_bit(a0 in -2.0..3.0_f64, a1 in -0.5..1.0_f64, a2 in -0.2..0.5_f64) {
        let text = demo_with("a0_mm: 1.27,", &format!("a0_mm: {a0:?},"));
        let text = text.replacen("a1: 0.4,", &format!("a1: {a1:?},"), 1);
        let text = text.replacen("a2: 0.1,", &format!("a2: {a2:?},"), 1);
        let draft = case_file::read(&text).unwrap();
        let document = case_file::write_json(&draft).unwrap();
        let back = case_file::read_json(&document).unwrap();
        for read in [&draft, &back] {
            let constants = read.lens.record().unwrap().constants;
            let haigis = constants.haigis.unwrap().value;
            let found = [haigis.a0_mm(), haigis.a1(), haigis.a2()].map(f64::to_bits);
            prop_assert_eq!(found, [a0, a1, a2].map(f64::to_bits));
        }
        prop_assert_eq!(back, draft);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// A damaged plan is refused, or is another plan that is written and read back the same.
    #[test]
    fn damaged_plans_never_panic(
        which in any::<prop::sample::Index>(),
        damages in prop::collection::vec(damage(), 0..3),
    ) {
        let mut text: Vec<char> = which.get(&PLANS).chars().collect();
        for damage in &damages {
            apply(&mut text, damage);
        }
        let text: String = text.into_iter().collect();
        match serde_json::from_str::<PlanDocument>(&text) {
            Err(error) => prop_assert!(!error.to_string().is_empty() && !damages.is_empty()),
            Ok(plan) => {
                let written = serde_json::to_string(&plan).unwrap();
                prop_assert_eq!(&serde_json::from_str::<PlanDocument>(&written).unwrap(), &plan);
            }
        }
    }
}

#[test]
fn demo_cases_become_the_same_case_by_both_ways() {
    let cases = demo_cases();
    assert!(10 <= cases.len());
    for text in cases {
        let draft = case_file::read(&text).unwrap();
        let document = case_file::write_json(&draft).unwrap();
        assert!(!document.contains('\n'), "one line");
        assert_eq!(case_file::read_json(&document).unwrap(), draft);
    }
}

/// The checks of the file stand before the document too, and the message says where.
#[test]
fn what_a_file_may_not_say_a_document_may_not_say() {
    let document = DOCUMENTS
        .iter()
        .find(|document| document.contains("Okonjo"))
        .unwrap();
    let refused = |from: &str, to: &str| {
        assert!(document.contains(from), "{from}");
        case_file::read_json(&document.replacen(from, to, 1)).unwrap_err()
    };
    for (from, to, message) in [
        (
            r#""millrace case""#,
            r#""millrace lenses""#,
            "this is a file of format \"millrace lenses\", not \"millrace case\"",
        ),
        (
            r#""version":3"#,
            r#""version":4,"new_field":{}"#,
            "the file has version 4; this program reads version 3",
        ),
    ] {
        assert_eq!(refused(from, to).to_string(), message);
    }
    for (from, to, message) in [
        ("{", "{{", "key must be a string"),
        (
            r#""patient":{"#,
            r#""patient":{"nme":"x","#,
            "unknown field `nme`",
        ),
        (
            r#""patient":{"name""#,
            r#""patient":{"name":"x","name""#,
            "duplicate field `name`",
        ),
        (
            "Okonjo, Adaeze",
            r"Okonjo\nLEFT EYE",
            "patient name holds an invisible or a control character (U+000A)",
        ),
        (
            r#""meridian":10"#,
            r#""meridian":0"#,
            "meridian 0° is outside 1° to 180°; the horizontal is written 180",
        ),
        ("22.84 mm", "222.84 mm", "222.84"),
        (r#""meridian":10"#, r#""meridian":10.0"#, "invalid type"),
    ] {
        let error = refused(from, to);
        assert!(
            matches!(error, CaseFileError::Json { line: 1, .. }),
            "{error:?}"
        );
        let text = error.to_string();
        assert!(text.starts_with("line 1, column "), "{text}");
        assert!(text.contains(message), "{text}");
        assert!(!text.contains(" at line "), "the place stands once: {text}");
    }
    // The fortieth character stands inside the key "patient".
    let cut: String = document.chars().take(40).collect();
    let text = case_file::read_json(&cut).unwrap_err().to_string();
    assert_eq!(text, "line 1, column 40: EOF while parsing a string");
    let more = case_file::read_json(&format!("{document} x")).unwrap_err();
    assert!(more.to_string().contains("trailing characters"), "{more}");
}
