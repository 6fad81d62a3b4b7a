//! What does the first eye say of the second?

pub mod se_01;
pub mod se_02;
pub mod se_03;
