//! `millrace sheet`: the plan sheet as a file, the sheets of a day, and the setting of a sheet for the desk.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use millrace_core::calendar::Day;
use millrace_core::case::Draft;
use millrace_core::document::PlanDocument;
use millrace_core::plan::Plan;
use millrace_core::signing::{SheetNumber, ToSign, sign};
use millrace_press::{Press, PressError, Subject};
use millrace_register::Signing;
use millrace_sheet::{Paper, Template};
use millrace_wording::{Words, command_line as say};

use crate::cli::{PaperArgument, SheetArguments};
use crate::day_sheets::{self, DaySheets, Folder};
use crate::failure::{Failure, read_limits};
use crate::output::{Over, write_file};
use crate::register::{PROGRAM, progress_bar};
use crate::standing::{outdated, subject};
use crate::style::Style;
use crate::terminal::{print_done, tell};
use crate::{Around, STOPPED, clock, named_case, seen, verify};

pub(crate) fn run(arguments: &SheetArguments, around: &Around) -> Result<ExitCode, Failure> {
    let over = Over::from(arguments.force);
    if arguments.arrangement_to_adapt {
        let text = Template::shipped_arrangement();
        write_file(&arguments.output, over, &[], text.as_bytes())?;
        return Ok(ExitCode::SUCCESS);
    }
    let (style, mut press) = (style(arguments, around)?, Press::default());
    if let Some(Day(day)) = arguments.day {
        let register = seen::open(&around.place.path()?, around.words)?;
        let sheets = DaySheets::of(&register, day, style.words)?;
        return of_day(sheets, arguments, (&style, &mut press));
    }
    let mut overtaken = None;
    let pdf = if let Some(path) = &arguments.draft {
        let draft = named_case::read(path, around)?;
        let limits = read_limits(arguments.limits.as_deref())?;
        let plan = Plan::of(&draft, &limits).map_err(|error| Failure::Plan {
            path: path.clone(),
            error,
        })?;
        let document = PlanDocument::of(&plan, PROGRAM);
        let at = clock::now();
        let document = &document;
        press.pdf(&Subject::Draft { document, at }, style.setting())?
    } else {
        let number = arguments.number.and_then(SheetNumber::new);
        let register = seen::open(&around.place.path()?, around.words)?;
        let (signed, standing) = register.signed_with_standing(number.ok_or(Failure::NoSheet)?)?;
        let outdated = outdated(&standing);
        let pdf = press.pdf(&subject(&signed.plan, outdated), style.setting());
        let pdf = pdf.map_err(|error| Failure::not_printed(signed.plan.number(), error))?;
        overtaken = outdated.map(|_| verify::told(&standing, around.words));
        pdf
    };
    write_file(&arguments.output, over, &read(arguments), &pdf)?;
    let Some(told) = overtaken else {
        return Ok(ExitCode::SUCCESS);
    };
    tell(told.trim_end());
    Ok(ExitCode::from(STOPPED))
}

/// The clinic's arrangement stands beside its register; a draft of a file has no register, and is set by the
/// shipped one unless another is named.
fn style(arguments: &SheetArguments, around: &Around) -> Result<Style, Failure> {
    let words = around.words;
    let paper = match arguments.paper {
        PaperArgument::A4 => Paper::A4,
        PaperArgument::Letter => Paper::Letter,
    };
    if let Some(file) = &arguments.arrangement {
        return Style::of_file(file, paper, words);
    }
    let draft = arguments.draft.as_deref();
    if draft.is_some_and(|draft| !named_case::is_of_register(draft)) {
        return Ok(Style::shipped(paper, words));
    }
    let register = around.place.path()?;
    let directory = register.parent().unwrap_or_else(|| Path::new("."));
    Style::beside(directory, paper, words)
}

/// What a sheet is made of: none of it may be written over.
fn read(arguments: &SheetArguments) -> Vec<&Path> {
    [&arguments.draft, &arguments.limits, &arguments.arrangement]
        .into_iter()
        .flatten()
        .map(PathBuf::as_path)
        .collect()
}

fn of_day(
    sheets: DaySheets,
    arguments: &SheetArguments,
    (style, press): (&Style, &mut Press),
) -> Result<ExitCode, Failure> {
    let words = style.words;
    let to = Folder {
        directory: &arguments.output,
        over: Over::from(arguments.force),
        read: &read(arguments),
    };
    let bar = progress_bar(say::progress_sheets(words));
    let written = sheets.write(to, (style, press), |progress| {
        bar.set_length(progress.of as u64);
        bar.set_position(progress.done as u64);
    });
    bar.finish_and_clear();
    let written = written?;
    print_done(&day_sheets::text(&written, words))?;
    Ok(if written.without.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(1)
    })
}

/// Refuses what could be signed and never printed: the letters of a sheet are looked for before anything is
/// kept. What else keeps a plan from being signed is told by the register, which signs.
///
/// # Errors
///
/// [`PressError`] as the sheet would have it, or because it could not be tried.
pub(crate) fn check_printable(
    draft: &Draft,
    signing: &Signing<'_>,
    (words, press): (Words, &mut Press),
) -> Result<(), PressError> {
    let to_sign = ToSign {
        number: SheetNumber::FIRST,
        supersedes: None,
        draft,
        limits: signing.limits,
        program: signing.program,
    };
    let Ok(plan) = sign(to_sign, signing.signature.clone()) else {
        return Ok(());
    };
    press.check(&plan, Style::shipped(Paper::A4, words).setting())
}
