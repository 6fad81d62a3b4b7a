//! The register, with itself, with what goes wrong around it, and with what others did to its file.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod beginning;
mod clock;
mod damage;
mod flips;
mod heads;
#[cfg(unix)]
mod identity;
mod indexes;
mod journals;
#[cfg(unix)]
mod kill;
#[cfg(unix)]
mod kill_signing;
mod listing;
#[cfg(unix)]
mod no_room;
mod order;
mod page;
mod patients;
#[cfg(unix)]
mod reading_only;
mod refusals;
mod released;
mod saving;
mod signing;
mod support;
