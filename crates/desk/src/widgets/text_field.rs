//! Fields for words and for days.

use chrono::NaiveDate;
use egui::{Align2, Ui};
use millrace_core::calendar::{Day, NotADay};
use millrace_core::case::plain_text;

use super::line_edit::{self, Field, Line};
use super::number_field::{Commit, Fielded};

/// A line of words; characters that hide or turn around what stands beside them are refused.
pub fn text_field(
    ui: &mut Ui,
    field: Field<'_>,
    value: Option<&str>,
    what: &'static str,
    width: f32,
) -> Fielded<String> {
    let judge = |text: &str| plain_text::check(what, text).map_err(|error| error.to_string());
    let line = Line {
        field,
        shown: value.unwrap_or_default().to_owned(),
        align: Align2::LEFT_CENTER,
        width,
        about: String::new(),
        hint: hint(what),
    };
    let end = line_edit::show(ui, &line, &judge);
    Fielded {
        commit: end.finished.map(|text| {
            if text.is_empty() {
                Commit::Cleared
            } else {
                Commit::Entered(text)
            }
        }),
        problem: end.problem,
    }
}

/// What an empty field says of itself.
fn hint(what: &str) -> &'static str {
    match what {
        "Name" => "Family name, given names",
        "name of the person" => "name",
        _ => "",
    }
}

/// A day, written year-month-day: no two countries read another order the same way.
pub fn date_field(ui: &mut Ui, field: Field<'_>, value: Option<NaiveDate>) -> Fielded<NaiveDate> {
    let line = Line {
        field,
        shown: value.map(|date| date.to_string()).unwrap_or_default(),
        align: Align2::LEFT_CENTER,
        width: 104.0,
        about: "year-month-day".to_owned(),
        hint: "yyyy-mm-dd",
    };
    let end = line_edit::show(ui, &line, &|text| read_date(text).map(|_| ()));
    let commit = end.finished.and_then(|text| {
        if text.is_empty() {
            return value.map(|_| Commit::Cleared);
        }
        let date = read_date(&text).ok()?;
        (value != Some(date)).then_some(Commit::Entered(date))
    });
    Fielded {
        commit,
        problem: end.problem,
    }
}

/// Reads "2026-12-03".
///
/// # Errors
///
/// What is wrong, in words.
pub fn read_date(text: &str) -> Result<NaiveDate, String> {
    let day = text.trim().parse::<Day>();
    day.map(|day| day.0).map_err(|error| match error {
        NotADay::Form => format!("\"{text}\" is {error}"),
        NotADay::Calendar => format!("the calendar has no {}", text.trim()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_days_of_the_calendar_are_days() {
        assert_eq!(read_date("2026-12-03"), Ok("2026-12-03".parse().unwrap()));
        assert_eq!(read_date(" 2024-02-29 "), Ok("2024-02-29".parse().unwrap()));
        assert_eq!(
            read_date("2026-02-30").unwrap_err(),
            "the calendar has no 2026-02-30"
        );
        for text in [
            "3.12.2026",
            "26-12-03",
            "2026-1-3",
            "2026/12/03",
            "2026-12",
            "x",
        ] {
            assert_eq!(
                read_date(text).unwrap_err(),
                format!("\"{text}\" is not a day as year-month-day, such as 2026-12-03")
            );
        }
    }
}
