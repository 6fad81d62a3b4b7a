//! The table of measurements: each once, with its place in the record of an eye and the methods that
//! give it. Fields, rows, columns and commands follow from it, in its order.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::{TryFromInto, serde_as, skip_serializing_none};

use super::flat::{FlatDepth, FlatKeratometry, FlatPosteriorAstigmatism};
use super::{
    AxialLength, ChamberDepth, CornealDiameter, CornealThickness, EarlierOperation,
    EndothelialDensity, EyeState, Keratometry, LensThickness, Measured, Method, NoSpread,
    PosteriorAstigmatism, PosteriorRadius, PupilDiameter,
};
use crate::quantity::{HundredthDiopters, Micrometers};

/// The measurements and the state of one eye.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EyeRecord {
    /// Axial length.
    pub axial_length: Option<Measured<AxialLength>>,
    /// Keratometry; its spread is of the mean power.
    #[serde_as(as = "Option<TryFromInto<FlatKeratometry>>")]
    pub keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Keratometry by another method, to compare; no formula takes it.
    #[serde_as(as = "Option<TryFromInto<FlatKeratometry>>")]
    pub second_keratometry: Option<Measured<Keratometry, HundredthDiopters>>,
    /// Anterior chamber depth with the surface it starts from.
    #[serde(rename = "anterior_chamber_depth")]
    #[serde_as(as = "Option<TryFromInto<FlatDepth>>")]
    pub chamber_depth: Option<Measured<ChamberDepth>>,
    /// Lens thickness.
    pub lens_thickness: Option<Measured<LensThickness>>,
    /// Corneal thickness.
    pub corneal_thickness: Option<Measured<CornealThickness>>,
    /// Corneal diameter.
    pub corneal_diameter: Option<Measured<CornealDiameter>>,
    /// Dilated pupil.
    pub pupil: Option<Measured<PupilDiameter>>,
    /// Mean radius of the back of the cornea.
    pub posterior_radius: Option<Measured<PosteriorRadius>>,
    /// Astigmatism of the back of the cornea; its spread is of each double-angle component.
    #[serde_as(as = "Option<TryFromInto<FlatPosteriorAstigmatism>>")]
    pub posterior_astigmatism: Option<Measured<PosteriorAstigmatism, HundredthDiopters>>,
    /// Endothelial cell density.
    pub endothelium: Option<Measured<EndothelialDensity, NoSpread>>,
    /// What was seen.
    #[serde(default, skip_serializing_if = "EyeState::is_blank")]
    pub state: EyeState,
    /// An earlier cataract operation on this eye and its result.
    pub earlier_operation: Option<EarlierOperation>,
}

/// The place of one measurement in the record of an eye, with its types.
pub struct Slot<T: 'static, S: 'static = Micrometers> {
    /// Which measurement.
    pub item: Item,
    /// What the record holds of it.
    pub of: fn(&EyeRecord) -> Option<&Measured<T, S>>,
    /// The measurement to set or to clear.
    pub set: fn(Option<Measured<T, S>>) -> Measurement,
}

/// What was measured, whichever measurement it is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value<'a> {
    /// A length, shown in mm.
    Length(Micrometers),
    /// A thickness, shown in µm.
    Thickness(Micrometers),
    /// A depth with its surface.
    Depth(ChamberDepth),
    /// Two meridians.
    Keratometry(&'a Keratometry),
    /// Size and meridian.
    Astigmatism(PosteriorAstigmatism),
    /// A density of cells.
    Density(EndothelialDensity),
}

/// A spread, in the unit of what was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// Of a length.
    Length(Micrometers),
    /// Of a power.
    Power(HundredthDiopters),
}

/// One measurement as every view shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recorded<'a> {
    /// The value.
    pub value: Value<'a>,
    /// How it was measured.
    pub method: Method,
    /// Standard deviation of repeated measurement, if reported.
    pub spread: Option<Spread>,
    /// The day.
    pub on: Option<NaiveDate>,
    /// Who measured.
    pub by: Option<&'a str>,
}

