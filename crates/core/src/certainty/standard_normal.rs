//! Standard normal numbers, by arithmetic that the compiler computes for several eyes at once.
//!
//! Nothing is rejected and nothing is remembered: a number follows from its place in the sequence.

use super::lane::polynomial;

/// How many random words lie between one pair of normal numbers and the next.
const WORDS_OF_A_PAIR: u64 = 2;

/// The step of the sequence, 2⁶⁴ over the golden ratio, odd.
const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

/// A sequence of random words, each computed from its place.
///
/// Source: `SplitMix64`, Steele, Lea and Flood 2014, ACM SIGPLAN Not 49(10):453.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sequence(u64);

impl Sequence {
    /// The sequence that begins at `start`.
    const fn from(start: u64) -> Self {
        Self(start)
    }

    /// The sequence of a seed: it begins at the first word that the seed itself would give, so that
    /// neighboring seeds begin far from each other and no two at the same place.
    pub(super) const fn of(seed: u64) -> Self {
        Self::from(Self::from(seed).word(0))
    }

    /// The sequence without its first `pairs` pairs.
    pub(super) const fn after(mut self, pairs: u64) -> Self {
        self.skip(pairs);
        self
    }

    /// Leaves out `pairs` pairs.
    #[inline(always)]
    pub(super) const fn skip(&mut self, pairs: u64) {
        let words = pairs.wrapping_mul(WORDS_OF_A_PAIR);
        self.0 = self.0.wrapping_add(STEP.wrapping_mul(words));
    }

