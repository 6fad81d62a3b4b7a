//! `millrace register list`.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::biometry::Side;
use millrace_core::calendar::Moment;
use millrace_core::case::State;
use millrace_core::signing::SheetNumber;
use millrace_register::{CaseEntry, Cases, Window};
use millrace_wording::{Show as _, Words, command_line as say, terms};
use serde::Serialize;

use super::arguments::ListArguments;
use super::{Head, json};
use crate::cli::Format;
use crate::failure::Failure;
use crate::page::{self, Page};
use crate::seen;
use crate::terminal::print;

pub(crate) fn run(
    path: &Path,
    arguments: &ListArguments,
    words: Words,
) -> Result<ExitCode, Failure> {
    let register = seen::open(path, words)?;
    let entries = match &arguments.search {
        None if arguments.set_aside => register.list(Cases::SetAside, Window::ALL)?,
        None => register.list(Cases::InUse, Window::ALL)?,
        Some(typed) => register.search(typed, Window::ALL)?,
    };
    let printed = match arguments.format {
        Format::Json => json(&Document::of(path, arguments.search.clone(), &entries))?,
        Format::Text => text(path, &entries, page::width(arguments.width), words),
    };
    print(&printed)?;
    Ok(ExitCode::SUCCESS)
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    search: Option<String>,
    cases: Vec<Listed>,
}

#[derive(Serialize)]
struct Listed {
    case: String,
    revision: u32,
    state: &'static str,
    sheet: Option<u32>,
    name: Option<String>,
    number: Option<String>,
    birth_date: Option<String>,
    eye: Option<Side>,
    operation_date: Option<String>,
    saved_at: Moment,
    saved_by: String,
}

impl Document {
    fn of(path: &Path, search: Option<String>, entries: &[CaseEntry]) -> Self {
        let cases = entries.iter().map(|entry| Listed {
            case: entry.case.to_string(),
            revision: entry.revision,
            state: entry.state.word(),
            sheet: entry.sheet.map(SheetNumber::get),
            name: entry.name.clone(),
            number: entry.number.clone(),
            birth_date: entry.birth_date.map(|date| date.to_string()),
            eye: entry.eye,
            operation_date: entry.operation_date.map(|date| date.to_string()),
            saved_at: Moment(entry.saved_at),
            saved_by: entry.saved_by.clone(),
        });
        Self {
            head: Head::new("millrace register list", path),
            search,
            cases: cases.collect(),
        }
    }
}

fn text(path: &Path, entries: &[CaseEntry], width: usize, words: Words) -> String {
    let mut page = Page::new(width, words);
    if entries.is_empty() {
        page.line(&say::no_case(words, path.display().to_string()));
        return page.finish();
    }
    let header = [
        say::column_planned_for,
        say::column_patient,
        say::column_number,
        say::column_eye,
        say::column_state,
        say::column_short_revision,
        say::column_case,
    ];
    let rows = entries.iter().map(|entry| row(entry, words)).collect();
    page.table_of_words(
        &header.map(|column| column(words).to_owned()),
        rows,
        &[1, 2, 3, 4, 6],
    );
    page.finish()
}

fn row(entry: &CaseEntry, words: Words) -> Vec<String> {
    let absent = || "\u{2013}".to_owned();
    vec![
        entry
            .operation_date
            .map_or_else(absent, |date| date.to_string()),
        entry.name.clone().unwrap_or_else(absent),
        entry.number.clone().unwrap_or_else(absent),
        entry
            .eye
            .map_or_else(absent, |eye| terms::eye_capitals(words, eye).to_owned()),
        state(entry, words),
        entry.revision.to_string(),
        entry.case.short(),
    ]
}

/// "planned, changed since sheet 3".
fn state(entry: &CaseEntry, words: Words) -> String {
    let state = entry.state;
    match (state, entry.sheet) {
        (State::Signed, Some(sheet)) => say::state_with_sheet(words, state, sheet.get()),
        (_, Some(sheet)) => say::state_changed_since(words, state, sheet.get()),
        (_, None) => state.show(words).into_owned(),
    }
}
