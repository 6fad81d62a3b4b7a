//! The one place that reads the clock.

#![expect(
    clippy::disallowed_methods,
    reason = "everything below the command line and the window gets the time as an argument"
)]

use chrono::{DateTime, Local, NaiveDate, SubsecRound as _, Utc};

/// Now, in whole milliseconds.
pub(crate) fn now() -> DateTime<Utc> {
    Utc::now().round_subsecs(3)
}

/// Today, which begins where the clinic is.
pub(crate) fn today() -> NaiveDate {
    Local::now().date_naive()
}
