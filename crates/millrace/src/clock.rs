//! The one place that reads the clock.

#![expect(
    clippy::disallowed_methods,
    reason = "everything below the command line and the window gets the time as an argument"
)]

use chrono::{DateTime, Local, NaiveDate, NaiveDateTime, SubsecRound as _, Utc};

/// Now, in whole milliseconds.
pub(crate) fn now() -> DateTime<Utc> {
    Utc::now().round_subsecs(3)
}

/// The same moment as a clock on the wall of the clinic shows it.
pub(crate) fn on_the_wall(at: DateTime<Utc>) -> NaiveDateTime {
    at.with_timezone(&Local).naive_local()
}

/// Today, which begins where the clinic is.
pub(crate) fn today() -> NaiveDate {
    Local::now().date_naive()
}
