//! Sheets for the desk: signed, read, and answered for.

use chrono::NaiveDate;
use millrace_core::signing::{PrintedFingerprint, Signature};
use millrace_core::words::moment;
use millrace_desk::exchange::{
    Answer, CaseId, Revision, SheetRequest, SheetRow, Standing, Which, eye_and_lens,
};
use millrace_desk::settings::PaperSize;
use millrace_register::{RegisterError, SheetStanding, SignError, Signing};
use millrace_sheet::Paper;

use super::press::{Content, ToSet};
use super::register_store::{RegisterStore, failed, known};
use crate::clock;
use crate::day_sheets::DaySheets;
use crate::register::PROGRAM;
use crate::style::Style;
use crate::verify;

/// Who signs, and what.
pub(crate) struct ToSign {
    pub(crate) case: CaseId,
    pub(crate) seen: Revision,
    pub(crate) name: String,
    pub(crate) role: String,
    pub(crate) target: millrace_core::quantity::HundredthDiopters,
    pub(crate) limits: Box<millrace_core::limits::Limits>,
}

impl RegisterStore {
    /// The sheets of a case.
    pub(crate) fn sheets(&self, case: &CaseId) -> Answer {
        match known(case) {
            Ok(id) => match self.rows(id) {
                Ok(sheets) => Answer::Sheets {
                    case: case.clone(),
                    sheets,
                },
                Err(error) => failed(error),
            },
            Err(answer) => answer,
        }
    }

    /// Signs, and tells the sheets of the case.
    pub(crate) fn sign(&mut self, to_sign: ToSign) -> Answer {
        let case = to_sign.case.clone();
        match self.signed(to_sign) {
            Ok(sheets) => Answer::Signed { case, sheets },
            Err(why) => Answer::NotSigned { case, why },
        }
    }

    fn signed(&mut self, to_sign: ToSign) -> Result<Vec<SheetRow>, Vec<String>> {
        let plain = |error: &dyn core::fmt::Display| vec![error.to_string()];
        let id = known(&to_sign.case).map_err(|_| vec!["the case is not known".to_owned()])?;
        let seen = to_sign.seen.0.parse().map_err(|error| plain(&error))?;
        let signing = Signing {
            limits: &to_sign.limits,
            signature: Signature {
                name: to_sign.name,
                role: to_sign.role,
                at: clock::now(),
                consented_target: to_sign.target,
            },
            program: PROGRAM,
        };
        match self.register.sign(id, seen, signing) {
            Ok(_) => self.rows(id).map_err(|error| plain(&error)),
            Err(SignError::Obstacles { obstacles }) => {
                Err(obstacles.iter().map(ToString::to_string).collect())
            }
            Err(error) => Err(plain(&error)),
        }
    }

    fn rows(&self, case: millrace_register::CaseId) -> Result<Vec<SheetRow>, RegisterError> {
        let sheets = self.register.sheets_of(case)?;
        sheets
            .into_iter()
            .map(|sheet| {
                let printed = PrintedFingerprint::Full(sheet.fingerprint);
                let standing = match self.register.verify(&printed)? {
                    SheetStanding::Current(_) => Standing::Current,
                    SheetStanding::Superseded { by, .. } => Standing::Superseded(by.number),
                    SheetStanding::ChangedSince { .. } | SheetStanding::Unknown => {
                        Standing::ChangedSince
                    }
                };
                let plan = self.register.signed(sheet.number)?.plan;
                Ok(SheetRow {
                    number: sheet.number,
                    plans: eye_and_lens(plan.draft()),
                    by: sheet.signed_by,
                    at: moment(sheet.signed_at),
                    standing,
                })
            })
            .collect()
    }

    /// Whether a sheet is the one to work by.
    pub(crate) fn verify(&self, text: &str) -> Answer {
        let printed: PrintedFingerprint = match text.parse() {
            Ok(printed) => printed,
            Err(error) => {
                return Answer::Failed {
                    message: format!("That is no fingerprint of a sheet: {error}"),
                };
            }
        };
        match self.register.verify(&printed) {
            Ok(standing) => {
                let message = verify::words(&standing).trim_end().to_owned();
                match standing {
                    SheetStanding::Current(_) => Answer::Done { message },
                    _ => Answer::Failed { message },
                }
            }
            Err(error) => failed(error),
        }
    }

    /// What the register has of a sheet: the rest needs it no longer.
    pub(crate) fn to_set(&self, request: SheetRequest) -> Result<ToSet, String> {
        let content = match request.which {
            Which::Draft => Content::Draft(request.draft, request.limits),
            Which::Signed(number) => {
                let sheet = self.register.signed(number);
                Content::Signed(Box::new(sheet.map_err(|error| error.to_string())?.plan))
            }
        };
        Ok(ToSet {
            content,
            style: self.style(request.paper)?,
        })
    }

    /// The paper, and the clinic's arrangement where it has one.
    pub(crate) fn style(&self, size: PaperSize) -> Result<Style, String> {
        let paper = match size {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        };
        Style::beside(&self.directory, paper).map_err(|error| error.to_string())
    }

    /// What the register has of a day.
    pub(crate) fn day(&self, day: NaiveDate) -> Result<DaySheets, String> {
        DaySheets::of(&self.register, day).map_err(|error| error.to_string())
    }
}
