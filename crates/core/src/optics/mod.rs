//! Paraxial optics: nothing here knows what a lens implant or a patient is.

pub mod double_angle;
pub mod paraxial_system;
pub mod spherocylinder;
pub mod vergence;
pub mod vertex;

pub use double_angle::DoubleAngle;
pub use paraxial_system::{CardinalPoints, ParaxialSystem, Surface};
pub use spherocylinder::{PowerVector, SpheroCylinder};
