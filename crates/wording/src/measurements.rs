//! Measurements: their names, and their rows as every view shows them.

use std::borrow::Cow;

use millrace_core::biometry::{
    ChamberDepth, DepthStart, EyeRecord, Item, MeridianReading, PosteriorAstigmatism, Recorded,
    Spread, Value,
};
use millrace_core::document;

use crate::quantity::{computed_unsigned, thickness, unsigned};
use crate::{Show, Words};

messages! {
    heading(eye) = "Measurements of the {eye}";
    column_value = "value";
    column_method = "method";
    column_spread = "SD";
    column_day = "day";
    column_who = "by";
    nucleus = "Nucleus";
    not_measured(names) = "Not measured: {names}.";

    axial_length = "axial length";
    keratometry = "keratometry";
    second_keratometry = "second keratometry";
    chamber_depth = "anterior chamber depth";
    lens_thickness = "lens thickness";
    corneal_thickness = "corneal thickness";
    corneal_diameter = "corneal diameter";
    posterior_radius = "posterior corneal radius";
    posterior_astigmatism = "posterior astigmatism";
    pupil = "dilated pupil diameter";
    endothelium = "endothelial cell density";

    flat = "Keratometry, flat";
    steep = "Keratometry, steep";
    second_flat = "Second K, flat";
    second_steep = "Second K, steep";
    depth_from_epithelium = "Chamber depth, epithelium";
    depth_from_endothelium = "Chamber depth, endothelium";
    at_meridian(number, meridian) = "{number} @ {meridian}";
    depth_from(depth, surface) = "{depth} {surface}";

    mean_k = "Mean K at {=1.3375}";
    corneal_astigmatism = "Corneal astigmatism";
    steep_at(power, meridian) = "{power}, steep @ {meridian}";
    from_the_two = "from both meridians";
    aqueous_depth = "Aqueous depth";
    depth_less_thickness = "depth less cornea";
    as_measured = "as measured";
}

impl Show for Item {
    /// As it stands inside a sentence.
    fn show(&self, words: Words) -> Cow<'_, str> {
        name(words, *self).into()
    }
}

/// "axial length": as it stands inside a sentence.
pub fn name(words: Words, item: Item) -> &'static str {
    match item {
        Item::AxialLength => axial_length(words),
        Item::Keratometry => keratometry(words),
        Item::SecondKeratometry => second_keratometry(words),
        Item::ChamberDepth => chamber_depth(words),
        Item::LensThickness => lens_thickness(words),
        Item::CornealThickness => corneal_thickness(words),
        Item::CornealDiameter => corneal_diameter(words),
        Item::PosteriorRadius => posterior_radius(words),
        Item::PosteriorAstigmatism => posterior_astigmatism(words),
        Item::Pupil => pupil(words),
        Item::Endothelium => endothelium(words),
    }
}

/// "Axial length": at the head of a row.
pub fn head(words: Words, item: Item) -> String {
    let mut letters = name(words, item).chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// One row of a table: what was measured, and how it came to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Row<'a> {
    /// Of what.
    pub name: String,
    /// The value with its unit.
    pub value: String,
    /// Method, spread, day and person.
    pub recorded: Recorded<'a>,
}

/// A number that follows from measurements.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Derived {
    /// Of what.
    pub name: &'static str,
    /// The number with its unit.
    pub value: String,
    /// What it follows from.
    pub from: &'static str,
}

