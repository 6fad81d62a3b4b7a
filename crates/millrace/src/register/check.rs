//! `millrace register check`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_register::{CheckReport, Fault, Register};
use millrace_wording::{Show as _, Words, command_line as say};
use serde::Serialize;

use super::arguments::CheckArguments;
use super::{Head, json, print, progress_bar};
use crate::STOPPED;
use crate::cli::Format;
use crate::failure::Failure;

pub(crate) fn run(
    path: &Path,
    arguments: &CheckArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let report = match Register::open_existing(path) {
        Ok(mut register) => checked(&mut register, words)?,
        // Too damaged to be opened is what a check is asked about.
        Err(error) if matches!(error.fault, Fault::Damaged(_)) => Found {
            problems: vec![error.fault.show(words).into_owned()],
            ..Found::default()
        },
        Err(error) => return Err(error.into()),
    };
    let printed = match arguments.format {
        Format::Text => text(path, &report, words),
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

fn checked(register: &mut Register, words: Words) -> Result<Found, Failure> {
    let bar = progress_bar(say::progress_revisions(words));
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
        problems: problems
            .iter()
            .map(|problem| problem.show(words).into_owned())
            .collect(),
    })
}

fn text(path: &Path, found: &Found, words: Words) -> String {
    let Found {
        cases,
        revisions,
        sheets,
        problems,
    } = found;
    let path = path.display().to_string();
    let read = say::read_through(words, cases, revisions, sheets, path);
    if problems.is_empty() {
        return format!("{}\n{read}\n", say::as_saved(words));
    }
    let problems = problems.join("\n  ");
    format!("{}\n  {problems}\n{read}\n", say::damaged(words))
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
