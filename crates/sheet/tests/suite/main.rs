//! Sheets as they are made: what they hold, what they refuse, what is hard to set.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod contents;
mod dangers;
mod draft;
mod findings;
mod first_page;
mod forged;
mod hard;
mod list;
mod lying_ready;
mod outdated;
mod photocopy;
mod pictures;
mod pseudo;
mod support;
mod templates;
