//! `millrace register accept`.

use std::path::Path;
use std::process::ExitCode;

use millrace_wording::{Words, command_line as say};

use crate::failure::Failure;
use crate::seen;
use crate::terminal::print_done;

pub(crate) fn run(path: &Path, words: Words) -> Result<ExitCode, Failure> {
    let (before, now) = seen::accept(path)?;
    let before = before.map(|before| say::head_before(words, before));
    let now = match now {
        Some(now) => say::head_accepted(words, now),
        None => say::register_forgotten(words).to_owned(),
    };
    let lines: Vec<_> = [Some(now), before].into_iter().flatten().collect();
    print_done(&format!("{}\n", lines.join("\n")))?;
    Ok(ExitCode::SUCCESS)
}
