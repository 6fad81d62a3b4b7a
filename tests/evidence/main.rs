//! Evidence that spans crates: published values, a second implementation, properties over the whole
//! physical range, generated documents, and the tidiness of the tree.

mod check_values;
mod docs;
mod fuzz;
mod oracle;
mod pieces;
mod properties;
mod schematic_eyes;
mod support;
mod thick_lens;
mod tidy;
