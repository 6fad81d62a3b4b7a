//! Words that the desk, the command line and the sheet write alike.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;

/// Months as they are shortened in a day.
pub const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// The standing caution, in our words.
pub const CAUTION: &str = "For use by licensed clinicians. Not a certified medical device. Check every \
    number against an independent calculation. Local protocols and the surgeon's judgment prevail.";

/// "3 Dec 2026": no two countries read digits alone the same way.
#[must_use]
pub fn day(date: Date) -> String {
    let month = usize::try_from(date.month() - 1)
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
#[must_use]
pub fn moment(at: Timestamp) -> String {
    let at = Offset::UTC.to_datetime(at);
    format!(
        "{}, {:02}:{:02} UTC",
        day(at.date()),
        at.hour(),
        at.minute()
    )
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_day_names_its_month() {
        assert_eq!(day(date(2026, 12, 3)), "3 Dec 2026");
        assert_eq!(day(date(1951, 1, 31)), "31 Jan 1951");
    }

    #[test]
    fn a_moment_has_minutes_and_its_zone() {
        let at: Timestamp = "2026-12-03T18:05:59.9+02:00".parse().unwrap();
        assert_eq!(moment(at), "3 Dec 2026, 16:05 UTC");
    }
}
