//! Evidence that spans crates: published values, a second implementation, properties over the whole
//! physical range, generated documents, and the tidiness of the tree.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "evidence fails loudly, in helpers as in tests"
)]

mod certainty_oracle;
mod certainty_properties;
mod certainty_slopes;
mod check_values;
mod docs;
mod edges;
mod fuzz;
mod fuzz_json;
mod monte_carlo;
mod oracle;
mod pieces;
mod population;
mod properties;
mod schematic_eyes;
mod signing;
mod support;
mod thick_lens;
mod tidy;
mod toric;
mod uncalled;
