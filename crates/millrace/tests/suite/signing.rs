//! Signing, verifying and computing again, as a person meets them.

use std::fs;

use crate::support::place::{Place, demo};
use crate::support::{Run, millrace_in};
use serde_json::Value;

const SIGN: [&str; 5] = ["sign", "40-2291", "--as", "A. Okafor", "--role"];

fn sign(place: &Place, more: &[&str]) -> Run {
    let mut arguments = SIGN.to_vec();
    arguments.push("consultant surgeon");
    arguments.extend(more);
    place.run(&arguments)
}

/// Another command on the register of this place.
fn run(place: &Place, arguments: &[&str]) -> Run {
    let register = place.usual();
    let mut all = arguments.to_vec();
    all.extend(["--register", register.to_str().unwrap()]);
    millrace_in(place.0.path(), &all)
}

fn json(run: &Run) -> Value {
    serde_json::from_str(&run.out).unwrap()
}

/// The text without what differs from run to run: names of cases, fingerprints, moments, places.
fn steady(text: &str, place: &Place, known: &[&str]) -> String {
    let mut text = text.replace(place.0.path().to_str().unwrap(), "PLACE");
    for word in known {
        text = text.replace(word, "KNOWN");
    }
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let is_day = word.len() == 10 && word.starts_with("20") && word.contains('-');
        let is_time = word.len() == 5 && word.as_bytes()[2] == b':';
        if is_time && let [.., day, month, year] = &words[..] {
            // "26 Nov 2026, 16:40".
            let date = format!("{day} {month} {year}");
            let read = chrono::NaiveDate::parse_from_str(&date, "%d %b %Y,");
            assert!(read.is_ok(), "{date}: {read:?}");
            words.truncate(words.len() - 3);
            words.push("NOW".to_owned());
        } else if is_day || is_time {
            words.push("NOW".to_owned());
        } else {
            words.push(word.to_owned());
        }
    }
    words.join(" ")
}

/// Saves the hard, shallow eye once more with another target, consented to.
fn another_target(place: &Place, case: &str, revision: &str) {
    let text = fs::read_to_string(demo("hard-and-shallow")).unwrap();
    let file = place.path("changed.ron");
    fs::write(
        &file,
        text.replace("target: \"-0.30 D\"", "target: \"-0.25 D\""),
    )
    .unwrap();
    let file = file.to_str().unwrap();
    let run = place.run(&["import", file, "--case", case, "--revision", revision]);
    assert_eq!((run.code, &*run.err), (0, ""));
}

/// Status and answer to a fingerprint, however it is typed.
fn verified(place: &Place, typed: &[&str], case: &str) -> (i32, String) {
    let mut arguments = vec!["verify"];
    arguments.extend(typed);
    let run = run(place, &arguments);
    assert_eq!(run.err, "");
    (run.code, steady(&run.out, place, &[&case[..10]]))
}

const FIRST_SHEET: &str = "sheet 1 of case KNOWN revision 1, signed by A. Okafor on NOW UTC\n";

#[test]
fn a_sheet_is_signed_verified_and_superseded() {
    let place = Place::new();
    let case = place.import(&["hard-and-shallow"]).remove(0);
    let signed = sign(&place, &["--target", "-0.30"]);
    assert_eq!((signed.code, &*signed.err), (0, ""));
    let (line, rest) = signed.out.split_once('\n').unwrap();
    assert_eq!(line, format!("signed sheet 1: case {case} revision 1"));
    let short = rest.trim().strip_prefix("fingerprint ").unwrap();
    assert_eq!(short.len(), 19, "{short}");

    // With hyphens, with spaces as several words, in small letters.
    let groups: Vec<_> = short.split('-').collect();
    let small = short.to_lowercase();
    for typed in [vec![short], groups, vec![&*small]] {
        let expected = (0, format!("current: {FIRST_SHEET}"));
        assert_eq!(verified(&place, &typed, &case), expected);
    }
    let list = place.run(&["list"]);
    assert!(list.out.contains("signed, sheet 1"), "{}", list.out);

    another_target(&place, &case, "1");
    let list = place.json(&["list", "--format", "json"]);
    assert_eq!(list["cases"][0]["state"], "planned");
    assert_eq!(list["cases"][0]["sheet"], 1);
    let list = place.run(&["list"]);
    let expected = "planned, changed since sheet 1";
    assert!(list.out.contains(expected), "{}", list.out);
    let answer = "changed since: the case was saved again as revision 2 by okafor on NOW UTC \
         and is not signed since; ask before you work by this sheet\n";
    let expected = (1, format!("{answer}{FIRST_SHEET}"));
    assert_eq!(verified(&place, &[short], &case), expected);

    let more = ["--target=-0.25 D", "--revision", "2"];
    let second = sign(&place, &more);
    assert_eq!((second.code, &*second.err), (0, ""));
    let line = format!("signed sheet 2, which supersedes sheet 1: case {case} revision 2\n");
    assert!(second.out.starts_with(&line), "{}", second.out);
    let answer = "superseded by sheet 2 on NOW UTC: do not work by this one\n";
    let expected = (1, format!("{answer}{FIRST_SHEET}"));
    assert_eq!(verified(&place, &[short], &case), expected);
    let check = place.run(&["check"]);
    let expected = "1 cases, 2 revisions, 2 sheets read";
    assert!(check.out.contains(expected), "{}", check.out);
}

