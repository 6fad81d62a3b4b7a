//! Words that the desk, the command line and the sheet write alike.

use jiff::civil::Date;

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

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn a_day_names_its_month() {
        assert_eq!(day(date(2026, 12, 3)), "3 Dec 2026");
        assert_eq!(day(date(1951, 1, 31)), "31 Jan 1951");
    }
}
