//! Sheets for the desk: signed, set, written, viewed, printed, and answered for.

use std::fs::{self, File, OpenOptions};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use millrace_core::plan::Plan;
use millrace_core::signing::{PrintedFingerprint, Signature};
use millrace_desk::exchange::{
    Answer, CaseId, PagePicture, Revision, SheetRequest, SheetRow, Standing, Which,
};
use millrace_desk::settings::PaperSize;
use millrace_register::{RegisterError, SheetStanding, SignError, Signing};
use millrace_sheet::{PageImage, Paper, Sheet};

use super::register_store::{RegisterStore, failed, known};
use crate::clock;
use crate::register::PROGRAM;
use crate::{sheet, verify};

/// Of the pictures on the desk: sharp at twice the size.
const PIXELS_PER_POINT: f32 = 2.0;

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
                Ok(SheetRow {
                    number: sheet.number,
                    by: sheet.signed_by,
                    at: clock::minute(sheet.signed_at),
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

    /// Sets a sheet.
    fn set(&self, request: &SheetRequest) -> Result<Sheet, String> {
        let paper = match request.paper {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        };
        match request.which {
            Which::Draft => {
                let plan =
                    Plan::of(&request.draft, &request.limits).map_err(|error| error.to_string())?;
                let planned = (&plan, &*request.limits);
                sheet::of_draft(&request.draft, planned, paper).map_err(|error| error.to_string())
            }
            Which::Signed(number) => {
                let sheet = self.register.signed(number);
                let sheet = sheet.map_err(|error| error.to_string())?;
                sheet::of_signed(&sheet.plan, paper).map_err(|error| error.to_string())
            }
        }
    }

    /// Pictures of the pages.
    pub(crate) fn pages(&self, request: &SheetRequest) -> Answer {
        match self.set(request) {
            Ok(sheet) => {
                let pages = sheet.pages(PIXELS_PER_POINT);
                Answer::Pages(pages.into_iter().filter_map(picture).collect())
            }
            Err(why) => Answer::NoPages { why },
        }
    }

    /// Writes the sheet to a new file, or over one that the person agreed to replace.
    pub(crate) fn write_sheet(
        &self,
        request: &SheetRequest,
        (path, replaces): (&Path, Replaces),
    ) -> Answer {
        let written = self.pdf(request).and_then(|pdf| {
            let mut options = OpenOptions::new();
            options.write(true);
            match replaces {
                Replaces::Nothing => options.create_new(true),
                Replaces::WhatIsThere => options.create(true).truncate(true),
            };
            let file = options.open(path);
            file.and_then(|file| fill(file, &pdf))
                .map_err(|error| format!("cannot write: {error}: {}", path.display()))
        });
        match written {
            Ok(()) => Answer::Done {
                message: format!("The sheet was written to {}", path.display()),
            },
            Err(message) => Answer::Failed { message },
        }
    }

    fn pdf(&self, request: &SheetRequest) -> Result<Vec<u8>, String> {
        let sheet = self.set(request)?;
        sheet.pdf().map_err(|error| error.to_string())
    }

    /// Opens the sheet in the viewer of the system.
    pub(crate) fn view_sheet(&self, request: &SheetRequest) -> Answer {
        match self.kept(request) {
            Ok(path) => match open::that_detached(&path) {
                // Only that a viewer was asked is known: the place of the file is told as well.
                Ok(()) => Answer::Done {
                    message: format!("The viewer was asked for {}", path.display()),
                },
                Err(error) => Answer::Failed {
                    message: format!("No viewer opened: {error}. The file is {}", path.display()),
                },
            },
            Err(message) => Answer::Failed { message },
        }
    }

    /// Prints the sheet by the printing of the system.
    pub(crate) fn print_sheet(&self, request: &SheetRequest) -> Answer {
        match self.kept(request) {
            Ok(path) => {
                let ran = Command::new("lp")
                    .arg("-t")
                    .arg("Millrace sheet")
                    .arg(&path)
                    .output();
                let problem = match ran {
                    Ok(output) if output.status.success() => {
                        let told = String::from_utf8_lossy(&output.stdout).trim().to_owned();
                        return Answer::Done {
                            message: format!("Sent to the printer: {told}"),
                        };
                    }
                    Ok(output) => String::from_utf8_lossy(&output.stderr).trim().to_owned(),
                    Err(error) => format!("lp: {error}"),
                };
                Answer::Failed {
                    message: format!("Not printed: {problem}. The file is {}", path.display()),
                }
            }
            Err(message) => Answer::Failed { message },
        }
    }

    /// What is viewed or printed lies beside the register first; the same sheet has the same bytes.
    fn kept(&self, request: &SheetRequest) -> Result<PathBuf, String> {
        let pdf = self.pdf(request)?;
        let name = match request.which {
            Which::Draft => "draft.pdf".to_owned(),
            Which::Signed(number) => format!("sheet-{number}.pdf"),
        };
        let directory = self.directory.join("sheets");
        let path = directory.join(name);
        let write = || {
            fs::create_dir_all(&directory)?;
            let mut file = tempfile::NamedTempFile::new_in(&directory)?;
            file.write_all(&pdf)?;
            file.as_file().sync_all()?;
            file.persist(&path).map_err(|error| error.error)?;
            Ok::<_, std::io::Error>(())
        };
        write().map_err(|error| format!("cannot write: {error}: {}", path.display()))?;
        Ok(path)
    }
}

/// What may be written over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Replaces {
    /// Nothing: the path was typed.
    Nothing,
    /// What is there: the dialog asked.
    WhatIsThere,
}

fn fill(mut file: File, bytes: &[u8]) -> std::io::Result<()> {
    file.write_all(bytes)?;
    file.sync_all()
}

fn picture(page: PageImage) -> Option<PagePicture> {
    Some(PagePicture {
        width: page.width.try_into().ok()?,
        height: page.height.try_into().ok()?,
        rgba: page.rgba,
    })
}
