//! What published series say of each formula's errors: the truth that stated ranges are held against.
//!
//! Nothing here comes from the program's own model of errors. Scatter: 18,501 eyes, Ophthalmology
//! 2018;125:169-178 (printed abstract), T2 as SRK/T (assumption). Biases, achieved less predicted:
//! J Cataract Refract Surg 2017;43:1149 (printed abstract). The scatter holds the biased eyes, and no
//! scatter by length was read, so that it is drawn alike in every band of length (assumption):
//!
//! ```text
//! s₀² = s² − b²·P(K > 46) − b²·P(K < 42)
//! ```

use millrace_core::evidence::{JCRS_2017, MELLES_2018, Source, Standing};
use millrace_core::iol_power::Formula;

/// Sources of scatter and biases.
pub const ERRORS: [Source; 2] = [
    Standing::Printed.of(
        MELLES_2018,
        "18,501 eyes, first lens; alike in every band of length is an assumption",
    ),
    Standing::Printed.of(JCRS_2017, "biases where K > 46 or < 42 D (abstract)"),
];

/// Shares of N(43.91, 1.71) over 46 D and under 42 D: `scipy.stats.norm`.
const OVER_46: f64 = 0.110_811_801;
const UNDER_42: f64 = 0.132_005_914;

/// Errors of one formula, D.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Published {
    pub(crate) scatter: f64,
    pub(crate) steep: f64,
    pub(crate) flat: f64,
}

impl Published {
    /// Nothing is published of the others.
    pub(crate) const fn of(formula: Formula) -> Option<Self> {
        let (scatter, steep, flat) = match formula {
            Formula::SrkT => (0.463, -0.31, 0.16),
            Formula::T2 => (0.463, 0.0, 0.0),
            Formula::Holladay1 => (0.453, 0.0, 0.0),
            Formula::HofferQ => (0.473, 0.0, -0.22),
            Formula::Haigis => (0.437, 0.17, -0.31),
            _ => return None,
        };
        Some(Self {
            scatter,
            steep,
            flat,
        })
    }

    /// Mean error at this mean K.
    pub(crate) fn bias(self, mean_k: f64) -> f64 {
        if 46.0 < mean_k {
            self.steep
        } else if mean_k < 42.0 {
            self.flat
        } else {
            0.0
        }
    }

    /// Scatter about that mean.
    pub(crate) fn about_the_bias(self) -> f64 {
        let biased = OVER_46 * self.steep * self.steep + UNDER_42 * self.flat * self.flat;
        (self.scatter * self.scatter - biased).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 0.463² − 0.110812·0.31² − 0.132006·0.16² = 0.214369 − 0.010649 − 0.003379 = 0.447594².
    #[test]
    fn the_scatter_about_the_bias_by_hand() {
        let srk_t = Published::of(Formula::SrkT).unwrap();
        assert!((srk_t.about_the_bias() - 0.447_594).abs() < 1e-6);
        for (k, bias) in [(46.0, 0.0), (46.1, -0.31), (42.0, 0.0), (41.9, 0.16)] {
            assert!((srk_t.bias(k) - bias).abs() < 1e-12, "{k}");
        }
    }
}
