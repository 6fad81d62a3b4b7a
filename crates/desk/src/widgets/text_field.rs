//! Fields for words and for days.

use chrono::NaiveDate;
use egui::{Align2, Ui};
use millrace_core::calendar::Day;
use millrace_core::case::plain_text;
use millrace_wording::desk::widgets as say;
use millrace_wording::{Show as _, Words, entry};

use super::field::Field;
use super::line_edit::{self, Ends, Line};
use super::number_field::{Commit, Fielded};
use super::reading_order::reads_from_right;
use super::small;
use crate::words::in_use;

/// A line of words; characters that hide or turn around what stands beside them are refused. Where words
/// are read from right to left, it says that they are edited as they are typed.
pub fn text_field(
    ui: &mut Ui,
    field: Field<'_>,
    value: Option<&str>,
    what: &'static str,
    width: f32,
) -> Fielded<String> {
    let words = in_use(ui);
    let judge =
        |text: &str| plain_text::check(what, text).map_err(|error| error.show(words).into_owned());
    let line = Line {
        field,
        shown: value.unwrap_or_default().to_owned(),
        align: Align2::LEFT_CENTER,
        width,
        about: &String::new,
        hint: hint(words, what),
        ends: Ends::OnLeaving,
    };
    let typed = line_edit::typed_into(ui, field.id);
    let end = if typed.is_some_and(|text| reads_from_right(&text)) {
        ui.vertical(|ui| {
            let end = line_edit::show(ui, &line, &judge);
            small(ui, say::typed_order(words));
            end
        })
        .inner
    } else {
        line_edit::show(ui, &line, &judge)
    };
    Fielded::of_text(end)
}

/// What an empty field says of itself.
fn hint(words: Words, what: &str) -> &'static str {
    match what {
        "Name" => say::name_hint(words),
        "name of the person" => say::person_hint(words),
        _ => "",
    }
}

/// A day, written year-month-day: no two countries read another order the same way.
pub fn date_field(ui: &mut Ui, field: Field<'_>, value: Option<NaiveDate>) -> Fielded<NaiveDate> {
    let words = in_use(ui);
    let line = Line {
        field,
        shown: value.map(|date| date.to_string()).unwrap_or_default(),
        align: Align2::LEFT_CENTER,
        width: 104.0,
        about: &|| say::date_form(words).to_owned(),
        hint: say::date_hint(words),
        ends: Ends::OnLeaving,
    };
    let end = line_edit::show(ui, &line, &|text| read_date(words, text).map(|_| ()));
    let commit = end.finished.and_then(|text| {
        if text.is_empty() {
            return value.map(|_| Commit::Cleared);
        }
        let date = read_date(words, &text).ok()?;
        (value != Some(date)).then_some(Commit::Entered(date))
    });
    Fielded {
        commit,
        problem: end.problem,
    }
}

/// Reads "2026-12-03".
pub fn read_date(words: Words, text: &str) -> Result<NaiveDate, String> {
    let day = text.trim().parse::<Day>();
    day.map(|day| day.0)
        .map_err(|error| entry::day(words, text, error))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_days_of_the_calendar_are_days() {
        assert_eq!(
            read_date(Words::ENGLISH, "2026-12-03"),
            Ok("2026-12-03".parse().unwrap())
        );
        assert_eq!(
            read_date(Words::ENGLISH, " 2024-02-29 "),
            Ok("2024-02-29".parse().unwrap())
        );
        assert_eq!(
            read_date(Words::ENGLISH, "2026-02-30").unwrap_err(),
            "\"2026-02-30\" is not a valid date"
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
                read_date(Words::ENGLISH, text).unwrap_err(),
                format!("\"{text}\" is not a valid date; write year-month-day, such as 2026-12-03")
            );
        }
    }
}
