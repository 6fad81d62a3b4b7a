//! How the quantities of this page are typed and shown.

use millrace_core::astigmatism::IncisionEffect;
use millrace_core::case::ApproachPlan;
use millrace_core::chamber::Nucleus;
use millrace_core::quantity::{HundredthDiopters, Micrometers};
use millrace_wording::desk::approach as say;
use millrace_wording::{Show, Words, entry};

use crate::widgets::Kind;
use crate::widgets::quantity_kind::{LENGTH, UNSIGNED_POWER, between, scaled, unsigned_range};

pub(super) const NUCLEUS_DIAMETER: Kind<Micrometers> = Kind {
    range: |words| between(Nucleus::DIAMETER[0], Nucleus::DIAMETER[1], words),
    read: |text, words| length(text, say::nucleus_diameter, Nucleus::DIAMETER, words),
    ..LENGTH
};

pub(super) const NUCLEUS_THICKNESS: Kind<Micrometers> = Kind {
    range: |words| between(Nucleus::THICKNESS[0], Nucleus::THICKNESS[1], words),
    read: |text, words| length(text, say::nucleus_thickness, Nucleus::THICKNESS, words),
    ..LENGTH
};

/// What irrigation adds to the depth of the chamber.
pub(super) const DEEPENING: Kind<Micrometers> = Kind {
    range: |words| {
        between(
            ApproachPlan::DEEPENING[0],
            ApproachPlan::DEEPENING[1],
            words,
        )
    },
    read: |text, words| length(text, say::deepening_entry, ApproachPlan::DEEPENING, words),
    ..LENGTH
};

/// Flattening by the incision.
pub(super) const FLATTENING: Kind<HundredthDiopters> = Kind {
    range: |words| unsigned_range(IncisionEffect::FLATTENING, words),
    read: |text, words| diopters(text, say::flattening_by, IncisionEffect::FLATTENING, words),
    ..UNSIGNED_POWER
};

/// Scatter of the incision's effect.
pub(super) const SCATTER: Kind<HundredthDiopters> = Kind {
    range: |words| unsigned_range(IncisionEffect::SCATTER, words),
    read: |text, words| diopters(text, say::scatter_of, IncisionEffect::SCATTER, words),
    ..UNSIGNED_POWER
};

/// Number of eyes behind the incision's effect.
pub(super) const EYES: Kind<u32> = Kind {
    unit: "",
    typed_units: &["eyes"],
    range: |words| say::or_more(words, IncisionEffect::FEWEST_EYES),
    read: |text, words| match u32::try_from(scaled(text, 0, words)?) {
        Ok(eyes) if IncisionEffect::FEWEST_EYES <= eyes => Ok(eyes),
        _ => Err(say::too_few_eyes(words, text, IncisionEffect::FEWEST_EYES)),
    },
    write: |eyes, _| eyes.to_string(),
};

fn length(
    text: &str,
    what: fn(Words) -> &'static str,
    limits: [Micrometers; 2],
    words: Words,
) -> Result<Micrometers, String> {
    let length = Micrometers::new(scaled(text, 3, words)?);
    inside(length, what(words), limits, words)
}

fn diopters(
    text: &str,
    what: fn(Words) -> &'static str,
    limits: [HundredthDiopters; 2],
    words: Words,
) -> Result<HundredthDiopters, String> {
    let power = HundredthDiopters::new(scaled(text, 2, words)?);
    inside(power, what(words), limits, words)
}

fn inside<T: PartialOrd + Show + Copy>(
    value: T,
    what: &str,
    [min, max]: [T; 2],
    words: Words,
) -> Result<T, String> {
    if min <= value && value <= max {
        return Ok(value);
    }
    Err(entry::out_of_range(words, what, value, min, max))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: Words = Words::ENGLISH;

    /// Ranges of the core: nucleus 3 to 10 × 1.5 to 7 mm, flattening 0 to 5 D, scatter 0.01 to 3 D,
    /// two eyes or more.
    #[test]
    fn what_the_core_refuses_is_refused_while_typing() {
        assert_eq!(
            NUCLEUS_DIAMETER.parse("8,2", EN),
            Ok(Micrometers::new(8_200))
        );
        assert_eq!(
            NUCLEUS_DIAMETER.parse("82", EN).unwrap_err(),
            "diameter of the nucleus 82.00 mm is outside 3.00 mm to 10.00 mm"
        );
        assert_eq!(
            NUCLEUS_THICKNESS.parse("1.499", EN).unwrap_err(),
            "thickness of the nucleus 1.499 mm is outside 1.50 mm to 7.00 mm"
        );
        assert_eq!(
            FLATTENING.parse("0.35 D", EN),
            Ok(HundredthDiopters::new(35))
        );
        assert!(FLATTENING.parse("-0.35", EN).is_err());
        assert!(FLATTENING.parse("5.01", EN).is_err());
        assert!(SCATTER.parse("0", EN).is_err());
        assert_eq!(EYES.parse("2", EN), Ok(2));
        assert_eq!(
            EYES.parse("1", EN).unwrap_err(),
            "number of eyes 1 is under 2; one eye has no scatter"
        );
        assert!(EYES.parse("-3", EN).is_err());
    }
}