/// A measurement that `tabulate` takes in one column.
pub trait Tabulated {
    /// Its header.
    const COLUMN: &'static str;
}

/// A type that can be the value of a measurement.
pub(super) trait AsValue {
    fn value(&self) -> Value<'_>;
}

/// A type that can be its spread.
trait AsSpread {
    fn spread(&self) -> Spread;
}

macro_rules! measurements {
    ($($(#[$doc:meta])* $item:ident $(as $stored:literal)?: $value:ty, $spread:ty, $field:ident,
       $slot:ident, [$($method:ident),*] $(, $column:literal)?;)*) => {
        /// A measurement of an eye.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
        )]
        #[serde(rename_all = "snake_case")]
        pub enum Item {
            $($(#[$doc])* $(#[serde(rename = $stored)])? $item,)*
        }

        /// A measurement to set; `None` clears it.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Measurement {
            $($(#[$doc])* $item(Option<Measured<$value, $spread>>),)*
        }

        impl Item {
            /// Every measurement, in the order of every view.
            pub const ALL: &'static [Self] = &[$(Self::$item),*];

            /// The methods that give it, the usual one first.
            pub const fn methods(self) -> &'static [Method] {
                match self {
                    $(Self::$item => &[$(Method::$method),*],)*
                }
            }

            /// What was recorded of it.
            pub fn of(self, eye: &EyeRecord) -> Option<Recorded<'_>> {
                match self {
                    $(Self::$item => eye.$field.as_ref().map(recorded),)*
                }
            }
        }

        impl Measurement {
            /// Which measurement it is of.
            pub const fn item(&self) -> Item {
                match self {
                    $(Self::$item(_) => Item::$item,)*
                }
            }

            /// Sets it, or clears it.
            pub(crate) fn set(self, eye: &mut EyeRecord) {
                match self {
                    $(Self::$item(value) => eye.$field = value,)*
                }
            }
        }

        $(
            $(#[$doc])*
            pub const $slot: Slot<$value, $spread> = Slot {
                item: Item::$item,
                of: |eye| eye.$field.as_ref(),
                set: Measurement::$item,
            };

            $(impl Tabulated for $value {
                const COLUMN: &'static str = $column;
            })?
        )*
    };
}

measurements! {
    /// Axial length.
    AxialLength: AxialLength, Micrometers, axial_length, AXIAL_LENGTH,
        [Optical, ImmersionUltrasound, ContactUltrasound], "axial_length_mm";
    /// Keratometry; its spread is of the mean power.
    Keratometry: Keratometry, HundredthDiopters, keratometry, KERATOMETRY,
        [Optical, Keratometer, Topographer, Tomographer, Manual];
    /// Keratometry by another method, to compare.
    SecondKeratometry: Keratometry, HundredthDiopters, second_keratometry, SECOND_KERATOMETRY,
        [Optical, Keratometer, Topographer, Tomographer, Manual];
    /// Anterior chamber depth with the surface it starts from.
    ChamberDepth as "anterior_chamber_depth": ChamberDepth, Micrometers, chamber_depth, CHAMBER_DEPTH,
        [Optical, Tomographer, ImmersionUltrasound, ContactUltrasound, Manual], "acd_mm";
    /// Lens thickness.
    LensThickness: LensThickness, Micrometers, lens_thickness, LENS_THICKNESS,
        [Optical, ImmersionUltrasound, ContactUltrasound], "lens_thickness_mm";
    /// Corneal thickness.
    CornealThickness: CornealThickness, Micrometers, corneal_thickness, CORNEAL_THICKNESS,
        [Optical, Pachymeter, Tomographer], "cct_um";
    /// Corneal diameter, white to white.
    CornealDiameter: CornealDiameter, Micrometers, corneal_diameter, CORNEAL_DIAMETER,
        [Optical, Topographer, Tomographer, Manual];
    /// Mean radius of the posterior cornea.
    PosteriorRadius: PosteriorRadius, Micrometers, posterior_radius, POSTERIOR_RADIUS,
        [Tomographer, Optical];
    /// Astigmatism of the posterior cornea; its spread is of each double-angle component.
    PosteriorAstigmatism: PosteriorAstigmatism, HundredthDiopters, posterior_astigmatism,
        POSTERIOR_ASTIGMATISM, [Tomographer, Optical];
    /// Dilated pupil.
    Pupil: PupilDiameter, Micrometers, pupil, PUPIL, [Optical, Topographer, Tomographer, Manual];
    /// Endothelial cell density; instruments report no spread.
    Endothelium: EndothelialDensity, NoSpread, endothelium, ENDOTHELIUM,
        [SpecularMicroscope, Manual];
}

fn recorded<T: AsValue, S: AsSpread>(measured: &Measured<T, S>) -> Recorded<'_> {
    Recorded {
        value: measured.value.value(),
        method: measured.method,
        spread: measured.spread.as_ref().map(AsSpread::spread),
        on: measured.on,
        by: measured.by.as_deref(),
    }
}

