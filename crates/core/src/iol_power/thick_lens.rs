#![doc = include_str!("thick_lens.md")]

use serde::{Deserialize, Serialize};
use serde_with::serde_as;

use super::{AQUEOUS_INDEX, Refusal};
use crate::evidence::{OPTICS, Source, Standing};
use crate::optics::paraxial_system::SystemError;
use crate::optics::vergence::{self, PassesFocus};
use crate::optics::{ParaxialSystem, Surface, vertex};
use crate::quantity::{
    Diopters, Millimeters, Number, OutOfRange, TextOfMicrometers, checked_when_read,
};

pub const REFERENCE: &str = include_str!("thick_lens.md");

pub const SOURCE: Source = Standing::Derived.of(
    OPTICS,
    "paraxial trace; lens position after Olsen & Hoffmann 2014 (factor from memory)",
);

/// Refractive index of the cornea.
pub const CORNEA_INDEX: f64 = 1.376;

/// Back radius of the cornea over its front radius, where it was not measured.
///
/// Source: Dubbelman, Acta Ophthalmol Scand 2002;80:406, 0.81 ± 0.02 (printed).
pub const POSTERIOR_RATIO: f64 = 0.81;

/// Corneal thickness where it was not measured (assumption).
pub const ASSUMED_THICKNESS: Millimeters = Millimeters::new(0.54);

/// Lens center = ACD + `LENS_CENTER_FACTOR`·LT.
///
/// Source: Olsen & Hoffmann, J Cataract Refract Surg 2014;40:764 (value from memory; that the
/// position depends on ACD and LT only is printed in the abstract).
pub const LENS_CENTER_FACTOR: f64 = 0.39;

/// An eye with a cornea of two surfaces and an implant of two surfaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThickLensEye<N = f64> {
    /// Corneal vertex to retina.
    pub axial_length: Millimeters<N>,
    pub front_radius: Millimeters<N>,
    pub back_radius: Millimeters<N>,
    pub corneal_thickness: Millimeters<N>,
    /// Center of the implant, from the corneal vertex.
    pub lens_center: Millimeters<N>,
    /// What the implant is made of and how thick it is.
    pub shape: LensShape,
}

/// What lies before and behind an implant that is inside the eye.
struct AroundLens<N> {
    /// Back of the cornea to front of the implant.
    depth: Millimeters<N>,
    /// Vergence that must leave the implant to focus on the retina.
    to_retina: Diopters<N>,
}

/// The facts of an implant that its labeled power leaves open.
#[serde_as]
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct LensShape {
    /// Refractive index of the optic.
    pub index: f64,
    /// Central thickness, taken as the same for every power.
    #[serde_as(as = "TextOfMicrometers")]
    pub thickness: Millimeters,
}

checked_when_read!(LensShape, LensShape::check);

impl LensShape {
    /// Smallest and largest index of an optic (house value).
    pub const INDEX_RANGE: [f64; 2] = [1.40, 1.70];
    /// Smallest and largest central thickness (house value).
    pub const THICKNESS_RANGE_MM: [f64; 2] = [0.2, 3.0];

    pub(crate) fn check(&self) -> Result<(), OutOfRange> {
        for (quantity, value, limits) in [
            ("index of the optic", self.index, Self::INDEX_RANGE),
            (
                "thickness of the optic in mm",
                self.thickness.mm(),
                Self::THICKNESS_RANGE_MM,
            ),
        ] {
            if !(limits[0] <= value && value <= limits[1]) {
                return Err(OutOfRange::new(quantity, value, limits));
            }
        }
        Ok(())
    }
}

/// An implant with both surfaces known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThickLens {
    /// Radius of the front surface, positive when convex.
    pub front_radius: Millimeters,
    /// Radius of the back surface, negative when convex.
    pub back_radius: Millimeters,
    pub shape: LensShape,
}

impl LensShape {
    /// `t/n`, in meters.
    fn reduced_thickness_m(&self) -> f64 {
        self.thickness.mm() / 1000.0 / self.index
    }

    /// Power of each surface of the equiconvex lens of labeled `power`, from `P = 2F − τF²`.
    fn surface_power<N: Number>(&self, power: Diopters<N>) -> Result<N, Refusal> {
        let radicand = N::of(1.0) - power.d() * self.reduced_thickness_m();
        if power.plain().d().is_finite() && radicand.plain() >= 0.0 {
            return Ok(power.d() / (radicand.sqrt() + 1.0));
        }
        Err(Refusal::NoSuchLens {
            power: power.plain(),
        })
    }

    /// The equiconvex lens of labeled `power`; at power 0 a plate, whose radii are infinite.
    pub fn equiconvex(&self, power: Diopters) -> Result<ThickLens, Refusal> {
        let surface_d = self.surface_power(power)?;
        let radius = Millimeters::new(1000.0 * (self.index - AQUEOUS_INDEX) / surface_d);
        Ok(ThickLens {
            front_radius: radius,
            back_radius: -radius,
            shape: *self,
        })
    }
}

