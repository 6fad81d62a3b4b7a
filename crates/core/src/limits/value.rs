//! How each kind of limit is read and shown.

use crate::biometry::DepthStart;
use crate::quantity::{
    Diopters, HundredthDiopters, MeasureError, Micrometers, decimal, number_before_unit,
};

/// Why a file of limits cannot be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LimitError {
    /// The file is malformed, or an entry is unknown, missing or repeated.
    #[error("limits: {0}")]
    File(#[from] ron::error::SpannedError),
    #[error("limits: no limit is called {name}")]
    NoSuch { name: String },
    /// A value cannot be read.
    #[error("limits: {0}")]
    Value(#[from] MeasureError),
    /// A whole number with its unit was expected.
    #[error("limits: {name} \"{text}\" is not a whole number of {unit}")]
    Whole {
        name: &'static str,
        text: String,
        unit: &'static str,
    },
    /// A spread or a tolerance in diopters was expected.
    #[error("limits: {name} \"{text}\" is not a spread from 0.000 D to 10.000 D")]
    Spread { name: &'static str, text: String },
    /// No eye has it, or what is computed with it would be no number.
    #[error("limits: {name} \"{text}\" is outside {least} {unit} to {most} {unit}")]
    Range {
        name: &'static str,
        text: String,
        least: f64,
        most: f64,
        unit: &'static str,
    },
    /// Two limits that belong together stand the wrong way round.
    #[error("limits: {lower} is over {upper}")]
    Order {
        lower: &'static str,
        upper: &'static str,
    },
    #[error("limits: {name} \"{text}\" is neither \"{one}\" nor \"{other}\"")]
    Word {
        name: &'static str,
        text: String,
        one: &'static str,
        other: &'static str,
    },
}

/// What a limit that nobody set is written as.
pub const OFF: &str = "off";

/// Whether a set of rules is applied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Switch {
    On,
    Off,
}

/// What is known of a limit before it is read.
pub(super) struct Place {
    pub(super) name: &'static str,
    pub(super) unit: &'static str,
    /// Between which numbers it may lie, both included; nothing for a word.
    pub(super) range: &'static [[f64; 2]],
}

impl Place {
    fn within(&self, number: f64, text: &str) -> Result<(), LimitError> {
        match *self.range {
            [[least, most]] if !(least..=most).contains(&number) => Err(LimitError::Range {
                name: self.name,
                text: text.to_owned(),
                least,
                most,
                unit: self.unit,
            }),
            _ => Ok(()),
        }
    }
}

pub(super) trait LimitValue: Sized {
    /// What it may be, if it is a word.
    const WORDS: &'static [&'static str] = &[];

    fn read(text: &str, place: &Place) -> Result<Self, LimitError>;
    fn show(&self, unit: &'static str) -> String;
}

impl LimitValue for Micrometers {
    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        let limit = Self::parse(text, place.name, "\"2.80 mm\"")?;
        place.within(limit.millimeters().mm(), text)?;
        Ok(limit)
    }

    fn show(&self, _unit: &'static str) -> String {
        self.to_string()
    }
}

/// A limit that nobody need set.
impl LimitValue for Option<Micrometers> {
    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        if text == OFF {
            return Ok(None);
        }
        Micrometers::read(text, place).map(Some)
    }

    fn show(&self, unit: &'static str) -> String {
        self.map_or_else(|| OFF.to_owned(), |limit| limit.show(unit))
    }
}

impl LimitValue for HundredthDiopters {
    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        let limit = Self::parse(text, place.name)?;
        place.within(limit.diopters().d(), text)?;
        Ok(limit)
    }

    fn show(&self, _unit: &'static str) -> String {
        format!("{} D", decimal::write(self.hundredths(), 2, 2))
    }
}

/// A spread or a tolerance, which is never negative and may be finer than a hundredth.
impl LimitValue for Diopters {
    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        let thousandths = number_before_unit(text, "D")
            .and_then(|number| decimal::parse(number, 3).ok())
            .filter(|thousandths| (0..=10_000).contains(thousandths))
            .ok_or_else(|| LimitError::Spread {
                name: place.name,
                text: text.to_owned(),
            })?;
        let number = f64::from(thousandths) / 1000.0;
        place.within(number, text)?;
        Ok(Self::new(number))
    }

    fn show(&self, _unit: &'static str) -> String {
        format!("{:.3} D", self.d())
    }
}

impl LimitValue for i32 {
    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        let number = number_before_unit(text, place.unit)
            .and_then(|number| decimal::parse(number, 0).ok())
            .ok_or_else(|| LimitError::Whole {
                name: place.name,
                text: text.to_owned(),
                unit: place.unit,
            })?;
        place.within(f64::from(number), text)?;
        Ok(number)
    }

    fn show(&self, unit: &'static str) -> String {
        format!("{self} {unit}")
    }
}

impl LimitValue for Switch {
    const WORDS: &'static [&'static str] = &["on", "off"];

    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        match text {
            "on" => Ok(Self::On),
            "off" => Ok(Self::Off),
            _ => Err(LimitError::Word {
                name: place.name,
                text: text.to_owned(),
                one: "on",
                other: "off",
            }),
        }
    }

    fn show(&self, _unit: &'static str) -> String {
        match self {
            Self::On => "on".to_owned(),
            Self::Off => "off".to_owned(),
        }
    }
}

impl LimitValue for DepthStart {
    const WORDS: &'static [&'static str] = &["epithelium", "endothelium"];

    fn read(text: &str, place: &Place) -> Result<Self, LimitError> {
        let (one, other) = ("epithelium", "endothelium");
        match text {
            "epithelium" => Ok(Self::Epithelium),
            "endothelium" => Ok(Self::Endothelium),
            _ => Err(LimitError::Word {
                name: place.name,
                text: text.to_owned(),
                one,
                other,
            }),
        }
    }

    fn show(&self, _unit: &'static str) -> String {
        match self {
            Self::Epithelium => "epithelium".to_owned(),
            Self::Endothelium => "endothelium".to_owned(),
        }
    }
}
