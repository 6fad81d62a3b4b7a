//! The middle of three outcomes: an answer with a caution attached.

/// Something in a formula acted that the user must know of.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
#[repr(u8)]
pub enum Caution {
    /// Holladay 1 took a radius of 7.0 mm for the corneal height of a steeper cornea.
    HolladayRadiusFloor,
    /// Holladay 1 took 13.5 mm for the chamber diameter of a longer eye.
    HolladayChamberDiameterCap,
    /// Hoffer Q took 18.5 mm for the lens position of a shorter eye.
    HofferLengthFloor,
    /// Hoffer Q took 31 mm for the lens position of a longer eye.
    HofferLengthCap,
    /// Hoffer Q's predicted depth came below 2.5 mm and was taken as 2.5 mm.
    HofferDepthFloor,
    /// Hoffer Q's predicted depth came above 6.5 mm and was taken as 6.5 mm.
    HofferDepthCap,
    /// The thick-lens eye has no constant fitted to results.
    NoFittedConstant,
    /// Corneal thickness was not measured; 0.54 mm was assumed.
    ThicknessAssumed,
    /// Back surface of the cornea was not measured; 0.81 of the front radius was assumed.
    PosteriorRadiusAssumed,
    /// The lens is known by its power only; an equiconvex lens was assumed.
    LensShapeAssumed,
    /// The eye had corneal refractive surgery: scatter is about 0.70 D.
    AfterCornealSurgery,
    /// The axial length is ultrasound's, used with constants for optical biometry by choice.
    UltrasoundLength,
    /// The axial length is optical, the constants are for ultrasound.
    OpticalLengthUltrasoundConstants,
    SiliconeOil,
    SiliconeOilNotRecorded,
    CornealSurgeryNotRecorded,
}

impl Caution {
    const ALL: [Self; 16] = [
        Self::HolladayRadiusFloor,
        Self::HolladayChamberDiameterCap,
        Self::HofferLengthFloor,
        Self::HofferLengthCap,
        Self::HofferDepthFloor,
        Self::HofferDepthCap,
        Self::NoFittedConstant,
        Self::ThicknessAssumed,
        Self::PosteriorRadiusAssumed,
        Self::LensShapeAssumed,
        Self::AfterCornealSurgery,
        Self::UltrasoundLength,
        Self::OpticalLengthUltrasoundConstants,
        Self::SiliconeOil,
        Self::SiliconeOilNotRecorded,
        Self::CornealSurgeryNotRecorded,
    ];
}

/// A set of cautions, small enough to travel with every number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Cautions(u32);

// Each caution has its own bit.
const _: () = assert!(Caution::ALL.len() <= u32::BITS as usize);

impl Cautions {
    pub const NONE: Self = Self(0);

    pub const fn add(&mut self, caution: Caution) {
        self.0 |= 1 << caution as u8;
    }

    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Each caution, in a fixed order.
    pub fn iter(self) -> impl Iterator<Item = Caution> {
        Caution::ALL
            .into_iter()
            .filter(move |caution| self.0 & (1 << *caution as u8) != 0)
    }
}

impl FromIterator<Caution> for Cautions {
    fn from_iter<T: IntoIterator<Item = Caution>>(cautions: T) -> Self {
        cautions.into_iter().fold(Self::NONE, |mut set, caution| {
            set.add(caution);
            set
        })
    }
}

/// A value, with the cautions that hold for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate<T> {
    pub value: T,
    /// Empty for a good value, otherwise what makes it dubious.
    pub cautions: Cautions,
}

impl<T> Estimate<T> {
    pub const fn good(value: T) -> Self {
        Self {
            value,
            cautions: Cautions::NONE,
        }
    }

    /// The same cautions around another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Estimate<U> {
        Estimate {
            value: change(self.value),
            cautions: self.cautions,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_set_gives_back_what_was_put_in() {
        for caution in Caution::ALL {
            let set: Cautions = [caution].into_iter().collect();
            assert_eq!(set.iter().collect::<Vec<_>>(), [caution]);
        }
        assert!(Cautions::NONE.is_empty());
        assert_eq!(
            Caution::ALL
                .into_iter()
                .collect::<Cautions>()
                .iter()
                .count(),
            16
        );
    }
}
