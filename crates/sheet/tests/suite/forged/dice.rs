//! Numbers that look drawn and are the same on every machine.

use crate::support::noise::Noise;

pub(super) struct Dice(Noise);

impl Dice {
    pub(super) const fn new(seed: u64) -> Self {
        Self(Noise::new(seed.wrapping_mul(0x9e37).wrapping_add(16)))
    }

    /// From the first up to the second.
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * f64::from(self.0.unit())
    }

    pub(super) fn one<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }

    pub(super) fn below(&mut self, count: usize) -> usize {
        let drawn = self.0.unit();
        let below = |it: &usize| {
            let [it, count] = [*it, count].map(|it| f32::from(u16::try_from(it).unwrap()));
            it / count <= drawn
        };
        (0..count).rev().find(below).unwrap()
    }

    /// A power that nobody signed.
    pub(super) fn power(&mut self) -> String {
        let whole = 6 + self.below(24);
        let decimals = self.one(&["00", "25", "50", "75"]);
        let sign = self.one(&["+", "−", "-", "+"]);
        format!("{sign}{whole}.{decimals} D")
    }
}
