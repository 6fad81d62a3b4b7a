//! How far each number may be off: the measurement's own spread, or the table's for its method.

use super::table::{self, Entry};
use super::{ErrorSource, SOURCES, depth_from};
use crate::biometry::{DepthStart, EyeRecord, Measured, Method};
use crate::evidence::{DUBBELMAN_2002, HOUSE, POPULATION_CHINA, Source, Standing};
use crate::limits::Limits;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};

/// One standard deviation, in the unit of what it is of, with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// One standard deviation: mm for a length, D for a power.
    pub deviation: f64,
    pub origin: Origin,
}

/// Where a spread comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    Measured,
    /// The table's, by this entry, which the clinic may have changed.
    Table {
        limit: &'static str,
        source: Source,
    },
    /// The table's, since the measurement came with a spread of zero, which no measurement has.
    InsteadOfZero {
        limit: &'static str,
        source: Source,
    },
    /// The tolerance of a label, read as so many standard deviations.
    Tolerance {
        /// Name of the limit that holds the tolerance.
        limit: &'static str,
        source: Source,
        /// Standard deviations in it; the reading is an assumption.
        deviations: i32,
    },
    /// Of a value that was not measured and taken as usual.
    OfUsualValue {
        source: Source,
    },
    /// What the scatter of the formula leaves after everything else.
    Calibrated,
    /// What the formula was found to be off by in such eyes.
    KnownTendency {
        source: Source,
    },
}

/// A spread that is not known.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize, thiserror::Error,
)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
#[error("{self:?}")]
pub enum NoSpread {
    /// The method has none in the table, and the measurement brought none.
    Method { what: ErrorSource, method: Method },
    /// A spread that cannot be.
    Negative { what: ErrorSource },
    /// The table gives no deviations for the tolerance of a label.
    Tolerance,
}

/// The spread of every source for one eye, as far as it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Spreads(pub(super) [Result<Spread, NoSpread>; SOURCES]);

/// A trace of sound gives depth and thickness with the spread of its length.
const fn as_the_length(length: Entry) -> Entry {
    Entry {
        source: Standing::Assumption.of(HOUSE, "depth and thickness by sound spread as the length"),
        ..length
    }
}

/// The entry for a length inside the eye, by its method.
pub(super) fn by_method(
    method: Method,
    optical: Entry,
    limits: &Limits,
    optical_value: Micrometers,
) -> Option<(Entry, Micrometers)> {
    match method {
        Method::Optical | Method::Tomographer => Some((optical, optical_value)),
        Method::ImmersionUltrasound => Some((
            as_the_length(table::LENGTH_IMMERSION),
            limits.spread_length_immersion,
        )),
        Method::ContactUltrasound => Some((
            as_the_length(table::LENGTH_CONTACT),
            limits.spread_length_contact,
        )),
        _ => None,
    }
}

/// The spread of a length that was measured: its own, or the table's.
pub(super) fn of_length<T>(
    what: ErrorSource,
    measured: &Measured<T>,
    table: Option<(Entry, Micrometers)>,
) -> Result<Spread, NoSpread> {
    let own = measured.spread.map(|spread| spread.millimeters().mm());
    let table = table.map(|(entry, value)| (entry, value.millimeters().mm()));
    resolve(what, measured.method, own, table)
}

fn resolve(
    what: ErrorSource,
    method: Method,
    own: Option<f64>,
    table: Option<(Entry, f64)>,
) -> Result<Spread, NoSpread> {
    match (own, table) {
        (Some(own), _) if own < 0.0 => Err(NoSpread::Negative { what }),
        (Some(own), _) if 0.0 < own => Ok(Spread {
            deviation: own,
            origin: Origin::Measured,
        }),
        (own, Some((Entry { limit, source, .. }, deviation))) => Ok(Spread {
            deviation,
            origin: match own {
                None => Origin::Table { limit, source },
                Some(_) => Origin::InsteadOfZero { limit, source },
            },
        }),
        (_, None) => Err(NoSpread::Method { what, method }),
    }
}

