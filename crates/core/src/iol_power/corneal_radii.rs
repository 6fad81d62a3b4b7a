//! The two principal radii of a cornea, and the two means that formulas take of them.

use crate::quantity::KeratometricIndex;
use crate::quantity::{Diopters, Millimeters, Number};

/// Radii of the two principal meridians, in any order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornealRadii<N = f64>(pub Millimeters<N>, pub Millimeters<N>);

impl<N: Number> CornealRadii<N> {
    /// Mean of the two powers at index 1.3375: what the formulas named after K take.
    pub fn mean_power(self) -> Diopters<N> {
        let index = KeratometricIndex::STANDARD;
        (index.power(self.0) + index.power(self.1)) * 0.5
    }

    /// Mean of the two radii: what Haigis takes.
    pub fn mean_radius(self) -> Millimeters<N> {
        (self.0 + self.1) * 0.5
    }
}

impl CornealRadii {
    /// Difference of the two powers at 1.3375, never negative.
    pub fn astigmatism(self) -> Diopters {
        let index = KeratometricIndex::STANDARD;
        Diopters::new((index.power(self.0) - index.power(self.1)).d().abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 7.5 mm is 45.00 D, 7.9 mm 42.7215 D: mean 43.8608 D, which is not the power of the
    /// mean radius (43.8312 D).
    #[test]
    fn the_two_means_differ() {
        let radii = CornealRadii(Millimeters::new(7.5), Millimeters::new(7.9));
        assert!((radii.mean_power().d() - 43.8608).abs() < 0.00005);
        assert!((radii.mean_radius().mm() - 7.7).abs() < 1e-12);
        assert!((radii.astigmatism().d() - 2.2785).abs() < 0.00005);
    }
}
