//! The figure: a press is killed, runs out of memory or of time again and again; no sheet number is lost, and
//! the next sheet is printed.

use std::path::Path;

use millrace_desk::exchange::Answer;
use millrace_register::Register;

use super::session::{Session, kill, wait_for_work};

/// How a press dies.
#[derive(Clone, Copy, Debug)]
enum Death {
    KilledAtWork,
    OutOfMemory,
    KilledIdle,
    OutOfTime,
}

const DEATHS: [Death; 4] = [
    Death::KilledAtWork,
    Death::OutOfMemory,
    Death::KilledIdle,
    Death::OutOfTime,
];
/// Loops that end after hours.
const ENDLESS: &str =
    "{ for a in range(9999) { for b in range(9999) { let c = calc.pow(1.0, b) } }; [x] }";
/// More memory than a press of these tests may have.
const GREEDY: &str = "{ let text = \"a\" * 900000000; [#text.len()] }";

impl Death {
    const fn arrangement(self) -> Option<&'static str> {
        match self {
            Self::KilledAtWork | Self::OutOfTime => Some(ENDLESS),
            Self::OutOfMemory => Some(GREEDY),
            Self::KilledIdle => None,
        }
    }

    /// What is said of it.
    const fn told(self) -> &'static str {
        match self {
            Self::KilledAtWork => {
                "the process that sets the sheet was ended from outside or broke down (signal 9)"
            }
            Self::OutOfMemory => {
                "setting the sheet took more than 512 MB of memory and was stopped; the usual reason is an arrangement of your own"
            }
            Self::OutOfTime => {
                "setting the sheet took longer than 20 s and was stopped; the usual reason is an arrangement of your own"
            }
            Self::KilledIdle => "",
        }
    }
}

/// How often: `MILLRACE_DEATHS` of the environment, or once of each kind.
fn count() -> usize {
    let asked = std::env::var("MILLRACE_DEATHS").ok();
    asked.map_or(DEATHS.len(), |asked| asked.parse().unwrap())
}

/// The title that a reader of the file sees.
fn title(file: &Path) -> String {
    let document = lopdf::Document::load(file).unwrap();
    let info = document.trailer.get(b"Info").unwrap().as_reference();
    let info = document.get_dictionary(info.unwrap()).unwrap();
    lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap()
}

#[test]
fn no_sheet_number_is_lost_when_the_press_dies_and_the_next_sheet_prints() {
    let directory = tempfile::tempdir().unwrap();
    let mut session = Session::new(directory.path());
    let count = count();
    for (index, death) in (1..=count).zip(DEATHS.into_iter().cycle()) {
        // The number that comes next: the press that died before took none away.
        session.change(format!("turn {index}"));
        let sheets = session.sign().unwrap();
        assert_eq!(sheets.len(), index);
        let newest = sheets.iter().map(|sheet| sheet.number).max().unwrap();
        assert_eq!(newest.get() as usize, index, "{death:?}");

        let file = directory.path().join(format!("{index}.pdf"));
        if let Some(arrangement) = death.arrangement() {
            session.arrange(Some(arrangement));
            session.ask_for(newest, &file);
            if matches!(death, Death::KilledAtWork) {
                wait_for_work(&session.process(), 30);
                kill(&session.process());
            }
            let told = death.told();
            let still = format!("{told}. Sheet {index} stays signed and can be printed again");
            assert_eq!(session.answer(), Answer::Failed { message: still });
            assert!(!file.exists(), "{death:?}");
            session.arrange(None);
        } else {
            kill(&session.process());
        }

        session.ask_for(newest, &file);
        let written = session.answer();
        assert!(
            matches!(written, Answer::Done { .. }),
            "{death:?}: {written:?}"
        );
        assert_eq!(title(&file), format!("Plan sheet {index}"));
    }
    drop(session);
    let register = Register::open_existing(&directory.path().join("register.sqlite3")).unwrap();
    for number in 1..=count {
        let number = u32::try_from(number).unwrap();
        let number = millrace_core::signing::SheetNumber::new(number).unwrap();
        assert_eq!(register.signed(number).unwrap().plan.number(), number);
    }
    println!("{count} deaths, {count} sheets");
}

/// What could not be tried is not signed, and the number is there for the next signature.
#[test]
fn a_signature_that_could_not_be_tried_takes_no_number() {
    let directory = tempfile::tempdir().unwrap();
    let session = Session::new(directory.path());
    session.break_signing();
    let why = session.sign().unwrap_err();
    assert_eq!(
        why,
        [
            "nothing was signed, because its sheet could not be tried: the process that sets the sheet \
             was ended from outside or broke down (signal 9)"
        ]
    );
    session.mend_signing();
    let sheets = session.sign().unwrap();
    let numbers: Vec<_> = sheets.iter().map(|sheet| sheet.number.get()).collect();
    assert_eq!(numbers, [1]);
}
