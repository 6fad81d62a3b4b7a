//! The transcendental functions of this crate, from `libm`, so that every platform agrees to the
//! bit. `f64::sqrt` is exactly rounded everywhere by IEEE 754 and needs no twin here.

/// Sine of an angle in radians.
pub fn sin(radians: f64) -> f64 {
    libm::sin(radians)
}

/// Cosine of an angle in radians.
pub fn cos(radians: f64) -> f64 {
    libm::cos(radians)
}

/// Tangent of an angle in degrees.
pub fn tan_degrees(degrees: f64) -> f64 {
    libm::tan(degrees.to_radians())
}

/// Angle of the point (`x`, `y`) in radians, −π to π.
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Arc sine in radians.
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Chance that a standard normal variable is at most `z`.
///
/// Written with `erfc`, which keeps its relative accuracy in the lower tail, where `1 + erf`
/// would cancel.
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2)
}

/// Where a standard normal variable lies at most with this chance; nothing at a chance of 0 or 1, where
/// there is no such place.
///
/// By halving between ±40, past which the chance is 0 or 1 to the last bit, until the halves meet.
pub fn normal_quantile(chance: f64) -> Option<f64> {
    if !(0.0 < chance && chance < 1.0) {
        return None;
    }
    let (mut low, mut high) = (-40.0, 40.0);
    loop {
        let middle = 0.5 * (low + high);
        if middle <= low || high <= middle {
            return Some(middle);
        }
        if normal_cdf(middle) < chance {
            low = middle;
        } else {
            high = middle;
        }
    }
}

/// Density of the standard normal distribution.
pub fn normal_density(z: f64) -> f64 {
    const ONE_OVER_ROOT_OF_TWO_PI: f64 = 0.398_942_280_401_432_7;
    ONE_OVER_ROOT_OF_TWO_PI * exp(-0.5 * z * z)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Φ(1.96) = 0.9750, Φ(−1) = 0.1587: any printed table of the normal distribution, 4 digits.
    #[test]
    fn normal_table() {
        for (z, printed) in [(0.0, 0.5), (1.96, 0.9750), (-1.0, 0.1587), (-3.0, 0.0013)] {
            assert!((normal_cdf(z) - printed).abs() <= 0.00005, "{z}");
        }
    }

    /// Percentage points of any printed table: 1.6449 at 95 %, 1.9600 at 97.5 %, 0 at 50 %.
    #[test]
    fn normal_percentage_points() {
        for (chance, printed) in [(0.95, 1.6449), (0.975, 1.9600), (0.05, -1.6449), (0.5, 0.0)] {
            let z = normal_quantile(chance).unwrap();
            assert!((z - printed).abs() <= 0.00005, "{chance}: {z}");
        }
        for chance in [0.0, 1.0, -0.1, f64::NAN] {
            assert_eq!(normal_quantile(chance), None, "{chance}");
        }
    }

    /// φ(0) = 0.3989, φ(1) = 0.2420, φ(−2) = 0.0540: any printed table of its ordinates, 4 digits.
    #[test]
    fn normal_ordinates() {
        for (z, printed) in [(0.0, 0.3989), (1.0, 0.2420), (-2.0, 0.0540)] {
            assert!((normal_density(z) - printed).abs() <= 0.00005, "{z}");
        }
    }
}
