//! Sheets for the desk: signed, read, and answered for.

use chrono::NaiveDate;
use millrace_core::signing::{FingerprintError, PrintedFingerprint, Signature};
use millrace_desk::exchange::{
    Answer, CaseId, Planned, SheetRequest, SheetRow, SignRequest, Standing, Which,
};
use millrace_desk::settings::PaperSize;
use millrace_press::PressError;
use millrace_register::{RegisterError, SheetStanding, SignError, Signing};
use millrace_sheet::Paper;
use millrace_wording::{Show as _, Words, press as say_of_press, window as say};

use super::press::{Content, ToSet};
use super::register_store::{RegisterStore, known, plain, seen};
use crate::clock;
use crate::day_sheets::DaySheets;
use crate::register::PROGRAM;
use crate::sheet::check_printable;
use crate::standing::outdated;
use crate::style::Style;
use crate::verify;

impl RegisterStore {
    pub(crate) fn sheets(&self, case: &CaseId) -> Result<Answer, String> {
        let sheets = self.rows(known(case, self.words)?);
        let sheets = sheets.map_err(plain(self.words))?;
        let case = case.clone();
        Ok(Answer::Sheets { case, sheets })
    }

    /// Signs, and tells the sheets of the case.
    pub(crate) fn sign(&mut self, sign: SignRequest) -> Answer {
        Answer::Signed {
            case: sign.case.clone(),
            sheets: self.signed(sign),
        }
    }

    fn signed(&mut self, sign: SignRequest) -> Result<Vec<SheetRow>, Vec<String>> {
        let one = |why: String| vec![why];
        let id = known(&sign.case, self.words).map_err(one)?;
        let seen = seen(&sign.seen, self.words).map_err(one)?;
        let signing = Signing {
            limits: &sign.limits,
            signature: Signature {
                name: sign.name,
                role: sign.role,
                at: clock::now(),
                consented_target: sign.target,
            },
            program: PROGRAM,
        };
        let newest = self.register.load(id);
        let draft = newest.map_err(|error| one(plain(self.words)(error)))?.draft;
        check_printable(&draft, &signing, (self.words, &mut self.press))
            .map_err(|error| one(not_signed(&error, self.words)))?;
        match self.register.sign(id, seen, signing) {
            Ok(_) => self.rows(id).map_err(|error| one(plain(self.words)(error))),
            Err(SignError::Obstacles { obstacles }) => Err(obstacles
                .iter()
                .map(|it| it.show(self.words).into_owned())
                .collect()),
            Err(error) => Err(one(plain(self.words)(error))),
        }
    }

    pub(super) fn rows(
        &self,
        case: millrace_register::CaseId,
    ) -> Result<Vec<SheetRow>, RegisterError> {
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
                    plans: Planned::of(plan.draft()),
                    by: sheet.signed_by,
                    at: clock::on_the_wall(sheet.signed_at),
                    standing,
                })
            })
            .collect()
    }

    /// Whether a sheet is the one to work by.
    pub(crate) fn verify(&self, text: &str) -> Result<Answer, String> {
        let words = self.words;
        let printed: Result<PrintedFingerprint, FingerprintError> = text.parse();
        let printed = printed.map_err(|error| say::no_fingerprint(words, error))?;
        let standing = self.register.verify(&printed).map_err(plain(words))?;
        let message = verify::told(&standing, words).trim_end().to_owned();
        match standing {
            SheetStanding::Current(_) => Ok(Answer::Done { message }),
            _ => Err(message),
        }
    }

    /// What the register has of a sheet: the rest needs it no longer.
    pub(crate) fn to_set(&self, request: SheetRequest) -> Result<ToSet, String> {
        let content = match request.which {
            Which::Draft => Content::Draft(request.draft, request.limits),
            Which::Signed(number) => {
                let found = self.register.signed_with_standing(number);
                let (sheet, standing) = found.map_err(plain(self.words))?;
                Content::Signed(Box::new(sheet.plan), outdated(&standing))
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
        Style::beside(&self.directory, paper, self.words).map_err(plain(self.words))
    }

    pub(crate) fn day(&self, day: NaiveDate) -> Result<DaySheets, String> {
        DaySheets::of(&self.register, day, self.words).map_err(plain(self.words))
    }
}

/// What is said against the sheet itself, or that nobody found out.
fn not_signed(error: &PressError, words: Words) -> String {
    if error.is_of_the_press() {
        return say_of_press::nothing_signed(words, error);
    }
    error.show(words).into_owned()
}
