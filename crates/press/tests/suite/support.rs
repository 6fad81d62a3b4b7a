//! A press whose process is this test program again, and plans to set.

use std::process::Command;
use std::sync::LazyLock;
use std::time::Duration;

use millrace_core::signing::SignedPlan;
use millrace_press::{Bounds, Press};
use millrace_sheet::{Paper, Setting, Template};
use millrace_wording::Words;

#[allow(
    dead_code,
    unreachable_pub,
    reason = "it belongs to the tests of the sheet, and this takes what it needs of it"
)]
#[path = "../../../sheet/tests/suite/support/mod.rs"]
pub(crate) mod cases;

/// Set for the process that is a press.
const CHILD: &str = "MILLRACE_PRESS_OF_THE_TESTS";

/// Bounds that tests wait for: an honest sheet takes a tenth of the time even unoptimized, and a third of
/// the memory.
pub(crate) const TIGHT: Bounds = Bounds {
    memory: 512 << 20,
    time: Duration::from_secs(20),
};

/// This test program again, which then runs [`the_press_of_these_tests`] alone.
pub(crate) fn this_program() -> std::io::Result<Command> {
    let mut command = Command::new(std::env::current_exe()?);
    command
        .args([
            "--exact",
            "support::the_press_of_these_tests",
            "--nocapture",
            // Of one test alone it does not tell that it takes long, in the middle of an answer.
            "--test-threads=1",
        ])
        .env(CHILD, "1");
    Ok(command)
}

pub(crate) fn press() -> Press {
    Press::of(this_program, TIGHT)
}

/// It is a press when a test of this program starts it, and otherwise nothing.
#[test]
fn the_press_of_these_tests() {
    if std::env::var_os(CHILD).is_some() {
        millrace_press::serve();
    }
}

static SHIPPED: LazyLock<Template> = LazyLock::new(Template::shipped);

pub(crate) const fn by(template: &Template) -> Setting<'_> {
    Setting {
        paper: Paper::A4,
        template,
        words: Words::ENGLISH,
    }
}

pub(crate) fn shipped() -> Setting<'static> {
    by(&SHIPPED)
}

/// An arrangement whose middle is this.
pub(crate) fn arrangement(middle: &str) -> Template {
    Template::with_arrangement(format!("#let middle(data) = {middle}\n#let end(data) = []"))
}

/// The hard, shallow eye, signed.
pub(crate) fn plan() -> SignedPlan {
    cases::signed(&cases::case("hard-and-shallow")).unwrap()
}

/// Plans of one case for so many patients.
pub(crate) fn plans(count: usize) -> Vec<SignedPlan> {
    (0..count)
        .map(|index| {
            let mut draft = cases::case("hard-and-shallow");
            draft.patient.number = Some(format!("31-{index:04}"));
            cases::signed(&draft).unwrap()
        })
        .collect()
}
