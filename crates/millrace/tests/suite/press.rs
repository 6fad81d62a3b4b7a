//! The process that sets sheets, as the command line has it: arrangements that take all memory or go on for
//! ever, and programs that are ended.

use std::fs;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::support::Run;
use crate::support::place::Place;

/// Loops that end after hours.
const ENDLESS: &str =
    "{ for a in range(9999) { for b in range(9999) { let c = calc.pow(1.0, b) } }; [x] }";
/// Far more memory than a sheet may have.
const GREEDY: &str = "{ let text = \"a\" * 4000000000; [#text.len()] }";
const LOOK: Duration = Duration::from_millis(5);

fn sign(place: &Place, case: &str) -> Run {
    let arguments = ["sign", case, "--as", "A. Okafor", "--role"];
    let mut arguments = arguments.to_vec();
    arguments.extend(["consultant surgeon", "--target", "-0.30"]);
    place.run(&arguments)
}

/// The hard, shallow eyes of so many patients, signed as sheets 1, 2 and so on, and of another whose plan is
/// not signed.
fn signed(count: usize) -> Place {
    let place = Place::new();
    let text = fs::read_to_string(crate::support::place::demo("hard-and-shallow")).unwrap();
    for index in 1..=count + 1 {
        let file = place.path(&format!("{index}.ron"));
        let number = format!("40-{index:04}");
        let text = text.replace("40-2291", &number);
        let name = format!("Okonjo-{index}, Adaeze");
        fs::write(&file, text.replace("Okonjo, Adaeze", &name)).unwrap();
        let run = place.run(&["import", file.to_str().unwrap()]);
        assert_eq!((run.code, &*run.err), (0, ""));
        if index <= count {
            let run = sign(&place, &number);
            assert_eq!((run.code, &*run.err), (0, ""));
        }
    }
    place
}

/// The clinic's arrangement beside the register, or the shipped one.
fn arrange(place: &Place, middle: Option<&str>) {
    let file = place.usual().parent().unwrap().join("sheet.typ");
    match middle {
        Some(middle) => {
            let text = format!("#let middle(data) = {middle}\n#let end(data) = []");
            fs::write(file, text).unwrap();
        }
        None => fs::remove_file(file).unwrap(),
    }
}

fn sheet(place: &Place, number: &str, file: &str) -> Run {
    place.millrace(None, &["sheet", "--number", number, "-o", file])
}

/// What was signed is signed, whatever becomes of its sheet: it is printed later, and the next signature has
/// the next number.
#[test]
fn a_sheet_whose_press_died_is_printed_later_under_its_number() {
    let place = signed(1);
    arrange(&place, Some(GREEDY));
    let run = sheet(&place, "1", "one.pdf");
    assert_eq!(run.code, 2);
    assert_eq!(
        run.err,
        "millrace: no sheet is written: setting the sheet took more than 1024 MB of memory and was \
         stopped; the usual reason is an arrangement of your own. Sheet 1 stays signed and can be \
         printed again\n"
    );
    assert!(!place.path("one.pdf").exists());

    // A signature does not look at the clinic's arrangement, and no number was lost.
    let run = sign(&place, "40-0002");
    assert_eq!((run.code, &*run.err), (0, ""));
    assert!(run.out.contains("sheet 2"), "{}", run.out);
    arrange(&place, None);
    for (number, file) in [("1", "one.pdf"), ("2", "two.pdf")] {
        let run = sheet(&place, number, file);
        assert_eq!((run.code, &*run.err), (0, ""));
        assert!(fs::read(place.path(file)).unwrap().starts_with(b"%PDF-"));
    }
}

