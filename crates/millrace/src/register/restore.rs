//! `millrace register restore`.

use std::path::Path;
use std::process::ExitCode;

use millrace_register::Register;
use millrace_wording::{Words, command_line as say};

use crate::failure::Failure;
use crate::terminal::print_done;

pub(crate) fn run(path: &Path, backup: &Path, words: Words) -> Result<ExitCode, Failure> {
    let moved = Register::restore(backup, path)?;
    let mut text = format!("{}\n", say::restored(words, path.display().to_string()));
    for file in moved {
        text.push_str("  ");
        text.push_str(&say::moved_away(words, file.display().to_string()));
        text.push('\n');
    }
    print_done(&text)?;
    Ok(ExitCode::SUCCESS)
}
