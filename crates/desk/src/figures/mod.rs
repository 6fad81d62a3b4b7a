//! Drawings from the plan's own numbers, each with the same in words for who cannot see it.

pub mod axis_dial;
pub mod chamber_section;
mod paint;
pub mod strip;
