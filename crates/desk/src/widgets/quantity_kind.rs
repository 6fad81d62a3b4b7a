//! How each quantity is typed and shown in a field: its number, without the unit that stands beside.

use millrace_core::biometry::{
    AnteriorChamberDepth, AxialLength, CornealDiameter, CornealRadius, CornealThickness,
    EndothelialDensity, LensThickness, LocsTenths, PosteriorRadius, PupilDiameter,
};
use millrace_core::quantity::KeratometricIndex;
use millrace_core::quantity::{
    Direction, HundredthDiopters, Meridian, Micrometers, OutOfRange, decimal,
};

/// Reading, writing, unit and range of one quantity.
pub struct Kind<T: 'static> {
    /// Unit beside the field; empty where there is none.
    pub unit: &'static str,
    /// Other ways to write the unit, should somebody type it.
    pub typed_units: &'static [&'static str],
    /// What an instrument can report, as text with its unit.
    pub range: fn() -> String,
    /// Reads the number alone.
    pub read: fn(&str) -> Result<T, String>,
    /// Writes the number alone.
    pub write: fn(T) -> String,
}

impl<T> Kind<T> {
    /// Reads a number, with or without its unit.
    ///
    /// # Errors
    ///
    /// What is wrong, in the words of the core.
    pub fn parse(&self, text: &str) -> Result<T, String> {
        let text = text.trim();
        let units = self.typed_units.iter().chain(core::iter::once(&self.unit));
        let number = units
            .filter(|unit| !unit.is_empty())
            .find_map(|unit| text.strip_suffix(unit))
            .unwrap_or(text);
        (self.read)(number.trim_end())
    }

    /// Unit and range in one text.
    #[must_use]
    pub fn about(&self) -> String {
        (self.range)()
    }
}

fn scaled(text: &str, decimals: u8) -> Result<i32, String> {
    decimal::parse(text, decimals).map_err(|error| error.to_string())
}

#[expect(clippy::needless_pass_by_value, reason = "given to map_err")]
fn in_words(error: impl ToString) -> String {
    error.to_string()
}

fn micrometers(text: &str) -> Result<Micrometers, String> {
    scaled(text, 3).map(Micrometers::new)
}

fn write_mm(length: Micrometers) -> String {
    decimal::write(length.um(), 3, 2)
}

macro_rules! length_in_mm {
    ($(#[$doc:meta])* $name:ident: $type:ident) => {
        $(#[$doc])*
        pub const $name: Kind<$type> = Kind {
            unit: "mm",
            typed_units: &[],
            range: || between($type::MIN, $type::MAX),
            read: |text| $type::new(micrometers(text)?).map_err(in_words),
            write: |value| write_mm(value.get()),
        };
    };
}

/// "14.00 to 40.00 mm".
fn between(min: Micrometers, max: Micrometers) -> String {
    format!("{} to {max}", write_mm(min))
}

length_in_mm!(
    /// Axial length.
    AXIAL_LENGTH: AxialLength
);
length_in_mm!(
    /// Depth of the anterior chamber.
    CHAMBER_DEPTH: AnteriorChamberDepth
);
length_in_mm!(
    /// Lens thickness.
    LENS_THICKNESS: LensThickness
);
length_in_mm!(
    /// Corneal diameter.
    CORNEAL_DIAMETER: CornealDiameter
);
length_in_mm!(
    /// Back radius of the cornea.
    POSTERIOR_RADIUS: PosteriorRadius
);
length_in_mm!(
    /// Front radius of the cornea.
    CORNEAL_RADIUS: CornealRadius
);
length_in_mm!(
    /// Dilated pupil.
    PUPIL: PupilDiameter
);

/// Corneal thickness, in micrometers as the trade does.
pub const CORNEAL_THICKNESS: Kind<CornealThickness> = Kind {
    unit: "µm",
    typed_units: &["μm", "um"],
    range: || {
        let [min, max] = [CornealThickness::MIN, CornealThickness::MAX].map(Micrometers::um);
        format!("{min} to {max} µm")
    },
    read: |text| CornealThickness::new(Micrometers::new(scaled(text, 0)?)).map_err(in_words),
    write: |value| value.get().um().to_string(),
};

/// Endothelial cell density.
pub const ENDOTHELIUM: Kind<EndothelialDensity> = Kind {
    unit: "/mm²",
    typed_units: &["cells/mm²", "cells/mm2", "/mm2"],
    range: || "100 to 6000 cells/mm²".to_owned(),
    read: |text| EndothelialDensity::new(scaled(text, 0)?).map_err(in_words),
    write: |value| value.per_mm2().to_string(),
};

/// A meridian.
pub const MERIDIAN: Kind<Meridian> = Kind {
    unit: "°",
    typed_units: &[],
    range: || "1 to 180°".to_owned(),
    read: |text| Meridian::parse(text).map_err(in_words),
    write: |value| value.degrees().to_string(),
};

/// A direction on the eye.
pub const DIRECTION: Kind<Direction> = Kind {
    unit: "°",
    typed_units: &[],
    range: || "1 to 360°".to_owned(),
    read: |text| {
        let degrees = scaled(text, 0)?;
        let whole = u16::try_from(degrees)
            .map_err(|_| format!("direction {degrees}° is outside 1° to 360°"))?;
        Direction::new(whole).map_err(in_words)
    },
    write: |value| value.degrees().to_string(),
};

/// A keratometric index.
pub const INDEX: Kind<KeratometricIndex> = Kind {
    unit: "",
    typed_units: &[],
    range: || "1.3000 to 1.4000".to_owned(),
    read: |text| KeratometricIndex::parse(text).map_err(in_words),
    write: |value| value.to_string(),
};

/// A LOCS III grade.
pub const LOCS_GRADE: Kind<LocsTenths> = Kind {
    unit: "",
    typed_units: &[],
    range: || "0.1 to 6.9".to_owned(),
    read: |text| LocsTenths::new(scaled(text, 1)?).map_err(in_words),
    write: |value| value.to_string(),
};

/// A power or refraction with its sign.
pub const POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: || "\u{2212}100.00 to +100.00 D".to_owned(),
    read: |text| {
        let power = HundredthDiopters::new(scaled(text, 2)?);
        let limits = [-10_000, 10_000].map(HundredthDiopters::new);
        inside("power", power, limits)
    },
    write: |value| {
        let sign = if value.hundredths() < 0 { "" } else { "+" };
        format!("{sign}{}", decimal::write(value.hundredths(), 2, 2))
    },
};

/// A corneal power, or a difference of powers: without a sign.
pub const UNSIGNED_POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: || "0.00 to 100.00 D".to_owned(),
    read: |text| {
        let power = HundredthDiopters::new(scaled(text, 2)?);
        let limits = [0, 10_000].map(HundredthDiopters::new);
        inside("power", power, limits)
    },
    write: |value| decimal::write(value.hundredths(), 2, 2),
};

