//! Lens constants: a type for each, so that one is never given to another's formula.

use serde::{Deserialize, Serialize};

use crate::quantity::{OutOfRange, checked_when_read};

/// Refuses a number outside its range, and one that is none.
fn within(quantity: &'static str, value: f64, range: [f64; 2]) -> Result<(), OutOfRange> {
    let [min, max] = range;
    if min <= value && value <= max {
        return Ok(());
    }
    Err(OutOfRange::new(quantity, value, range))
}

macro_rules! lens_constant {
    ($(#[$doc:meta])* $name:ident, $quantity:literal, $min:literal, $max:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(remote = "Self", transparent)]
        pub struct $name(f64);

        checked_when_read!($name, $name::check);

        impl $name {
            /// Smallest and largest that any lens has (house value).
            pub const RANGE: [f64; 2] = [$min, $max];

            /// Checks that the number can be this constant and not another one.
            pub fn new(value: f64) -> Result<Self, OutOfRange> {
                let constant = Self(value);
                constant.check().map(|()| constant)
            }

            fn check(&self) -> Result<(), OutOfRange> {
                within($quantity, self.0, Self::RANGE)
            }

            pub const fn value(self) -> f64 {
                self.0
            }
        }
    };
}

lens_constant!(
    /// A constant of SRK/T and T2.
    AConstant,
    "A constant",
    100.0,
    130.0
);

lens_constant!(
    /// Personalized anterior chamber depth (pACD) of Hoffer Q, mm.
    PersonalizedAcd,
    "personalized ACD in mm",
    0.0,
    12.0
);

lens_constant!(
    /// Surgeon factor of Holladay 1, mm.
    SurgeonFactor,
    "surgeon factor in mm",
    -5.0,
    8.0
);

/// The three constants of Haigis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct HaigisConstants {
    a0_mm: f64,
    a1: f64,
    a2: f64,
}

checked_when_read!(HaigisConstants, HaigisConstants::check);

impl HaigisConstants {
    /// Smallest and largest a0 that any lens has, mm (house value).
    pub const A0_RANGE: [f64; 2] = [-10.0, 10.0];
    /// Smallest and largest a1 and a2 that any lens has (house value).
    pub const FACTOR_RANGE: [f64; 2] = [-2.0, 2.0];

    /// Checks each of the three.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] outside [`Self::A0_RANGE`] or [`Self::FACTOR_RANGE`].
    pub fn new(a0_mm: f64, a1: f64, a2: f64) -> Result<Self, OutOfRange> {
        let constants = Self { a0_mm, a1, a2 };
        constants.check().map(|()| constants)
    }

    fn check(&self) -> Result<(), OutOfRange> {
        within("a0 in mm", self.a0_mm, Self::A0_RANGE)?;
        within("a1", self.a1, Self::FACTOR_RANGE)?;
        within("a2", self.a2, Self::FACTOR_RANGE)
    }

    /// a0, mm.
    pub const fn a0_mm(self) -> f64 {
        self.a0_mm
    }

    /// a1, factor of the chamber depth.
    pub const fn a1(self) -> f64 {
        self.a1
    }

    /// a2, factor of the axial length.
    pub const fn a2(self) -> f64 {
        self.a2
    }
}

/// A constant that is no constant of that kind.
pub type ConstantError = OutOfRange;

/// What a lens brings to the formulas; a constant it does not have stays absent.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FormulaConstants {
    /// For SRK/T and T2.
    pub a_constant: Option<AConstant>,
    /// For Hoffer Q.
    pub personalized_acd: Option<PersonalizedAcd>,
    /// For Holladay 1.
    pub surgeon_factor: Option<SurgeonFactor>,
    pub haigis: Option<HaigisConstants>,
}
