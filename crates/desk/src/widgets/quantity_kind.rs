//! How each quantity is typed and shown in a field: its number, without the unit that stands beside.

use millrace_core::biometry::{
    AnteriorChamberDepth, AxialLength, CornealRadius, CornealThickness, EndothelialDensity,
    LensThickness, LocsTenths, MeasuredLength, PosteriorAstigmatism,
};
use millrace_core::quantity::KeratometricIndex;
use millrace_core::quantity::{Direction, HundredthDiopters, Meridian, Micrometers, decimal};
use millrace_wording::desk::widgets as say;
use millrace_wording::{Show, Words, entry, quantity};

/// Reading, writing, unit and range of one quantity.
pub struct Kind<T: 'static> {
    /// Unit beside the field; empty where there is none.
    pub unit: &'static str,
    /// Other ways to write the unit, should somebody type it.
    pub typed_units: &'static [&'static str],
    /// What an instrument can report, as text with its unit.
    pub range: fn(Words) -> String,
    /// Reads the number alone, or tells what is wrong with it.
    pub read: fn(&str, Words) -> Result<T, String>,
    pub write: fn(T, Words) -> String,
}

impl<T> Kind<T> {
    /// Reads a number, with or without its unit; with another one it is another quantity.
    pub fn parse(&self, text: &str, words: Words) -> Result<T, String> {
        let text = text.trim();
        let own = self.typed_units.iter().chain(core::iter::once(&self.unit));
        let mut own = own.filter(|unit| !unit.is_empty());
        if let Some(number) = own.find_map(|unit| text.strip_suffix(unit)) {
            return (self.read)(number.trim_end(), words);
        }
        let read = (self.read)(text, words);
        let is_number_with_unit = text.starts_with(|first: char| !first.is_alphabetic())
            && UNITS.iter().any(|unit| text.ends_with(unit));
        match read {
            Err(_) if is_number_with_unit && self.unit.is_empty() => {
                Err(say::has_no_unit(words, text))
            }
            Err(_) if is_number_with_unit => Err(say::wrong_unit(words, text, self.unit)),
            read => read,
        }
    }
}

/// Units that stand in a printout, as they are written there.
const UNITS: [&str; 12] = [
    "mm", "cm", "µm", "μm", "um", "D", "dpt", "°", "mm²", "mm2", "mmHg", "%",
];

/// Reads a whole number of 10^−`decimals`.
pub fn scaled(text: &str, decimals: u8, words: Words) -> Result<i32, String> {
    decimal::parse(text, decimals).map_err(in_words(words))
}

pub fn in_words<E: Show>(words: Words) -> impl Fn(E) -> String {
    move |error| error.show(words).into_owned()
}

fn micrometers(text: &str, words: Words) -> Result<Micrometers, String> {
    scaled(text, 3, words).map(Micrometers::new)
}

fn write_mm(length: Micrometers, words: Words) -> String {
    words.exact(length.um(), 3, 2)
}

impl<T: MeasuredLength> Kind<T> {
    /// A measured length, in millimeters.
    pub const LENGTH: Self = Self {
        unit: "mm",
        typed_units: &[],
        range: |words| between(T::SMALLEST, T::LARGEST, words),
        read: |text, words| T::checked(micrometers(text, words)?).map_err(in_words(words)),
        write: |value, words| write_mm(value.length(), words),
    };
}

/// "14.00 to 40.00 mm".
pub fn between(min: Micrometers, max: Micrometers, words: Words) -> String {
    say::range(words, write_mm(min, words), max)
}

pub const AXIAL_LENGTH: Kind<AxialLength> = Kind::LENGTH;
pub const CHAMBER_DEPTH: Kind<AnteriorChamberDepth> = Kind::LENGTH;
pub const LENS_THICKNESS: Kind<LensThickness> = Kind::LENGTH;
/// Front radius of the cornea.
pub const CORNEAL_RADIUS: Kind<CornealRadius> = Kind::LENGTH;

/// Corneal thickness, in micrometers as the trade does.
pub const CORNEAL_THICKNESS: Kind<CornealThickness> = Kind {
    unit: "µm",
    typed_units: &["μm", "um"],
    range: |words| {
        let max = quantity::thickness(words, CornealThickness::MAX);
        say::range(words, CornealThickness::MIN.um(), max)
    },
    read: |text, words| {
        let length = Micrometers::new(scaled(text, 0, words)?);
        CornealThickness::new(length).map_err(in_words(words))
    },
    write: |value, _| value.get().um().to_string(),
};

pub const ENDOTHELIUM: Kind<EndothelialDensity> = Kind {
    unit: "/mm²",
    typed_units: &["cells/mm²", "cells/mm2", "/mm2"],
    range: |words| say::range(words, 100, quantity::per_square_millimeter(words, 6000)),
    read: |text, words| EndothelialDensity::new(scaled(text, 0, words)?).map_err(in_words(words)),
    write: |value, _| value.per_mm2().to_string(),
};

