//! The one place that reads the clock.

use jiff::{Timestamp, Unit};

/// Now, in whole milliseconds.
#[expect(
    clippy::disallowed_methods,
    reason = "everything below the command line gets the time as an argument"
)]
pub(crate) fn now() -> Timestamp {
    let now = Timestamp::now();
    now.round(Unit::Millisecond).unwrap_or(now)
}

/// A moment for people, with its zone.
pub(crate) fn minute(at: Timestamp) -> String {
    at.strftime("%-d %b %Y, %H:%M UTC").to_string()
}
