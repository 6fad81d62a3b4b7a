//! Sphere, cylinder and axis, and the same as a power vector.
//!
//! # Equation
//!
//! ```text
//! M = S + C/2     J0 = −(C/2)·cos 2α     J45 = −(C/2)·sin 2α
//! ```
//!
//! Source: Thibos, Wheeler, Horner, Optom Vis Sci 1997;74:367 (printed).

use crate::quantity::{Diopters, math};

/// A spherocylindrical power: sphere, cylinder, axis in degrees (ISO 8429).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpheroCylinder {
    /// Power along the axis.
    pub sphere: Diopters,
    /// Power at right angles to the axis less the power along it.
    pub cylinder: Diopters,
    /// Axis in degrees, more than 0 to 180.
    pub axis_degrees: f64,
}

/// The same power as a spherical equivalent and two crossed cylinders, which add as vectors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerVector {
    pub m: Diopters,
    /// Crossed cylinder with axes at 180° and 90°.
    pub j0: Diopters,
    /// Crossed cylinder with axes at 45° and 135°.
    pub j45: Diopters,
}

impl SpheroCylinder {
    pub fn power_vector(self) -> PowerVector {
        let half = self.cylinder * 0.5;
        let doubled = (2.0 * self.axis_degrees).to_radians();
        PowerVector {
            m: self.sphere + half,
            j0: half * -math::cos(doubled),
            j45: half * -math::sin(doubled),
        }
    }

    /// The same lens written with the cylinder of the other sign.
    #[must_use]
    pub fn transposed(self) -> Self {
        Self {
            sphere: self.sphere + self.cylinder,
            cylinder: -self.cylinder,
            axis_degrees: if self.axis_degrees <= 90.0 {
                self.axis_degrees + 90.0
            } else {
                self.axis_degrees - 90.0
            },
        }
    }

    /// Power in a meridian, by `S + C·sin²(θ − α)`.
    pub fn power_in(self, meridian_degrees: f64) -> Diopters {
        let sine = math::sin((meridian_degrees - self.axis_degrees).to_radians());
        self.sphere + self.cylinder * (sine * sine)
    }
}

impl PowerVector {
    /// Magnitude of the astigmatism, never negative.
    pub fn cylinder_magnitude(self) -> Diopters {
        let (j0, j45) = (self.j0.d(), self.j45.d());
        Diopters::new(2.0 * (j0 * j0 + j45 * j45).sqrt())
    }

    /// As sphere, cylinder and axis with a cylinder that is zero or negative.
    pub fn minus_cylinder(self) -> SpheroCylinder {
        let cylinder = -self.cylinder_magnitude();
        let degrees = math::atan2(self.j45.d(), self.j0.d()).to_degrees() / 2.0;
        SpheroCylinder {
            sphere: self.m - cylinder * 0.5,
            cylinder,
            axis_degrees: if 0.0 < degrees {
                degrees
            } else {
                degrees + 180.0
            },
        }
    }

    /// Sum of two powers in contact.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            m: self.m + other.m,
            j0: self.j0 + other.j0,
            j45: self.j45 + other.j45,
        }
    }
}
