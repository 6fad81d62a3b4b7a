//! Days and moments as files, chains and fingerprints hold them.
//!
//! The text is hashed, so it is written and read here alone, and one moment has one text: no form of
//! a library's own is stored.

mod typed;

use core::str::FromStr;

use chrono::{DateTime, Datelike as _, NaiveDate, NaiveDateTime, Timelike as _, Utc};
use serde::de::Error as _;
use serde::ser::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_with::{DeserializeAs, SerializeAs};

pub use typed::{TypedDay, read_typed};

/// The last year that four digits write.
pub const LAST_YEAR: i32 = 9999;

/// A day as it is stored: `2026-12-03`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Day(pub NaiveDate);

/// A moment as it is stored: `2026-12-03T16:40:00.25Z`, always in UTC; the fraction has no more digits
/// than it needs, and a whole second has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment(pub DateTime<Utc>);

/// Why a day has no text, or a text no day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotADay {
    /// Written otherwise, or beyond four digits of a year.
    #[error("not a valid date; write year-month-day, such as 2026-12-03")]
    Form,
    /// The 30th of February.
    #[error("not a valid date")]
    Calendar,
}

/// Why a moment has no text, or a text no moment: a year outside 0001 to 9999, a leap second, an
/// offset, another form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a moment of the years 1 to 9999 in UTC, such as 2026-12-03T16:40:00Z")]
pub struct NotAMoment;

impl Day {
    pub fn text(self) -> Result<String, NotADay> {
        let (year, month, day) = (self.0.year(), self.0.month(), self.0.day());
        if 0 <= year && year <= LAST_YEAR {
            return Ok(format!("{year:04}-{month:02}-{day:02}"));
        }
        Err(NotADay::Form)
    }
}

impl FromStr for Day {
    type Err = NotADay;

    fn from_str(text: &str) -> Result<Self, NotADay> {
        let parts: Vec<_> = text.split('-').collect();
        let number = |part: &str, digits: usize| -> Option<u32> {
            let right = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            right.then(|| part.parse().ok()).flatten()
        };
        let &[year, month, day] = parts.as_slice() else {
            return Err(NotADay::Form);
        };
        let (Some(year), Some(month), Some(day)) =
            (number(year, 4), number(month, 2), number(day, 2))
        else {
            return Err(NotADay::Form);
        };
        let year = i32::try_from(year).map_err(|_| NotADay::Form)?;
        let date = NaiveDate::from_ymd_opt(year, month, day);
        date.map(Self).ok_or(NotADay::Calendar)
    }
}

impl Moment {
    /// The text that is stored.
    ///
    /// # Errors
    ///
    /// [`NotAMoment`] for a year outside 0001 to 9999, and within a leap second.
    pub fn text(self) -> Result<String, NotAMoment> {
        let (at, nanosecond) = (self.0, self.0.nanosecond());
        // A leap second is kept as a second with more nanoseconds than it has.
        if at.year() < 1 || 1_000_000_000 <= nanosecond {
            return Err(NotAMoment);
        }
        let day = Day(at.date_naive()).text().map_err(|_| NotAMoment)?;
        let (hour, minute, second) = (at.hour(), at.minute(), at.second());
        let fraction = match nanosecond {
            0 => String::new(),
            some => format!(".{some:09}"),
        };
        let fraction = fraction.trim_end_matches('0');
        Ok(format!(
            "{day}T{hour:02}:{minute:02}:{second:02}{fraction}Z"
        ))
    }
}

impl FromStr for Moment {
    type Err = NotAMoment;

    fn from_str(text: &str) -> Result<Self, NotAMoment> {
        let at = NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M:%S%.fZ");
        let moment = Self(at.map_err(|_| NotAMoment)?.and_utc());
        // Only what would be written so is read.
        if moment.text()? == text {
            return Ok(moment);
        }
        Err(NotAMoment)
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text().map_err(S::Error::custom)?)
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text().map_err(S::Error::custom)?)
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        parsed(deserializer)
    }
}

impl SerializeAs<NaiveDate> for Day {
    fn serialize_as<S: Serializer>(day: &NaiveDate, serializer: S) -> Result<S::Ok, S::Error> {
        Self(*day).serialize(serializer)
    }
}

impl<'de> DeserializeAs<'de, NaiveDate> for Day {
    fn deserialize_as<D: Deserializer<'de>>(deserializer: D) -> Result<NaiveDate, D::Error> {
        Self::deserialize(deserializer).map(|day| day.0)
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        parsed(deserializer)
    }
}

/// A moment in a document.
pub(crate) mod moment {
    use super::{
        DateTime, Deserialize as _, Deserializer, Moment, Serialize as _, Serializer, Utc,
    };

    pub(crate) fn serialize<S: Serializer>(
        at: &DateTime<Utc>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        Moment(*at).serialize(serializer)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<DateTime<Utc>, D::Error> {
        Ok(Moment::deserialize(deserializer)?.0)
    }
}

fn parsed<'de, D, T>(deserializer: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: FromStr<Err: core::fmt::Display>,
{
    let text = String::deserialize(deserializer)?;
    text.parse()
        .map_err(|error| D::Error::custom(format_args!("{text:?} is {error}")))
}

#[cfg(test)]
mod tests {
    use chrono::TimeDelta;

    use super::*;
    use crate::rules::testing::date;

    fn midday(year: i32) -> DateTime<Utc> {
        date(year, 7, 1).and_hms_opt(12, 0, 0).unwrap().and_utc()
    }

