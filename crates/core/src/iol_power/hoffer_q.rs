#![doc = include_str!("hoffer_q.md")]

use super::{Caution, Cautions, CornealRadii, Estimate, PersonalizedAcd, ThinLensEye};
use crate::evidence::{HOFFER_1993, Source, Standing};
use crate::quantity::{Millimeters, Number};

pub const REFERENCE: &str = include_str!("hoffer_q.md");

pub const SOURCE: Source = Standing::Memory.of(HOFFER_1993, "");

/// Axial length up to which the first branch holds, mm.
const SHORT_BRANCH_MM: f64 = 23.0;

/// The eye as Hoffer Q sees it.
pub fn eye<N: Number>(
    axial_length: Millimeters<N>,
    cornea: CornealRadii<N>,
    personalized_acd: PersonalizedAcd,
) -> Estimate<ThinLensEye<N>> {
    let mut cautions = Cautions::NONE;
    let k = cornea.mean_power();
    let limited_mm = held_within(
        axial_length.mm(),
        [
            (18.5, Caution::HofferLengthFloor),
            (31.0, Caution::HofferLengthCap),
        ],
        &mut cautions,
    );
    let (m, g_mm) = if axial_length.mm().plain() <= SHORT_BRANCH_MM {
        (1.0, 28.0)
    } else {
        (-1.0, 23.5)
    };
    let tangent_k = k.d().tan_degrees();
    let from_average_mm = limited_mm - 23.5;
    let from_branch_mm = N::of(g_mm) - limited_mm;
    let quadratic = from_average_mm * from_average_mm;
    let depth_mm = from_average_mm * 0.3
        + personalized_acd.value()
        + tangent_k * tangent_k
        + quadratic * (m * 0.1) * (from_branch_mm * from_branch_mm * 0.1).tan_degrees()
        - 0.99166;
    let depth_mm = held_within(
        depth_mm,
        [
            (2.5, Caution::HofferDepthFloor),
            (6.5, Caution::HofferDepthCap),
        ],
        &mut cautions,
    );
    Estimate {
        value: ThinLensEye {
            optical_length: axial_length,
            lens_position: Millimeters::new(depth_mm + 0.05),
            corneal_power: k,
        },
        cautions,
    }
}

/// The formula's own limits on a value, each with the caution it leaves.
fn held_within<N: Number>(
    value_mm: N,
    [(floor_mm, at_floor), (cap_mm, at_cap)]: [(f64, Caution); 2],
    cautions: &mut Cautions,
) -> N {
    if value_mm.plain() < floor_mm {
        cautions.add(at_floor);
        return N::of(floor_mm);
    }
    if value_mm.plain() > cap_mm {
        cautions.add(at_cap);
        return N::of(cap_mm);
    }
    value_mm
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Diopters;

    fn position_mm(axial_length_mm: f64, k_d: f64) -> f64 {
        let radius = Millimeters::new(337.5 / k_d);
        let acd = PersonalizedAcd::new(5.0).unwrap();
        let eye = eye(
            Millimeters::new(axial_length_mm),
            CornealRadii(radius, radius),
            acd,
        );
        assert!(eye.cautions.is_empty());
        assert!((eye.value.corneal_power - Diopters::new(k_d)).d().abs() < 1e-12);
        eye.value.lens_position.mm()
    }

    /// Internal checks of the equation: at 23.5 mm C = pACD + tan²K − 0.99166 (tan²45° = 1), and the
    /// branch change at 23.0 mm steps C by 0.0011 mm, which tells degrees from radians.
    #[test]
    fn internal_checks() {
        assert!((position_mm(23.5, 45.0) - (5.0 + 1.0 - 0.99166 + 0.05)).abs() < 1e-12);
        let step = position_mm(23.0, 43.0) - position_mm(23.0 + 1e-9, 43.0);
        assert!((step.abs() - 0.0011).abs() < 0.00005, "{step}");
    }

    /// By hand. 31 mm, 40 D: 5 + 0.3·7.5 + tan²40° − 0.1·7.5²·tan 5.625° − 0.99166 + 0.05, tan 40° = 0.8390996,
    /// tan 5.625° = 0.0984914. 18.5 mm, 45 D: 5 − 0.3·5 + 1 + 0.1·5²·tan 9.025° − 0.99166 + 0.05, tan 9.025° =
    /// 0.1588317. Neither is beyond the equation's own limits, which would be said.
    #[test]
    fn the_limits_themselves_are_within() {
        assert!((position_mm(31.0, 40.0) - 6.458_414).abs() < 1e-6);
        assert!((position_mm(18.5, 45.0) - 3.955_419).abs() < 1e-6);
    }
}
