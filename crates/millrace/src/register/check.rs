//! `millrace register check`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_register::{CheckReport, Fault, Register};
use serde::Serialize;

use super::arguments::CheckArguments;
use super::{Head, json, print, progress_bar};
use crate::STOPPED;
use crate::cli::Format;
use crate::failure::Failure;

pub(crate) fn run(path: &Path, arguments: &CheckArguments) -> Result<ExitCode, Failure> {
    let report = match Register::open_existing(path) {
        Ok(mut register) => checked(&mut register)?,
        // Too damaged to be opened is what a check is asked about.
        Err(error) if matches!(error.fault, Fault::Damaged(_)) => Found {
            problems: vec![error.fault.to_string()],
            ..Found::default()
        },
        Err(error) => return Err(error.into()),
    };
    let printed = match arguments.format {
        Format::Text => text(path, &report),
        Format::Json => document(path, &report)?,
    };
    print(&printed)?;
    Ok(if report.problems.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(STOPPED)
    })
}

#[derive(Default, Serialize)]
struct Found {
    cases: u64,
    revisions: u64,
    sheets: u64,
    problems: Vec<String>,
}

fn checked(register: &mut Register) -> Result<Found, Failure> {
    let bar = progress_bar("revisions");
    let CheckReport {
        cases,
        revisions,
        sheets,
        problems,
    } = register.check(&mut |checked| {
        bar.set_length(checked.total);
        bar.set_position(checked.done);
        ControlFlow::Continue(())
    })?;
    bar.finish_and_clear();
    Ok(Found {
        cases,
        revisions,
        sheets,
        problems: problems.iter().map(ToString::to_string).collect(),
    })
}

fn text(path: &Path, found: &Found) -> String {
    let Found {
        cases,
        revisions,
        sheets,
        problems,
    } = found;
    let read = format!(
        "{cases} cases, {revisions} revisions, {sheets} sheets read: {}\n",
        path.display()
    );
    if problems.is_empty() {
        return format!("Everything is as it was saved.\n{read}");
    }
    format!(
        "The register is damaged. Do not write to it, keep the file, and restore the latest \
         backup.\n  {}\n{read}",
        problems.join("\n  ")
    )
}

#[derive(Serialize)]
struct Document<'a> {
    #[serde(flatten)]
    head: Head,
    sound: bool,
    #[serde(flatten)]
    found: &'a Found,
}

fn document(path: &Path, found: &Found) -> Result<String, Failure> {
    json(&Document {
        head: Head::new("millrace register check", path),
        sound: found.problems.is_empty(),
        found,
    })
}