/// What was measured of an eye, a meridian each in a row of its own.
pub fn rows(words: Words, eye: &EyeRecord) -> Vec<Row<'_>> {
    let mut rows = Vec::new();
    for &item in Item::ALL {
        let Some(recorded) = item.of(eye) else {
            continue;
        };
        let mut add = |name: String, value: String| {
            rows.push(Row {
                name,
                value,
                recorded,
            });
        };
        match recorded.value {
            Value::Keratometry(k) => {
                let names = match item {
                    Item::SecondKeratometry => [second_flat(words), second_steep(words)],
                    _ => [flat(words), steep(words)],
                };
                for (name, at) in names.into_iter().zip([k.flat, k.steep]) {
                    add(name.to_owned(), at.show(words).into_owned());
                }
            }
            Value::Depth(depth) => {
                let name = match depth.start {
                    DepthStart::Epithelium => depth_from_epithelium(words),
                    DepthStart::Endothelium => depth_from_endothelium(words),
                };
                add(name.to_owned(), depth.depth.show(words).into_owned());
            }
            value => add(head(words, item), value.show(words).into_owned()),
        }
    }
    rows
}

/// What was not measured: "keratometry; dilated pupil"; nothing if all was.
pub fn missing(words: Words, eye: &EyeRecord) -> Option<String> {
    let absent = Item::ALL.iter().filter(|item| item.of(eye).is_none());
    let names: Vec<_> = absent.map(|item| name(words, *item)).collect();
    (!names.is_empty()).then(|| names.join("; "))
}

/// What follows from the measurements of an eye, as the document holds it.
pub fn derived(words: Words, eye: &EyeRecord, known: &document::Derived) -> Vec<Derived> {
    let mut rows = Vec::new();
    let mut add = |name, value, from| rows.push(Derived { name, value, from });
    if let Some(mean) = known.mean_k_d {
        let mean = computed_unsigned(words, mean);
        add(mean_k(words), mean, from_the_two(words));
    }
    if let Some((size, steep)) = known.corneal_astigmatism_d.zip(known.steep_degrees) {
        let size = steep_at(words, computed_unsigned(words, size), steep);
        add(corneal_astigmatism(words), size, from_the_two(words));
    }
    if let (Some(depth), Some(measured)) = (known.aqueous_depth_mm, &eye.chamber_depth) {
        let from = match measured.value.start {
            DepthStart::Epithelium => depth_less_thickness(words),
            DepthStart::Endothelium => as_measured(words),
        };
        add(aqueous_depth(words), depth.show(words).into_owned(), from);
    }
    rows
}

impl Show for Spread {
    /// A size: a plus before it would say that it has a direction.
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Length(length) => length.show(words).into_owned(),
            Self::Power(power) => unsigned(words, *power),
        }
        .into()
    }
}

impl Show for MeridianReading {
    fn show(&self, words: Words) -> Cow<'_, str> {
        at_meridian(words, self.reading, self.meridian).into()
    }
}

impl Show for PosteriorAstigmatism {
    fn show(&self, words: Words) -> Cow<'_, str> {
        at_meridian(words, unsigned(words, self.magnitude()), self.steep()).into()
    }
}

impl Show for ChamberDepth {
    fn show(&self, words: Words) -> Cow<'_, str> {
        depth_from(words, self.depth, self.start).into()
    }
}

impl Show for Value<'_> {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Length(length) => length.show(words).into_owned(),
            Self::Thickness(length) => thickness(words, *length),
            Self::Depth(depth) => depth.show(words).into_owned(),
            Self::Keratometry(k) => words.list([k.flat, k.steep]),
            Self::Astigmatism(astigmatism) => astigmatism.show(words).into_owned(),
            Self::Density(density) => density.show(words).into_owned(),
        }
        .into()
    }
}

#[cfg(test)]
mod tests {
    use millrace_core::biometry::{Keratometry, Measured, Method};
    use millrace_core::quantity::{Diopters, HundredthDiopters, Meridian, Millimeters};

    use super::*;

    fn measured<T, S>(value: T, spread: Option<S>) -> Measured<T, S> {
        Measured {
            value,
            method: Method::Optical,
            spread,
            on: None,
            by: None,
        }
    }

