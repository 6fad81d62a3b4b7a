//! Invented eyes that vary and hang together as measured ones do.
//!
//! Margins: 13,012 eyes, PLOS ONE 2017;12:e0184837 (printed means and SDs), taken as normal
//! (assumption). Correlations: 28,709 eyes, PMC8045194 (printed, Spearman): anterior chamber depth
//! with axial length, lens thickness and corneal diameter. A pair that was not printed gets what
//! follows from the depth alone, `r_ij = r_i·r_j`; corneal power is independent of the rest
//! (assumptions: neither correlation was printed). Corneal cylinder: printed mean and SD of the same
//! 13,012 eyes, taken as gamma distribution (assumption); its meridian by the printed shares of
//! 15,448 patients.

use millrace_core::evidence::{POPULATION_CHINA, POPULATION_PORTUGAL, Source, Standing};
use millrace_core::iol_power::CornealRadii;
use millrace_core::quantity::KeratometricIndex;
use millrace_core::quantity::{Diopters, Millimeters, math};
use rand_distr::{Distribution as _, Gamma, StandardNormal, StandardUniform};
use rand_xoshiro::Xoshiro256PlusPlus;

/// Source of means and SDs.
pub const MARGINS: Source = Standing::Printed.of(
    POPULATION_PORTUGAL,
    "means and SDs; normal margins are an assumption",
);

pub const CORRELATIONS: Source = Standing::Printed.of(
    POPULATION_CHINA,
    "Spearman; pairs not printed follow from the chamber depth (assumption)",
);

/// Mean and standard deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    pub mean: f64,
    pub deviation: f64,
}

/// A population to draw from.
#[derive(Clone, Debug, PartialEq)]
pub struct Population {
    margins: [Margin; 4],
    mean_k: Margin,
    /// Pearson correlation of each of the first four with the chamber depth, the first being 1.
    with_depth: [f64; 4],
    cylinder: Gamma<f64>,
}

/// A number that cannot describe a population.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PopulationError {
    /// The correlations leave no room for each other.
    #[error("the matrix of correlations is not positive definite")]
    Correlations,
    /// Mean and SD of the cylinder make no gamma distribution.
    #[error("mean and SD of the cylinder make no gamma distribution")]
    Cylinder,
}

/// One drawn eye, as it truly is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrueEye {
    pub axial_length: Millimeters,
    /// Chamber depth from the epithelium.
    pub chamber_depth: Millimeters,
    pub lens_thickness: Millimeters,
    pub corneal_diameter: Millimeters,
    /// Radii of the flat and the steep meridian.
    pub cornea: CornealRadii,
    /// Steep meridian in degrees, 0 to 180.
    pub steep_degrees: f64,
}

/// Spearman correlations with the chamber depth: itself, axial length, lens thickness, diameter.
const SPEARMAN_WITH_DEPTH: [f64; 4] = [1.0, 0.544, -0.660, 0.300];

/// Shares of with-the-rule and against-the-rule corneas; the rest is oblique.
///
/// Source: Hoffmann & Hütz, J Cataract Refract Surg 2010;36:1479 (printed: 46.8, 34.4 and 18.9 %,
/// which sum to 100.1 %).
const RULE_SHARES: [f64; 2] = [46.8 / 100.1, 34.4 / 100.1];

/// Pearson correlation of the normal variables whose ranks correlate by `spearman`.
fn pearson(spearman: f64) -> f64 {
    2.0 * math::sin(core::f64::consts::PI * spearman / 6.0)
}

impl Population {
    /// The population described above.
    pub fn printed() -> Result<Self, PopulationError> {
        let of = |mean, deviation| Margin { mean, deviation };
        let cylinder = of(1.08, 0.84);
        let ratio = cylinder.mean / cylinder.deviation;
        let scale = cylinder.deviation * cylinder.deviation / cylinder.mean;
        let population = Self {
            margins: [
                of(3.25, 0.44),
                of(23.87, 1.55),
                of(4.32, 0.49),
                of(12.02, 0.46),
            ],
            mean_k: of(43.91, 1.71),
            with_depth: SPEARMAN_WITH_DEPTH.map(pearson),
            cylinder: Gamma::new(ratio * ratio, scale).map_err(|_| PopulationError::Cylinder)?,
        };
        population.checked()
    }

    /// Correlations that all follow from one variable are positive definite exactly if none of them
    /// reaches 1.
    fn checked(self) -> Result<Self, PopulationError> {
        let [_, others @ ..] = self.with_depth;
        if others.iter().all(|r| r.abs() < 1.0) {
            return Ok(self);
        }
        Err(PopulationError::Correlations)
    }

    /// The matrix of Pearson correlations: depth, axial length, lens thickness, diameter.
    pub fn correlations(&self) -> [[f64; 4]; 4] {
        let mut row = 0;
        self.with_depth.map(|one| {
            row += 1;
            let mut column = 0;
            self.with_depth.map(|other| {
                column += 1;
                if row == column { 1.0 } else { one * other }
            })
        })
    }