impl AsValue for CornealThickness {
    fn value(&self) -> Value<'_> {
        Value::Thickness(self.get())
    }
}

impl AsValue for ChamberDepth {
    fn value(&self) -> Value<'_> {
        Value::Depth(*self)
    }
}

impl AsValue for Keratometry {
    fn value(&self) -> Value<'_> {
        Value::Keratometry(self)
    }
}

impl AsValue for PosteriorAstigmatism {
    fn value(&self) -> Value<'_> {
        Value::Astigmatism(*self)
    }
}

impl AsValue for EndothelialDensity {
    fn value(&self) -> Value<'_> {
        Value::Density(*self)
    }
}

impl AsSpread for Micrometers {
    fn spread(&self) -> Spread {
        Spread::Length(*self)
    }
}

impl AsSpread for HundredthDiopters {
    fn spread(&self) -> Spread {
        Spread::Power(*self)
    }
}

impl AsSpread for NoSpread {
    fn spread(&self) -> Spread {
        match *self {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever is set under one name is found under it and nowhere else.
    #[test]
    fn a_measurement_is_read_where_it_was_set() {
        let measured = Measured {
            value: "4.60 mm".parse().unwrap(),
            method: Method::Optical,
            spread: None,
            on: None,
            by: Some("T. Lindqvist".to_owned()),
        };
        let mut eye = EyeRecord::default();
        let measurement = (LENS_THICKNESS.set)(Some(measured.clone()));
        assert_eq!(measurement.item(), Item::LensThickness);
        measurement.set(&mut eye);
        assert_eq!((LENS_THICKNESS.of)(&eye), Some(&measured));
        for item in Item::ALL {
            let found = item.of(&eye);
            assert_eq!(found.is_some(), *item == Item::LensThickness, "{item:?}");
        }
        let found = Item::LensThickness.of(&eye).unwrap();
        assert_eq!(found.value, Value::Length(Micrometers::new(4_600)));
        assert_eq!(
            (found.by, found.method),
            (Some("T. Lindqvist"), Method::Optical)
        );
        Measurement::LensThickness(None).set(&mut eye);
        assert!(eye.is_blank());
    }

    #[test]
    fn every_measurement_has_a_method_and_none_twice() {
        for item in Item::ALL {
            let methods = item.methods();
            assert!(!methods.is_empty(), "{item:?}");
            for (index, method) in methods.iter().enumerate() {
                assert!(!methods[..index].contains(method), "{item:?}: {method:?}");
            }
        }
        // Every method gives something.
        for method in Method::ALL {
            assert!(
                Item::ALL
                    .iter()
                    .any(|item| item.methods().contains(&method)),
                "{method:?}"
            );
        }
    }
}
