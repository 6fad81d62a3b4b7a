//! Days as a reader takes them in.

use jiff::civil::Date;

pub(crate) const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// "3 Dec 2026": no two countries read digits alone the same way.
pub(crate) fn date(date: Date) -> String {
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
