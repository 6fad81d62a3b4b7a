//! `millrace register check`.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;

use millrace_register::{CheckReport, Fault, HeadStanding, PrintedHead, Register, RegisterError};
use millrace_wording::{Show as _, Words, command_line as say};
use serde::Serialize;

use super::arguments::CheckArguments;
use super::{Head, json, progress_bar};
use crate::STOPPED;
use crate::cli::Format;
use crate::failure::Failure;
use crate::seen::Outside;
use crate::terminal::print;

pub(crate) fn run(
    path: &Path,
    arguments: &CheckArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let then = arguments.head.as_deref().map(str::parse).transpose();
    let then: Option<PrintedHead> = then.map_err(Failure::Head)?;
    let report = match Register::open_existing(path) {
        Ok(mut register) => {
            let mut found = checked(&mut register, words)?;
            if let Err(error) = found.compare(&register, then.as_ref()) {
                found.problems.push(error.fault.show(words).into_owned());
            }
            // Not refused as elsewhere: what is wrong with it is what a check is asked about; damage is told by
            // the check itself.
            if let Err(error) = Outside::of_this_computer().compare(&register)
                && error.fault.is_another_head()
            {
                found.seen = Some(error.fault.show(words).into_owned());
            }
            found
        }
        // Too damaged to be opened, or to be brought to the newest schema, is what a check is asked about.
        Err(error) if matches!(error.fault, Fault::Damaged(_) | Fault::BadBackup(_)) => Found {
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
    let is_lost = |compared: &Compared| !matches!(compared.word, "same" | "grown");
    Ok(
        if report.problems.is_empty()
            && report.seen.is_none()
            && !report.compared.as_ref().is_some_and(is_lost)
        {
            ExitCode::SUCCESS
        } else {
            ExitCode::from(STOPPED)
        },
    )
}

#[derive(Default, Serialize)]
struct Found {
    cases: u64,
    revisions: u64,
    sheets: u64,
    problems: Vec<String>,
    /// Where times run against the order, in words.
    set_back: Vec<String>,
    head: Option<String>,
    compared: Option<Compared>,
    /// What is wrong with it beside what this computer saw of it last, in words.
    seen: Option<String>,
}

/// What the register is to the head that was written down.
struct Compared {
    then: String,
    word: &'static str,
}

impl Serialize for Compared {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.word)
    }
}

impl Found {
    fn compare(
        &mut self,
        register: &Register,
        then: Option<&PrintedHead>,
    ) -> Result<(), RegisterError> {
        self.head = Some(register.head()?.to_string());
        let Some(then) = then else {
            return Ok(());
        };
        let word = match register.standing_to(then)? {
            HeadStanding::Same => "same",
            HeadStanding::Grown { .. } => "grown",
            HeadStanding::SetBack { .. } => "set_back",
            HeadStanding::Other { .. } => "other",
        };
        let then = then.short().to_string();
        self.compared = Some(Compared { then, word });
        Ok(())
    }
}

fn checked(register: &mut Register, words: Words) -> Result<Found, Failure> {
    let bar = progress_bar(say::progress_revisions(words));
    let CheckReport {
        cases,
        revisions,
        sheets,
        problems,
        set_back,
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
        set_back: set_back
            .iter()
            .map(|set_back| set_back.show(words).into_owned())
            .collect(),
        ..Found::default()
    })
}

fn text(path: &Path, found: &Found, words: Words) -> String {
    let Found {
        cases,
        revisions,
        sheets,
        problems,
        ..
    } = found;
    let path = path.display().to_string();
    let mut read = say::read_through(words, cases, revisions, sheets, path);
    if !found.set_back.is_empty() {
        let places = found.set_back.join("\n  ");
        read = format!("{read}\n{}\n  {places}", say::clock_ran_back(words));
    }
    if let Some(head) = &found.head {
        read = format!("{read}\n{}", say::head_now(words, head));
    }
    if let Some(Compared { then, word }) = &found.compared {
        let compared = match *word {
            "same" => say::head_same(words, then),
            "grown" => say::head_grown(words, then),
            "set_back" => say::head_set_back(words, then),
            _ => say::head_other(words, then),
        };
        read = format!("{read}\n{compared}");
    }
    if let Some(seen) = &found.seen {
        read = format!("{read}\n{seen}");
    }
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
