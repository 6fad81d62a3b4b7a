//! A count of drawn refractions, fine enough for every quantile that is shown.

use crate::quantity::Diopters;

/// Bins per diopter: 0.005 D each, so that every hundredth is an edge.
const PER_DIOPTER: i32 = 200;
/// Bins on either side of the middle: 5 D.
const REACH: i32 = 1_000;
/// All bins.
const BINS: usize = 2 * REACH as usize;

// Places: one below all bins, the bins, one above them, one for eyes without an answer. That every
// refraction has one place lets them be found for several at once, without a branch.
const BELOW: usize = 0;
const ABOVE: usize = BINS + 1;
const REFUSED: usize = BINS + 2;
/// A power of two, so that a place is within by its lowest bits.
const PLACES: usize = 2_048;

/// What stands in the place of a refraction for an eye without an answer: it is counted as refused,
/// never as a number.
pub(super) const NO_ANSWER: f64 = f64::NAN;

/// How many refractions are counted in one pass.
const PASS: usize = 128;
/// How many sums run beside each other.
const SUMS: usize = 8;

/// Drawn refractions of one formula and one lens.
#[derive(Clone, Debug, PartialEq)]
pub struct Tally {
    /// The edge in the middle, in bins from 0 D.
    middle: i32,
    places: Box<[u32; PLACES]>,
    /// Sum of the refractions less the middle, and of its square, in parts.
    sums: [[f64; SUMS]; 2],
}

impl Tally {
    /// An empty tally that reaches 5 D to either side of `middle`.
    pub(super) fn around(middle: Diopters) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a refraction, or 0 if it is none"
        )]
        let middle = (middle.d() * f64::from(PER_DIOPTER)).round() as i32;
        Self {
            middle,
            places: Box::new([0; PLACES]),
            sums: [[0.0; SUMS]; 2],
        }
    }

    fn middle_d(&self) -> f64 {
        f64::from(self.middle) / f64::from(PER_DIOPTER)
    }

    /// Counts refractions in diopters; one that is not finite is an eye without an answer.
    ///
    /// Fewer than 2³² in all.
    #[inline(always)]
    pub(super) fn count(&mut self, refractions: &[f64]) {
        for refractions in refractions.chunks(PASS) {
            self.add_up(refractions);
            self.sort(refractions);
        }
    }

    /// Adds at most [`PASS`] refractions to the sums.
    #[inline(always)]
    fn add_up(&mut self, refractions: &[f64]) {
        let middle_d = self.middle_d();
        let mut terms = [0.0; PASS];
        for (term, refraction) in terms.iter_mut().zip(refractions) {
            let off_d = *refraction - middle_d;
            *term = if refraction.is_finite() { off_d } else { 0.0 };
        }
        let [mut sum, mut squares] = self.sums;
        for terms in terms.as_chunks::<SUMS>().0 {
            sum = plus(sum, *terms);
            squares = plus(squares, squared(*terms));
        }
        self.sums = [sum, squares];
    }

    /// Counts at most [`PASS`] refractions in their places.
    #[inline(always)]
    fn sort(&mut self, refractions: &[f64]) {
        let middle_d = self.middle_d();
        let mut places = [0; PASS];
        for (place, refraction) in places.iter_mut().zip(refractions) {
            *place = place_of(*refraction, middle_d);
        }
        for place in places.iter().take(refractions.len()) {
            #[expect(clippy::indexing_slicing, reason = "below PLACES")]
            let count = &mut self.places[*place % PLACES];
            *count = count.wrapping_add(1);
        }
    }

    /// Adds another tally of the same formula and lens.
    pub(super) fn add(&mut self, other: &Self) {
        for (count, others) in self.places.iter_mut().zip(other.places.iter()) {
            *count += others;
        }
        for (sum, others) in self.sums.iter_mut().zip(other.sums) {
            *sum = plus(*sum, others);
        }
    }

    fn at(&self, place: usize) -> u64 {
        self.places.get(place).map_or(0, |count| u64::from(*count))
    }

    /// The bins, lowest first.
    fn bins(&self) -> impl Iterator<Item = u32> {
        self.places.iter().skip(BELOW + 1).take(BINS).copied()
    }

    /// Eyes counted.
    #[must_use]
    pub fn counted(&self) -> u64 {
        let bins: u64 = self.bins().map(u64::from).sum();
        self.at(BELOW) + bins + self.at(ABOVE)
    }

    /// Eyes drawn for which the formula had no answer.
    #[must_use]
    pub fn refused(&self) -> u64 {
        self.at(REFUSED)
    }

    #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
    fn count_f64(&self) -> f64 {
        self.counted() as f64
    }

    /// Both sums over all parts.
    fn totals(&self) -> [f64; 2] {
        self.sums.map(|parts| parts.iter().sum())
    }

    /// Mean of the drawn refractions; nothing if none was counted.
    #[must_use]
    pub fn mean(&self) -> Option<Diopters> {
        let [sum, _] = self.totals();
        let mean_d = self.middle_d() + sum / self.count_f64();
        (1 <= self.counted()).then_some(Diopters::new(mean_d))
    }

    /// Standard deviation of the drawn refractions; nothing for fewer than two.
    #[must_use]
    pub fn deviation(&self) -> Option<Diopters> {
        let [sum, squares] = self.totals();
        let count = self.count_f64();
        let left = squares - sum * sum / count;
        // Of equal refractions rounding may leave a trace below zero.
        let left = if left < 0.0 { 0.0 } else { left };
        (2 <= self.counted()).then_some(Diopters::new((left / (count - 1.0)).sqrt()))
    }

    /// Share of the draws up to `limit`, a whole number of bins; nothing if it lies beyond the bins or
    /// none was counted.
    #[must_use]
    pub fn share_up_to(&self, limit: Diopters) -> Option<f64> {
        #[expect(clippy::cast_possible_truncation, reason = "checked against the bins")]
        let edge = (limit.d() * f64::from(PER_DIOPTER)).round() as i32 - self.middle + REACH;
        let edge = usize::try_from(edge).ok().filter(|edge| *edge <= BINS)?;
        let up_to: u64 = self.bins().take(edge).map(u64::from).sum();
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
        let up_to = (self.at(BELOW) + up_to) as f64;
        (1 <= self.counted()).then_some(up_to / self.count_f64())
    }

    /// Refraction below which `share` of the draws lie, between the edges of its bin in proportion;
    /// nothing if it lies beyond the bins or none was counted.
    #[must_use]
    pub fn quantile(&self, share: f64) -> Option<Diopters> {
        let wanted = share * self.count_f64();
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
        let mut passed = self.at(BELOW) as f64;
        if wanted < passed {
            return None;
        }
        for (edge, bin) in (self.middle - REACH..).zip(self.bins()) {
            let bin = f64::from(bin);
            if wanted <= passed + bin && 0.0 < bin {
                let at = f64::from(edge) + (wanted - passed) / bin;
                return Some(Diopters::new(at / f64::from(PER_DIOPTER)));
            }
            passed += bin;
        }
        None
    }
}

