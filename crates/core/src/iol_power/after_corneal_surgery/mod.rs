//! Methods for a cornea that had refractive surgery, where a keratometer misreads the power and
//! the measured power no longer tells the lens position.

pub mod double_k;
pub mod modified_haigis_radius;
pub mod no_history_k;
