//! A press for tests of the window, and a desk's session with a register whose press dies.

mod deaths;
mod killed;
mod session;
mod two_windows;

use std::process::Command;
use std::time::Duration;

use millrace_press::{Bounds, Press};

/// Set for the process that is a press.
const CHILD: &str = "MILLRACE_PRESS_OF_THE_WINDOW_TESTS";

/// What an honest sheet does not need even unoptimized.
const TIGHT: Bounds = Bounds {
    memory: 512 << 20,
    time: Duration::from_secs(20),
};

/// This test program again, which then runs the test below alone.
fn this_program() -> std::io::Result<Command> {
    let mut command = Command::new(std::env::current_exe()?);
    command
        .args([
            "--exact",
            "window::testing::the_press_of_these_tests",
            "--nocapture",
            // Of one test alone it does not tell that it takes long, in the middle of an answer.
            "--test-threads=1",
        ])
        .env(CHILD, "1");
    Ok(command)
}

pub(super) fn press() -> Press {
    Press::of(this_program, TIGHT)
}

/// It is a press when a test of this program starts it, and otherwise nothing.
#[test]
fn the_press_of_these_tests() {
    if std::env::var_os(CHILD).is_some() {
        millrace_press::serve();
    }
}