    #[inline(always)]
    const fn word(self, place: u64) -> u64 {
        let mixed = self
            .0
            .wrapping_add(STEP.wrapping_mul(place.wrapping_add(1)));
        let mixed = (mixed ^ mixed >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ mixed >> 31
    }

    /// Pair number `pair`: two independent standard normal numbers, at most 8.5 from zero.
    #[inline(always)]
    pub(super) fn pair(self, pair: u64) -> [f64; 2] {
        let first = pair.wrapping_mul(WORDS_OF_A_PAIR);
        normal_pair(self.word(first), self.word(first.wrapping_add(1)))
    }
}

/// A point of the normal distribution in the plane, by its distance from the origin and its
/// direction.
///
/// Source: Box and Muller 1958, Ann Math Stat 29(2):610.
#[inline(always)]
fn normal_pair(distance: u64, direction: u64) -> [f64; 2] {
    // Above 0 and up to 1.
    let uniform = 2.0 - one_to_two(distance);
    let distance = (ln(uniform) * -2.0).sqrt();
    // From -45° to 45° of the x axis; two of the bits that are left choose one of its four images.
    let angle = (one_to_two(direction) - 1.5) * core::f64::consts::FRAC_PI_2;
    let [sine, cosine] = sine_and_cosine(angle);
    let is_turned = direction & 2 == 0;
    let first = if is_turned { sine } else { cosine };
    let second = if is_turned { cosine } else { sine };
    let signed = f64::from_bits(distance.to_bits() ^ direction << 63);
    [signed * first, signed * second]
}

/// Bits of 1.0.
const ONE: u64 = 0x3ff0_0000_0000_0000;

/// The upper 52 bits as a number from 1 up to, but not including, 2.
#[inline(always)]
const fn one_to_two(random: u64) -> f64 {
    f64::from_bits(random >> 12 | ONE)
}

/// Coefficients of the logarithm: s², s⁴ … s¹⁴ of (ln(1 + f) − 2s)/s with s = f/(2 + f).
///
/// Source: `e_log.c` of FreeBSD's mathematical library, as in the `libm` crate; there the error is
/// stated as less than one unit in the last place.
#[expect(clippy::excessive_precision, reason = "as printed in the source")]
const LOGARITHM: [f64; 7] = [
    6.666666666666735130e-01,
    3.999999999940941908e-01,
    2.857142874366239149e-01,
    2.222219843214978396e-01,
    1.818357216161805012e-01,
    1.531383769920937332e-01,
    1.479819860511658591e-01,
];

/// Logarithm of numbers above zero that are not subnormal.
#[inline(always)]
fn ln(number: f64) -> f64 {
    /// Bits of √½, to where the source's fraction begins.
    const ROOT_OF_HALF: u64 = 0x3fe6_a09e_0000_0000;
    const FRACTION: u64 = 0x000f_ffff_ffff_ffff;
    /// 2⁵², whose last bit counts ones.
    const COUNTER: f64 = 4_503_599_627_370_496.0;
    // number = 2^exponent · fraction, √½ <= fraction < √2
    let shifted = number.to_bits().wrapping_add(ONE - ROOT_OF_HALF);
    let exponent = f64::from_bits(shifted >> 52 | COUNTER.to_bits()) - (COUNTER + 1023.0);
    let fraction = f64::from_bits((shifted & FRACTION).wrapping_add(ROOT_OF_HALF));
    let f = fraction - 1.0;
    let s = f / (f + 2.0);
    let square = s * s;
    let half = f * f * 0.5;
    let series = square * polynomial(square, &LOGARITHM);
    s * (half + series) - half + f + exponent * core::f64::consts::LN_2
}

/// Coefficients of x³, x⁵ … x¹³ of the sine up to 45°.
///
/// Source: `k_sin.c`, as for [`LOGARITHM`].
#[expect(clippy::excessive_precision, reason = "as printed in the source")]
const SINE: [f64; 6] = [
    -1.66666666666666324348e-01,
    8.33333333332248946124e-03,
    -1.98412698298579493134e-04,
    2.75573137070700676789e-06,
    -2.50507602534068634195e-08,
    1.58969099521155010221e-10,
];

/// Coefficients of x⁴, x⁶ … x¹⁴ of the cosine up to 45°.
///
/// Source: `k_cos.c`, as for [`LOGARITHM`].
#[expect(clippy::excessive_precision, reason = "as printed in the source")]
const COSINE: [f64; 6] = [
    4.16666666666666019037e-02,
    -1.38888888888741095749e-03,
    2.48015872894767294178e-05,
    -2.75573143513906633035e-07,
    2.08757232129817482790e-09,
    -1.13596475577881948265e-11,
];

/// Sine and cosine of angles from -45° to 45°, in radians.
#[inline(always)]
fn sine_and_cosine(angle: f64) -> [f64; 2] {
    let square = angle * angle;
    let sine = angle + angle * square * polynomial(square, &SINE);
    let cosine = square * square * polynomial(square, &COSINE) - square * 0.5 + 1.0;
    [sine, cosine]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::math;

    /// How far `value` is from `expected`, in units in the last place of that.
    fn units_off(value: f64, expected: f64) -> f64 {
        let size = expected.abs();
        (value - expected).abs() / (f64::from_bits(size.to_bits() + 1) - size)
    }

    /// The words that `SplitMix64` is known by, for the seeds 0 and 20261125.
    ///
    /// From `tests/oracle/normal_pairs.py`, which computes with whole numbers in Python.
    #[test]
    fn the_words_are_those_of_the_published_generator() {
        let words = |start| [0, 1, 2].map(|place| Sequence::from(start).word(place));
        assert_eq!(
            words(0),
            [
                0xe220_a839_7b1d_cdaf,
                0x6e78_9e6a_a1b9_65f4,
                0x06c4_5d18_8009_454f
            ]
        );
        assert_eq!(
            words(20_261_125),
            [
                0x92cf_6a4a_af5c_73e1,
                0x2a12_e734_35d3_9eac,
                0x33e4_eda7_a980_43c0
            ]
        );
    }

    /// From `tests/oracle/normal_pairs.py`, at 40 digits.
    #[test]
    fn the_pairs_are_those_of_the_description() {
        let expected = [
            (0, 0, [-0.22251115413414554, 2.060818163978243]),
            (0, 1, [0.1560199549690223, 0.17098720463532376]),
            (0, 2, [0.45687272753467744, -0.1270514274843709]),
            (20_261_125, 0, [-0.656829278057736, 1.1281645137501804]),
            (20_261_125, 1, [0.372667384515616, -0.5605331736018776]),
            (20_261_125, 2, [-0.4010792018715622, -0.3633244491042085]),
        ];
        for (start, place, expected) in expected {
            let drawn = Sequence::from(start).pair(place);
            for (drawn, expected) in drawn.into_iter().zip(expected) {
                assert!(units_off(drawn, expected) <= 4.0, "{drawn} {expected}");
            }
        }
    }

    #[test]
    fn skipped_pairs_are_left_out() {
        let mut sequence = Sequence::from(7);
        sequence.skip(5);
        assert_eq!(
            sequence.pair(3).map(f64::to_bits),
            Sequence::from(7).pair(8).map(f64::to_bits)
        );
    }

    /// The ends of what a word can say. All its bits 0: no distance. All bits 1: the share is 2⁻⁵², and
    /// the distance √(104·ln 2) = 8.490424416849 (by hand).
    #[test]
    fn the_farthest_and_the_nearest_pair() {
        for direction in [0, 1, 2, 3, u64::MAX, u64::MAX - 3] {
            let [x, y] = normal_pair(0, direction);
            assert!(x == 0.0 && y == 0.0, "{x} {y}");
            let [x, y] = normal_pair(u64::MAX, direction);
            assert!((x.hypot(y) - 8.490424416849).abs() < 1e-11, "{x} {y}");
        }
    }

    /// Against `libm`, whose own error is below one unit: over all sizes down to the smallest share,
    /// close to 1, and where the fraction changes its exponent, at √½.
    #[test]
    fn the_logarithm_is_that_of_libm() {
        const SMALLEST: f64 = 1.0 / 4_503_599_627_370_496.0;
        let at_random = |place| 2.0 - one_to_two(Sequence::from(3).word(place));
        let small = (0..52).flat_map(|halvings| {
            let size = 1.0 / f64::from_bits(ONE + (halvings << 52));
            (0..2_000).map(move |step| size * (1.0 - f64::from(step) / 4_000.0))
        });
        let near_one = (1..5_000).map(|steps| 1.0 - f64::from(steps) * SMALLEST);
        let at_the_fold = (-50_000..50_000)
            .map(|steps| core::f64::consts::FRAC_1_SQRT_2 + f64::from(steps) * 1e-9);
        let numbers = small.chain(near_one).chain(at_the_fold);
        for number in numbers.chain((0..200_000).map(at_random)) {
            if SMALLEST <= number && number < 1.0 {
                let off = units_off(ln(number), math::ln(number));
                assert!(off <= 2.0, "{number}: {off}");
            }
        }
        assert_eq!(ln(1.0).to_bits(), 0.0_f64.to_bits());
    }

    /// Against `libm`, whose own error is below one unit.
    #[test]
    fn sine_and_cosine_are_those_of_libm() {
        for step in -200_000..=200_000 {
            let angle = f64::from(step) / 200_000.0 * core::f64::consts::FRAC_PI_4;
            let [sine, cosine] = sine_and_cosine(angle);
            if step != 0 {
                let off = units_off(sine, math::sin(angle));
                assert!(off <= 1.5, "{angle}: {off}");
            }
            let off = units_off(cosine, math::cos(angle));
            assert!(off <= 1.5, "{angle}: {off}");
        }
    }

    const PAIRS: u64 = 500_000;
    const NUMBERS: f64 = 1_000_000.0;

    fn pairs() -> Vec<[f64; 2]> {
        let sequence = Sequence::from(20_261_125);
        (0..PAIRS).map(|place| sequence.pair(place)).collect()
    }

    fn mean(values: impl Iterator<Item = f64>) -> f64 {
        values.sum::<f64>() / NUMBERS
    }

    /// The normal distribution's moments 0, 1, 0, 3, 0, 15, whose estimates from n numbers have the
    /// variances 1/n, 2/n, 15/n, 96/n, 945/n, 10170/n: E z²ᵏ − (E zᵏ)² with E z⁴ = 3, E z⁶ = 15,
    /// E z⁸ = 105, E z¹⁰ = 945, E z¹² = 10395. Four standard errors.
    #[test]
    fn moments_are_those_of_the_normal_distribution() {
        let numbers = pairs().into_flattened();
        let moments = [
            (1, 0.0, 1.0),
            (2, 1.0, 2.0),
            (3, 0.0, 15.0),
            (4, 3.0, 96.0),
            (5, 0.0, 945.0),
            (6, 15.0, 10_170.0_f64),
        ];
        for (power, expected, variance) in moments {
            let raised = |z: &f64| (0..power).fold(1.0, |product, _| product * z);
            let off = mean(numbers.iter().map(raised)) - expected;
            let error = (variance / NUMBERS).sqrt();
            assert!(off.abs() < 4.0 * error, "{power}: {off} ± {error}");
        }
    }

    /// Shares beyond ±1 to ±5 as printed in tables of the normal distribution; four standard errors.
    #[test]
    fn tails_are_those_of_the_normal_distribution() {
        let numbers = pairs().into_flattened();
        let printed = [
            (0.1, 0.9203443),
            (1.0, 0.3173105),
            (2.0, 0.0455003),
            (3.0, 0.0026998),
            (4.0, 0.0000633425),
            (5.0, 0.00000057330),
        ];
        for (limit, share) in printed {
            for sign in [-1.0, 1.0] {
                let beyond = |z: &f64| if limit < sign * z { 1.0 } else { 0.0 };
                let off = mean(numbers.iter().map(beyond)) - share / 2.0;
                let error = (share / 2.0 / NUMBERS).sqrt();
                assert!(off.abs() < 4.0 * error, "{limit}: {off} ± {error}");
            }
        }
    }

    /// The largest distance of the drawn distribution from the normal one, by the complementary error
    /// function of `libm`, times √n: 1.95 is exceeded once in a thousand times (Kolmogorov's limit
    /// distribution, 2·exp(−2·1.95²) = 0.001).
    #[test]
    fn no_share_is_far_from_the_normal_distribution() {
        let pairs = pairs();
        for part in [0, 1] {
            let mut numbers: Vec<f64> = pairs.iter().map(|pair| pair[part]).collect();
            numbers.sort_by(f64::total_cmp);
            let count = f64::from(u32::try_from(PAIRS).unwrap());
            let mut farthest: f64 = 0.0;
            for (below, z) in (0_u32..).zip(&numbers) {
                let share = math::normal_cdf(*z);
                farthest = farthest.max(share - f64::from(below) / count);
                farthest = farthest.max((f64::from(below) + 1.0) / count - share);
            }
            assert!(farthest * count.sqrt() < 1.95, "{part}: {farthest}");
        }
    }

    /// Products of two numbers, of their sizes, and of one with the size of the other have mean 0 and
    /// variance 1, 4, 2, 2 if they are independent; 4.5 standard errors, which 60 products exceed
    /// once in 2,500 times.
    fn assert_independent(what: &str, couples: impl Iterator<Item = (f64, f64)>) {
        let size = |z: f64| z * z - 1.0;
        let mut count = 0.0;
        let mut sums = [0.0; 4];
        for (x, y) in couples {
            let products = [x * y, size(x) * size(y), x * size(y), size(x) * y];
            for (sum, product) in sums.iter_mut().zip(products) {
                *sum += product;
            }
            count += 1.0;
        }
        for (sum, variance) in sums.into_iter().zip([1.0, 4.0, 2.0, 2.0_f64]) {
            let off = sum / count;
            let error = (variance / count).sqrt();
            assert!(off.abs() < 4.5 * error, "{what}: {off} ± {error}");
        }
    }

    /// Neither the numbers of a pair go together, nor those of neighboring eyes in a vector (1 to 8
    /// pairs apart), of neighboring sources (a batch of 128 apart), of neighboring batches with three
    /// pairs of sources (384), nor of neighboring blocks of 16,384 eyes (49,152).
    #[test]
    fn numbers_near_and_far_are_independent() {
        let pairs = pairs();
        assert_independent("pair", pairs.iter().map(|[x, y]| (*x, *y)));
        for apart in [1, 2, 4, 8, 128, 384, 49_152] {
            let couples = || pairs.iter().zip(pairs.iter().skip(apart));
            let alike = couples().map(|([x, _], [y, _])| (*x, *y));
            assert_independent(&format!("{apart} apart"), alike);
            let across = couples().map(|([_, x], [y, _])| (*x, *y));
            assert_independent(&format!("{apart} apart, across"), across);
        }
    }

    /// The same place in the sequences of two seeds that are neighbors.
    #[test]
    fn neighboring_seeds_draw_independent_numbers() {
        for seed in [0, 1, 20_261_125, u64::MAX] {
            let [one, next] = [seed, seed.wrapping_add(1)].map(Sequence::of);
            let couples = (0..PAIRS).map(|place| (one.pair(place)[0], next.pair(place)[0]));
            assert_independent(&format!("{seed}"), couples);
        }
    }
}
