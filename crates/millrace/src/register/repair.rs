//! `millrace register repair`.

use std::path::Path;
use std::process::ExitCode;

use millrace_register::Register;
use millrace_wording::{Words, command_line as say};

use crate::failure::Failure;
use crate::terminal::print_done;

pub(crate) fn run(path: &Path, file: &Path, words: Words) -> Result<ExitCode, Failure> {
    let new = Register::repair(path, file)?;
    let file = file.display().to_string();
    let repaired = say::repaired(words, new.cases, new.revisions, new.sheets, file);
    print_done(&format!("{repaired}\n"))?;
    Ok(ExitCode::SUCCESS)
}
