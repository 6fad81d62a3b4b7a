#![doc = include_str!("conversions.md")]

use super::{AConstant, ConstantError, HaigisConstants, PersonalizedAcd, SurgeonFactor};

pub const REFERENCE: &str = include_str!("conversions.md");

/// pACD of Hoffer Q from an A constant: `0.58357·A − 63.896` (from memory).
pub fn personalized_acd(a: AConstant) -> Result<PersonalizedAcd, ConstantError> {
    PersonalizedAcd::new(0.58357 * a.value() - 63.896)
}

/// Surgeon factor of Holladay 1 from an A constant: `0.5663·A − 65.600` (from memory).
pub fn surgeon_factor(a: AConstant) -> Result<SurgeonFactor, ConstantError> {
    SurgeonFactor::new(0.5663 * a.value() - 65.600)
}

/// Haigis with one constant from an A constant: `a0 = 0.62467·A − 72.434`, a1 0.4, a2 0.1
/// (from memory).
pub fn haigis(a: AConstant) -> Result<HaigisConstants, ConstantError> {
    HaigisConstants::new(0.62467 * a.value() - 72.434, 0.4, 0.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The two ways to a surgeon factor agree with each other (their stated consistency), and
    /// a0 = ACDc − 0.4·3.37 − 0.1·23.39 with SRK/T's ACDc = 0.62467·A − 68.747.
    #[test]
    fn the_conversions_are_consistent_with_each_other() {
        for tenths in 1150..=1200 {
            let a = AConstant::new(f64::from(tenths) / 10.0).unwrap();
            // SF = 0.9704·pACD − 3.595, from memory too.
            let through_acd = 0.9704 * personalized_acd(a).unwrap().value() - 3.595;
            assert!((through_acd - surgeon_factor(a).unwrap().value()).abs() < 0.01);
            let acd_const = 0.62467 * a.value() - 68.747;
            let a0 = acd_const - 0.4 * 3.37 - 0.1 * 23.39;
            assert!((haigis(a).unwrap().a0_mm() - a0).abs() < 1e-9);
        }
    }
}