/// A corneal power; what it can be depends on its index and is checked with it.
pub const CORNEAL_POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: || "radius 5.00 to 13.00 mm".to_owned(),
    read: |text| scaled(text, 2).map(HundredthDiopters::new),
    write: |value| decimal::write(value.hundredths(), 2, 2),
};

/// A length of something that has no type of its own, or a spread.
pub const LENGTH: Kind<Micrometers> = Kind {
    unit: "mm",
    typed_units: &[],
    range: || "0.00 to 100.00 mm".to_owned(),
    read: |text| {
        let length = micrometers(text)?;
        inside("length", length, [0, 100_000].map(Micrometers::new))
    },
    write: write_mm,
};

/// A count, 1 to 99.
pub const COUNT: Kind<u8> = Kind {
    unit: "",
    typed_units: &[],
    range: || "1 to 99".to_owned(),
    read: |text| match u8::try_from(scaled(text, 0)?) {
        Ok(count) if (1..=99).contains(&count) => Ok(count),
        _ => Err(format!("{text} is outside 1 to 99")),
    },
    write: |value| value.to_string(),
};

fn inside<T: PartialOrd + core::fmt::Display + Copy>(
    quantity: &'static str,
    value: T,
    [low, high]: [T; 2],
) -> Result<T, String> {
    if low <= value && value <= high {
        return Ok(value);
    }
    Err(OutOfRange::new(quantity, value, [low, high]).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn point_comma_and_unit_read_the_same_and_nothing_is_rounded() {
        for text in ["23.5", "23,5", "23.50 mm", "23,5mm"] {
            let length = AXIAL_LENGTH.parse(text).unwrap();
            assert_eq!(length.get(), Micrometers::new(23_500), "{text}");
        }
        assert_eq!(
            AXIAL_LENGTH.parse("23.4567").unwrap_err(),
            "\"23.4567\" has more than 3 decimals"
        );
        assert_eq!(
            AXIAL_LENGTH.parse("2.35").unwrap_err(),
            "axial length 2.35 mm is outside 14.00 mm to 40.00 mm"
        );
        assert_eq!(
            CORNEAL_THICKNESS.parse("0.54").unwrap_err(),
            "\"0.54\" is not a whole number, written without point or comma"
        );
        assert_eq!(CORNEAL_THICKNESS.parse("540 um").unwrap().get().um(), 540);
    }

    #[test]
    fn a_power_is_written_with_its_sign_and_a_real_minus() {
        let power = |text| (POWER.write)(POWER.parse(text).unwrap());
        assert_eq!(power("-0,25"), "\u{2212}0.25");
        assert_eq!(power("\u{2212}0.25 D"), "\u{2212}0.25");
        assert_eq!(power("21.5"), "+21.50");
        assert_eq!(power("0"), "+0.00");
        assert_eq!(
            UNSIGNED_POWER.parse("-43").unwrap_err(),
            "power \u{2212}43.00 D is outside +0.00 D to +100.00 D"
        );
    }

    #[test]
    fn what_is_shown_reads_back() {
        let length = AXIAL_LENGTH.parse("23.456").unwrap();
        let shown = (AXIAL_LENGTH.write)(length);
        assert_eq!(AXIAL_LENGTH.parse(&shown), Ok(length));
        let direction = DIRECTION.parse("360").unwrap();
        assert_eq!((DIRECTION.write)(direction), "360");
        assert_eq!(
            DIRECTION.parse("-1").unwrap_err(),
            "direction -1° is outside 1° to 360°"
        );
        assert_eq!((LOCS_GRADE.write)(LOCS_GRADE.parse("5,8").unwrap()), "5.8");
        assert_eq!((INDEX.write)(INDEX.parse("1,3375").unwrap()), "1.3375");
    }
}
