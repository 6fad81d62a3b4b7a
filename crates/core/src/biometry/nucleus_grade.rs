//! Grade of the nucleus on a named scale. Grades are never converted between scales.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::quantity::{decimal, stored_as_text};

/// A grade with its scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum NucleusGrade {
    /// LOCS III nuclear opalescence (NO) and color (NC), tenths, 0.1 to 6.9.
    LocsIii {
        /// Nuclear opalescence, tenths.
        opalescence: LocsTenths,
        /// Nuclear color, tenths, if graded.
        #[serde(skip_serializing_if = "Option::is_none")]
        color: Option<LocsTenths>,
    },
    /// WHO simplified grading, 1 to 3.
    WhoSimplified(WhoGrade),
    /// Emery-Little, I to V.
    EmeryLittle(EmeryLittleGrade),
}

/// A number that is no grade of its scale.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{scale} grade {value} is outside {min} to {max}")]
pub struct NucleusGradeError {
    pub scale: &'static str,
    pub value: String,
    /// Lowest grade of the scale.
    pub min: &'static str,
    /// Highest grade of the scale.
    pub max: &'static str,
}

/// LOCS III decimal grade in tenths, 1 to 69.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LocsTenths(u8);

impl LocsTenths {
    /// Checks the range of the decimal scale.
    ///
    /// # Errors
    ///
    /// [`NucleusGradeError`] outside 0.1 to 6.9.
    pub fn new(tenths: i32) -> Result<Self, NucleusGradeError> {
        match u8::try_from(tenths) {
            Ok(tenths) if (1..=69).contains(&tenths) => Ok(Self(tenths)),
            _ => Err(NucleusGradeError {
                scale: "LOCS III",
                value: decimal::write(tenths, 1, 1),
                min: "0.1",
                max: "6.9",
            }),
        }
    }

    /// Tenths of a grade.
    pub const fn tenths(self) -> u8 {
        self.0
    }
}

impl fmt::Display for LocsTenths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&decimal::write(i32::from(self.0), 1, 1))
    }
}

impl FromStr for LocsTenths {
    type Err = NucleusGradeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match decimal::parse(text, 1) {
            Ok(tenths) => Self::new(tenths),
            Err(_) => Err(NucleusGradeError {
                scale: "LOCS III",
                value: format!("\"{text}\""),
                min: "0.1",
                max: "6.9",
            }),
        }
    }
}

// As text: tenths are exact.
stored_as_text!(LocsTenths);

macro_rules! whole_grade {
    ($(#[$doc:meta])* $name:ident, $scale:literal, $max:literal, $max_text:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(try_from = "u8", into = "u8")]
        pub struct $name(u8);

        impl TryFrom<u8> for $name {
            type Error = NucleusGradeError;

            fn try_from(grade: u8) -> Result<Self, Self::Error> {
                Self::new(grade)
            }
        }

        impl From<$name> for u8 {
            fn from(grade: $name) -> Self {
                grade.grade()
            }
        }

        impl $name {
            /// Checks the range of the scale.
            pub fn new(grade: u8) -> Result<Self, NucleusGradeError> {
                if (1..=$max).contains(&grade) {
                    return Ok(Self(grade));
                }
                Err(NucleusGradeError {
                    scale: $scale,
                    value: grade.to_string(),
                    min: "1",
                    max: $max_text,
                })
            }

            pub const fn grade(self) -> u8 {
                self.0
            }
        }
    };
}

whole_grade!(
    /// WHO simplified grade of nuclear cataract, 1 to 3.
    WhoGrade,
    "WHO simplified",
    3,
    "3"
);

whole_grade!(
    /// Emery-Little grade, 1 to 5, written I to V.
    EmeryLittleGrade,
    "Emery-Little",
    5,
    "5"
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grades_stay_on_their_scale() {
        assert!(LocsTenths::new(69).is_ok());
        assert_eq!(
            LocsTenths::new(70).unwrap_err().to_string(),
            "LOCS III grade 7.0 is outside 0.1 to 6.9"
        );
        assert!(LocsTenths::new(0).is_err());
        assert_eq!(
            WhoGrade::new(4).unwrap_err().to_string(),
            "WHO simplified grade 4 is outside 1 to 3"
        );
        assert!(EmeryLittleGrade::new(0).is_err());
        assert!(EmeryLittleGrade::new(5).is_ok() && EmeryLittleGrade::new(6).is_err());
    }
}
