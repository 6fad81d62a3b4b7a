//! All of this crate that depends on the operating system.
//!
//! | | Linux | elsewhere |
//! |---|---|---|
//! | memory | the system refuses more private memory than the limit | no limit; time alone |
//! | files | the process can write none, and leaves no image of its memory | not forbidden |
//! | which program | the one that runs, even when its file was replaced | the file it was started from |
//!
//! A process that outlives its parent ends everywhere: it reads the end of its input.

use std::io;
use std::process::{Command, ExitStatus};

use crate::child::ARGUMENT;

/// This program again, asked to set sheets.
///
/// # Errors
///
/// Where the system does not tell which file it was started from.
pub fn of_this_program() -> io::Result<Command> {
    #[cfg(target_os = "linux")]
    let mut command = {
        use std::os::unix::process::CommandExt as _;
        let mut command = Command::new("/proc/self/exe");
        // As lists of processes name it.
        command.arg0("millrace");
        command
    };
    #[cfg(not(target_os = "linux"))]
    let mut command = Command::new(std::env::current_exe()?);
    command.arg(ARGUMENT);
    Ok(command)
}

/// Limits this process to so much private memory, bytes, and to no file. Shared libraries and the program
/// itself are not counted.
#[cfg(target_os = "linux")]
pub(crate) fn limit(memory: u64) -> io::Result<()> {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};

    for (resource, most) in [
        (Resource::Data, memory),
        (Resource::Core, 0),
        (Resource::Fsize, 0),
    ] {
        // A limit that is lower already cannot be raised, and need not be.
        let most = getrlimit(resource)
            .maximum
            .map_or(most, |known| known.min(most));
        let limit = Rlimit {
            current: Some(most),
            maximum: Some(most),
        };
        setrlimit(resource, limit)?;
    }
    Ok(())
}

/// No limit: these systems have none that a process can set itself without unsafe code.
#[cfg(not(target_os = "linux"))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "it can fail where there is a limit"
)]
pub(crate) fn limit(_memory: u64) -> io::Result<()> {
    Ok(())
}

/// The signal that ended a process.
#[cfg(unix)]
pub(crate) fn signal(status: ExitStatus) -> Option<i32> {
    std::os::unix::process::ExitStatusExt::signal(&status)
}

#[cfg(not(unix))]
pub(crate) fn signal(_status: ExitStatus) -> Option<i32> {
    None
}
