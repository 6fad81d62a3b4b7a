//! Drawings from the plan's own numbers, each with the same in words for who cannot see it.

pub mod axis_dial;
pub mod chamber_section;
pub mod eye_section;
pub mod interval_chart;
pub mod margin_chart;
mod paint;
pub mod refraction_axis;
pub mod share_chart;
mod still_plot;