/// A spread straight from the table.
const fn tabulated(entry: Entry, deviation: f64) -> Spread {
    let Entry { limit, source, .. } = entry;
    Spread {
        deviation,
        origin: Origin::Table { limit, source },
    }
}

/// Nothing was measured, so no formula asks for it.
const UNUSED: Spread = Spread {
    deviation: 0.0,
    origin: Origin::Calibrated,
};

pub(super) fn corneal_thickness(
    eye: &EyeRecord,
    limits: &Limits,
) -> Option<Result<Spread, NoSpread>> {
    let measured = eye.corneal_thickness.as_ref()?;
    let table = Some((table::CORNEAL_THICKNESS, limits.spread_corneal_thickness));
    Some(of_length(ErrorSource::CornealThickness, measured, table))
}

fn mean_k(
    measured: &Measured<crate::biometry::Keratometry, HundredthDiopters>,
    limits: &Limits,
) -> Result<Spread, NoSpread> {
    let what = ErrorSource::CornealPower;
    let own = measured.spread.map(|spread| spread.diopters().d());
    let table = match measured.method {
        Method::Optical | Method::Keratometer | Method::Topographer | Method::Tomographer => {
            Some((table::MEAN_K, limits.spread_mean_k.d()))
        }
        _ => None,
    };
    resolve(what, measured.method, own, table)
}

impl Spreads {
    pub fn of(eye: &EyeRecord, limits: &Limits) -> Self {
        let unused = Ok(UNUSED);
        let length = eye.axial_length.as_ref().map(|measured| {
            let table = match measured.method {
                Method::Optical => Some((table::LENGTH_OPTICAL, limits.spread_length_optical)),
                Method::ImmersionUltrasound => {
                    Some((table::LENGTH_IMMERSION, limits.spread_length_immersion))
                }
                Method::ContactUltrasound => {
                    Some((table::LENGTH_CONTACT, limits.spread_length_contact))
                }
                _ => None,
            };
            of_length(ErrorSource::AxialLength, measured, table)
        });
        let lens_thickness = eye.lens_thickness.as_ref().map(|measured| {
            let optical = limits.spread_lens_thickness;
            let table = by_method(measured.method, table::LENS_THICKNESS, limits, optical);
            of_length(ErrorSource::LensThickness, measured, table)
        });
        let posterior = eye.posterior_radius.as_ref().map(|measured| {
            let table = Some((table::POSTERIOR_RADIUS, limits.spread_posterior_radius));
            of_length(ErrorSource::PosteriorRadius, measured, table)
        });
        let power = eye
            .keratometry
            .as_ref()
            .map(|measured| mean_k(measured, limits));
        Self(ErrorSource::ALL.map(|source| match source {
            ErrorSource::AxialLength => length.unwrap_or(unused),
            ErrorSource::CornealPower => power.unwrap_or(unused),
            ErrorSource::ChamberDepth => {
                depth_from(DepthStart::Epithelium, eye, limits).unwrap_or(unused)
            }
            ErrorSource::LensThickness => lens_thickness.unwrap_or(unused),
            ErrorSource::CornealThickness => {
                corneal_thickness(eye, limits).unwrap_or(Ok(usual_thickness()))
            }
            ErrorSource::PosteriorRadius => posterior.unwrap_or(Ok(usual_posterior(eye))),
            ErrorSource::Refraction => {
                Ok(tabulated(table::REFRACTION, limits.spread_refraction.d()))
            }
            // These come with the formula and the lens.
            ErrorSource::LensPosition
            | ErrorSource::OperatedCornea
            | ErrorSource::LabeledPower
            | ErrorSource::Unexplained
            | ErrorSource::Tendency => unused,
        }))
    }

