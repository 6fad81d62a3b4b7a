//! Names that no sheet could be printed with.

use std::fs;

use crate::support::place::{Place, demo};

/// Signs the demo case, once it is in the register.
const SIGN: [&str; 8] = [
    "sign",
    "40-2291",
    "--as",
    "A. Okafor",
    "--role",
    "consultant surgeon",
    "--target",
    "-0.30",
];

/// The demo case `hard-and-shallow` of a patient of this name.
fn named(name: &str) -> String {
    let text = fs::read_to_string(demo("hard-and-shallow")).unwrap();
    let (_, from_name) = text.split_once("name: \"").unwrap();
    let (old, _) = from_name.split_once('"').unwrap();
    text.replace(old, name)
}

/// A case file is a way in like the fields of the desk: what no sheet could show stays outside.
#[test]
fn a_name_without_a_typeface_is_refused_at_every_entry() {
    let place = Place::new();
    let file = place.path("case.ron");
    let path = file.to_str().unwrap();
    for (name, why) in [
        (
            "བསྟན་འཛིན",
            "patient name has Tibetan letters (U+0F56), which no sheet could be printed with",
        ),
        (
            "Vale \u{20000}",
            "patient name has a character (U+20000) that no sheet could be printed with",
        ),
    ] {
        fs::write(&file, named(name)).unwrap();
        let pdf = place.path("draft.pdf");
        for refused in [
            place.run(&["import", path]),
            place.millrace(None, &["plan", path]),
            place.millrace(
                None,
                &["sheet", "--draft", path, "-o", pdf.to_str().unwrap()],
            ),
        ] {
            assert_eq!((refused.code, &*refused.out), (2, ""), "{}", refused.err);
            assert!(refused.err.contains(why), "{}", refused.err);
        }
        assert!(!pdf.exists());
    }
    assert!(!place.usual().exists());
    // And a name that has one is taken.
    fs::write(&file, named("김민수")).unwrap();
    assert_eq!(place.run(&["import", path]).code, 0);
    let signed = place.run(&SIGN);
    assert_eq!(signed.code, 0, "{}", signed.err);
}

/// Every name of this case has its typeface, and that of its lens is longer than its place on the sheet:
/// what is not laid out is not kept.
#[test]
fn what_cannot_be_printed_is_not_signed() {
    let place = Place::new();
    let file = place.path("case.ron");
    let (short, long) = (r#"name: "Weir one-piece""#, "x".repeat(100));
    let text = named("Vale");
    assert!(text.contains(short));
    fs::write(&file, text.replace(short, &format!("name: \"{long}\""))).unwrap();
    assert_eq!(place.run(&["import", file.to_str().unwrap()]).code, 0);
    let refused = place.run(&SIGN);
    assert_eq!((refused.code, &*refused.out), (2, ""));
    assert!(
        refused.err.contains("has 100 characters"),
        "{}",
        refused.err
    );
    let check = place.run(&["check"]);
    let found = "1 revisions, 0 sheets read";
    assert!(check.out.contains(found), "{}", check.out);
}