    fn eye() -> EyeRecord {
        let at = |text: &str, degrees| MeridianReading {
            reading: text.parse().unwrap(),
            meridian: Meridian::new(degrees).unwrap(),
        };
        let keratometry = Keratometry {
            flat: at("43.00 D at 1.3375", 180),
            steep: at("44.00 D at 1.3375", 90),
            readings: None,
            repeat_difference: None,
        };
        let magnitude = HundredthDiopters::new(30);
        let steep = Meridian::new(92).unwrap();
        EyeRecord {
            axial_length: Some(measured("23.456 mm".parse().unwrap(), None)),
            second_keratometry: Some(measured(
                keratometry.clone(),
                Some(HundredthDiopters::new(12)),
            )),
            keratometry: Some(measured(keratometry, None)),
            chamber_depth: Some(measured(
                ChamberDepth {
                    depth: "3.12 mm".parse().unwrap(),
                    start: DepthStart::Epithelium,
                },
                None,
            )),
            corneal_thickness: Some(measured("540 µm".parse().unwrap(), None)),
            posterior_astigmatism: Some(measured(
                PosteriorAstigmatism::new(magnitude, steep).unwrap(),
                None,
            )),
            endothelium: Some(measured("2450 cells/mm²".parse().unwrap(), None)),
            ..EyeRecord::default()
        }
    }

    #[test]
    fn each_measurement_has_its_row_and_what_is_absent_is_named_once() {
        let eye = eye();
        let rows: Vec<_> = rows(Words::ENGLISH, &eye)
            .into_iter()
            .map(|row| (row.name, row.value))
            .collect();
        let expected = [
            ("Axial length", "23.456 mm"),
            ("Keratometry, flat", "43.00 D at 1.3375 @ 180°"),
            ("Keratometry, steep", "44.00 D at 1.3375 @ 90°"),
            ("Second K, flat", "43.00 D at 1.3375 @ 180°"),
            ("Second K, steep", "44.00 D at 1.3375 @ 90°"),
            ("Chamber depth, epithelium", "3.12 mm"),
            ("Corneal thickness", "540 µm"),
            ("Posterior astigmatism", "0.30 D @ 92°"),
            ("Endothelial cell density", "2450 cells/mm²"),
        ];
        assert_eq!(
            rows,
            expected.map(|(name, value)| (name.to_owned(), value.to_owned()))
        );
        let absent =
            "lens thickness; corneal diameter; posterior corneal radius; dilated pupil diameter";
        assert_eq!(missing(Words::ENGLISH, &eye).as_deref(), Some(absent));
        let all = missing(Words::ENGLISH, &EyeRecord::default()).unwrap();
        assert_eq!(all.split("; ").count(), Item::ALL.len());
        assert!(
            all.starts_with(
                "axial length; keratometry; second keratometry; anterior chamber depth"
            )
        );
    }

    #[test]
    fn what_follows_says_from_what() {
        let known = document::Derived {
            mean_k_d: Some(Diopters::new(43.4943)),
            corneal_astigmatism_d: Some(Diopters::new(1.0)),
            steep_degrees: Meridian::new(90).ok(),
            aqueous_depth_mm: Some(Millimeters::new(2.58)),
        };
        let found: Vec<_> = derived(Words::ENGLISH, &eye(), &known)
            .into_iter()
            .map(|row| (row.name, row.value, row.from))
            .collect();
        let row = |name, value: &str, from| (name, value.to_owned(), from);
        assert_eq!(
            found,
            [
                row("Mean K at 1.3375", "43.49 D", "from both meridians"),
                row(
                    "Corneal astigmatism",
                    "1.00 D, steep @ 90°",
                    "from both meridians"
                ),
                row("Aqueous depth", "2.58 mm", "depth less cornea"),
            ]
        );
        assert_eq!(
            derived(Words::ENGLISH, &eye(), &document::Derived::default()),
            []
        );
    }

    #[test]
    fn a_spread_has_no_sign() {
        let spread = Spread::Power(HundredthDiopters::new(12));
        assert_eq!(spread.show(Words::ENGLISH), "0.12 D");
    }
}
