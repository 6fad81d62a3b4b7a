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
