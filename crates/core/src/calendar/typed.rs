//! A day as somebody types it: in any form that has one reading, and in none that has to be guessed.

use chrono::NaiveDate;

use super::NotADay;

/// What a typed day can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypedDay {
    /// One day, whichever way it is read.
    One(NaiveDate),
    /// `04/05/1949`: the day first, or the month first.
    Either {
        /// Read with the day first.
        day_first: NaiveDate,
        /// Read with the month first.
        month_first: NaiveDate,
    },
}

/// The months, as they are typed: at least three letters of one.
const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// Reads a day: `1949-09-09`, `19490909`, `9 Sep 1949`, `September 9, 1949`, `09.09.1949`, `9/9/1949`.
///
/// # Errors
///
/// [`NotADay::Form`] for anything else, above all a year of two digits, whose century would be a guess;
/// [`NotADay::Calendar`] for a day that no calendar has, read either way.
pub fn read_typed(text: &str) -> Result<TypedDay, NotADay> {
    let text = text.trim();
    if text.len() == 8 && is_number(text) {
        let parts = (text.get(..4), text.get(4..6), text.get(6..));
        let (Some(year), Some(month), Some(day)) = parts else {
            return Err(NotADay::Form);
        };
        return one(number(year)?, number(month)?, number(day)?);
    }
    let separates = |letter: char| letter.is_whitespace() || ".-/,".contains(letter);
    if text.starts_with(separates) {
        return Err(NotADay::Form);
    }
    let parts: Vec<_> = text.split(separates).filter(|it| !it.is_empty()).collect();
    let &[first, second, third] = parts.as_slice() else {
        return Err(NotADay::Form);
    };
    match (month(first), month(second)) {
        // Sep 9 1949.
        (Some(month), None) => one(year(third)?, month, day(second)?),
        // 9 Sep 1949, and 1949 Sep 9.
        (None, Some(month)) if is_year(first) => one(year(first)?, month, day(third)?),
        (None, Some(month)) => one(year(third)?, month, day(first)?),
        (None, None) if is_year(first) => one(year(first)?, short(second)?, short(third)?),
        (None, None) => either(short(first)?, short(second)?, year(third)?),
        (Some(_), Some(_)) => Err(NotADay::Form),
    }
}

fn one(year: u32, month: u32, day: u32) -> Result<TypedDay, NotADay> {
    date(year, month, day)
        .map(TypedDay::One)
        .ok_or(NotADay::Calendar)
}

fn either(first: u32, second: u32, year: u32) -> Result<TypedDay, NotADay> {
    match (date(year, second, first), date(year, first, second)) {
        (Some(day_first), Some(month_first)) if day_first != month_first => Ok(TypedDay::Either {
            day_first,
            month_first,
        }),
        (Some(day), _) | (None, Some(day)) => Ok(TypedDay::One(day)),
        (None, None) => Err(NotADay::Calendar),
    }
}

fn date(year: u32, month: u32, day: u32) -> Option<NaiveDate> {
    NaiveDate::from_ymd_opt(i32::try_from(year).ok()?, month, day)
}

fn month(part: &str) -> Option<u32> {
    let part = part.to_lowercase();
    if part.chars().count() < 3 {
        return None;
    }
    // "sept" is written as often as "sep".
    let numbered = (1..).zip(MONTHS);
    let mut found = numbered.filter(|(_, name)| name.starts_with(&part));
    found.next().map(|(number, _)| number)
}

/// A day of a month named in words: "9", "09", "9th".
fn day(part: &str) -> Result<u32, NotADay> {
    let lower = part.to_lowercase();
    let ends = ["st", "nd", "rd", "th"];
    let ordinal = ends.iter().find_map(|end| lower.strip_suffix(end));
    short(ordinal.unwrap_or(&lower))
}

/// A number of one or two digits.
fn short(part: &str) -> Result<u32, NotADay> {
    if part.len() <= 2 {
        return number(part);
    }
    Err(NotADay::Form)
}

fn is_year(part: &str) -> bool {
    part.len() == 4 && is_number(part)
}

/// A year of four digits.
fn year(part: &str) -> Result<u32, NotADay> {
    if is_year(part) {
        return number(part);
    }
    Err(NotADay::Form)
}

