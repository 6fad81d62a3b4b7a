//! Every sheet of a day that is worked by, with the page that lists them.

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use millrace_core::signing::SignedPlan;
use millrace_press::{Press, PressError, Subject};
use millrace_register::{CaseEntry, Register, RegisterError};
use millrace_sheet::{Outdated, Progress, WithoutSheet};
use millrace_wording::{Words, command_line as say};

use crate::clock;
use crate::failure::Failure;
use crate::output::{Over, write_file};
use crate::standing::{outdated, subject};
use crate::style::Style;
use crate::system::private_directory;

/// What the register holds for a day.
pub(crate) struct DaySheets {
    day: NaiveDate,
    plans: Vec<SignedPlan>,
    /// Earlier sheets of these cases, which are no longer what to work by.
    outdated: Vec<(SignedPlan, Outdated)>,
    without: Vec<WithoutSheet>,
    words: Words,
}

/// Where the sheets go.
#[derive(Clone, Copy)]
pub(crate) struct Folder<'a> {
    pub(crate) directory: &'a Path,
    pub(crate) over: Over,
    /// What they are made of: none of it is written over.
    pub(crate) read: &'a [&'a Path],
}

pub(crate) struct Written {
    pub(crate) sheets: usize,
    pub(crate) list: PathBuf,
    pub(crate) without: Vec<WithoutSheet>,
}

impl DaySheets {
    /// The signed plans of a day, and the cases of that day without one.
    pub(crate) fn of(register: &Register, day: NaiveDate, words: Words) -> Result<Self, Failure> {
        let entries = register.on(day)?;
        if entries.is_empty() {
            return Err(Failure::NobodyOn { day });
        }
        let mut found = Self {
            day,
            plans: Vec::new(),
            outdated: Vec::new(),
            without: Vec::new(),
            words,
        };
        for entry in entries {
            found.add(register, entry)?;
        }
        Ok(found)
    }

    fn add(&mut self, register: &Register, entry: CaseEntry) -> Result<(), RegisterError> {
        let mut why = say::not_signed_yet(self.words).to_owned();
        for sheet in register.sheets_of(entry.case)? {
            let (sheet, standing) = register.signed_with_standing(sheet.number)?;
            // What was read before may have been overtaken: the sheet itself is asked.
            match outdated(&standing) {
                None => {
                    self.plans.push(sheet.plan);
                    return Ok(());
                }
                Some(reason) => {
                    let number = sheet.plan.number().get();
                    why = say::changed_since_signed(self.words, number);
                    self.outdated.push((sheet.plan, reason));
                }
            }
        }
        self.without.push(WithoutSheet {
            name: entry.name,
            number: entry.number,
            birth_date: entry.birth_date,
            eye: entry.eye,
            why,
        });
        Ok(())
    }

    /// Writes each sheet to a file of its own, and the list last: it names no sheet that is not there. An
    /// earlier sheet of these patients that lies there already is marked as outdated.
    ///
    /// # Errors
    ///
    /// [`Failure::Exists`] before anything is written, if a file has one of the names and none may be
    /// replaced; [`Failure::Press`] if the list cannot be set; [`Failure::Write`] if the directory
    /// cannot be written.
    pub(crate) fn write(
        self,
        to: Folder<'_>,
        (style, press): (&Style, &mut Press),
        progress: impl FnMut(Progress),
    ) -> Result<Written, Failure> {
        let Self {
            day,
            plans,
            outdated,
            mut without,
            words,
        } = self;
        let file = |plan: &SignedPlan| to.directory.join(format!("sheet-{}.pdf", plan.number()));
        let lying_there: Vec<_> = outdated
            .into_iter()
            .filter(|(plan, _)| file(plan).symlink_metadata().is_ok())
            .collect();
        let list = to.directory.join(format!("theatre-list-{day}.pdf"));
        if to.over == Over::Refuse
            && let Some(path) = plans
                .iter()
                .chain(lying_there.iter().map(|(plan, _)| plan))
                .map(file)
                .chain([list.clone()])
                .find(|path| path.symlink_metadata().is_ok())
        {
            return Err(Failure::exists(&path));
        }
        let setting = style.setting();
        let made = press.pdfs(&plans, setting, progress);
        private_directory()
            .create(to.directory)
            .map_err(Failure::writing(to.directory))?;
        // First of all: whatever stops the rest, it is not worked by.
        for (plan, why) in &lying_there {
            let pdf = press.pdf(&subject(plan, Some(*why)), setting);
            let pdf = pdf.map_err(|error| Failure::not_printed(plan.number(), error))?;
            write_file(&file(plan), to.over, to.read, &pdf)?;
        }
        let mut listed = Vec::with_capacity(plans.len());
        for (plan, pdf) in plans.into_iter().zip(made) {
            match pdf {
                Ok(pdf) => {
                    write_file(&file(&plan), to.over, to.read, &pdf)?;
                    listed.push(plan);
                }
                Err(error) => without.push(refused(&plan, &error, words)),
            }
        }
        let page = Subject::List {
            plans: &listed,
            without: &without,
            day,
            at: clock::now(),
        };
        write_file(&list, to.over, to.read, &press.pdf(&page, setting)?)?;
        Ok(Written {
            sheets: listed.len(),
            list,
            without,
        })
    }
}

fn refused(plan: &SignedPlan, error: &PressError, words: Words) -> WithoutSheet {
    let draft = plan.draft();
    WithoutSheet {
        name: draft.patient.name.clone(),
        number: draft.patient.number.clone(),
        birth_date: draft.patient.birth_date,
        eye: draft.operation.eye,
        why: say::sheet_not_set(words, plan.number().get(), error),
    }
}

/// What was written, in words: the count, the list, and a line for everyone without a sheet.
pub(crate) fn text(written: &Written, words: Words) -> String {
    let stated = |text: &Option<String>| {
        let nothing = || say::not_stated(words).to_owned();
        text.clone().unwrap_or_else(nothing)
    };
    let list = written.list.display().to_string();
    let first = say::sheets_written(words, written.sheets, list);
    let without = written
        .without
        .iter()
        .map(|case| say::without_sheet(words, stated(&case.name), stated(&case.number), &case.why));
    let lines: Vec<_> = core::iter::once(first).chain(without).collect();
    format!("{}\n", lines.join("\n"))
}