    /// Draws an eye. One that no instrument could report is drawn again; how often is the caller's
    /// to count, by nothing being returned.
    pub fn draw(&self, random: &mut Xoshiro256PlusPlus) -> Option<TrueEye> {
        let depth: f64 = StandardNormal.sample(random);
        let mut values = [0.0; 4];
        let parts = self.margins.iter().zip(self.with_depth);
        for (value, (margin, r)) in values.iter_mut().zip(parts) {
            let own: f64 = StandardNormal.sample(random);
            // The first correlates with itself by 1, so nothing of its own is left.
            let standard = r * depth + (1.0 - r * r).sqrt() * own;
            *value = margin.mean + margin.deviation * standard;
        }
        let own: f64 = StandardNormal.sample(random);
        let mean_k_d = self.mean_k.mean + self.mean_k.deviation * own;
        let half_d = self.cylinder.sample(random) / 2.0;
        let steep_degrees = steep_meridian(random);
        let [
            chamber_depth,
            axial_length,
            lens_thickness,
            corneal_diameter,
        ] = values.map(Millimeters::new);
        let index = KeratometricIndex::STANDARD;
        let [flat, steep] =
            [mean_k_d - half_d, mean_k_d + half_d].map(|k| index.radius(Diopters::new(k)));
        let eye = TrueEye {
            axial_length,
            chamber_depth,
            lens_thickness,
            corneal_diameter,
            cornea: CornealRadii(flat, steep),
            steep_degrees,
        };
        eye.can_be_measured().then_some(eye)
    }
}

/// A meridian by the printed shares, evenly within each: within 30° of 90 with the rule, of 180
/// against it, between them oblique.
fn steep_meridian(random: &mut Xoshiro256PlusPlus) -> f64 {
    let kind = between(random, 0.0, 1.0);
    let within = between(random, -30.0, 30.0);
    let [with_rule, against] = RULE_SHARES;
    if kind < with_rule {
        return 90.0 + within;
    }
    if kind < with_rule + against {
        return (180.0 + within) % 180.0;
    }
    // Oblique: 30 to 60 and 120 to 150.
    if within < 0.0 {
        60.0 + within
    } else {
        120.0 + within
    }
}

fn between(random: &mut Xoshiro256PlusPlus, low: f64, high: f64) -> f64 {
    let share: f64 = StandardUniform.sample(random);
    low + share * (high - low)
}

impl TrueEye {
    /// Whether instruments could report it and its parts fit into each other.
    fn can_be_measured(&self) -> bool {
        let CornealRadii(flat, steep) = self.cornea;
        let within =
            |value: Millimeters, low: f64, high: f64| low <= value.mm() && value.mm() <= high;
        within(self.axial_length, 14.0, 40.0)
            && within(self.chamber_depth, 1.0, 8.0)
            && within(self.lens_thickness, 1.0, 8.0)
            && within(self.corneal_diameter, 7.0, 15.0)
            && within(flat, 5.0, 13.0)
            && within(steep, 5.0, 13.0)
            && self.chamber_depth.mm() + self.lens_thickness.mm() < self.axial_length.mm()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::generator;

    const MANY: usize = 200_000;

    type Measure<'a> = &'a dyn Fn(&TrueEye) -> f64;

    fn drawn() -> Vec<TrueEye> {
        let population = Population::printed().unwrap();
        let mut random = generator(11, 0);
        let mut eyes = Vec::with_capacity(MANY);
        while eyes.len() < MANY {
            eyes.extend(population.draw(&mut random));
        }
        eyes
    }

    #[expect(clippy::cast_precision_loss, reason = "few eyes")]
    fn mean_and_deviation(values: &[f64]) -> [f64; 2] {
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let squares: f64 = values
            .iter()
            .map(|value| (value - mean) * (value - mean))
            .sum();
        [mean, (squares / (count - 1.0)).sqrt()]
    }

    /// Means and SDs as printed for 13,012 eyes; five standard errors of this many draws.
    #[test]
    fn margins_are_as_printed() {
        let eyes = drawn();
        let index = KeratometricIndex::STANDARD;
        let power = |radius| index.power(radius).d();
        let printed: [(Measure<'_>, f64, f64); 6] = [
            (&|eye| eye.axial_length.mm(), 23.87, 1.55),
            (&|eye| eye.chamber_depth.mm(), 3.25, 0.44),
            (&|eye| eye.lens_thickness.mm(), 4.32, 0.49),
            (&|eye| eye.corneal_diameter.mm(), 12.02, 0.46),
            (
                &|eye| f64::midpoint(power(eye.cornea.0), power(eye.cornea.1)),
                43.91,
                1.71,
            ),
            (&|eye| power(eye.cornea.1) - power(eye.cornea.0), 1.08, 0.84),
        ];
        for (measure, mean, deviation) in printed {
            let values: Vec<_> = eyes.iter().map(measure).collect();
            let [drawn_mean, drawn_deviation] = mean_and_deviation(&values);
            let error = deviation / 447.0;
            assert!(
                (drawn_mean - mean).abs() < 5.0 * error,
                "{mean}: {drawn_mean}"
            );
            assert!(
                (drawn_deviation - deviation).abs() < 8.0 * error,
                "{deviation}: {drawn_deviation}"
            );
        }
    }

    /// 46.8, 34.4 and 18.9 % of 100.1 %.
    #[test]
    fn meridians_fall_as_printed() {
        let eyes = drawn();
        #[expect(clippy::cast_precision_loss, reason = "few eyes")]
        let share = |test: &dyn Fn(f64) -> bool| {
            eyes.iter().filter(|eye| test(eye.steep_degrees)).count() as f64 / MANY as f64
        };
        let with_rule = share(&|degrees| (60.0..=120.0).contains(&degrees));
        let against = share(&|degrees| degrees <= 30.0 || 150.0 <= degrees);
        assert!((with_rule - 46.8 / 100.1).abs() < 0.006, "{with_rule}");
        assert!((against - 34.4 / 100.1).abs() < 0.006, "{against}");
        assert!(
            eyes.iter()
                .all(|eye| 0.0 <= eye.steep_degrees && eye.steep_degrees <= 180.0)
        );
    }

    #[test]
    fn correlations_that_leave_no_room_are_refused() {
        let mut population = Population::printed().unwrap();
        population.with_depth[2] = -1.0;
        assert_eq!(population.checked(), Err(PopulationError::Correlations));
    }
}
