//! `millrace plan --recompute`: what today's program would compute otherwise.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::signing::{Difference, SheetNumber, recompute};
use millrace_core::words::moment;
use millrace_register::{Register, Sheet};
use serde::Serialize;

use crate::STOPPED;
use crate::cli::{Format, PlanArguments};
use crate::failure::Failure;
use crate::page::{self, Page};
use crate::register::{Head, PROGRAM, Place, json, print};

pub(crate) fn run(
    number: u32,
    arguments: &PlanArguments,
    register: &Place,
) -> Result<ExitCode, Failure> {
    let number = SheetNumber::new(number).ok_or(Failure::NoSheet)?;
    let path = register.path()?;
    let sheet = Register::open_existing(&path)?.signed(number)?;
    let differences = recompute(&sheet.plan).map_err(|error| Failure::Recompute {
        number,
        error: Box::new(error),
    })?;
    print(&match arguments.format {
        Format::Text => text(&sheet, &differences, page::width(arguments.width)),
        Format::Json => json(&Document::of(&path, &sheet, &differences))?,
    })?;
    Ok(if differences.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(STOPPED)
    })
}

fn text(sheet: &Sheet, differences: &[Difference], width: usize) -> String {
    let mut page = Page::new(width);
    page.hanging(
        "",
        0,
        &format!(
            "Sheet {}, signed by {} on {} with {}, computed again by its own limits with {PROGRAM}.",
            sheet.entry.number,
            sheet.entry.signed_by,
            moment(sheet.entry.signed_at),
            sheet.plan.program(),
        ),
    );
    show(&mut page, differences);
    page.finish()
}

fn show(page: &mut Page, differences: &[Difference]) {
    if differences.is_empty() {
        page.line("No result differs.");
        return;
    }
    page.line(&match differences.len() {
        1 => "One result differs; the sheet stays as it was signed.".to_owned(),
        count => format!("{count} results differ; the sheet stays as it was signed."),
    });
    page.blank();
    let absent = || "\u{2013}".to_owned();
    let rows = differences.iter().map(|difference| {
        vec![
            difference.place.clone(),
            difference.signed.clone().unwrap_or_else(absent),
            difference.now.clone().unwrap_or_else(absent),
        ]
    });
    let header = ["Result", "As signed", "Now"].map(str::to_owned);
    page.table_of_words(&header, rows.collect(), &[1, 2]);
}

#[derive(Serialize)]
struct Document {
    #[serde(flatten)]
    head: Head,
    sheet: u32,
    signed_with: String,
    same: bool,
    differences: Vec<DifferencePart>,
}

#[derive(Serialize)]
struct DifferencePart {
    result: String,
    signed: Option<String>,
    now: Option<String>,
}

impl Document {
    fn of(path: &Path, sheet: &Sheet, differences: &[Difference]) -> Self {
        Self {
            head: Head::new("millrace plan --recompute", path),
            sheet: sheet.entry.number.get(),
            signed_with: sheet.plan.program().to_owned(),
            same: differences.is_empty(),
            differences: differences
                .iter()
                .map(|difference| DifferencePart {
                    result: difference.place.clone(),
                    signed: difference.signed.clone(),
                    now: difference.now.clone(),
                })
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_differs_is_shown_with_both_values_and_their_place() {
        let mut page = Page::new(100);
        let difference = |place: &str, signed: Option<&str>, now: Option<&str>| Difference {
            place: place.to_owned(),
            signed: signed.map(str::to_owned),
            now: now.map(str::to_owned),
        };
        show(
            &mut page,
            &[
                difference("predicted_d", Some("-0.31"), Some("-0.29")),
                difference("rules.ZZ-01.verdict", None, Some("satisfied")),
            ],
        );
        let text = page.finish();
        let lines: Vec<_> = text.lines().collect();
        assert_eq!(
            lines[0],
            "2 results differ; the sheet stays as it was signed."
        );
        assert_eq!(lines.len(), 5, "{text}");
        for (line, words) in [
            (2, ["Result", "As signed", "Now"]),
            (3, ["predicted_d", "-0.31", "-0.29"]),
            (4, ["rules.ZZ-01.verdict", "\u{2013}", "satisfied"]),
        ] {
            for word in words {
                assert!(lines[line].contains(word), "{text}");
            }
        }
    }
}
