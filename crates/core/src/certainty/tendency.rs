//! What published series found formulas to be off by in steep, flat and long eyes: said beside the
//! prediction and never added to it, for a clinic's constants may hold part of it.
//!
//! # Equation
//!
//! ```text
//! s² = s₀² + b²            b: published mean of achieved less predicted refraction in such eyes
//! E[b²] = Σ b²·P(eye)      over the population, K taken as normal
//! ```
//!
//! Whether the bias is there in this clinic is not known, so that the prediction stays and the
//! formula's own range is widened to the mean square about it; what biases do to the range of several
//! formulas is decided by [`Pool`](super::Pool). The published scatter holds these eyes as well, so that
//! `E[b²]` is taken off before it is put down to anything else.

use super::population::K_DEVIATION;
use crate::evidence::{JCRS_2017, NORRBY_2008, Source, Standing, WANG_KOCH_2018};
use crate::iol_power::{CornealRadii, Formula, FormulaInputs};
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers, math};

/// Eyes of which a tendency is known.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum UnusualEye {
    SteepCornea,
    FlatCornea,
    LongEye,
    ShortEye,
}

/// What a formula tends to in such an eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tendency {
    pub eye: UnusualEye,
    pub way: Way,
    pub source: Source,
}

/// Which way, and how far where that is known: achieved less predicted refraction.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Way {
    Bias {
        mean_d: Diopters,
    },
    /// More hyperopic than predicted, by what was not read.
    Hyperopic,
    /// Perhaps more scatter than the range says: none was read of such eyes alone.
    ScatterUnknown,
}

/// Mean K over which a cornea counts as steep (printed).
pub const STEEP: HundredthDiopters = HundredthDiopters::new(4_600);
/// Mean K under which a cornea counts as flat (printed).
pub const FLAT: HundredthDiopters = HundredthDiopters::new(4_200);
/// Axial length over which an eye counts as long.
pub const LONG: Micrometers = Micrometers::new(26_000);

/// Axial length under which an eye counts as short (house value, where a band of length ends).
pub const SHORT: Micrometers = Micrometers::new(22_000);

/// Not printed as a scatter by length, which was read nowhere.
const BY_POSITION: Source = Standing::Derived.of(
    NORRBY_2008,
    "were 35 % of the variance an error of the lens position alike in millimeters, eyes of 21 mm would scatter by 26 to 31 % more",
);
const PRINTED: Source = Standing::Printed.of(
    JCRS_2017,
    "mean error by formula where K > 46 or < 42 D (abstract), read as achieved less predicted",
);
const REMEMBERED: Source = Standing::Memory.of(
    WANG_KOCH_2018,
    "eyes over 26 mm end hyperopic by these formulas; neither sizes nor equations were read",
);

/// Published bias in steep and in flat corneas, D.
const fn biases(formula: Formula) -> [Option<f64>; 2] {
    match formula {
        Formula::SrkT => [Some(-0.31), Some(0.16)],
        Formula::Haigis => [Some(0.17), Some(-0.31)],
        Formula::HofferQ => [None, Some(-0.22)],
        _ => [None, None],
    }
}

const fn is_known_in_long_eyes(formula: Formula) -> bool {
    matches!(
        formula,
        Formula::SrkT | Formula::Holladay1 | Formula::HofferQ | Formula::Haigis
    )
}

impl Tendency {
    /// Everything known of a formula in such an eye; nothing of a cornea that had surgery, in which no
    /// such series was read.
    pub fn of(formula: Formula, inputs: &FormulaInputs) -> Vec<Self> {
        if inputs.history.is_operated() {
            return Vec::new();
        }
        let k = inputs.cornea.map(CornealRadii::mean_power);
        let [steep, flat] = biases(formula);
        let is_steep = k.is_some_and(|k| STEEP.diopters() < k);
        let is_flat = k.is_some_and(|k| k < FLAT.diopters());
        let length = inputs.axial_length.ok().map(|length| length.value);
        let is_long = length.is_some_and(|length| LONG.millimeters() < length);
        let biased = |bias_d: f64| Way::Bias {
            mean_d: Diopters::new(bias_d),
        };
        let is_short = length.is_some_and(|length| length < SHORT.millimeters());
        let scatters = Formula::THIN_LENS
            .contains(&formula)
            .then_some(Way::ScatterUnknown);
        let hyperopic = is_known_in_long_eyes(formula).then_some(Way::Hyperopic);
        [
            (
                is_steep,
                UnusualEye::SteepCornea,
                steep.map(biased),
                PRINTED,
            ),
            (is_flat, UnusualEye::FlatCornea, flat.map(biased), PRINTED),
            (is_long, UnusualEye::LongEye, hyperopic, REMEMBERED),
            (is_short, UnusualEye::ShortEye, scatters, BY_POSITION),
        ]
        .into_iter()
        .filter(|(is_so, ..)| *is_so)
        .filter_map(|(_, eye, way, source)| {
            let way = way?;
            Some(Self { eye, way, source })
        })
        .collect()
    }

