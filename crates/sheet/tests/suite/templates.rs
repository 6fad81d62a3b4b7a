//! What a clinic's template may do, and what it cannot: identity, eye, lens, power and overrides stand
//! whatever it says, or there is no sheet.

use crate::support::{case, signed};
use millrace_sheet::{Paper, Setting, Sheet, SheetError, Template};
use millrace_wording::{Show as _, Words};

fn made_by(arrangement: &str) -> Result<Sheet, SheetError> {
    let template = Template::with_arrangement(arrangement.to_owned());
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::signed(&signed(&case("hard-and-shallow")).unwrap(), setting)
}

fn message(arrangement: &str) -> String {
    let error = made_by(arrangement).unwrap_err();
    error.show(Words::ENGLISH).into_owned()
}

const EMPTY: &str = "#let middle(data) = []\n#let end(data) = []";

/// An arrangement that leaves out all it can: the fixed part stands.
#[test]
fn an_empty_arrangement_leaves_the_fixed_part() {
    let sheet = made_by(EMPTY).unwrap();
    let texts: Vec<_> = sheet.texts().into_iter().map(|text| text.text).collect();
    for wanted in [
        "RIGHT EYE",
        "Okonjo, Adaeze",
        "+22.50 D",
        "Weir one-piece",
        "OVERRIDDEN FINDINGS, WITH REASONS",
    ] {
        assert!(
            texts.iter().any(|text| text == wanted),
            "{wanted}: {texts:?}"
        );
    }
}

#[test]
fn the_shipped_arrangement_can_be_adapted() {
    let adapted =
        Template::shipped_arrangement().replace("tick(labels.eye_marked)", "tick[In our theatre]");
    let sheet = made_by(&adapted).unwrap();
    let texts = sheet.texts();
    let texts: String = texts.iter().map(|text| &*text.text).collect();
    assert!(texts.replace(' ', "").contains("Inourtheatre"), "{texts}");
}

/// Covered by an area, crossed by other words, pushed under an image: no sheet.
#[test]
fn an_arrangement_that_covers_a_fixed_part_is_refused() {
    for (arrangement, block) in [
        (
            "place(top + left, dy: -230pt, rect(width: 300pt, height: 60pt, fill: white))",
            "the eye",
        ),
        (
            "place(top + left, dy: -170pt, dx: 4pt, rect(width: 150pt, height: 30pt, fill: white))",
            "the lens power",
        ),
        (
            "place(top + left, dy: -172pt, dx: 10pt, text(24pt)[+12.00 D])",
            "the lens power",
        ),
        (
            "place(top + left, dy: -172pt, dx: 4pt, square(size: 30pt, fill: rgb(255, 255, 255, 10)))",
            "the lens power",
        ),
    ] {
        let text = format!("#let middle(data) = {arrangement}\n#let end(data) = []");
        let expected = format!(
            "the template of the sheet leaves out, hides or covers {block}: no sheet is made"
        );
        assert_eq!(message(&text), expected, "{arrangement}");
    }
}

/// No other page, no file, no package, no clock; and what cannot be laid out is said.
#[test]
fn an_arrangement_reaches_nothing_outside() {
    for (arrangement, part) in [
        (
            "{ set page(footer: none); [x] }",
            "page configuration is not allowed inside of containers",
        ),
        (
            "pagebreak()",
            "pagebreaks are not allowed inside of containers",
        ),
        ("read(\"/etc/passwd\")", "file not found"),
        ("read(\"../../../../etc/passwd\")", "escape"),
        ("read(\"/fixed.typ\")", "file not found"),
        ("image(\"/etc/passwd\")", "file not found"),
        ("json(\"sheet.json\").x", "file not found"),
        ("{ include \"/etc/passwd\" }", "file not found"),
        ("bibliography(\"/etc/passwd\")", "file not found"),
        ("raw(\"x\", theme: \"/etc/passwd\")", "file not found"),
        ("{ include \"@local/example:0.1.0\" }", "file not found"),
        (
            "{ import \"@preview/example:0.1.0\": *; [] }",
            "file not found",
        ),
        (
            "datetime.today().display()",
            "unable to get the current date",
        ),
        ("panic(\"no\")", "panicked with: no"),
    ] {
        let text = format!("#let middle(data) = {arrangement}\n#let end(data) = []");
        let message = message(&text);
        assert!(
            message.starts_with("the template of the sheet cannot be laid out: ")
                && message.contains(part),
            "{arrangement}: {message}"
        );
    }
    // A part that the fixed part asks for and does not find.
    let missing = message("#let middle(data) = []");
    assert!(missing.ends_with("unresolved import"), "{missing}");
}

/// A plugin is a program in the arrangement; the engine has lost the word for it, by every way to it.
#[test]
fn an_arrangement_loads_no_plugin() {
    /// The shortest module there is: its magic number and version.
    const MODULE: &str = "bytes((0, 97, 115, 109, 1, 0, 0, 0))";
    for (way, part) in [
        (
            format!("{{ plugin({MODULE}); [] }}"),
            "unknown variable: plugin",
        ),
        (
            format!("{{ std.plugin({MODULE}); [] }}"),
            "does not contain `plugin`",
        ),
        (
            format!("{{ eval(\"plugin({MODULE})\"); [] }}"),
            "unknown variable: plugin",
        ),
        (
            format!("{{ eval(\"std.plugin({MODULE})\"); [] }}"),
            "does not contain `plugin`",
        ),
        (
            format!("{{ dictionary(std).at(\"plugin\")({MODULE}); [] }}"),
            "dictionary does not contain key \"plugin\"",
        ),
        ("{ import std: plugin; [] }".to_owned(), "unresolved import"),
        ("$ std.plugin $".to_owned(), "does not contain `plugin`"),
        (
            "{ import plugin: transition; [] }".to_owned(),
            "unknown variable: plugin",
        ),
    ] {
        let text = format!("#let middle(data) = {way}\n#let end(data) = []");
        let message = message(&text);
        assert!(message.contains(part), "{way}: {message}");
    }
    // All else of the library is there.
    let text = "#let middle(data) = { assert(calc.pow(2, 3) == 8 and std.str(1) == \"1\"); [] }\n#let end(data) = []";
    made_by(text).unwrap();
}

/// Off the page is as good as left out.
#[test]
fn words_that_leave_the_page_are_refused() {
    let text = "#let middle(data) = move(dx: 500pt)[a long line that leaves the page]\n#let end(data) = []";
    assert_eq!(
        message(text),
        "on page 1 of the sheet \"a long line that leaves the page\" leaves the page: no sheet is made"
    );
}