/// Of a whole day each is named with its reason, and after three in a row the rest is not tried.
#[test]
fn the_sheets_of_a_day_are_told_one_by_one_when_the_press_dies() {
    let place = signed(5);
    arrange(&place, Some(GREEDY));
    let day = ["sheet", "--day", "2026-12-03", "-o", "theatre"];
    let run = place.millrace(None, &day);
    assert_eq!((run.code, &*run.err), (1, ""));
    assert!(run.out.starts_with("0 sheets written"), "{}", run.out);
    let died = "setting the sheet took more than 1024 MB of memory and was stopped";
    let not_tried = "not tried, because 3 sheets in a row before it could not be set";
    assert_eq!(run.out.matches(died).count(), 3, "{}", run.out);
    assert_eq!(run.out.matches(not_tried).count(), 2, "{}", run.out);

    arrange(&place, None);
    fs::remove_dir_all(place.path("theatre")).unwrap();
    let run = place.millrace(None, &day);
    // The sixth is not signed.
    assert_eq!((run.code, &*run.err), (1, ""));
    assert!(run.out.starts_with("5 sheets written"), "{}", run.out);
    for number in 1..=5 {
        assert!(place.path(&format!("theatre/sheet-{number}.pdf")).exists());
    }
}

/// It is for the program itself: nobody is offered it.
#[test]
fn no_help_and_no_completion_names_the_press() {
    let place = Place::new();
    for arguments in [
        &["--help"][..],
        &["sheet", "--help"],
        &["completions", "bash"],
    ] {
        let run = place.millrace(None, arguments);
        assert_eq!(run.code, 0);
        assert!(!run.out.is_empty() && !run.out.contains("--as-press"));
    }
    // With anything beside it, it is an argument that nobody knows.
    let run = place.millrace(None, &["--as-press", "--help"]);
    assert_eq!(run.code, 2);
}

/// A `millrace sheet` that is setting a sheet for ever, and the process that sets it.
fn setting_for_ever(place: &Place) -> (Child, String) {
    arrange(place, Some(ENDLESS));
    let program = Command::new(env!("CARGO_BIN_EXE_millrace"))
        .args(["sheet", "--number", "1", "-o", "one.pdf"])
        .current_dir(place.0.path())
        .env("HOME", place.0.path())
        .env("XDG_DATA_HOME", place.path("data"))
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let children = format!("/proc/{0}/task/{0}/children", program.id());
    let press = loop {
        let children = fs::read_to_string(&children).unwrap();
        if let Some(press) = children.split_whitespace().next() {
            break press.to_owned();
        }
        std::thread::sleep(LOOK);
    };
    while worked(&press).unwrap() < 50 {
        std::thread::sleep(LOOK);
    }
    (program, press)
}

/// Hundredths of a second that a process has worked, while it is there.
fn worked(process: &str) -> Option<u64> {
    let all = fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
    let (_, state) = all.rsplit_once(") ")?;
    if state.starts_with('Z') {
        return None;
    }
    state.split(' ').nth(11)?.parse().ok()
}

fn kill(process: &str) {
    let killed = Command::new("kill").args(["-9", process]).status();
    assert!(killed.unwrap().success());
}

#[cfg(target_os = "linux")]
#[test]
fn a_press_that_is_killed_at_work_ends_no_other_process() {
    let place = signed(1);
    let (program, press) = setting_for_ever(&place);
    kill(&press);
    let output = program.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(
        told,
        "millrace: no sheet is written: the process that sets the sheet was ended from outside or \
         broke down (signal 9). Sheet 1 stays signed and can be printed again\n"
    );
    assert!(!place.path("one.pdf").exists());
}

/// Nobody is left behind that sets a sheet for nobody.
#[cfg(target_os = "linux")]
#[test]
fn a_press_ends_with_the_program_that_started_it() {
    let place = signed(1);
    let (mut program, press) = setting_for_ever(&place);
    program.kill().unwrap();
    program.wait().unwrap();
    let mut waited = Duration::ZERO;
    while worked(&press).is_some() {
        assert!(waited < Duration::from_secs(10), "{press} still runs");
        std::thread::sleep(LOOK);
        waited += LOOK;
    }
}