#[test]
fn documents_say_the_same_and_the_code_is_answered_for() {
    let place = Place::new();
    let case = place.import(&["hard-and-shallow"]).remove(0);
    assert_eq!(sign(&place, &["--target", "-0.30"]).code, 0);
    another_target(&place, &case, "1");
    let second = sign(&place, &["--target", "-0.25", "--format", "json"]);
    assert_eq!((second.code, &*second.err), (0, ""));
    let second = json(&second);
    assert_eq!(second["format"], "millrace register sign");
    assert_eq!(second["signed"], true);
    for (field, value) in [("sheet", 2), ("supersedes", 1), ("revision", 2)] {
        assert_eq!(second[field], value, "{field}");
    }
    // What the QR code holds, and the full form.
    for field in ["code", "fingerprint"] {
        let text = second[field].as_str().unwrap();
        let verified = json(&run(&place, &["verify", text, "--format", "json"]));
        assert_eq!(verified["standing"], "current");
        assert_eq!(verified["sheet"]["sheet"], 2);
        assert_eq!(verified["superseded_by"], Value::Null);
    }
}

#[test]
fn a_signed_plan_is_computed_again() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    assert_eq!(sign(&place, &["--target", "-0.30"]).code, 0);
    let again = run(&place, &["plan", "--recompute", "1", "--width", "200"]);
    assert_eq!((again.code, &*again.err), (0, ""));
    let version = env!("CARGO_PKG_VERSION");
    assert_eq!(
        steady(&again.out, &place, &[]),
        format!(
            "Sheet 1, signed by A. Okafor on NOW UTC with millrace {version}, computed again by \
             its own limits with millrace {version}.\nNo result differs.\n"
        )
    );
    let again = json(&run(
        &place,
        &["plan", "--recompute", "1", "--format", "json"],
    ));
    assert_eq!(
        (&again["same"], &again["sheet"]),
        (&Value::Bool(true), &Value::from(1))
    );
}

#[test]
fn every_obstacle_is_named_and_nothing_is_signed() {
    let place = Place::new();
    let cases = place.import(&["hard-and-shallow", "wild-fellow-eye"]);
    // The same number with the other sign is the old way to a wrong lens.
    let refused = sign(&place, &["--target", "+0.30"]);
    assert_eq!((refused.code, &*refused.out), (2, ""));
    assert_eq!(
        refused.err.replace(&cases[0], "CASE"),
        "millrace: case CASE revision 1 is not signed; one thing stands against it\n  Stop    the \
         consented target entered with the signature is +0.30 D and the target of the plan is \
         \u{2212}0.30 D; read the consent again, and correct the one that is wrong\n"
    );
    let wild = [
        "sign",
        &cases[1],
        "--as",
        "A. Okafor",
        "--role",
        "surgeon",
        "--target",
        "+0.25",
    ];
    let refused = place.run(&wild);
    assert_eq!((refused.code, &*refused.out), (2, ""));
    assert_eq!(
        refused.err.replace(&cases[1], "CASE"),
        "millrace: case CASE revision 1 is not signed; 2 things stand against it\n  Stop    the \
         target is +0.25 D and the consented target \u{2212}0.25 D; set the target to it, or \
         discuss the change with the patient and enter the new consent\n  Review  AL-02 Axial \
         lengths of the two eyes differ: 3.80 mm (limit: at most 3.37 mm). Record a reason, or \
         change what it rests on\n"
    );
    let mut as_json = wild.to_vec();
    as_json.extend(["--format", "json"]);
    let refused = place.run(&as_json);
    assert_eq!(refused.code, 2);
    let document = json(&refused);
    assert_eq!(document["signed"], false);
    assert_eq!(document["obstacles"][1]["rule"], "AL-02");
    assert_eq!(document["obstacles"][0]["severity"], "stop");

    let unsigned = sign(&place, &["--target", "0.30"]);
    assert_eq!(unsigned.code, 2);
    assert!(
        unsigned.err.contains("a target has a sign"),
        "{}",
        unsigned.err
    );
    let check = place.run(&["check"]);
    assert!(
        check.out.contains("2 revisions, 0 sheets read"),
        "{}",
        check.out
    );
}

