//! `millrace register history`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::calendar::Moment;
use millrace_register::{CaseId, RevisionEntry};
use millrace_wording::{Words, command_line as say};
use serde::Serialize;

use super::arguments::HistoryArguments;
use super::{Head, json};
use crate::cli::Format;
use crate::failure::Failure;
use crate::page::{self, Page};
use crate::seen;
use crate::terminal::print;

/// As much of a hash as people compare.
const SHOWN_OF_HASH: usize = 12;

pub(crate) fn run(
    path: &Path,
    arguments: &HistoryArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let register = seen::open(path, words)?;
    let case = register.find(&arguments.case)?;
    let history = register.history(case)?;
    let printed = match arguments.format {
        Format::Text => text(case, &history, page::width(arguments.width), words),
        Format::Json => document(path, case, &history)?,
    };
    print(&printed)?;
    Ok(ExitCode::SUCCESS)
}

fn text(case: CaseId, history: &[RevisionEntry], width: usize, words: Words) -> String {
    let mut page = Page::new(width, words);
    page.line(&say::case_head(words, case));
    page.blank();
    let header = [
        say::column_revision,
        say::column_saved,
        say::column_by,
        say::column_desk,
        say::column_with,
        say::column_hash,
    ];
    let rows = history.iter().map(|entry| {
        vec![
            entry.number.to_string(),
            words.moment(entry.saved_at),
            entry.saved_by.clone(),
            entry.desk.clone().unwrap_or_default(),
            entry.program.clone(),
            entry.hash.to_string().chars().take(SHOWN_OF_HASH).collect(),
        ]
    });
    page.table_of_words(
        &header.map(|column| column(words).to_owned()),
        rows.collect(),
        &[1, 2, 3, 4, 5],
    );
    page.finish()
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    case: String,
    revisions: Vec<Line>,
}

#[derive(Serialize)]
struct Line {
    revision: u32,
    saved_at: Moment,
    saved_by: String,
    desk: Option<String>,
    saved_with: String,
    hash: String,
}

fn document(path: &Path, case: CaseId, history: &[RevisionEntry]) -> Result<String, Failure> {
    let revisions = history.iter().map(|entry| Line {
        revision: entry.number,
        saved_at: Moment(entry.saved_at),
        saved_by: entry.saved_by.clone(),
        desk: entry.desk.clone(),
        saved_with: entry.program.clone(),
        hash: entry.hash.to_string(),
    });
    json(&Document {
        head: Head::new("millrace register history", path),
        case: case.to_string(),
        revisions: revisions.collect(),
    })
}