pub const MERIDIAN: Kind<Meridian> = Kind {
    unit: "°",
    typed_units: &[],
    range: |words| say::range(words, 1, quantity::degrees(words, 180)),
    read: |text, words| Meridian::parse(text).map_err(in_words(words)),
    write: |value, _| value.degrees().to_string(),
};

/// A direction on the eye.
pub const DIRECTION: Kind<Direction> = Kind {
    unit: "°",
    typed_units: &[],
    range: |words| say::range(words, 1, quantity::degrees(words, 360)),
    read: |text, words| {
        let degrees = scaled(text, 0, words)?;
        let whole = u16::try_from(degrees);
        let whole = whole.map_err(|_| entry::negative_direction(words, degrees.to_string()))?;
        Direction::new(whole).map_err(in_words(words))
    },
    write: |value, _| value.degrees().to_string(),
};

pub const INDEX: Kind<KeratometricIndex> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::range(words, words.fixed(1.3, 4), words.fixed(1.4, 4)),
    read: |text, words| KeratometricIndex::parse(text).map_err(in_words(words)),
    write: |value, words| value.show(words).into_owned(),
};

pub const LOCS_GRADE: Kind<LocsTenths> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::range(words, words.fixed(0.1, 1), words.fixed(6.9, 1)),
    read: |text, words| LocsTenths::new(scaled(text, 1, words)?).map_err(in_words(words)),
    write: |value, words| value.show(words).into_owned(),
};

/// A power or refraction with its sign.
pub const POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: |words| {
        let [least, most] = [-10_000, 10_000].map(HundredthDiopters::new);
        say::range(words, signed(least, words), most)
    },
    read: |text, words| {
        let power = power_within(text, [-10_000, 10_000], words)?;
        if power.hundredths() != 0 && !has_sign(text) {
            let other = HundredthDiopters::new(-power.hundredths());
            return Err(say::sign_missing(
                words,
                signed(power, words),
                signed(other, words),
            ));
        }
        Ok(power)
    },
    write: signed,
};

/// Whether a number is written with its sign.
pub(super) fn has_sign(text: &str) -> bool {
    text.trim_start().starts_with(['+', '-', '\u{2212}'])
}

/// A corneal power, or a difference of powers: without a sign.
pub const UNSIGNED_POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: |words| unsigned_range([0, 10_000].map(HundredthDiopters::new), words),
    read: |text, words| power_within(text, [0, 10_000], words),
    write: unsigned,
};

/// Size of the astigmatism of the posterior cornea.
pub const POSTERIOR_MAGNITUDE: Kind<HundredthDiopters> = Kind {
    range: |words| unsigned_range(MAGNITUDES, words),
    read: |text, words| power_within(text, MAGNITUDES.map(HundredthDiopters::hundredths), words),
    ..UNSIGNED_POWER
};

const MAGNITUDES: [HundredthDiopters; 2] = [PosteriorAstigmatism::MIN, PosteriorAstigmatism::MAX];

pub const POSTERIOR_SPREAD: Kind<HundredthDiopters> = Kind {
    range: |words| unsigned_range(PosteriorAstigmatism::SPREAD, words),
    read: |text, words| {
        let limits = PosteriorAstigmatism::SPREAD;
        power_within(text, limits.map(HundredthDiopters::hundredths), words)
    },
    ..UNSIGNED_POWER
};

/// A corneal power; what it can be depends on its index and is checked with it.
pub const CORNEAL_POWER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: |words| {
        let least = write_mm(CornealRadius::MIN, words);
        say::radius_range(words, least, CornealRadius::MAX)
    },
    read: |text, words| scaled(text, 2, words).map(HundredthDiopters::new),
    write: unsigned,
};

/// A length of something that has no type of its own, or a spread.
pub const LENGTH: Kind<Micrometers> = Kind {
    unit: "mm",
    typed_units: &[],
    range: |words| between(LENGTHS[0], LENGTHS[1], words),
    read: |text, words| {
        let (length, [least, most]) = (micrometers(text, words)?, LENGTHS);
        if least <= length && length <= most {
            return Ok(length);
        }
        let what = entry::length(words);
        Err(entry::out_of_range(words, what, length, least, most))
    },
    write: write_mm,
};

/// A count, 1 to 99.
pub const COUNT: Kind<u8> = Kind {
    unit: "",
    typed_units: &[],
    range: |words| say::range(words, 1, 99),
    read: |text, words| match u8::try_from(scaled(text, 0, words)?) {
        Ok(count) if (1..=99).contains(&count) => Ok(count),
        _ => Err(entry::count_out_of_range(words, text)),
    },
    write: |value, _| value.to_string(),
};

const LENGTHS: [Micrometers; 2] = [Micrometers::new(0), Micrometers::new(100_000)];

fn power_within(text: &str, limits: [i32; 2], words: Words) -> Result<HundredthDiopters, String> {
    let power = HundredthDiopters::new(scaled(text, 2, words)?);
    let [least, most] = limits.map(HundredthDiopters::new);
    if least <= power && power <= most {
        return Ok(power);
    }
    let what = entry::power(words);
    Err(entry::out_of_range(words, what, power, least, most))
}

