//! `millrace verify`: whether the sheet in somebody's hand is the current one.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::calendar::Moment;
use millrace_core::signing::{PrintedFingerprint, SheetNumber};
use millrace_core::words::moment;
use millrace_register::{Register, SheetEntry, SheetStanding};
use serde::Serialize;

use crate::STOPPED;
use crate::cli::{Format, VerifyArguments};
use crate::failure::Failure;
use crate::register::{Head, Place, json, print};

pub(crate) fn run(arguments: &VerifyArguments, register: &Place) -> Result<ExitCode, Failure> {
    let text = arguments.fingerprint.join(" ");
    let printed: PrintedFingerprint = text.parse().map_err(Failure::Fingerprint)?;
    let path = register.path()?;
    let standing = Register::open_existing(&path)?.verify(&printed)?;
    print(&match arguments.format {
        Format::Text => words(&standing),
        Format::Json => json(&Document::of(&path, &standing))?,
    })?;
    Ok(match standing {
        SheetStanding::Current(_) => ExitCode::SUCCESS,
        _ => ExitCode::from(STOPPED),
    })
}

pub(crate) fn words(standing: &SheetStanding) -> String {
    match standing {
        SheetStanding::Current(sheet) => format!("current: {}\n", signed(sheet)),
        SheetStanding::Superseded { sheet, by } => format!(
            "superseded by sheet {} on {}: do not work by this one\n{}\n",
            by.number,
            moment(by.signed_at),
            signed(sheet)
        ),
        SheetStanding::ChangedSince { sheet, by } => format!(
            "changed since: the case was saved again as revision {} by {} on {} and is not signed \
             since; ask before you work by this sheet\n{}\n",
            by.number,
            by.saved_by,
            moment(by.saved_at),
            signed(sheet)
        ),
        SheetStanding::Unknown => {
            "unknown: this register never signed such a sheet; it may be of another register, or a \
             draft\n"
                .to_owned()
        }
    }
}

fn signed(sheet: &SheetEntry) -> String {
    format!(
        "sheet {} of case {} revision {}, signed by {} on {}",
        sheet.number,
        sheet.case.short(),
        sheet.revision,
        sheet.signed_by,
        moment(sheet.signed_at)
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
