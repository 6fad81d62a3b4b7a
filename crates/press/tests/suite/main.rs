//! The press, run as a process: what it gives, what ends it, and that the next sheet is printed.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod hostile;
mod of_a_day;
mod same;
mod starting;
mod support;
