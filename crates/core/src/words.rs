//! Words that the desk, the command line and the sheet write alike.

use chrono::{DateTime, Datelike as _, NaiveDate, Timelike as _, Utc};

/// Months as they are shortened in a day.
pub const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// The standing caution, in our words.
pub const CAUTION: &str = "For use by licensed clinicians. Not a certified medical device. Check every \
    number against an independent calculation. Local protocols and the surgeon's judgment prevail.";

/// "3 Dec 2026": no two countries read digits alone the same way.
pub fn day(date: NaiveDate) -> String {
    let month = usize::try_from(date.month0())
        .ok()
        .and_then(|index| MONTHS.get(index));
    format!(
        "{} {} {}",
        date.day(),
        month.copied().unwrap_or_default(),
        date.year()
    )
}

/// "3 Dec 2026, 16:40 UTC": a moment to the minute, with its zone.
pub fn moment(at: DateTime<Utc>) -> String {
    format!(
        "{}, {:02}:{:02} UTC",
        day(at.date_naive()),
        at.hour(),
        at.minute()
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::testing::date;

    #[test]
    fn a_day_names_its_month() {
        assert_eq!(day(date(2026, 12, 3)), "3 Dec 2026");
        assert_eq!(day(date(1951, 1, 31)), "31 Jan 1951");
    }

    #[test]
    fn a_moment_has_minutes_and_its_zone() {
        let at: DateTime<Utc> = "2026-12-03T18:05:59.9+02:00".parse().unwrap();
        assert_eq!(moment(at), "3 Dec 2026, 16:05 UTC");
    }
}
