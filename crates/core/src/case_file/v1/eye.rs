//! Measurements of one eye, as stored.

use core::convert::Infallible;
use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Serialize};

use super::lens_plan::Formula;
use super::mirror::mirror;
use super::posterior::PosteriorAstigmatism;
use super::state::State;
use super::text::Text;
use crate::biometry::{
    self, AnteriorChamberDepth, AxialLength, ChamberDepth, CornealDiameter, CornealReading,
    CornealThickness, EarlierOperation, EndothelialDensity, EyeRecord, LensThickness, Measured,
    MeridianReading, PosteriorRadius, PupilDiameter,
};
use crate::calendar::Day;
use crate::case_file::CaseFileError;
use crate::case_file::error::ContentError;
use crate::quantity::{HundredthDiopters, Meridian, Micrometers};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Eye {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    axial_length: Option<Measurement<Text<AxialLength>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    keratometry: Option<Keratometry>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second_keratometry: Option<Keratometry>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    anterior_chamber_depth: Option<Depth>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lens_thickness: Option<Measurement<Text<LensThickness>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corneal_thickness: Option<Measurement<Text<CornealThickness>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corneal_diameter: Option<Measurement<Text<CornealDiameter>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pupil: Option<Measurement<Text<PupilDiameter>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    posterior_radius: Option<Measurement<Text<PosteriorRadius>>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    posterior_astigmatism: Option<PosteriorAstigmatism>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    endothelium: Option<Count>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    state: Option<State>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    earlier_operation: Option<Earlier>,
}

mirror!(
    Method = biometry::Method {
        Optical,
        ImmersionUltrasound,
        ContactUltrasound,
        Keratometer,
        Topographer,
        Tomographer,
        SpecularMicroscope,
        Pachymeter,
        Manual,
    }
);

/// A length with its circumstances.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Measurement<T> {
    value: T,
    method: Method,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spread: Option<Text<Micrometers>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl<T: Copy + fmt::Display + FromStr> Measurement<Text<T>> {
    fn from_domain(measured: &Measured<T>) -> Self {
        Self {
            value: Text(measured.value),
            method: measured.method.into(),
            spread: measured.spread.map(Text),
            on: measured.on.map(Day),
            by: measured.by.clone(),
        }
    }

    fn into_domain(self) -> Measured<T> {
        Measured {
            value: self.value.0,
            method: self.method.into(),
            spread: self.spread.map(|spread| spread.0),
            on: self.on.map(|day| day.0),
            by: self.by,
        }
    }
}

/// A cell density with its circumstances; instruments give it no spread.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Count {
    value: Text<EndothelialDensity>,
    method: Method,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl Count {
    fn from_domain(measured: &Measured<EndothelialDensity, Infallible>) -> Self {
        Self {
            value: Text(measured.value),
            method: measured.method.into(),
            on: measured.on.map(Day),
            by: measured.by.clone(),
        }
    }

    fn into_domain(self) -> Measured<EndothelialDensity, Infallible> {
        let Self {
            value,
            method,
            on,
            by,
        } = self;
        Measured {
            value: value.0,
            method: method.into(),
            spread: None,
            on: on.map(|day| day.0),
            by,
        }
    }
}

mirror!(
    DepthStart = biometry::DepthStart {
        Epithelium,
        Endothelium
    }
);

