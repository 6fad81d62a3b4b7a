//! What a predicted refraction may turn out to be: a mixture of normal distributions, one per
//! formula that speaks.

use crate::quantity::{Diopters, math};

/// A normal distribution of a refraction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Normal {
    pub mean: Diopters,
    /// Its standard deviation, more than zero.
    pub deviation: Diopters,
}

/// An equal mixture of normal distributions; of one, if a single formula is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Distribution(Vec<Normal>);

/// How much of the distribution an interval holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    Half,
    /// 80 %.
    Eighty,
    /// 95 %.
    NinetyFive,
}

impl Level {
    /// Every level, narrowest first.
    pub const ALL: [Self; 3] = [Self::Half, Self::Eighty, Self::NinetyFive];

    /// Percent of the distribution inside.
    pub const fn percent(self) -> u8 {
        match self {
            Self::Half => 50,
            Self::Eighty => 80,
            Self::NinetyFive => 95,
        }
    }

    /// Half width of the interval in standard deviations of a normal distribution.
    ///
    /// Source: the quantiles at 0.75, 0.9 and 0.975 as `scipy.stats.norm.ppf` gives them.
    pub const fn deviations(self) -> f64 {
        match self {
            Self::Half => 0.674_489_750_196_081_7,
            Self::Eighty => 1.281_551_565_544_600_4,
            Self::NinetyFive => 1.959_963_984_540_054,
        }
    }
}

impl Distribution {
    /// An equal mixture; nothing for no component.
    pub fn of(components: Vec<Normal>) -> Option<Self> {
        (!components.is_empty()).then_some(Self(components))
    }

    pub fn single(component: Normal) -> Self {
        Self(vec![component])
    }

    pub fn components(&self) -> &[Normal] {
        &self.0
    }

    /// Mean of a value over the components.
    fn average(&self, value: impl Fn(&Normal) -> f64) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a handful of formulas")]
        let count = self.0.len() as f64;
        self.0.iter().map(value).sum::<f64>() / count
    }

    /// Mean of the mixture.
    pub fn mean(&self) -> Diopters {
        Diopters::new(self.average(|component| component.mean.d()))
    }

    /// Variance between the components: how far the formulas disagree, D².
    pub fn disagreement(&self) -> f64 {
        let mean_d = self.mean().d();
        self.average(|component| {
            let off_d = component.mean.d() - mean_d;
            off_d * off_d
        })
    }

    /// Standard deviation of the mixture: mean variance within, plus the variance between.
    pub fn deviation(&self) -> Diopters {
        let within = self.average(|component| {
            let deviation_d = component.deviation.d();
            deviation_d * deviation_d
        });
        Diopters::new((within + self.disagreement()).sqrt())
    }

    /// Chance that the refraction is at most `limit`.
    pub fn chance_up_to(&self, limit: Diopters) -> f64 {
        self.average(|component| {
            math::normal_cdf((limit - component.mean).d() / component.deviation.d())
        })
    }

    pub fn chance_over(&self, limit: Diopters) -> f64 {
        self.average(|component| {
            math::normal_cdf((component.mean - limit).d() / component.deviation.d())
        })
    }

    /// Chance that it lies within `band` of `target` on either side.
    pub fn chance_within(&self, target: Diopters, band: Diopters) -> f64 {
        // From the nearer tail, so that no probability is lost by cancellation, nor a negative one won.
        let [low, high] = [target - band, target + band];
        self.average(|component| {
            let [from, to] =
                [low, high].map(|limit| (limit - component.mean).d() / component.deviation.d());
            if from + to <= 0.0 {
                math::normal_cdf(to) - math::normal_cdf(from)
            } else {
                math::normal_cdf(-from) - math::normal_cdf(-to)
            }
        })
    }

    /// The interval that leaves equal chances on either side.
    pub fn interval(&self, level: Level) -> [Diopters; 2] {
        let reach = level.deviations();
        if let [only] = self.0.as_slice() {
            let half = only.deviation * reach;
            return [only.mean - half, only.mean + half];
        }
        let outside = (100.0 - f64::from(level.percent())) / 200.0;
        [
            self.quantile(outside, -reach),
            self.quantile(1.0 - outside, reach),
        ]
    }

    /// Where the chance of lying below is `share`: between the quantiles of the components, which
    /// lie `deviations` from their means, by Newton's steps as long as they shrink and stay inside, else by halving.
    fn quantile(&self, share: f64, deviations: f64) -> Diopters {
        let (mut low_d, mut high_d) = (f64::INFINITY, f64::NEG_INFINITY);
        for component in &self.0 {
            let at_d = (component.mean + component.deviation * deviations).d();
            (low_d, high_d) = (low_d.min(at_d), high_d.max(at_d));
        }
        let mut at_d = f64::midpoint(low_d, high_d);
        let mut stride_d = high_d - low_d;
        for _ in 0..200 {
            let excess = self.chance_up_to(Diopters::new(at_d)) - share;
            if 0.0 < excess {
                high_d = at_d;
            } else {
                low_d = at_d;
            }
            let stepped_d = at_d - excess / self.density(Diopters::new(at_d));
            // Between far components Newton's steps can leap to and fro inside the bracket without
            // end, so a step counts only if it is at most half as long as the one before.
            let shrinks = 2.0 * (stepped_d - at_d).abs() <= stride_d;
            let next_d = if shrinks && low_d < stepped_d && stepped_d < high_d {
                stepped_d
            } else {
                f64::midpoint(low_d, high_d)
            };
            if (next_d - at_d).abs() < 1e-12 {
                return Diopters::new(next_d);
            }
            stride_d = (next_d - at_d).abs();
            at_d = next_d;
        }
        Diopters::new(at_d)
    }

    fn density(&self, at: Diopters) -> f64 {
        self.average(|component| {
            let off = (at - component.mean).d() / component.deviation.d();
            math::normal_density(off) / component.deviation.d()
        })
    }
}
