//! Any number of centered refracting surfaces, as one matrix.
//!
//! # Equation
//!
//! ```text
//! ray (y, n·u)   refraction: n'u' = nu − y·(n' − n)/R     transfer: y' = y + (t/n')·n'u'
//! [ y'  ]   [ A  B ] [ y  ]
//! [ n'u']   [ C  D ] [ n·u]      power F = −C,  A·D − B·C = 1
//! ```
//!
//! Cardinal points follow from A, B, C, D; distances in mm, measured from the first vertex,
//! positive behind it. Source: plain optics (derived).

use crate::quantity::{Diopters, Millimeters};

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    pub vertex: Millimeters,
    /// Radius of curvature, positive when the center lies behind the surface; infinite for a flat
    /// one.
    pub radius: Millimeters,
    pub index_behind: f64,
}

impl Surface {
    /// Power of the surface with `index_before` in front.
    pub fn power(&self, index_before: f64) -> Diopters {
        Diopters::new(1000.0 * (self.index_behind - index_before) / self.radius.mm())
    }
}

/// Why surfaces make no system.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SystemError {
    #[error("an optical system needs at least one surface")]
    NoSurface,
    /// Surfaces out of order, a radius of zero, or a number that is none.
    #[error("surface {number} of the optical system is out of order or has no radius")]
    BadSurface {
        /// Its number, from 1.
        number: usize,
    },
    /// The system has no power, so its cardinal points lie at infinity.
    #[error("the optical system has no power")]
    Afocal,
}

/// The matrix of a row of surfaces, from the first vertex to the last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParaxialSystem {
    a: f64,
    b_mm: f64,
    c_per_mm: f64,
    d: f64,
    first_mm: f64,
    last_mm: f64,
    index_before: f64,
    index_behind: f64,
}

/// Where a system has its focal, principal and nodal points; all from the first vertex.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CardinalPoints {
    #[serde(rename = "equivalent_power_d")]
    pub power: Diopters,
    /// First focal point F.
    #[serde(rename = "front_focus_mm")]
    pub front_focus: Millimeters,
    /// Second focal point F′.
    #[serde(rename = "back_focus_mm")]
    pub back_focus: Millimeters,
    /// First principal point P.
    #[serde(rename = "front_principal_mm")]
    pub front_principal: Millimeters,
    /// Second principal point P′.
    #[serde(rename = "back_principal_mm")]
    pub back_principal: Millimeters,
    /// First nodal point N.
    #[serde(rename = "front_nodal_mm")]
    pub front_nodal: Millimeters,
    /// Second nodal point N′.
    #[serde(rename = "back_nodal_mm")]
    pub back_nodal: Millimeters,
}

impl ParaxialSystem {
    /// Multiplies the surfaces up, front to back, with `index_before` in front of the first.
    ///
    /// # Errors
    ///
    /// [`SystemError`] without a surface, or if a vertex stands before the one in front of it.
    pub fn new(index_before: f64, surfaces: &[Surface]) -> Result<Self, SystemError> {
        let first = surfaces.first().ok_or(SystemError::NoSurface)?;
        let mut system = Self {
            a: 1.0,
            b_mm: 0.0,
            c_per_mm: 0.0,
            d: 1.0,
            first_mm: first.vertex.mm(),
            last_mm: first.vertex.mm(),
            index_before,
            index_behind: index_before,
        };
        for (position, surface) in surfaces.iter().enumerate() {
            let step_mm = surface.vertex.mm() - system.last_mm;
            let usable = surface.radius.mm() != 0.0
                && !surface.radius.mm().is_nan()
                && 0.0 < surface.index_behind
                && surface.index_behind.is_finite();
            if !(0.0 <= step_mm && step_mm.is_finite() && usable) {
                return Err(SystemError::BadSurface {
                    number: position + 1,
                });
            }
            system.transfer(step_mm);
            system.refract(surface);
        }
        Ok(system)
    }