    /// The spreads of usual optical biometry, as in the eyes the scatter was found in.
    pub fn usual(limits: &Limits) -> Self {
        let mm = |value: Micrometers| value.millimeters().mm();
        Self(ErrorSource::ALL.map(|source| {
            Ok(match source {
                ErrorSource::AxialLength => {
                    tabulated(table::LENGTH_OPTICAL, mm(limits.spread_length_optical))
                }
                ErrorSource::CornealPower => tabulated(table::MEAN_K, limits.spread_mean_k.d()),
                ErrorSource::ChamberDepth => {
                    tabulated(table::DEPTH, mm(limits.spread_chamber_depth))
                }
                ErrorSource::LensThickness => {
                    tabulated(table::LENS_THICKNESS, mm(limits.spread_lens_thickness))
                }
                ErrorSource::CornealThickness => tabulated(
                    table::CORNEAL_THICKNESS,
                    mm(limits.spread_corneal_thickness),
                ),
                ErrorSource::PosteriorRadius => {
                    tabulated(table::POSTERIOR_RADIUS, mm(limits.spread_posterior_radius))
                }
                ErrorSource::Refraction => {
                    tabulated(table::REFRACTION, limits.spread_refraction.d())
                }
                ErrorSource::LensPosition
                | ErrorSource::OperatedCornea
                | ErrorSource::LabeledPower
                | ErrorSource::Unexplained
                | ErrorSource::Tendency => UNUSED,
            })
        }))
    }

    pub fn get(&self, source: ErrorSource) -> Result<Spread, NoSpread> {
        self.0.get(source as usize).copied().unwrap_or(Ok(UNUSED))
    }

    #[must_use]
    pub(super) fn with_spread(mut self, source: ErrorSource, spread: Spread) -> Self {
        if let Some(slot) = self.0.get_mut(source as usize) {
            *slot = Ok(spread);
        }
        self
    }

    /// With a calibrated spread of one source.
    #[must_use]
    pub(super) fn with(self, source: ErrorSource, deviation: f64) -> Self {
        let origin = Origin::Calibrated;
        self.with_spread(source, Spread { deviation, origin })
    }
}

/// Thickness differs between eyes by 40 µm (printed).
const fn usual_thickness() -> Spread {
    Spread {
        deviation: 0.040,
        origin: Origin::OfUsualValue {
            source: Standing::Printed.of(POPULATION_CHINA, "corneal thickness 534 ± 40 µm"),
        },
    }
}

/// The ratio of the corneal radii differs between eyes by 0.02 (printed).
fn usual_posterior(eye: &EyeRecord) -> Spread {
    let radius_mm = eye
        .keratometry
        .as_ref()
        .map_or(0.0, |measured| measured.value.mean_radius().mm());
    Spread {
        deviation: 0.02 * radius_mm,
        origin: Origin::OfUsualValue {
            source: Standing::Printed.of(DUBBELMAN_2002, "ratio of the radii 0.81 ± 0.02"),
        },
    }
}

/// Spread of the true power of a lens labeled `power`.
pub fn labeled_power(power: HundredthDiopters, limits: &Limits) -> Result<Spread, NoSpread> {
    let (entry, tolerance): (_, Diopters) = match power.hundredths().abs() {
        0..=1_500 => (table::TOLERANCE_TO_15, limits.lens_tolerance_to_15),
        1_501..=2_500 => (table::TOLERANCE_TO_25, limits.lens_tolerance_to_25),
        2_501..=3_000 => (table::TOLERANCE_TO_30, limits.lens_tolerance_to_30),
        _ => (table::TOLERANCE_OVER_30, limits.lens_tolerance_over_30),
    };
    let deviations = limits.lens_tolerance_deviations;
    if deviations < 1 {
        return Err(NoSpread::Tolerance);
    }
    let Entry { limit, source, .. } = entry;
    Ok(Spread {
        deviation: tolerance.d() / f64::from(deviations),
        origin: Origin::Tolerance {
            limit,
            source,
            deviations,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::testing::ordinary_draft;

    /// By hand: 45 D at 1.3375 is 7.5 mm, and 0.02 of that is 0.15 mm.
    #[test]
    fn the_usual_back_spreads_with_the_front() {
        let mut draft = ordinary_draft();
        draft.set_keratometry("45.00 D at 1.3375", "45.00 D at 1.3375");
        let spread = usual_posterior(draft.operated());
        assert!((spread.deviation - 0.15).abs() < 1e-12, "{spread:?}");
    }
}