/// The place of a refraction.
#[inline(always)]
fn place_of(refraction_d: f64, middle_d: f64) -> usize {
    /// Above all bins.
    const OVER: f64 = (2 * REACH + 1) as f64;
    /// 2⁵²: numbers above it have no fraction, and their last bits count ones.
    const COUNTER: f64 = 4_503_599_627_370_496.0;
    let place = (refraction_d - middle_d) * f64::from(PER_DIOPTER) + f64::from(REACH + 1);
    let place = if 0.0 < place { place } else { 0.0 };
    let place = if place < OVER { place } else { OVER };
    // A conversion to an integer is not compiled into vectors, since it looks after what is too large.
    let nearest = place + COUNTER - COUNTER;
    let whole = if place < nearest {
        nearest - 1.0
    } else {
        nearest
    };
    #[expect(clippy::cast_possible_truncation, reason = "2001 at most")]
    let place = ((whole + COUNTER).to_bits() % PLACES as u64) as usize;
    if refraction_d.is_finite() {
        place
    } else {
        REFUSED
    }
}

#[inline(always)]
fn plus(mut sums: [f64; SUMS], terms: [f64; SUMS]) -> [f64; SUMS] {
    for (sum, term) in sums.iter_mut().zip(terms) {
        *sum += term;
    }
    sums
}