    fn transfer(&mut self, step_mm: f64) {
        let reduced_mm = step_mm / self.index_behind;
        self.a += reduced_mm * self.c_per_mm;
        self.b_mm += reduced_mm * self.d;
        self.last_mm += step_mm;
    }

    fn refract(&mut self, surface: &Surface) {
        let power_per_mm = (surface.index_behind - self.index_behind) / surface.radius.mm();
        self.c_per_mm -= power_per_mm * self.a;
        self.d -= power_per_mm * self.b_mm;
        self.index_behind = surface.index_behind;
    }

    pub fn power(&self) -> Diopters {
        Diopters::new(-1000.0 * self.c_per_mm)
    }

    /// Focal, principal and nodal points.
    pub fn cardinal_points(&self) -> Result<CardinalPoints, SystemError> {
        let Self {
            a,
            c_per_mm,
            d,
            index_before,
            index_behind,
            ..
        } = *self;
        if c_per_mm == 0.0 {
            return Err(SystemError::Afocal);
        }
        let from_first = |mm: f64| Millimeters::new(self.first_mm + mm);
        let from_last = |mm: f64| Millimeters::new(self.last_mm + mm);
        Ok(CardinalPoints {
            power: self.power(),
            front_focus: from_first(index_before * d / c_per_mm),
            back_focus: from_last(-index_behind * a / c_per_mm),
            front_principal: from_first(index_before * (d - 1.0) / c_per_mm),
            back_principal: from_last(index_behind * (1.0 - a) / c_per_mm),
            front_nodal: from_first((index_before * d - index_behind) / c_per_mm),
            back_nodal: from_last((index_before - index_behind * a) / c_per_mm),
        })
    }

    /// Height, at the last surface, of a ray that enters parallel to the axis at height 1.
    pub fn height_at_last_surface(&self) -> f64 {
        self.a
    }

    /// Where the image of an axial point behind the last surface lies, seen from in front.
    ///
    /// Used for the entrance pupil: the stop seen through the cornea.
    pub fn conjugate_in_front(&self, behind: Millimeters) -> Result<Millimeters, SystemError> {
        let reduced_mm = (behind.mm() - self.last_mm) / self.index_behind;
        let height = self.a + reduced_mm * self.c_per_mm;
        let offset_mm = self.b_mm + reduced_mm * self.d;
        if height == 0.0 {
            return Err(SystemError::Afocal);
        }
        Ok(Millimeters::new(
            self.first_mm + self.index_before * offset_mm / height,
        ))
    }

    /// Where the image of an axial point in front of the first surface lies, seen from behind.
    ///
    /// Used for the exit pupil: the stop seen through the lens.
    pub fn conjugate_behind(&self, in_front: Millimeters) -> Result<Millimeters, SystemError> {
        let reduced_mm = (self.first_mm - in_front.mm()) / self.index_before;
        let angle = self.d + reduced_mm * self.c_per_mm;
        let offset_mm = self.b_mm + reduced_mm * self.a;
        if angle == 0.0 {
            return Err(SystemError::Afocal);
        }
        Ok(Millimeters::new(
            self.last_mm - self.index_behind * offset_mm / angle,
        ))
    }

