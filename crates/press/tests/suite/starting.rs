//! A process that cannot be started, is no press, or goes while nobody asks it.

use std::process::Command;
use std::time::Duration;

use millrace_press::{Bounds, Press, PressError, Subject};
use millrace_wording::Show as _;
use millrace_wording::Words;

use crate::support::{TIGHT, plan, shipped, this_program};

fn error_of(program: impl Fn() -> std::io::Result<Command> + Send + 'static) -> PressError {
    let bounds = Bounds {
        time: Duration::from_secs(2),
        ..TIGHT
    };
    let mut press = Press::of(program, bounds);
    press.pdf(&Subject::Signed(&plan()), shipped()).unwrap_err()
}

#[cfg(unix)]
fn shell(script: &str) -> Command {
    let mut command = Command::new("/bin/sh");
    command.args(["-c", script]);
    command
}

#[test]
fn a_program_that_is_not_there_is_told() {
    let error = error_of(|| Ok(Command::new("/nowhere/at-all")));
    assert!(matches!(error, PressError::NotStarted { .. }), "{error:?}");
    let text = error.show(Words::ENGLISH).into_owned();
    let expected = "the process that sets the sheet cannot be started: ";
    assert!(text.starts_with(expected), "{text}");
}

/// One that ends at once, answers something else, answers too much, or never answers.
#[cfg(unix)]
#[test]
fn a_program_that_is_no_press_is_told() {
    let ended = PressError::Ended { code: Some(7) };
    assert_eq!(error_of(|| Ok(shell("exit 7"))), ended);
    assert_eq!(
        error_of(|| Ok(shell("kill -9 $$"))),
        PressError::Killed { signal: 9 }
    );
    for nonsense in [
        "exec yes nonsense",
        "printf '\\nmillrace press\\n'; exec cat /dev/zero",
        "printf '\\nmillrace press\\n\\377\\377\\377\\377\\377\\377\\377\\377'; exec sleep 60",
    ] {
        let error = error_of(move || Ok(shell(nonsense)));
        assert_eq!(error, PressError::Unreadable, "{nonsense}");
    }
    let limit = Duration::from_secs(2);
    assert_eq!(
        error_of(|| Ok(shell("exec sleep 60"))),
        PressError::OutOfTime { limit }
    );
}

/// Ended from outside between two sheets, as the system does that runs out of memory: the next sheet is
/// printed as if nothing had been.
#[cfg(target_os = "linux")]
#[test]
fn a_press_that_ends_between_two_sheets_is_not_missed() {
    let directory = tempfile::tempdir().unwrap();
    let known = directory.path().join("press");
    let mut press = Press::of(
        move || {
            let (known, program) = (known.clone(), this_program()?);
            let mut command = shell("echo $$ > \"$0\"; exec \"$@\"");
            command.arg(known).arg(program.get_program());
            command.args(program.get_args());
            for (name, value) in program.get_envs() {
                command.env(name, value.unwrap_or_default());
            }
            Ok(command)
        },
        TIGHT,
    );
    let plan = plan();
    let mut printed = Vec::new();
    for _ in 0..3 {
        printed.push(press.pdf(&Subject::Signed(&plan), shipped()).unwrap());
        let id = std::fs::read_to_string(directory.path().join("press")).unwrap();
        let killed = Command::new("kill").args(["-9", id.trim()]).status();
        assert!(killed.unwrap().success());
        // It is gone when the last of its threads is.
        let threads = format!("/proc/{}/task", id.trim());
        let state = format!("/proc/{}/stat", id.trim());
        while std::fs::read_dir(&threads).is_ok_and(|threads| 1 < threads.count())
            || std::fs::read_to_string(&state).is_ok_and(|state| !state.contains(") Z "))
        {
            std::thread::sleep(Duration::from_millis(5));
        }
    }
    assert!(printed.windows(2).all(|two| two[0] == two[1]));
}