#[test]
fn a_revision_that_was_overtaken_or_is_signed_is_not_signed() {
    let place = Place::new();
    let case = place.import(&["hard-and-shallow"]).remove(0);
    another_target(&place, &case, "1");
    let overtaken = sign(&place, &["--target", "-0.30", "--revision", "1"]);
    assert_eq!((overtaken.code, &*overtaken.out), (2, ""));
    assert!(
        overtaken
            .err
            .starts_with("millrace: the case was changed meanwhile: revision 2 by okafor"),
        "{}",
        overtaken.err
    );
    assert_eq!(sign(&place, &["--target", "-0.25"]).code, 0);
    let twice = sign(&place, &["--target", "-0.25"]);
    assert_eq!(twice.code, 2);
    assert!(
        twice
            .err
            .starts_with("millrace: the case is signed as it stands: sheet 1 by A. Okafor"),
        "{}",
        twice.err
    );
}

#[test]
fn what_is_no_fingerprint_of_this_register_is_told_apart() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    let signed = sign(&place, &["--target", "-0.30", "--format", "json"]);
    let short = json(&signed)["short_fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    // One letter misread, told by the check letter.
    let first = if short.starts_with('7') { "8" } else { "7" };
    let misread = run(&place, &["verify", &format!("{first}{}", &short[1..])]);
    assert_eq!((misread.code, &*misread.out), (2, ""));
    assert!(
        misread.err.starts_with("millrace: a letter was misread"),
        "{}",
        misread.err
    );
    // Sound and of another register: from the first demo sheet of docs and fixtures.
    let unknown = run(&place, &["verify", "CNKA-418Q-CT4G-JQPE"]);
    assert_eq!(unknown.code, 1);
    assert!(
        unknown
            .out
            .starts_with("unknown: this register never signed"),
        "{}",
        unknown.out
    );
    let absent = run(&place, &["plan", "--recompute", "9"]);
    assert_eq!(absent.code, 2);
    assert!(
        absent
            .err
            .starts_with("millrace: the register has no sheet 9; its newest is 1"),
        "{}",
        absent.err
    );
    for arguments in [
        &["plan"][..],
        &["plan", "x.ron", "--recompute", "1"],
        &["verify"],
    ] {
        assert_eq!(
            millrace_in(place.0.path(), arguments).code,
            2,
            "{arguments:?}"
        );
    }
}

#[test]
fn a_clinics_limits_are_signed_with_the_plan() {
    let place = Place::new();
    place.import(&["hard-and-shallow"]);
    let shipped = fs::read_to_string(crate::support::root().join("assets/limits.ron")).unwrap();
    let own = place.path("limits.ron");
    assert!(shipped.contains("risk_points: \"3 points\""));
    let stricter = shipped.replace("risk_points: \"3 points\"", "risk_points: \"2 points\"");
    fs::write(&own, stricter).unwrap();
    // The reason was recorded for the shipped limit: by another one the finding reads otherwise.
    let refused = sign(
        &place,
        &["--target", "-0.30", "--limits", own.to_str().unwrap()],
    );
    assert_eq!(refused.code, 2);
    assert!(
        refused
            .err
            .contains("The finding has changed since its reason was recorded")
    );
    let looser = shipped.replace("sulcus_shift: \"0.50 mm\"", "sulcus_shift: \"0.60 mm\"");
    assert_ne!(looser, shipped);
    fs::write(&own, looser).unwrap();
    let signed = sign(
        &place,
        &["--target", "-0.30", "--limits", own.to_str().unwrap()],
    );
    assert_eq!((signed.code, &*signed.err), (0, ""));
    // Computed again by the limits it was signed with, not by the shipped ones.
    assert_eq!(run(&place, &["plan", "--recompute", "1"]).code, 0);
}
