//! Numbers that look drawn and are the same on every machine.

/// The generator `SplitMix64`.
pub(crate) struct Noise(u64);

impl Noise {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From 0 up to 1, each as likely as any other.
    pub(crate) fn unit(&mut self) -> f32 {
        // Sixteen bits are finer than a copy shows.
        let [high, low, ..] = self.next().to_be_bytes();
        f32::from(u16::from_be_bytes([high, low])) / 65_536.0
    }

    /// About normal, mean 0, standard deviation 1: four drawn numbers added up.
    pub(crate) fn normal(&mut self) -> f32 {
        let sum: f32 = (0..4).map(|_| self.unit()).sum();
        (sum - 2.0) * 3.0_f32.sqrt()
    }
}