    /// Refraction, at the first vertex, that makes the axial point `retina` the far image: the
    /// vergence that must arrive at the first surface.
    pub fn refraction_for(&self, retina: Millimeters) -> Result<Diopters, SystemError> {
        let reduced_mm = (retina.mm() - self.last_mm) / self.index_behind;
        let height = self.a + reduced_mm * self.c_per_mm;
        let offset_mm = self.b_mm + reduced_mm * self.d;
        if offset_mm == 0.0 {
            return Err(SystemError::Afocal);
        }
        // Light of vergence V has n·u = −y·V at the first vertex and reaches the axis at the retina
        // where height·y + offset·(n·u) = 0: V = height/offset, negative for a short-sighted eye.
        Ok(Diopters::new(
            1000.0 * height / offset_mm * self.index_before,
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn surface(vertex_mm: f64, radius_mm: f64, index_behind: f64) -> Surface {
        Surface {
            vertex: Millimeters::new(vertex_mm),
            radius: Millimeters::new(radius_mm),
            index_behind,
        }
    }

    /// One surface, by hand: r 7.7 mm, n 1.376: 376/7.7 = 48.831 D; foci at −20.479 and 28.179 mm.
    #[test]
    fn one_surface_by_hand() {
        let system = ParaxialSystem::new(1.0, &[surface(0.0, 7.7, 1.376)]).unwrap();
        let points = system.cardinal_points().unwrap();
        assert!((points.power.d() - 48.831).abs() < 0.0005);
        assert!((points.front_focus.mm() + 20.479).abs() < 0.0005);
        assert!((points.back_focus.mm() - 28.179).abs() < 0.0005);
        assert!(points.front_principal.mm().abs() < 1e-12);
        assert!((points.front_nodal.mm() - 7.7).abs() < 1e-12);
    }

    /// By hand: 376/7.7 = 48.831 D in air, and (1.420 − 1.336)·1000/10 = 8.4 D in aqueous.
    #[test]
    fn a_surface_has_the_power_of_the_step_in_index() {
        let in_air = surface(0.0, 7.7, 1.376).power(1.0);
        assert!((in_air.d() - 48.831).abs() < 0.0005);
        let in_aqueous = surface(3.6, 10.0, 1.42).power(1.336);
        assert!((in_aqueous.d() - 8.4).abs() < 1e-9);
    }

    /// By hand, 8.4 D at 3.6 mm: from 100 mm before it 1336/−100 + 8.4 = −4.96 D, 1420/−4.96 = −286.290 mm;
    /// back from 200 mm behind it 1420/−200 + 8.4 = 1.3 D, 1336/1.3 = 1027.692 mm before it.
    #[test]
    fn conjugates_by_hand() {
        let system = ParaxialSystem::new(1.336, &[surface(3.6, 10.0, 1.42)]).unwrap();
        let behind = system.conjugate_behind(Millimeters::new(-96.4)).unwrap();
        assert!((behind.mm() - (3.6 - 286.290)).abs() < 0.0005, "{behind:?}");
        let in_front = system.conjugate_in_front(Millimeters::new(203.6)).unwrap();
        assert!(
            (in_front.mm() - (3.6 - 1027.692)).abs() < 0.0005,
            "{in_front:?}"
        );
    }

    #[test]
    fn bad_systems_are_refused() {
        assert_eq!(ParaxialSystem::new(1.0, &[]), Err(SystemError::NoSurface));
        let backwards = [surface(1.0, 7.7, 1.376), surface(0.5, 6.8, 1.336)];
        assert_eq!(
            ParaxialSystem::new(1.0, &backwards)
                .unwrap_err()
                .to_string(),
            "surface 2 of the optical system is out of order or has no radius"
        );
        let flat = ParaxialSystem::new(1.0, &[surface(0.0, 7.7, 1.0)]).unwrap();
        assert_eq!(flat.cardinal_points(), Err(SystemError::Afocal));
        assert!(ParaxialSystem::new(1.0, &[surface(f64::NAN, 7.7, 1.3)]).is_err());
    }

    #[test]
    fn an_emmetropic_eye_focuses_distant_light_on_its_retina() {
        let system = ParaxialSystem::new(1.0, &[surface(0.0, 7.7, 1.376)]).unwrap();
        let focus = system.cardinal_points().unwrap().back_focus;
        assert!(system.refraction_for(focus).unwrap().d().abs() < 1e-9);
        let longer = focus + Millimeters::new(1.0);
        assert!(system.refraction_for(longer).unwrap().d() < 0.0);
    }
}
