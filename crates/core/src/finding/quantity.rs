//! One number with its unit.

use serde::{Deserialize, Serialize};

use crate::biometry::{ChamberDepth, CornealReading, DepthStart};
use crate::quantity::KeratometricIndex;
use crate::quantity::{HundredthDiopters, Micrometers};

/// A number with its kind and unit; equal ones are equal exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Quantity {
    #[serde(rename = "length_um")]
    Length(Micrometers),
    #[serde(rename = "thickness_um")]
    Thickness(Micrometers),
    /// An anterior chamber depth.
    Depth {
        #[serde(rename = "um")]
        depth: Micrometers,
        from: DepthStart,
    },
    /// A power or refraction, shown with its sign.
    #[serde(rename = "power_hundredths_d")]
    Power(HundredthDiopters),
    /// A corneal power, a difference or the size of a cylinder, which have no sign.
    #[serde(rename = "magnitude_hundredths_d")]
    Magnitude(HundredthDiopters),
    /// A corneal power with the index it was given by.
    PowerAt {
        /// As displayed by the instrument.
        #[serde(rename = "hundredths_d")]
        power: HundredthDiopters,
        index: KeratometricIndex,
    },
    /// Endothelial cells per square millimeter.
    #[serde(rename = "cells_per_mm2")]
    Density(i32),
    /// Repeated readings of an instrument.
    Readings(i32),
    Years(i32),
    Days(i32),
    Points(i32),
    Percent(i32),
    /// A computed chance, in tenths of a percent.
    #[serde(rename = "chance_tenths_percent")]
    Chance(i32),
}

impl From<CornealReading> for Quantity {
    fn from(reading: CornealReading) -> Self {
        match reading {
            CornealReading::Radius(radius) => Self::Length(radius.get()),
            CornealReading::Power { power, index } => Self::PowerAt { power, index },
        }
    }
}

impl From<ChamberDepth> for Quantity {
    fn from(ChamberDepth { depth, start }: ChamberDepth) -> Self {
        Self::Depth {
            depth: depth.get(),
            from: start,
        }
    }
}