/// A chamber depth: it must say where it starts.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Depth {
    value: Text<AnteriorChamberDepth>,
    from: DepthStart,
    method: Method,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spread: Option<Text<Micrometers>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl Depth {
    fn from_domain(measured: &Measured<ChamberDepth>) -> Self {
        Self {
            value: Text(measured.value.depth),
            from: measured.value.start.into(),
            method: measured.method.into(),
            spread: measured.spread.map(Text),
            on: measured.on.map(Day),
            by: measured.by.clone(),
        }
    }

    fn into_domain(self) -> Measured<ChamberDepth> {
        Measured {
            value: ChamberDepth {
                depth: self.value.0,
                start: self.from.into(),
            },
            method: self.method.into(),
            spread: self.spread.map(|spread| spread.0),
            on: self.on.map(|day| day.0),
            by: self.by,
        }
    }
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Reading {
    reading: Text<CornealReading>,
    meridian: u16,
}

impl Reading {
    pub(super) fn from_domain(reading: MeridianReading) -> Self {
        Self {
            reading: Text(reading.reading),
            meridian: reading.meridian.degrees(),
        }
    }

    pub(super) fn into_domain(self) -> Result<MeridianReading, ContentError> {
        Ok(MeridianReading {
            reading: self.reading.0,
            meridian: Meridian::new(self.meridian)?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Keratometry {
    flat: Reading,
    steep: Reading,
    method: Method,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    readings: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    repeat_difference: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spread: Option<Text<HundredthDiopters>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    on: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl Keratometry {
    fn from_domain(measured: &Measured<biometry::Keratometry, HundredthDiopters>) -> Self {
        let value = &measured.value;
        Self {
            flat: Reading::from_domain(value.flat),
            steep: Reading::from_domain(value.steep),
            method: measured.method.into(),
            readings: value.readings,
            repeat_difference: value.repeat_difference.map(Text),
            spread: measured.spread.map(Text),
            on: measured.on.map(Day),
            by: measured.by.clone(),
        }
    }

    fn into_domain(
        self,
    ) -> Result<Measured<biometry::Keratometry, HundredthDiopters>, ContentError> {
        let (flat, steep) = (self.flat.into_domain()?, self.steep.into_domain()?);
        let [flat_radius, steep_radius] = [flat, steep].map(|at| at.reading.radius());
        if flat_radius < steep_radius {
            return Err(ContentError::FlatIsSteep {
                flat: flat.reading.to_string(),
                steep: steep.reading.to_string(),
            });
        }
        Ok(Measured {
            value: biometry::Keratometry {
                flat,
                steep,
                readings: self.readings,
                repeat_difference: self.repeat_difference.map(|difference| difference.0),
            },
            method: self.method.into(),
            spread: self.spread.map(|spread| spread.0),
            on: self.on.map(|day| day.0),
            by: self.by,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Earlier {
    lens_power: Text<HundredthDiopters>,
    predicted: Text<HundredthDiopters>,
    achieved: Text<HundredthDiopters>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    formula: Option<Formula>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    complicated: Option<bool>,
}

impl Eye {
    pub(super) fn from_domain(eye: &EyeRecord) -> Option<Self> {
        if eye.is_blank() {
            return None;
        }
        Some(Self {
            axial_length: eye.axial_length.as_ref().map(Measurement::from_domain),
            keratometry: eye.keratometry.as_ref().map(Keratometry::from_domain),
            second_keratometry: eye
                .second_keratometry
                .as_ref()
                .map(Keratometry::from_domain),
            anterior_chamber_depth: eye.chamber_depth.as_ref().map(Depth::from_domain),
            lens_thickness: eye.lens_thickness.as_ref().map(Measurement::from_domain),
            corneal_thickness: eye.corneal_thickness.as_ref().map(Measurement::from_domain),
            corneal_diameter: eye.corneal_diameter.as_ref().map(Measurement::from_domain),
            pupil: eye.pupil.as_ref().map(Measurement::from_domain),
            posterior_radius: eye.posterior_radius.as_ref().map(Measurement::from_domain),
            posterior_astigmatism: eye
                .posterior_astigmatism
                .as_ref()
                .map(PosteriorAstigmatism::from_domain),
            endothelium: eye.endothelium.as_ref().map(Count::from_domain),
            state: State::from_domain(&eye.state),
            earlier_operation: eye.earlier_operation.map(|earlier| Earlier {
                lens_power: Text(earlier.lens_power),
                predicted: Text(earlier.predicted),
                achieved: Text(earlier.achieved),
                formula: earlier.formula.map(Into::into),
                complicated: earlier.complicated,
            }),
        })
    }

    pub(super) fn into_domain(self, place: &'static str) -> Result<EyeRecord, CaseFileError> {
        let at = CaseFileError::at(place);
        Ok(EyeRecord {
            axial_length: self.axial_length.map(Measurement::into_domain),
            keratometry: self
                .keratometry
                .map(Keratometry::into_domain)
                .transpose()
                .map_err(&at)?,
            second_keratometry: self
                .second_keratometry
                .map(Keratometry::into_domain)
                .transpose()
                .map_err(&at)?,
            chamber_depth: self.anterior_chamber_depth.map(Depth::into_domain),
            lens_thickness: self.lens_thickness.map(Measurement::into_domain),
            corneal_thickness: self.corneal_thickness.map(Measurement::into_domain),
            corneal_diameter: self.corneal_diameter.map(Measurement::into_domain),
            pupil: self.pupil.map(Measurement::into_domain),
            posterior_radius: self.posterior_radius.map(Measurement::into_domain),
            posterior_astigmatism: self
                .posterior_astigmatism
                .map(PosteriorAstigmatism::into_domain)
                .transpose()
                .map_err(&at)?,
            endothelium: self.endothelium.map(Count::into_domain),
            state: self
                .state
                .map(State::into_domain)
                .transpose()
                .map_err(&at)?
                .unwrap_or_default(),
            earlier_operation: self.earlier_operation.map(|earlier| EarlierOperation {
                lens_power: earlier.lens_power.0,
                predicted: earlier.predicted.0,
                achieved: earlier.achieved.0,
                formula: earlier.formula.map(Into::into),
                complicated: earlier.complicated,
            }),
        })
    }
}
