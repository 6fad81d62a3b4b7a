//! Keratometry while it is being entered: a draft holds it whole or not at all.

use millrace_core::biometry::{
    CornealReading, FlatIsSteep, Item, Keratometry, Measured, MeridianReading, Method,
};
use millrace_core::quantity::KeratometricIndex;
use millrace_core::quantity::{HundredthDiopters, Meridian, OutOfRange};
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words};

use super::sitting::Sitting;

/// Keratometry as the draft holds it.
pub(super) type MeasuredKeratometry = Measured<Keratometry, HundredthDiopters>;

/// What the readings are given in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ReadingUnit {
    /// Radii in mm.
    Radius,
    /// Powers in D.
    Power,
}

/// What was entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct KeratometryEntry {
    pub(super) unit: Option<ReadingUnit>,
    pub(super) index: Option<KeratometricIndex>,
    pub(super) flat: Option<CornealReading>,
    pub(super) flat_meridian: Option<Meridian>,
    pub(super) steep: Option<CornealReading>,
    pub(super) steep_meridian: Option<Meridian>,
    pub(super) method: Option<Method>,
}

impl KeratometryEntry {
    /// From what the draft holds.
    pub(super) fn of(measured: &MeasuredKeratometry) -> Self {
        let (flat, steep) = (measured.value.flat, measured.value.steep);
        let (unit, index) = match flat.reading {
            CornealReading::Radius(_) => (ReadingUnit::Radius, None),
            CornealReading::Power { index, .. } => (ReadingUnit::Power, Some(index)),
        };
        Self {
            unit: Some(unit),
            index,
            flat: Some(flat.reading),
            flat_meridian: Some(flat.meridian),
            steep: Some(steep.reading),
            steep_meridian: Some(steep.meridian),
            method: Some(measured.method),
        }
    }

    /// With what this sitting already said, where the entry does not say it: the unit and the index of the
    /// instrument, and the method. The second keratometry is another instrument's.
    pub(super) fn in_sitting(mut self, sitting: &Sitting, item: Item) -> Self {
        self.method = self.method.or(sitting.method_of(item));
        if item == Item::Keratometry && self.unit.is_none() {
            (self.unit, self.index) = (sitting.unit, sitting.index);
        }
        self
    }

    /// With K1 in the place of K2, each with its meridian.
    pub(super) fn exchanged(&self) -> Self {
        Self {
            flat: self.steep,
            flat_meridian: self.steep_meridian,
            steep: self.flat,
            steep_meridian: self.flat_meridian,
            ..self.clone()
        }
    }

    /// Whether the unit can still be chosen: a reading is never turned from one into the other.
    pub(super) const fn has_readings(&self) -> bool {
        self.flat.is_some() || self.steep.is_some()
    }

    /// Whether a number was entered.
    pub(super) const fn has_numbers(&self) -> bool {
        self.has_readings() || self.flat_meridian.is_some() || self.steep_meridian.is_some()
    }

    /// Why it is not recorded yet.
    pub(super) fn why_not_whole(&self, words: Words) -> String {
        let missing = self.missing(words);
        if missing.is_empty() {
            let why = self.contradiction();
            return why.map_or_else(String::new, |error| error.show(words).into_owned());
        }
        say::recorded_once_whole(words, words.list(missing))
    }

    /// Whether it would be whole with its method.
    pub(super) const fn lacks_the_method_alone(&self) -> bool {
        self.flat.is_some()
            && self.flat_meridian.is_some()
            && self.steep.is_some()
            && self.steep_meridian.is_some()
            && self.method.is_none()
    }

    /// What is still missing, in words.
    pub(super) fn missing(&self, words: Words) -> Vec<&'static str> {
        let parts = [
            (say::missing_flat_reading(words), self.flat.is_none()),
            (
                say::missing_flat_meridian(words),
                self.flat_meridian.is_none(),
            ),
            (say::missing_steep_reading(words), self.steep.is_none()),
            (
                say::missing_steep_meridian(words),
                self.steep_meridian.is_none(),
            ),
            (say::missing_method(words), self.method.is_none()),
        ];
        parts
            .into_iter()
            .filter_map(|(what, is_missing)| is_missing.then_some(what))
            .collect()
    }

    /// Why two readings are not a flat and a steep one.
    pub(super) fn contradiction(&self) -> Option<FlatIsSteep> {
        let (flat, steep) = (self.flat?, self.steep?);
        (flat.radius() < steep.radius()).then_some(FlatIsSteep { flat, steep })
    }

    /// The whole, once nothing is missing and nothing contradicts.
    pub(super) fn whole(
        &self,
        before: Option<&MeasuredKeratometry>,
        sitting: &Sitting,
    ) -> Option<MeasuredKeratometry> {
        if self.contradiction().is_some() {
            return None;
        }
        let at = |reading: Option<CornealReading>, meridian: Option<Meridian>| {
            Some(MeridianReading {
                reading: reading?,
                meridian: meridian?,
            })
        };
        let value = Keratometry {
            flat: at(self.flat, self.flat_meridian)?,
            steep: at(self.steep, self.steep_meridian)?,
            readings: None,
            repeat_difference: None,
        };
        let method = self.method?;
        if let Some(before) = before.filter(|before| self.shows_numbers_of(before)) {
            let mut again = before.clone();
            (again.value.flat, again.value.steep) = (value.flat, value.steep);
            again.method = method;
            return Some(again);
        }
        Some(Measured {
            value,
            method,
            spread: None,
            on: sitting.on,
            by: sitting.by.clone(),
        })
    }

    /// Whether these are the readings of `before`, at most by another method or read by another
    /// index. Other numbers are another measurement: the spread, the day and the person of the one
    /// before say nothing of it.
    fn shows_numbers_of(&self, before: &MeasuredKeratometry) -> bool {
        let Keratometry { flat, steep, .. } = before.value;
        let is_shown = |reading: Option<CornealReading>, before| {
            reading.is_some_and(|reading| same_number(reading, before))
        };
        is_shown(self.flat, flat.reading)
            && is_shown(self.steep, steep.reading)
            && self.flat_meridian == Some(flat.meridian)
            && self.steep_meridian == Some(steep.meridian)
    }

    /// The readings at another index: the instrument shows the same number, read by another index.
    ///
    /// # Errors
    ///
    /// Why a reading cannot be one at that index.
    pub(super) fn at_index(&self, index: KeratometricIndex) -> Result<Self, OutOfRange> {
        let again = |reading: Option<CornealReading>| match reading {
            Some(CornealReading::Power { power, .. }) => {
                CornealReading::power(power, index).map(Some)
            }
            other => Ok(other),
        };
        Ok(Self {
            index: Some(index),
            flat: again(self.flat)?,
            steep: again(self.steep)?,
            ..self.clone()
        })
    }
}

