//! A count of drawn refractions, fine enough for every quantile that is shown.

use super::{Lanes, WIDTH};
use crate::quantity::Diopters;

/// Bins per diopter: 0.005 D each, so that every hundredth is an edge.
const PER_DIOPTER: i32 = 200;
/// Bins on either side of the middle: 5 D.
const REACH: i32 = 1_000;
/// All bins.
const BINS: usize = 2 * REACH as usize;

/// Drawn refractions of one formula and one lens.
#[derive(Clone, Debug, PartialEq)]
pub struct Tally {
    /// The edge in the middle, in bins from 0 D.
    middle: i32,
    bins: Vec<u32>,
    below: u64,
    above: u64,
    refused: u64,
    count: u64,
    /// Sum of the refractions less the middle, and of its square, lane by lane.
    sums: [Lanes; 2],
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
            bins: vec![0; BINS],
            below: 0,
            above: 0,
            refused: 0,
            count: 0,
            sums: [Lanes([0.0; WIDTH]); 2],
        }
    }

    fn middle_d(&self) -> f64 {
        f64::from(self.middle) / f64::from(PER_DIOPTER)
    }

    /// Counts a group.
    #[inline(always)]
    pub(super) fn count_all(&mut self, refractions: Lanes) {
        let off = refractions - self.middle_d();
        let [sum, squares] = &mut self.sums;
        *sum = *sum + off;
        *squares = *squares + off * off;
        self.count += WIDTH as u64;
        let places = off * f64::from(PER_DIOPTER) + f64::from(REACH);
        for place in places.0 {
            self.place(place);
        }
    }

    /// Counts one.
    pub(super) fn count(&mut self, refraction_d: f64) {
        let off_d = refraction_d - self.middle_d();
        for (sum, term) in self.sums.iter_mut().zip([off_d, off_d * off_d]) {
            if let Some(first) = sum.0.first_mut() {
                *first += term;
            }
        }
        self.count += 1;
        self.place(off_d * f64::from(PER_DIOPTER) + f64::from(REACH));
    }

    #[inline(always)]
    fn place(&mut self, place: f64) {
        if place < 0.0 {
            self.below += 1;
            return;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative: the whole part is the bin, and one too large is none"
        )]
        match self.bins.get_mut(place as usize) {
            Some(bin) => *bin += 1,
            None => self.above += 1,
        }
    }

    /// Counts an eye without an answer.
    pub(super) fn count_refused(&mut self) {
        self.refused += 1;
    }

    /// Adds another tally of the same formula and lens.
    pub(super) fn add(&mut self, other: &Self) {
        for (bin, others) in self.bins.iter_mut().zip(&other.bins) {
            *bin += others;
        }
        self.below += other.below;
        self.above += other.above;
        self.refused += other.refused;
        self.count += other.count;
        for (sum, others) in self.sums.iter_mut().zip(other.sums) {
            *sum = *sum + others;
        }
    }

    /// Eyes counted.
    #[must_use]
    pub const fn counted(&self) -> u64 {
        self.count
    }

    /// Eyes drawn for which the formula had no answer.
    #[must_use]
    pub const fn refused(&self) -> u64 {
        self.refused
    }

    #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
    fn count_f64(&self) -> f64 {
        self.count as f64
    }

    /// Both sums over all lanes.
    fn totals(&self) -> [f64; 2] {
        self.sums.map(|lanes| lanes.0.iter().sum())
    }

    /// Mean of the drawn refractions; NaN if none was counted.
    #[must_use]
    pub fn mean(&self) -> Diopters {
        let [sum, _] = self.totals();
        Diopters::new(self.middle_d() + sum / self.count_f64())
    }

    /// Standard deviation of the drawn refractions; NaN for fewer than two.
    #[must_use]
    pub fn deviation(&self) -> Diopters {
        let [sum, squares] = self.totals();
        let count = self.count_f64();
        Diopters::new(((squares - sum * sum / count) / (count - 1.0)).sqrt())
    }

    /// Share of the draws up to `limit`, a whole number of bins; nothing if it lies beyond the bins.
    #[must_use]
    pub fn share_up_to(&self, limit: Diopters) -> Option<f64> {
        #[expect(clippy::cast_possible_truncation, reason = "checked against the bins")]
        let edge = (limit.d() * f64::from(PER_DIOPTER)).round() as i32 - self.middle + REACH;
        let edge = usize::try_from(edge).ok().filter(|edge| *edge <= BINS)?;
        let up_to: u64 = self.bins.iter().take(edge).map(|bin| u64::from(*bin)).sum();
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
        let up_to = (self.below + up_to) as f64;
        Some(up_to / self.count_f64())
    }

    /// Refraction below which `share` of the draws lie, between the edges of its bin in proportion;
    /// nothing if it lies beyond the bins.
    #[must_use]
    pub fn quantile(&self, share: f64) -> Option<Diopters> {
        let wanted = share * self.count_f64();
        #[expect(clippy::cast_precision_loss, reason = "fewer than 2^52 draws")]
        let mut passed = self.below as f64;
        if wanted < passed {
            return None;
        }
        for (edge, bin) in (self.middle - REACH..).zip(&self.bins) {
            let bin = f64::from(*bin);
            if wanted <= passed + bin && 0.0 < bin {
                let at = f64::from(edge) + (wanted - passed) / bin;
                return Some(Diopters::new(at / f64::from(PER_DIOPTER)));
            }
            passed += bin;
        }
        None
    }
}
