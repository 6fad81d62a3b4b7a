//! `millrace verify`: whether the sheet in somebody's hand is the current one.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::calendar::Moment;
use millrace_core::signing::{PrintedFingerprint, SheetNumber};
use millrace_register::{SheetEntry, SheetStanding};
use millrace_wording::{Words, command_line as say};
use serde::Serialize;

use crate::cli::{Format, VerifyArguments};
use crate::failure::Failure;
use crate::register::{Head, json};
use crate::terminal::print;
use crate::{Around, STOPPED, seen};

pub(crate) fn run(arguments: &VerifyArguments, around: &Around) -> Result<ExitCode, Failure> {
    let text = arguments.fingerprint.join(" ");
    let printed: PrintedFingerprint = text.parse().map_err(Failure::Fingerprint)?;
    let path = around.place.path()?;
    let standing = seen::open(&path, around.words)?.verify(&printed)?;
    print(&match arguments.format {
        Format::Text => told(&standing, around.words),
        Format::Json => json(&Document::of(&path, &standing))?,
    })?;
    Ok(match standing {
        SheetStanding::Current(_) => ExitCode::SUCCESS,
        _ => ExitCode::from(STOPPED),
    })
}

pub(crate) fn told(standing: &SheetStanding, words: Words) -> String {
    let mut text = match standing {
        SheetStanding::Current(sheet) => say::current(words, signed(sheet, words)),
        SheetStanding::Superseded { sheet, by } => {
            say::superseded(words, by.number.get(), by.signed_at, signed(sheet, words))
        }
        SheetStanding::ChangedSince { sheet, by } => {
            let sheet = signed(sheet, words);
            say::changed_since(words, by.number, &by.saved_by, by.saved_at, sheet)
        }
        SheetStanding::Unknown => say::unknown_sheet(words).to_owned(),
    };
    text.push('\n');
    if standing.clock_was_set_back() {
        text.push_str(say::times_mislead(words));
        text.push('\n');
    }
    text
}

fn signed(sheet: &SheetEntry, words: Words) -> String {
    say::sheet_of_case(
        words,
        sheet.number.get(),
        sheet.case.short(),
        sheet.revision,
        &sheet.signed_by,
        sheet.signed_at,
    )
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    standing: &'static str,
    sheet: Option<SheetPart>,
    superseded_by: Option<SheetPart>,
    changed_by: Option<ChangePart>,
}

#[derive(Serialize)]
struct SheetPart {
    sheet: u32,
    case: String,
    revision: u32,
    supersedes: Option<u32>,
    signed_at: Moment,
    signed_by: String,
    fingerprint: String,
}

#[derive(Serialize)]
struct ChangePart {
    revision: u32,
    saved_at: Moment,
    saved_by: String,
}

impl Document {
    fn of(path: &Path, standing: &SheetStanding) -> Self {
        let (word, sheet, superseded_by, changed_by) = match standing {
            SheetStanding::Current(sheet) => ("current", Some(sheet), None, None),
            SheetStanding::Superseded { sheet, by } => ("superseded", Some(sheet), Some(by), None),
            SheetStanding::ChangedSince { sheet, by } => {
                ("changed_since", Some(sheet), None, Some(by))
            }
            SheetStanding::Unknown => ("unknown", None, None, None),
        };
        Self {
            head: Head::new("millrace verify", path),
            standing: word,
            sheet: sheet.map(SheetPart::of),
            superseded_by: superseded_by.map(SheetPart::of),
            changed_by: changed_by.map(|by| ChangePart {
                revision: by.number,
                saved_at: Moment(by.saved_at),
                saved_by: by.saved_by.clone(),
            }),
        }
    }
}

impl SheetPart {
    fn of(sheet: &SheetEntry) -> Self {
        Self {
            sheet: sheet.number.get(),
            case: sheet.case.to_string(),
            revision: sheet.revision,
            supersedes: sheet.supersedes.map(SheetNumber::get),
            signed_at: Moment(sheet.signed_at),
            signed_by: sheet.signed_by.clone(),
            fingerprint: sheet.fingerprint.to_string(),
        }
    }
}
