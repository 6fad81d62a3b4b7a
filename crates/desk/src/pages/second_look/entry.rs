//! The critical numbers while they are being entered a second time.

use chrono::NaiveDate;
use millrace_core::biometry::{
    AnteriorChamberDepth, AxialLength, ChamberDepth, CornealRadius, CornealReading, DepthStart,
    LensThickness, MeridianReading, Side,
};
use millrace_core::case::{Critical, SecondLook};
use millrace_core::quantity::{HundredthDiopters, KeratometricIndex, Meridian, OutOfRange};
use millrace_wording::desk::second_look as say;
use millrace_wording::{Show as _, Words};

/// What keratometry is given in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unit {
    Radius,
    Power,
}

/// One meridian as typed; which of the two readings counts is a matter of the unit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct MeridianEntry {
    pub(super) radius: Option<CornealRadius>,
    pub(super) power: Option<HundredthDiopters>,
    pub(super) meridian: Option<Meridian>,
}

/// What was entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Entry {
    pub(super) name: Option<String>,
    pub(super) number: Option<String>,
    pub(super) eye: Option<Side>,
    pub(super) axial_length: Option<AxialLength>,
    pub(super) unit: Option<Unit>,
    pub(super) index: Option<KeratometricIndex>,
    pub(super) flat: MeridianEntry,
    pub(super) steep: MeridianEntry,
    pub(super) depth: Option<AnteriorChamberDepth>,
    pub(super) depth_start: Option<DepthStart>,
    pub(super) lens_thickness: Option<LensThickness>,
    pub(super) target: Option<HundredthDiopters>,
}

impl Entry {
    /// What has to be entered and is not, in the order of the page.
    pub(super) fn missing(&self, words: Words) -> Vec<String> {
        let is_power = self.unit == Some(Unit::Power);
        let no_reading = |at: &MeridianEntry| match self.unit {
            Some(Unit::Power) => at.power.is_none(),
            _ => at.radius.is_none(),
        };
        let critical = |what: Critical| what.show(words).into_owned();
        let parts = [
            (say::name_missing(words).to_owned(), self.name.is_none()),
            (critical(Critical::Number), self.number.is_none()),
            (critical(Critical::Eye), self.eye.is_none()),
            (critical(Critical::AxialLength), self.axial_length.is_none()),
            (say::unit_missing(words).to_owned(), self.unit.is_none()),
            (
                say::index_missing(words).to_owned(),
                is_power && self.index.is_none(),
            ),
            (critical(Critical::Flat), no_reading(&self.flat)),
            (
                critical(Critical::FlatMeridian),
                self.flat.meridian.is_none(),
            ),
            (critical(Critical::Steep), no_reading(&self.steep)),
            (
                critical(Critical::SteepMeridian),
                self.steep.meridian.is_none(),
            ),
            (
                say::surface_missing(words).to_owned(),
                self.depth.is_some() && self.depth_start.is_none(),
            ),
        ];
        parts
            .into_iter()
            .filter_map(|(what, is_missing)| is_missing.then_some(what))
            .collect()
    }

    /// The second look once nothing is missing, or why a reading is none.
    pub(super) fn whole(&self, today: NaiveDate) -> Option<Result<SecondLook, OutOfRange>> {
        let name = self.name.clone()?;
        let number = self.number.clone()?;
        let (eye, axial_length) = (self.eye?, self.axial_length?);
        let chamber_depth = match (self.depth, self.depth_start) {
            (None, _) => None,
            (Some(depth), start) => Some(ChamberDepth {
                depth,
                start: start?,
            }),
        };
        let meridians = [self.at(&self.flat)?, self.at(&self.steep)?];
        let [flat, steep] = match meridians {
            [Ok(flat), Ok(steep)] => [flat, steep],
            [Err(why), _] | [_, Err(why)] => return Some(Err(why)),
        };
        Some(Ok(SecondLook {
            by: name,
            on: today,
            number,
            eye,
            axial_length,
            flat,
            steep,
            chamber_depth,
            lens_thickness: self.lens_thickness,
            target: self.target,
        }))
    }

    fn at(&self, entry: &MeridianEntry) -> Option<Result<MeridianReading, OutOfRange>> {
        let meridian = entry.meridian?;
        let reading = match self.unit? {
            Unit::Radius => Ok(CornealReading::Radius(entry.radius?)),
            Unit::Power => CornealReading::power(entry.power?, self.index?),
        };
        Some(reading.map(|reading| MeridianReading { reading, meridian }))
    }
}

#[cfg(test)]
mod tests {

    use super::*;

    fn entry() -> Entry {
        let at = |power, degrees| MeridianEntry {
            radius: None,
            power: Some(HundredthDiopters::new(power)),
            meridian: Meridian::new(degrees).ok(),
        };
        Entry {
            name: Some("B. Second".to_owned()),
            number: Some("40-2291".to_owned()),
            eye: Some(Side::Right),
            axial_length: "22.84 mm".parse().ok(),
            unit: Some(Unit::Power),
            index: KeratometricIndex::parse("1.3375").ok(),
            flat: at(4_425, 10),
            steep: at(4_500, 100),
            ..Entry::default()
        }
    }

    #[test]
    fn what_the_papers_may_not_give_may_be_left_out_and_nothing_else() {
        let look = entry()
            .whole("2026-11-24".parse().unwrap())
            .unwrap()
            .unwrap();
        assert_eq!(look.flat.reading.to_string(), "44.25 D at 1.3375");
        assert_eq!((look.chamber_depth, look.target), (None, None));
        let partial = Entry {
            index: None,
            eye: None,
            depth: "2.55 mm".parse().ok(),
            ..entry()
        };
        assert_eq!(partial.whole("2026-11-24".parse().unwrap()), None);
        assert_eq!(
            partial.missing(Words::ENGLISH),
            [
                "operative eye",
                "keratometric index",
                "surface the anterior chamber depth is measured from"
            ]
        );
        assert_eq!(Entry::default().missing(Words::ENGLISH).len(), 9);
    }

    /// 0.3375/10.00 = 33.75 mm of radius: no cornea.
    #[test]
    fn a_power_that_no_cornea_has_is_refused_in_words() {
        let mut wrong = entry();
        wrong.steep.power = Some(HundredthDiopters::new(1_000));
        let why = wrong
            .whole("2026-11-24".parse().unwrap())
            .unwrap()
            .unwrap_err();
        let why = why.show(Words::ENGLISH);
        assert_eq!(why, "corneal power 10.00 D is outside 25.96 D to 67.50 D");
    }

    /// Another unit takes other readings; what was typed in the first one does not count for it.
    #[test]
    fn a_reading_belongs_to_its_unit() {
        let in_mm = Entry {
            unit: Some(Unit::Radius),
            ..entry()
        };
        assert_eq!(
            in_mm.missing(Words::ENGLISH),
            ["flat reading", "steep reading"]
        );
        assert_eq!(in_mm.whole("2026-11-24".parse().unwrap()), None);
    }
}