impl<N: Number> ThickLensEye<N> {
    /// Lens power that leaves `refraction` at the spectacle plane.
    pub fn power_for(&self, refraction: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        let no_image = |_| Refusal::NoRealImage {
            at: refraction.plain(),
        };
        let AroundLens { depth, to_retina } = self.around_lens()?;
        let image_d = to_retina.d();
        let at_cornea = vertex::to_cornea(refraction).map_err(no_image)?;
        let [front, back] = self.corneal_powers();
        let in_cornea = vergence::forwards(at_cornea + front, self.corneal_thickness, CORNEA_INDEX)
            .map_err(no_image)?;
        let arriving_d = vergence::forwards(in_cornea + back, depth, AQUEOUS_INDEX)
            .map_err(no_image)?
            .d();

        // (V + F) → through the lens → + F = W, solved for F: τF² − bF + c = 0.
        let tau = self.shape.reduced_thickness_m();
        let b = N::of(2.0) - arriving_d * tau + image_d * tau;
        let c = image_d - arriving_d - image_d * arriving_d * tau;
        let radicand = b * b - c * (4.0 * tau);
        if !(radicand.plain() >= 0.0 && b.plain() > 0.0) {
            return Err(Refusal::NoRealImage {
                at: refraction.plain(),
            });
        }
        let surface_d = c * 2.0 / (b + radicand.sqrt());
        // The light must not focus inside the lens.
        let in_lens = Diopters::new(arriving_d + surface_d);
        let thickness = self.shape.thickness.lift();
        vergence::forwards(in_lens, thickness, self.shape.index).map_err(no_image)?;
        Ok(Diopters::new(surface_d * 2.0 - surface_d * surface_d * tau))
    }

    /// Refraction at the spectacle plane with the equiconvex lens of labeled `power`; undoes
    /// [`Self::power_for`].
    pub fn refraction_with(&self, power: Diopters<N>) -> Result<Diopters<N>, Refusal> {
        let surface = Diopters::new(self.shape.surface_power(power)?);
        let no_image = |_: PassesFocus| Refusal::NoRealImage { at: power.plain() };
        let AroundLens { depth, to_retina } = self.around_lens()?;
        let leaving_lens = to_retina - surface;
        let thickness = self.shape.thickness.lift();
        let in_lens =
            vergence::backwards(leaving_lens, thickness, self.shape.index).map_err(no_image)?;
        let behind_cornea =
            vergence::backwards(in_lens - surface, depth, AQUEOUS_INDEX).map_err(no_image)?;
        let [front, back] = self.corneal_powers();
        let in_cornea =
            vergence::backwards(behind_cornea - back, self.corneal_thickness, CORNEA_INDEX)
                .map_err(no_image)?;
        vertex::to_spectacle(in_cornea - front).map_err(no_image)
    }

    fn corneal_powers(&self) -> [Diopters<N>; 2] {
        [
            Diopters::new(N::of(1000.0 * (CORNEA_INDEX - 1.0)) / self.front_radius.mm()),
            Diopters::new(N::of(1000.0 * (AQUEOUS_INDEX - CORNEA_INDEX)) / self.back_radius.mm()),
        ]
    }

    /// Back of the cornea to front of the implant.
    fn depth_mm(&self) -> N {
        let half = (self.shape.thickness * 0.5).lift();
        (self.lens_center - half - self.corneal_thickness).mm()
    }

    fn around_lens(&self) -> Result<AroundLens<N>, Refusal> {
        let half = (self.shape.thickness * 0.5).lift();
        let behind_mm = (self.axial_length - self.lens_center - half).mm();
        let depth_mm = self.depth_mm();
        let is_behind = 0.0 < behind_mm.plain() && behind_mm.plain() < f64::INFINITY;
        if !(depth_mm.plain() > 0.0 && is_behind) {
            return Err(Refusal::LensOutsideEye {
                lens_position: self.lens_center.plain(),
                optical_length: self.axial_length.plain(),
            });
        }
        Ok(AroundLens {
            depth: Millimeters::new(depth_mm),
            to_retina: Diopters::new(N::of(1000.0 * AQUEOUS_INDEX) / behind_mm),
        })
    }
}

impl ThickLensEye {
    /// The whole eye with a lens of known surfaces, as one matrix.
    pub fn system_with(&self, lens: &ThickLens) -> Result<ParaxialSystem, SystemError> {
        let front = Surface {
            vertex: Millimeters::new(0.0),
            radius: self.front_radius,
            index_behind: CORNEA_INDEX,
        };
        let back = Surface {
            vertex: self.corneal_thickness,
            radius: self.back_radius,
            index_behind: AQUEOUS_INDEX,
        };
        let half = lens.shape.thickness * 0.5;
        let lens_front = Surface {
            vertex: self.lens_center - half,
            radius: lens.front_radius,
            index_behind: lens.shape.index,
        };
        let lens_back = Surface {
            vertex: self.lens_center + half,
            radius: lens.back_radius,
            index_behind: AQUEOUS_INDEX,
        };
        ParaxialSystem::new(1.0, &[front, back, lens_front, lens_back])
    }
}

/// Sum-of-segments axial length: `1.23853 + 0.95855·AL − 0.05467·LT`, off unless chosen.
///
/// Source: Cooke & Cooke 2019 (from memory).
pub fn sum_of_segments<N: Number>(
    axial_length: Millimeters<N>,
    lens_thickness: Millimeters<N>,
) -> Millimeters<N> {
    Millimeters::new(axial_length.mm() * 0.95855 - lens_thickness.mm() * 0.05467 + 1.23853)
}
