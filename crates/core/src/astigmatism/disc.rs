//! A normal distribution of two dimensions over a disc about the origin.
//!
//! ```text
//! P = ∫ φ((x − μ₁)/σ₁)/σ₁ · [Φ((w − μ₂)/σ₂) − Φ((−w − μ₂)/σ₂)] dx,  w = √(r² − x²), |x| ≤ r
//! ```
//!
//! With x = r·sin t the root has no edge, and what is integrated repeats itself with t every half
//! turn, so that equal steps converge faster than any power of their number: they are halved until two
//! sets of places agree. Where the distribution is too narrow for that, the integral is Gauss-Legendre
//! of ten points over panels, halved until it stands. Beyond nine standard deviations there is nothing
//! (2·10⁻¹⁹).

use core::f64::consts::PI;

use crate::quantity::math;

/// Nodes and weights of Gauss-Legendre of ten points, the positive half (any table).
const NODES: [(f64, f64); 5] = [
    (0.148_874_338_981_631_21, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_36),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// Largest error of one panel, and how often a panel is halved at most.
const PANEL_ERROR: f64 = 1e-13;
const DEEPEST: u32 = 40;
/// Panels to begin with, so that a narrow peak is not stepped over.
const PANELS: u32 = 24;
/// Smaller spread over the radius from which equal steps are used.
const NARROWEST: f64 = 0.1;
/// Equal steps to begin with, the most that are tried, and when they agree.
const FEWEST_STEPS: u32 = 16;
const MOST_STEPS: u32 = 128;
const STEPS_AGREE: f64 = 1e-8;
const FURTHEST_SPREADS: f64 = 9.0;

/// Chance that a point lies within `radius` of the origin; mean and spreads along the distribution's
/// own axes, the larger spread first.
pub(super) fn chance_in_disc(mean: [f64; 2], spread: [f64; 2], radius: f64) -> f64 {
    let ([x_mean, y_mean], [x_spread, y_spread]) = (mean, spread);
    if radius <= 0.0 {
        return 0.0;
    }
    if x_spread <= 0.0 {
        let inside = x_mean * x_mean + y_mean * y_mean <= radius * radius;
        return if inside { 1.0 } else { 0.0 };
    }
    let reach = FURTHEST_SPREADS * x_spread;
    let from = ((x_mean - reach) / radius).clamp(-1.0, 1.0);
    let to = ((x_mean + reach) / radius).clamp(-1.0, 1.0);
    let density = |t: f64| {
        let (x, w) = (radius * math::sin(t), radius * math::cos(t));
        let z = (x - x_mean) / x_spread;
        let across = below(w - y_mean, y_spread) - below(-w - y_mean, y_spread);
        w * math::exp(-z * z / 2.0) / ((2.0 * PI).sqrt() * x_spread) * across
    };
    // A narrower distribution could slip between the first steps, where nothing would agree with nothing.
    if NARROWEST * radius <= y_spread
        && let Some(chance) = in_equal_steps(&density)
    {
        return chance;
    }
    let (start, end) = (math::asin(from), math::asin(to));
    let width = (end - start) / f64::from(PANELS);
    (0..PANELS)
        .map(|panel| {
            let a = start + f64::from(panel) * width;
            halved(
                &density,
                [a, a + width],
                ten_points(&density, a, a + width),
                DEEPEST,
            )
        })
        .sum()
}

/// The integral over a half turn by equal steps: those at whole steps and those between them agree to
/// within [`STEPS_AGREE`], and their mean is far closer than that. Nothing if they never do.
fn in_equal_steps(density: &impl Fn(f64) -> f64) -> Option<f64> {
    let sum = |count: u32, offset: f64| {
        let step = PI / f64::from(count);
        let places = (0..count).map(|place| -PI / 2.0 + (f64::from(place) + offset) * step);
        places.map(density).sum::<f64>() * step
    };
    let mut count = FEWEST_STEPS;
    let mut whole = sum(count, 0.0);
    while count <= MOST_STEPS {
        let between = sum(count, 0.5);
        let mean = whole.midpoint(between);
        if (whole - between).abs() <= STEPS_AGREE {
            return Some(mean);
        }
        whole = mean;
        count *= 2;
    }
    None
}

/// Φ(distance/spread); a spread of zero is a step.
fn below(distance: f64, spread: f64) -> f64 {
    if 0.0 < spread {
        math::normal_cdf(distance / spread)
    } else if 0.0 <= distance {
        1.0
    } else {
        0.0
    }
}

fn ten_points(density: &impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    let (middle, half) = (a.midpoint(b), (b - a) / 2.0);
    let sum: f64 = NODES
        .iter()
        .map(|(node, weight)| {
            weight * (density(middle + half * node) + density(middle - half * node))
        })
        .sum();
    sum * half
}

fn halved(density: &impl Fn(f64) -> f64, [a, b]: [f64; 2], whole: f64, left: u32) -> f64 {
    let middle = a.midpoint(b);
    let parts = [
        ten_points(density, a, middle),
        ten_points(density, middle, b),
    ];
    let sum = parts[0] + parts[1];
    if left == 0 || (sum - whole).abs() <= PANEL_ERROR {
        return sum;
    }
    halved(density, [a, middle], parts[0], left - 1)
        + halved(density, [middle, b], parts[1], left - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a round distribution about the origin has 1 − exp(−r²/2σ²) within r.
    #[test]
    fn round_about_the_origin() {
        for (spread, radius) in [(1.0_f64, 1.0_f64), (0.3, 0.5), (0.3, 3.0), (5.0, 0.25)] {
            let z = radius / spread;
            let by_hand = 1.0 - math::exp(-z * z / 2.0);
            let found = chance_in_disc([0.0, 0.0], [spread, spread], radius);
            assert!((found - by_hand).abs() < 1e-12, "{spread} {radius}");
        }
    }

    /// A distribution that would slip between equal steps: nearly all of it is inside.
    #[test]
    fn a_narrow_one_is_not_stepped_over() {
        for spread in [1e-3, 0.01, 0.05, 0.099, 0.1, 0.2] {
            let chance = chance_in_disc([0.05, 0.02], [spread, spread], 1.0);
            // Four spreads from the edge or further: 1 − exp(−8) = 0.99966.
            assert!(
                0.9996 < chance && chance <= 1.0 + 1e-12,
                "{spread}: {chance}"
            );
        }
    }

    /// By hand: without spread across, |x| ≤ √(1 − 0.6²) = 0.8 of a standard normal:
    /// 2·Φ(0.8) − 1 = 0.57629 (printed table: Φ(0.8) = 0.78814).
    #[test]
    fn a_line_through_the_disc_and_a_point() {
        let line = chance_in_disc([0.0, 0.6], [1.0, 0.0], 1.0);
        assert!((line - 0.57629).abs() < 1e-5, "{line}");
        let at = |mean: f64, radius| chance_in_disc([mean, 0.0], [0.0, 0.0], radius);
        assert!(at(0.5, 0.5) > 0.5 && at(0.51, 0.5) < 0.5 && at(0.0, 0.0) < 0.5);
    }

    /// By hand: without spread across, |x| ≤ 0.5 about 0.3 with 0.2: Φ(1) − Φ(−4) = 0.84134 − 0.00003
    /// (printed table), and as much about −0.3.
    #[test]
    fn a_line_beside_the_middle_is_cut_at_both_ends() {
        for mean in [0.3, -0.3] {
            let line = chance_in_disc([mean, 0.0], [0.2, 0.0], 0.5);
            assert!((line - 0.84131).abs() < 1e-5, "{mean}: {line}");
        }
    }

    /// The unit does not matter: everything a hundred times as large has the same chance.
    #[test]
    fn a_larger_scale_changes_nothing() {
        for (mean, spread) in [([0.05, 0.02], [1e-3, 1e-3]), ([0.9, 0.3], [0.4, 0.2])] {
            let larger = |pair: [f64; 2]| pair.map(|length| 100.0 * length);
            let chance = chance_in_disc(mean, spread, 1.0);
            let scaled = chance_in_disc(larger(mean), larger(spread), 100.0);
            assert!((chance - scaled).abs() < 1e-9, "{chance} {scaled}");
        }
    }

    /// By hand: cos²t over a half turn is π/2, and cos²t·sin t, which is odd, adds nothing.
    #[test]
    fn equal_steps_stand_evenly_about_the_middle() {
        let density = |t: f64| {
            let cosine = math::cos(t);
            cosine * cosine * (1.0 + math::sin(t))
        };
        let found = in_equal_steps(&density).unwrap();
        assert!((found - PI / 2.0).abs() < 1e-12, "{found}");
    }
}