/// "0.00 to 100.00 D".
pub fn unsigned_range([least, most]: [HundredthDiopters; 2], words: Words) -> String {
    let most = quantity::unsigned(words, most);
    say::range(words, unsigned(least, words), most)
}

fn signed(power: HundredthDiopters, words: Words) -> String {
    let sign = if power.hundredths() < 0 { "" } else { "+" };
    format!("{sign}{}", unsigned(power, words))
}

fn unsigned(power: HundredthDiopters, words: Words) -> String {
    words.exact(power.hundredths(), 2, 2)
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: Words = Words::ENGLISH;

    #[test]
    fn point_comma_and_unit_read_the_same_and_nothing_is_rounded() {
        for text in ["23.5", "23,5", "23.50 mm", "23,5mm"] {
            let length = AXIAL_LENGTH.parse(text, EN).unwrap();
            assert_eq!(length.get(), Micrometers::new(23_500), "{text}");
        }
        assert_eq!(
            AXIAL_LENGTH.parse("23.4567", EN).unwrap_err(),
            "\"23.4567\" has more than 3 decimals"
        );
        assert_eq!(
            AXIAL_LENGTH.parse("2.35", EN).unwrap_err(),
            "axial length 2.35 mm is outside 14.00 mm to 40.00 mm"
        );
        assert_eq!(
            CORNEAL_THICKNESS.parse("0.54", EN).unwrap_err(),
            "\"0.54\" is not a whole number, written without point or comma"
        );
        assert_eq!(
            CORNEAL_THICKNESS.parse("540 um", EN).unwrap().get().um(),
            540
        );
    }

    #[test]
    fn a_number_with_the_unit_of_another_quantity_is_refused_by_it() {
        for (text, kind) in [("23.87 mm", "length"), ("23,87mm", "length")] {
            let length = AXIAL_LENGTH.parse(text, EN).unwrap();
            assert_eq!(length.get().um(), 23_870, "{kind}");
        }
        assert_eq!(
            CORNEAL_THICKNESS.parse("540 µm", EN).unwrap().get().um(),
            540
        );
        let power = CORNEAL_POWER.parse("43,25 D", EN).unwrap();
        assert_eq!(power.hundredths(), 4_325);
        assert_eq!(
            AXIAL_LENGTH.parse("23.87 D", EN).unwrap_err(),
            "\"23.87 D\" has another unit; this is in mm"
        );
        assert_eq!(
            CORNEAL_THICKNESS.parse("0.540 mm", EN).unwrap_err(),
            "\"0.540 mm\" has another unit; this is in µm"
        );
        assert_eq!(
            CORNEAL_POWER.parse("7.80 mm", EN).unwrap_err(),
            "\"7.80 mm\" has another unit; this is in D"
        );
        assert_eq!(
            INDEX.parse("1.3375 D", EN).unwrap_err(),
            "\"1.3375 D\" has a unit, and this has none"
        );
        // A word that happens to end like one is no number.
        assert_eq!(
            AXIAL_LENGTH.parse("D", EN).unwrap_err(),
            "\"D\" is not a number"
        );
    }

    #[test]
    fn a_power_is_written_with_its_sign_and_a_real_minus() {
        let power = |text| (POWER.write)(POWER.parse(text, EN).unwrap(), EN);
        assert_eq!(power("-0,25"), "\u{2212}0.25");
        assert_eq!(power("\u{2212}0.25 D"), "\u{2212}0.25");
        assert_eq!(power("+21.5"), "+21.50");
        assert_eq!(
            POWER.parse("21.5", EN).unwrap_err(),
            "the sign is missing: write +21.50 or \u{2212}21.50"
        );
        assert_eq!(power("0"), "+0.00");
        assert_eq!(
            UNSIGNED_POWER.parse("-43", EN).unwrap_err(),
            "power \u{2212}43.00 D is outside +0.00 D to +100.00 D"
        );
    }

    #[test]
    fn what_is_shown_reads_back() {
        let length = AXIAL_LENGTH.parse("23.456", EN).unwrap();
        let shown = (AXIAL_LENGTH.write)(length, EN);
        assert_eq!(AXIAL_LENGTH.parse(&shown, EN), Ok(length));
        let direction = DIRECTION.parse("360", EN).unwrap();
        assert_eq!((DIRECTION.write)(direction, EN), "360");
        assert_eq!(
            DIRECTION.parse("-1", EN).unwrap_err(),
            "direction -1° is outside 1° to 360°"
        );
        assert_eq!(
            (LOCS_GRADE.write)(LOCS_GRADE.parse("5,8", EN).unwrap(), EN),
            "5.8"
        );
        assert_eq!(
            (INDEX.write)(INDEX.parse("1,3375", EN).unwrap(), EN),
            "1.3375"
        );
    }
}