/// Whether an instrument shows the same number for both.
fn same_number(one: CornealReading, other: CornealReading) -> bool {
    match (one, other) {
        (CornealReading::Power { power, .. }, CornealReading::Power { power: other, .. }) => {
            power == other
        }
        _ => one == other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(flat: &str, steep: &str) -> KeratometryEntry {
        KeratometryEntry {
            unit: Some(ReadingUnit::Radius),
            index: None,
            flat: flat.parse().ok(),
            flat_meridian: Meridian::new(180).ok(),
            steep: steep.parse().ok(),
            steep_meridian: Meridian::new(90).ok(),
            method: Some(Method::Keratometer),
        }
    }

    #[test]
    fn nothing_is_recorded_before_it_is_whole() {
        let mut partial = entry("7.80 mm", "7.60 mm");
        assert!(partial.whole(None, &Sitting::default()).is_some());
        partial.steep_meridian = None;
        partial.method = None;
        assert_eq!(
            partial.missing(Words::ENGLISH),
            ["the steep meridian", "the method"]
        );
        assert_eq!(partial.whole(None, &Sitting::default()), None);
    }

    #[test]
    fn a_flat_meridian_steeper_than_the_steep_one_is_named() {
        let exchanged = entry("7.60 mm", "7.80 mm");
        assert_eq!(
            exchanged.contradiction().unwrap().show(Words::ENGLISH),
            "the flat meridian 7.60 mm has a shorter radius than the steep one 7.80 mm"
        );
        assert_eq!(exchanged.whole(None, &Sitting::default()), None);
        assert_eq!(entry("7.70 mm", "7.70 mm").contradiction(), None);
    }

    #[test]
    fn other_numbers_are_another_measurement() {
        let before = Measured {
            spread: HundredthDiopters::new(12).into(),
            on: "2026-11-20".parse().ok(),
            by: Some("T. Lindqvist".to_owned()),
            ..entry("43.00 D at 1.3375", "44.00 D at 1.3375")
                .whole(None, &Sitting::default())
                .unwrap()
        };
        let sitting = Sitting {
            on: None,
            by: Some("A. Okafor".to_owned()),
            ..Sitting::default()
        };
        // Another method, another index: the same readings.
        let mut again = KeratometryEntry::of(&before)
            .at_index(KeratometricIndex::parse("1.3315").unwrap())
            .unwrap();
        again.method = Some(Method::Tomographer);
        let corrected = again.whole(Some(&before), &sitting).unwrap();
        assert_eq!(corrected.by.as_deref(), Some("T. Lindqvist"));
        assert_eq!(corrected.on, before.on);
        assert_eq!(corrected.spread, before.spread);
        assert_eq!(corrected.method, Method::Tomographer);
        assert_eq!(
            corrected.value.flat.reading.to_string(),
            "43.00 D at 1.3315"
        );
        // Another number: who and when are this sitting's, and what it does not say stays unsaid.
        let mut other = KeratometryEntry::of(&before);
        other.steep = "44.50 D at 1.3375".parse().ok();
        let measured = other.whole(Some(&before), &sitting).unwrap();
        assert_eq!(measured.by.as_deref(), Some("A. Okafor"));
        assert_eq!(measured.on, None);
        assert_eq!(measured.spread, None);
    }

    #[test]
    fn another_index_keeps_the_number_shown() {
        let entry = entry("43.00 D at 1.3375", "44.00 D at 1.3375");
        let index = KeratometricIndex::parse("1.3315").unwrap();
        let again = entry.at_index(index).unwrap();
        assert_eq!(again.flat.unwrap().to_string(), "43.00 D at 1.3315");
        // 300/20.00 = 15 mm radius at 1.3000: no cornea.
        let low: KeratometryEntry = KeratometryEntry {
            flat: "26.00 D at 1.3375".parse().ok(),
            ..entry
        };
        let index = KeratometricIndex::parse("1.4").unwrap();
        assert!(low.at_index(index).is_err());
    }
}
