//! `millrace plan --recompute`: what today's program would compute otherwise.

use std::path::Path;
use std::process::ExitCode;

use millrace_core::signing::{Difference, SheetNumber, recompute};
use millrace_register::Sheet;
use millrace_wording::{Words, command_line as say};
use serde::Serialize;

use crate::cli::{Format, PlanArguments};
use crate::failure::Failure;
use crate::page::{self, Page};
use crate::register::{Head, PROGRAM, json};
use crate::terminal::print;
use crate::{Around, STOPPED, seen};

pub(crate) fn run(
    number: u32,
    arguments: &PlanArguments,
    around: &Around,
) -> Result<ExitCode, Failure> {
    let number = SheetNumber::new(number).ok_or(Failure::NoSheet)?;
    let path = around.place.path()?;
    let sheet = seen::open(&path, around.words)?.signed(number)?;
    let differences = recompute(&sheet.plan).map_err(|error| Failure::Recompute {
        number,
        error: Box::new(error),
    })?;
    print(&match arguments.format {
        Format::Text => text(
            &sheet,
            &differences,
            page::width(arguments.width),
            around.words,
        ),
        Format::Json => json(&Document::of(&path, &sheet, &differences))?,
    })?;
    Ok(if differences.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(STOPPED)
    })
}

fn text(sheet: &Sheet, differences: &[Difference], width: usize, words: Words) -> String {
    let mut page = Page::new(width, words);
    page.hanging(
        "",
        0,
        &say::computed_again(
            words,
            sheet.entry.number.get(),
            &sheet.entry.signed_by,
            sheet.entry.signed_at,
            sheet.plan.program(),
            PROGRAM,
        ),
    );
    show(&mut page, differences, words);
    page.finish()
}

fn show(page: &mut Page, differences: &[Difference], words: Words) {
    if differences.is_empty() {
        page.line(say::no_result_differs(words));
        return;
    }
    page.line(&say::results_differ(words, differences.len()));
    page.blank();
    let absent = || "\u{2013}".to_owned();
    let rows = differences.iter().map(|difference| {
        vec![
            difference.place.clone(),
            difference.signed.clone().unwrap_or_else(absent),
            difference.now.clone().unwrap_or_else(absent),
        ]
    });
    let header = [say::column_result, say::column_as_signed, say::column_now]
        .map(|column| column(words).to_owned());
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
        let mut page = Page::new(100, Words::ENGLISH);
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
            Words::ENGLISH,
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
