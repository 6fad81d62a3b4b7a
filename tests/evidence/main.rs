//! Evidence that spans crates: draws, damage and signing, documents, and the tidiness of the tree.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod dangers;
mod docs;
mod edges;
mod firing;
mod fuzz;
mod fuzz_json;
mod monte_carlo;
mod population;
mod signing;
mod support;
mod tidy;
mod uncalled;
mod whole_cases;