    /// By how much it widens the formula's own range: nothing where the size was not read.
    pub const fn widening(&self) -> Option<Diopters> {
        match self.way {
            Way::Bias { mean_d } => Some(mean_d),
            Way::Hyperopic | Way::ScatterUnknown => None,
        }
    }
}

/// Mean of the squared bias over the population, D².
pub(super) fn mean_square(formula: Formula, limits: &Limits) -> f64 {
    let mean_d = limits.average_k.diopters().d();
    let over = math::normal_cdf((mean_d - STEEP.diopters().d()) / K_DEVIATION);
    let under = math::normal_cdf((FLAT.diopters().d() - mean_d) / K_DEVIATION);
    let [steep_d, flat_d] = biases(formula).map(|bias| bias.unwrap_or(0.0));
    over * steep_d * steep_d + under * flat_d * flat_d
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::certainty::testing::eye;
    use crate::iol_power::CornealHistory;

    /// J Cataract Refract Surg 2017;43:1149 (printed abstract): K > 46: SRK/T −0.31, Haigis +0.17;
    /// K < 42: SRK/T +0.16, Haigis −0.31, Hoffer Q −0.22 D; neither at the limits themselves.
    #[test]
    fn steep_and_flat_corneas_have_the_printed_biases() {
        let of = |k_d: f64| {
            Formula::THIN_LENS.map(|formula| {
                let found = Tendency::of(formula, &eye(23.5, k_d));
                assert!(found.len() < 2);
                found.first().and_then(Tendency::widening).map(Diopters::d)
            })
        };
        // SRK/T, T2, Holladay 1, Hoffer Q, Haigis.
        assert_eq!(of(46.1), [Some(-0.31), None, None, None, Some(0.17)]);
        assert_eq!(of(41.9), [Some(0.16), None, None, Some(-0.22), Some(-0.31)]);
        for k_d in [42.01, 44.0, 45.99] {
            assert_eq!(of(k_d), [None; 5], "{k_d}");
        }
    }

    /// Over 26 mm four formulas are said to end hyperopic; nothing is claimed of the size.
    #[test]
    fn long_eyes_are_said_to_end_hyperopic() {
        let of = |length_mm: f64, formula| Tendency::of(formula, &eye(length_mm, 44.0));
        let found = of(26.01, Formula::Holladay1);
        assert_eq!(found.len(), 1);
        assert_eq!(
            (found[0].eye, found[0].way),
            (UnusualEye::LongEye, Way::Hyperopic)
        );
        assert_eq!(found[0].widening(), None);
        assert_eq!(of(26.0, Formula::Holladay1), []);
        assert_eq!(of(26.01, Formula::T2), []);
    }

    /// Under 22 mm nothing was read of the scatter, and that is said of each formula; 22 mm is not short.
    #[test]
    fn short_eyes_are_said_to_be_less_sure() {
        for formula in Formula::THIN_LENS {
            let found = Tendency::of(formula, &eye(21.99, 44.0));
            assert_eq!(found.len(), 1, "{formula:?}");
            assert_eq!(found[0].way, Way::ScatterUnknown);
            assert_eq!(Tendency::of(formula, &eye(22.0, 44.0)), []);
        }
    }

    #[test]
    fn an_operated_cornea_has_no_known_tendency() {
        let operated = FormulaInputs {
            history: CornealHistory::Myopic,
            ..eye(27.0, 38.0)
        };
        assert_eq!(Tendency::of(Formula::SrkT, &operated), []);
    }

    /// By hand: 43.91 ± 1.71 D; over 46 D lie 11.081 % (z = 1.2222), under 42 D 13.201 %
    /// (z = −1.1170, any table). SRK/T 0.11081·0.0961 + 0.13201·0.0256 = 0.014028, Haigis
    /// 0.11081·0.0289 + 0.13201·0.0961 = 0.015888, Hoffer Q 0.13201·0.0484 = 0.006389 D².
    #[test]
    fn the_mean_square_over_the_population_by_hand() {
        let limits = Limits::shipped();
        for (formula, expected) in [
            (Formula::SrkT, 0.014_028),
            (Formula::T2, 0.0),
            (Formula::Holladay1, 0.0),
            (Formula::HofferQ, 0.006_389),
            (Formula::Haigis, 0.015_888),
        ] {
            let found = mean_square(formula, limits);
            assert!((found - expected).abs() < 1e-6, "{formula:?} {found}");
        }
    }
}
