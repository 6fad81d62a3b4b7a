//! Is this measurement believable?

pub mod al_01;
pub mod al_02;
