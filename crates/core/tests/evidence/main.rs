//! Evidence about core's numbers: published values, a second implementation, properties over the whole
//! physical range, and the pages that count what stands behind each equation.

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
mod limits;
mod mean_eye;
mod oracle;
mod properties;
mod proximity;
mod schematic_eyes;
#[path = "../../../../tests/evidence/support.rs"]
mod support;
mod thick_lens;
mod toric;
