//! What the plan says as text on a terminal.

pub mod banner;
pub mod certainty;
pub mod lens;
pub mod plan;
pub mod proximity;
pub mod second_eye;
pub mod state;
pub mod toric;
