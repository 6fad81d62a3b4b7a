//! Corneal astigmatism, what an incision does to it, and what a toric lens leaves of it.
//!
//! Terms are added as vectors at twice their angle ([`DoubleAngle`](crate::optics::DoubleAngle)); the
//! toric lens is carried through the eye meridian by meridian, at any angle to the cornea, as a
//! matrix of dioptric power. Every axis is after ISO 8429; the surgeon's view is a separate,
//! labeled turn ([`surgeons_seat`]).
//!
//! Reading order: [`corneal`] → [`orientation`] → [`posterior`] → [`incision`] → [`total`] →
//! [`propagation`] → [`toric_eye`] → [`toric`] → [`rotation`] → [`cloud`] → [`alternative`].

pub mod alternative;
mod caution;
pub mod cloud;
pub mod corneal;
mod disc;
pub mod incision;
pub mod orientation;
pub mod posterior;
pub mod propagation;
mod refusal;
pub mod rotation;
pub mod surgeons_seat;
pub mod toric;
pub mod toric_eye;
pub mod total;

use crate::evidence::{ISO_8429, Source, Standing, THIBOS_1997};

/// How every axis and direction is counted.
pub const AXIS_SOURCE: Source = Standing::Printed.of(
    ISO_8429,
    "facing the patient, from the observer's right, counter-clockwise, both eyes alike",
);

/// How astigmatisms are added.
pub const ADDITION_SOURCE: Source =
    Standing::Printed.of(THIBOS_1997, "front, back and incision added as vectors");

pub use alternative::{Alternative, incision_on_the_steep_meridian};
pub use caution::ToricCaution;
pub use cloud::{Cloud, Covariance, Ellipse, ToricSpreads};
pub use corneal::AnteriorAstigmatism;
pub use incision::{Incision, IncisionBasis, IncisionEffect, IncisionTerm, OwnScatter};
pub use orientation::Orientation;
pub use posterior::{PosteriorBasis, PosteriorChoice, PosteriorTerm};
pub use refusal::{ToricNeeds, ToricRefusal};
pub use rotation::{Rotation, rotations};
pub use surgeons_seat::{Seat, as_seen_from};
pub use toric::{ChosenStep, Residual, StepResult, ToricLens, ToricPrediction};
pub use toric_eye::{ExactCylinder, ToricEye};
pub use total::{CornealTerms, KnownTerms};
