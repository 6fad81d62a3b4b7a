//! The program, run as a person or a script runs it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod begins;
mod clinic_results;
mod dangers;
mod lens;
mod outputs;
mod plan;
mod press;
mod pseudo;
/// Text of a PDF, by a reader that knows nothing of the layout.
#[path = "../../../sheet/tests/suite/support/reader.rs"]
mod reader;
mod readme;
mod register;
mod register_care;
mod screen;
mod second_eye;
mod second_opinion;
mod seen;
mod sheet;
mod signing;
mod simulate;
mod support;
mod tabulate;
mod tabulate_files;
mod toric;
mod unprintable;
mod version;
