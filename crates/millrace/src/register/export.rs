//! `millrace register export`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::case_file;
use millrace_wording::Words;

use super::arguments::ExportArguments;
use crate::failure::Failure;
use crate::output::{Over, write_file};
use crate::seen;
use crate::terminal::print;

pub(crate) fn run(
    path: &Path,
    arguments: &ExportArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let register = seen::open(path, words)?;
    let case = register.find(&arguments.case)?;
    let revision = match arguments.revision {
        None => register.load(case)?,
        Some(number) => register.load_revision(case, number)?,
    };
    let text = case_file::write(&revision.draft).map_err(|error| Failure::Case {
        path: path.to_owned(),
        error: Box::new(error),
    })?;
    match &arguments.output {
        None => print(&text)?,
        Some(file) => write_file(file, Over::from(arguments.force), &[], text.as_bytes())?,
    }
    Ok(ExitCode::SUCCESS)
}