    #[test]
    fn a_moment_is_written_with_the_digits_it_needs() {
        for (nanoseconds, text) in [
            (0, "2026-07-01T12:00:00Z"),
            (500_000_000, "2026-07-01T12:00:00.5Z"),
            (250_000_000, "2026-07-01T12:00:00.25Z"),
            (7_000_000, "2026-07-01T12:00:00.007Z"),
            (120_000, "2026-07-01T12:00:00.00012Z"),
            (123_456_789, "2026-07-01T12:00:00.123456789Z"),
            (1, "2026-07-01T12:00:00.000000001Z"),
        ] {
            let at = Moment(midday(2026) + TimeDelta::nanoseconds(nanoseconds));
            assert_eq!(at.text().as_deref(), Ok(text));
            assert_eq!(text.parse(), Ok(at));
            assert_eq!(serde_json::to_string(&at).unwrap(), format!("\"{text}\""));
        }
        let last = "9999-12-31T23:59:59.999999999Z";
        for text in [last, "0001-01-01T00:00:00Z", "1969-12-31T23:59:59.75Z"] {
            assert_eq!(text.parse::<Moment>().unwrap().text().as_deref(), Ok(text));
        }
    }

    #[test]
    fn every_other_text_of_a_moment_is_refused() {
        for text in [
            "",
            "2026-07-01",
            "2026-07-01T12:00Z",
            "2026-07-01T12:00:00",
            "2026-07-01T12:00:00z",
            "2026-07-01t12:00:00Z",
            "2026-07-01 12:00:00Z",
            " 2026-07-01T12:00:00Z",
            "2026-07-01T12:00:00Z ",
            "2026-07-01T12:00:00.Z",
            "2026-07-01T12:00:00.0Z",
            "2026-07-01T12:00:00.50Z",
            "2026-07-01T12:00:00.1234567891Z",
            "2026-07-01T12:00:00,5Z",
            "2026-07-01T12:00:00+00:00",
            "2026-07-01T14:00:00+02:00",
            "2026-07-01T12:00:00Z[UTC]",
            "2026-7-01T12:00:00Z",
            "2026-02-30T12:00:00Z",
            "2026-07-01T24:00:00Z",
            "2026-07-01T12:60:00Z",
            "2026-07-01T12:00:61Z",
            "2016-12-31T23:59:60Z",
            "2016-12-31T23:59:60.5Z",
            "0000-07-01T12:00:00Z",
            "-0001-07-01T12:00:00Z",
            "+2026-07-01T12:00:00Z",
            "+10000-07-01T12:00:00Z",
            "10000-07-01T12:00:00Z",
        ] {
            assert_eq!(text.parse::<Moment>(), Err(NotAMoment), "{text}");
            let quoted = format!("\"{text}\"");
            assert!(serde_json::from_str::<Moment>(&quoted).is_err(), "{text}");
        }
    }

    #[test]
    fn a_moment_that_would_not_be_read_is_not_written() {
        let leap = date(2016, 12, 31).and_hms_nano_opt(23, 59, 59, 1_000_000_000);
        for at in [
            midday(-1),
            midday(0),
            midday(10_000),
            leap.unwrap().and_utc(),
        ] {
            assert_eq!(Moment(at).text(), Err(NotAMoment), "{at}");
            assert!(serde_json::to_string(&Moment(at)).is_err(), "{at}");
        }
    }

    #[test]
    fn a_day_has_four_digits_of_a_year() {
        for (day, text) in [
            (date(2026, 12, 3), "2026-12-03"),
            (date(2024, 2, 29), "2024-02-29"),
            (date(0, 2, 29), "0000-02-29"),
            (date(987, 1, 1), "0987-01-01"),
            (date(9999, 12, 31), "9999-12-31"),
        ] {
            assert_eq!(Day(day).text().as_deref(), Ok(text));
            assert_eq!(text.parse(), Ok(Day(day)));
            // Where a day is only shown, the library writes it.
            assert_eq!(day.to_string(), text);
        }
        for day in [date(-1, 1, 1), date(10_000, 1, 1)] {
            assert_eq!(Day(day).text(), Err(NotADay::Form));
            assert!(serde_json::to_string(&Day(day)).is_err());
        }
    }

    #[test]
    fn every_other_text_of_a_day_is_refused() {
        for text in [
            "",
            "20261203",
            "2026-1-3",
            "26-12-03",
            "+2026-12-03",
            "-026-12-03",
            "10000-01-01",
            " 2026-12-03",
            "2026-12-03T00:00:00",
            "2026-12-03-",
            "2026-W49-4",
            "٢٠٢٦-12-03",
        ] {
            assert_eq!(text.parse::<Day>(), Err(NotADay::Form), "{text}");
            let quoted = format!("\"{text}\"");
            assert!(serde_json::from_str::<Day>(&quoted).is_err(), "{text}");
        }
        for text in [
            "2026-02-29",
            "1900-02-29",
            "2026-00-01",
            "2026-13-01",
            "2026-04-31",
        ] {
            assert_eq!(text.parse::<Day>(), Err(NotADay::Calendar), "{text}");
        }
        let said = serde_json::from_str::<Day>("\"2026-02-29\"").unwrap_err();
        let words = "\"2026-02-29\" is not a valid date";
        assert!(said.to_string().starts_with(words), "{said}");
    }
}