fn is_number(part: &str) -> bool {
    !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit())
}

fn number(part: &str) -> Result<u32, NotADay> {
    if !is_number(part) {
        return Err(NotADay::Form);
    }
    part.parse().map_err(|_| NotADay::Form)
}

#[cfg(test)]
mod tests {
    use chrono::{Datelike as _, NaiveDate};

    use super::*;
    use crate::rules::testing::date as of;

    const SHORT: [&str; 12] = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    const LONG: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];

    /// The forms that have one reading, each written down here.
    fn unambiguous(on: NaiveDate) -> Vec<String> {
        let (y, m, d) = (on.year(), on.month(), on.day());
        let month = usize::try_from(on.month0()).unwrap();
        let (short, long) = (SHORT[month], LONG[month]);
        vec![
            format!("{y:04}-{m:02}-{d:02}"),
            format!("{y:04}/{m}/{d}"),
            format!("{y:04}.{m:02}.{d:02}"),
            format!("{y:04}{m:02}{d:02}"),
            format!("{d} {short} {y:04}"),
            format!("{d:02}-{short}-{y:04}"),
            format!("{d}. {long} {y:04}"),
            format!(" {d} {} {y:04} ", long.to_uppercase()),
            format!("{short} {d}, {y:04}"),
            format!("{long} {d:02} {y:04}"),
            format!("{y:04} {short} {d}"),
        ]
    }

    #[test]
    fn every_day_of_two_centuries_reads_back_in_every_form() {
        let mut ambiguous = 0;
        let days = of(1900, 1, 1).iter_days();
        for on in days.take_while(|day| day.year() <= 2100) {
            for text in unambiguous(on) {
                assert_eq!(read_typed(&text), Ok(TypedDay::One(on)), "{text}");
            }
            let (y, m, d) = (on.year(), on.month(), on.day());
            // As the calendar has it: two readings exactly where the day is a month and another one.
            let other = (d <= 12 && d != m).then(|| of(y, d, m));
            for separator in ['.', '/', '-', ' '] {
                for [first, second] in [[d, m], [m, d]] {
                    for text in [
                        format!("{first}{separator}{second}{separator}{y}"),
                        format!("{first:02}{separator}{second:02}{separator}{y}"),
                    ] {
                        let expected = match other {
                            None => TypedDay::One(on),
                            Some(other) if [first, second] == [d, m] => TypedDay::Either {
                                day_first: on,
                                month_first: other,
                            },
                            Some(other) => TypedDay::Either {
                                day_first: other,
                                month_first: on,
                            },
                        };
                        assert_eq!(read_typed(&text), Ok(expected), "{text}");
                    }
                }
            }
            ambiguous += usize::from(other.is_some());
        }
        // Of each year 12 × 12 days have a month for their day, and 12 of them twice the same number.
        assert_eq!(ambiguous, 201 * (144 - 12));
    }

    #[test]
    fn ordinals_and_longer_short_forms_are_read() {
        for (text, on) in [
            ("9th Sept 1949", of(1949, 9, 9)),
            ("June 1st, 2024", of(2024, 6, 1)),
        ] {
            assert_eq!(read_typed(text), Ok(TypedDay::One(on)), "{text}");
        }
    }

    #[test]
    fn what_is_no_day_and_what_would_be_a_guess_is_refused() {
        for text in [
            "",
            "x",
            "9",
            "9 Sep",
            "9.9.49",
            "9 Sep 49",
            "09-09-49",
            "490909",
            "9091949",
            "1949-9",
            "9 Se 1949",
            "9 Septem-ber 1949",
            "May Jun 1949",
            "9th 9th 1949",
            "1949-1949-09",
            "-9-9-1949",
            "009-09-1949",
            "9-9-01949",
            "1949-09-09T00:00",
            "9/9/1949x",
            "٩.٩.١٩٤٩",
        ] {
            assert_eq!(read_typed(text), Err(NotADay::Form), "{text}");
        }
        for text in [
            "30.02.1949",
            "2023-02-29",
            "31 Jun 2024",
            "0.1.2024",
            "13/13/2024",
            "20240230",
            "32 Jan 2024",
        ] {
            assert_eq!(read_typed(text), Err(NotADay::Calendar), "{text}");
        }
    }
}
