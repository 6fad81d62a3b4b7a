//! `millrace register export`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::case_file;
use millrace_register::Register;

use super::arguments::ExportArguments;
use crate::failure::Failure;
use crate::output::{Output, Over};

pub(crate) fn run(path: &Path, arguments: &ExportArguments) -> Result<ExitCode, Failure> {
    let register = Register::open_existing(path)?;
    let case = register.find(&arguments.case)?;
    let revision = match arguments.revision {
        None => register.load(case)?,
        Some(number) => register.load_revision(case, number)?,
    };
    let text = case_file::write(&revision.draft).map_err(|error| Failure::Case {
        path: path.to_owned(),
        error: Box::new(error),
    })?;
    let over = if arguments.force {
        Over::Replace
    } else {
        Over::Refuse
    };
    let mut output = Output::create(arguments.output.as_deref(), over)?;
    let written = output.write_all(text.as_bytes());
    written.map_err(|error| match &arguments.output {
        None => Failure::Output(error),
        Some(file) => Failure::writing(file)(error),
    })?;
    output.finish()?;
    Ok(ExitCode::SUCCESS)
}
