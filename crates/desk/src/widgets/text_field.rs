//! Fields for words and for days.

use chrono::NaiveDate;
use egui::{Align2, Id, Ui};
use millrace_core::calendar::{TypedDay, read_typed};
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

/// A day, typed in any form that has one reading and shown in words; where two are possible, both stand
/// beside the field to choose from.
pub fn date_field(ui: &mut Ui, field: Field<'_>, value: Option<NaiveDate>) -> Fielded<NaiveDate> {
    let words = in_use(ui);
    let line = Line {
        field,
        shown: value.map(|date| words.day(date)).unwrap_or_default(),
        align: Align2::LEFT_CENTER,
        width: 104.0,
        about: &|| say::date_form(words).to_owned(),
        hint: say::date_hint(words),
        ends: Ends::OnLeaving,
    };
    let end = line_edit::show(ui, &line, &|text| read_date(words, text).map(|_| ()));
    if end.problem.is_some()
        && let Some(day) = offer_readings(ui, field.id)
    {
        return Fielded {
            commit: (value != Some(day)).then_some(Commit::Entered(day)),
            problem: None,
        };
    }
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

/// Both readings of a day that has two, in words; the day, once one is chosen.
fn offer_readings(ui: &mut Ui, field: Id) -> Option<NaiveDate> {
    let typed = line_edit::stands(ui, field)?;
    let Ok(TypedDay::Either {
        day_first,
        month_first,
    }) = read_typed(&typed)
    else {
        return None;
    };
    let words = in_use(ui);
    let chosen = [day_first, month_first].map(|day| {
        let is_chosen = line_edit::offer(ui, field, &words.day(day));
        is_chosen.then_some(day)
    });
    chosen.into_iter().flatten().next()
}

/// Reads a day that has one reading.
fn read_date(words: Words, text: &str) -> Result<NaiveDate, String> {
    match read_typed(text) {
        Ok(TypedDay::One(day)) => Ok(day),
        Ok(TypedDay::Either {
            day_first,
            month_first,
        }) => Err(entry::two_days(words, text.trim(), day_first, month_first)),
        Err(error) => Err(entry::day(words, text, error)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_read_and_what_is_wrong_with_one_is_said() {
        let read = |text| read_date(Words::ENGLISH, text);
        assert_eq!(read(" 2024-02-29 "), Ok("2024-02-29".parse().unwrap()));
        assert_eq!(read("9.9.1949"), Ok("1949-09-09".parse().unwrap()));
        for (text, why) in [
            ("2026-02-30", "\"2026-02-30\" is not a valid date"),
            (
                "04/05/1949",
                "\"04/05/1949\" can be 4 May 1949 or 5 Apr 1949; which?",
            ),
            (
                "3.12.26",
                "\"3.12.26\" is not a valid date; write it with a year of four digits, such as 3 Dec 2026 or 2026-12-03",
            ),
        ] {
            assert_eq!(read(text).unwrap_err(), why);
        }
    }
}