#[inline(always)]
fn squared(mut terms: [f64; SUMS]) -> [f64; SUMS] {
    for term in &mut terms {
        *term *= *term;
    }
    terms
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tally(refractions: &[f64]) -> Tally {
        let mut tally = Tally::around(Diopters::new(-0.5));
        tally.count(refractions);
        tally
    }

    fn mean_d(tally: &Tally) -> f64 {
        tally.mean().unwrap().d()
    }

    fn deviation_d(tally: &Tally) -> f64 {
        tally.deviation().unwrap().d()
    }

    fn share_up_to(tally: &Tally, limit_d: f64) -> f64 {
        tally.share_up_to(Diopters::new(limit_d)).unwrap()
    }

    /// A bin holds its lower edge; 5 D to either side of −0.50 D is as far as bins reach. What lies on an
    /// edge here is a whole number of quarters, so that no rounding decides.
    #[test]
    fn each_refraction_has_its_place() {
        // The share of one eye is 0 or 1.
        let lies_below =
            |refraction_d, limit_d| 0.5 < share_up_to(&tally(&[refraction_d]), limit_d);
        // −0.5 + 0.25 = −0.25 is the edge of bin 50 above the middle (0.25 · 200).
        assert!(!lies_below(-0.25, -0.25) && lies_below(-0.25, -0.245));
        assert!(!lies_below(-0.251, -0.255) && lies_below(-0.251, -0.25));
        // The lowest bin begins at −5.5, the highest ends at 4.5.
        assert!(!lies_below(-5.5, -5.5) && lies_below(-5.501, -5.5));
        assert!(lies_below(4.499, 4.5));
        for over in [4.5, 5.0, 1e9, 1e300, f64::MAX] {
            assert!(!lies_below(over, 4.5), "{over}");
        }
        for under in [-6.0, -1e9, -1e300, f64::MIN] {
            assert!(lies_below(under, -5.5), "{under}");
        }
    }

    /// By hand: −1, −0.5 and 0.75 have mean −0.25 and variance (0.75² + 0.25² + 1²)/2 = 0.8125.
    #[test]
    fn an_eye_without_an_answer_is_counted_apart() {
        let counts = tally(&[-1.0, f64::NAN, -0.5, 0.75, f64::INFINITY, f64::NEG_INFINITY]);
        assert_eq!((counts.counted(), counts.refused()), (3, 3));
        assert!((mean_d(&counts) + 0.25).abs() < 1e-15);
        assert!((deviation_d(&counts) - 0.8125_f64.sqrt()).abs() < 1e-15);
        assert!((share_up_to(&counts, 0.0) - 2.0 / 3.0).abs() < 1e-15);
    }

    /// Passes of any length, and one tally added to another, count what one by one would be counted.
    #[test]
    fn nothing_is_lost_between_passes() {
        let refractions: Vec<f64> = (0..1_000)
            .map(|step| f64::from(step) / 128.0 - 4.0)
            .collect();
        for split in [0, 1, 7, 8, 127, 128, 129, 300, 999, 1_000] {
            let (first, second) = refractions.split_at(split);
            let mut counts = tally(first);
            counts.add(&tally(second));
            assert_eq!((counts.counted(), counts.refused()), (1_000, 0), "{split}");
            // By hand: the mean of 0 … 999 is 499.5, its variance 1000·1001/12.
            assert!((mean_d(&counts) - (499.5 / 128.0 - 4.0)).abs() < 1e-12);
            let expected_d = (1_000.0_f64 * 1_001.0 / 12.0).sqrt() / 128.0;
            assert!((deviation_d(&counts) - expected_d).abs() < 1e-12);
            // 512 steps lie below 0 D.
            assert!((share_up_to(&counts, 0.0) - 0.512).abs() < 1e-15);
        }
    }

    /// Of nothing there is no mean, of one number no deviation, and equal numbers deviate by nothing.
    #[test]
    fn too_few_eyes_give_no_number() {
        for none in [tally(&[]), tally(&[NO_ANSWER; 3])] {
            assert_eq!((none.mean(), none.deviation()), (None, None));
            assert_eq!(none.share_up_to(Diopters::new(0.0)), None);
            assert_eq!(none.quantile(0.5), None);
        }
        let one = tally(&[0.3]);
        assert!((mean_d(&one) - 0.3).abs() < 1e-15);
        assert_eq!(one.deviation(), None);
        for count in 2..200 {
            let equal = tally(&vec![0.3; count]);
            assert!(deviation_d(&equal) < 1e-7, "{count}");
        }
    }
}
