//! `millrace register backup`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_register::Register;
use millrace_wording::{Words, command_line as say};

use super::{print, progress_bar};
use crate::failure::Failure;

pub(crate) fn run(path: &Path, file: &Path, words: Words) -> Result<ExitCode, Failure> {
    let register = Register::open_existing(path)?;
    let bar = progress_bar(say::progress_pages(words));
    register.backup(file, &mut |pages| {
        bar.set_length(pages.total);
        bar.set_position(pages.done);
        ControlFlow::Continue(())
    })?;
    bar.finish_and_clear();
    let copied = say::copied(words, file.display().to_string());
    print(&format!("{copied}\n"))?;
    Ok(ExitCode::SUCCESS)
}
