//! `millrace register backup`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_wording::{Words, command_line as say};

use super::progress_bar;
use crate::failure::Failure;
use crate::seen;
use crate::terminal::print_done;

pub(crate) fn run(path: &Path, file: &Path, words: Words) -> Result<ExitCode, Failure> {
    let register = seen::open(path, words)?;
    let bar = progress_bar(say::progress_pages(words));
    register.backup(file, &mut |pages| {
        bar.set_length(pages.total);
        bar.set_position(pages.done);
        ControlFlow::Continue(())
    })?;
    bar.finish_and_clear();
    let copied = say::copied(words, file.display().to_string());
    print_done(&format!("{copied}\n"))?;
    Ok(ExitCode::SUCCESS)
}
