//! How the quantities of this page are typed and shown.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::chamber::Nucleus;
use millrace_core::quantity::{HundredthDiopters, Micrometers, OutOfRange, decimal};

use crate::widgets::Kind;

/// Diameter of the nucleus.
pub(super) const NUCLEUS_DIAMETER: Kind<Micrometers> = Kind {
    unit: "mm",
    typed_units: &[],
    range: || between(Nucleus::DIAMETER),
    read: |text| length("diameter of the nucleus", text, Nucleus::DIAMETER),
    write: write_mm,
};

/// Thickness of the nucleus.
pub(super) const NUCLEUS_THICKNESS: Kind<Micrometers> = Kind {
    unit: "mm",
    typed_units: &[],
    range: || between(Nucleus::THICKNESS),
    read: |text| length("thickness of the nucleus", text, Nucleus::THICKNESS),
    write: write_mm,
};

/// Flattening by the incision.
pub(super) const FLATTENING: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: || diopters_between(IncisionEffect::FLATTENING),
    read: |text| {
        diopters(
            "flattening by the incision",
            text,
            IncisionEffect::FLATTENING,
        )
    },
    write: write_d,
};

/// Scatter of the incision's effect.
pub(super) const SCATTER: Kind<HundredthDiopters> = Kind {
    unit: "D",
    typed_units: &[],
    range: || diopters_between(IncisionEffect::SCATTER),
    read: |text| {
        diopters(
            "scatter of the incision's effect",
            text,
            IncisionEffect::SCATTER,
        )
    },
    write: write_d,
};

/// Number of eyes behind the incision's effect.
pub(super) const EYES: Kind<u32> = Kind {
    unit: "",
    typed_units: &["eyes"],
    range: || format!("{} or more", IncisionEffect::FEWEST_EYES),
    read: |text| {
        let eyes = decimal::parse(text, 0).map_err(|error| error.to_string())?;
        match u32::try_from(eyes) {
            Ok(eyes) if IncisionEffect::FEWEST_EYES <= eyes => Ok(eyes),
            _ => Err(format!(
                "number of eyes {text} is under {}; one eye has no scatter",
                IncisionEffect::FEWEST_EYES
            )),
        }
    },
    write: |eyes| eyes.to_string(),
};

fn write_mm(length: Micrometers) -> String {
    decimal::write(length.um(), 3, 2)
}

fn write_d(power: HundredthDiopters) -> String {
    decimal::write(power.hundredths(), 2, 2)
}

fn between([min, max]: [Micrometers; 2]) -> String {
    format!("{} to {max}", write_mm(min))
}

fn diopters_between([min, max]: [HundredthDiopters; 2]) -> String {
    format!("{} to {} D", write_d(min), write_d(max))
}

fn scaled(text: &str, decimals: u8) -> Result<i32, String> {
    decimal::parse(text, decimals).map_err(|error| error.to_string())
}

fn length(
    quantity: &'static str,
    text: &str,
    limits: [Micrometers; 2],
) -> Result<Micrometers, String> {
    inside(quantity, Micrometers::new(scaled(text, 3)?), limits)
}

fn diopters(
    quantity: &'static str,
    text: &str,
    limits: [HundredthDiopters; 2],
) -> Result<HundredthDiopters, String> {
    inside(quantity, HundredthDiopters::new(scaled(text, 2)?), limits)
}

fn inside<T: PartialOrd + core::fmt::Display + Copy>(
    quantity: &'static str,
    value: T,
    limits: [T; 2],
) -> Result<T, String> {
    let [min, max] = limits;
    if min <= value && value <= max {
        return Ok(value);
    }
    Err(OutOfRange::new(quantity, value, limits).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ranges of the core: nucleus 3 to 10 × 1.5 to 7 mm, flattening 0 to 5 D, scatter 0.01 to 3 D,
    /// two eyes or more.
    #[test]
    fn what_the_core_refuses_is_refused_while_typing() {
        assert_eq!(NUCLEUS_DIAMETER.parse("8,2"), Ok(Micrometers::new(8_200)));
        assert_eq!(
            NUCLEUS_DIAMETER.parse("82").unwrap_err(),
            "diameter of the nucleus 82.00 mm is outside 3.00 mm to 10.00 mm"
        );
        assert_eq!(
            NUCLEUS_THICKNESS.parse("1.499").unwrap_err(),
            "thickness of the nucleus 1.499 mm is outside 1.50 mm to 7.00 mm"
        );
        assert_eq!(FLATTENING.parse("0.35 D"), Ok(HundredthDiopters::new(35)));
        assert!(FLATTENING.parse("-0.35").is_err());
        assert!(FLATTENING.parse("5.01").is_err());
        assert!(SCATTER.parse("0").is_err());
        assert_eq!(EYES.parse("2"), Ok(2));
        assert_eq!(
            EYES.parse("1").unwrap_err(),
            "number of eyes 1 is under 2; one eye has no scatter"
        );
        assert!(EYES.parse("-3").is_err());
    }
}
