//! A lens record while it is being entered, and what makes it whole.

use millrace_core::iol_power::thick_lens::LensShape;
use millrace_core::lens::{BiometryKind, Haptic, LensRecord, LensSite, Material, RecordRefused};
use millrace_core::quantity::{HundredthDiopters, Micrometers};
use millrace_wording::desk::lens_records as say;
use millrace_wording::{Show as _, Words};

use super::constants::ConstantsForm;
use super::powers::PowersForm;
use super::results::ResultsForm;

/// What was entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct LensForm {
    pub(super) name: Option<String>,
    pub(super) model: Option<String>,
    pub(super) site: Option<LensSite>,
    pub(super) material: Option<Material>,
    pub(super) haptic: Option<Haptic>,
    pub(super) optic_diameter: Option<Micrometers>,
    pub(super) overall_length: Option<Micrometers>,
    pub(super) may_sit_in_sulcus: Option<bool>,
    pub(super) powers: PowersForm,
    pub(super) average_power: Option<HundredthDiopters>,
    pub(super) index: Option<f64>,
    pub(super) thickness: Option<Micrometers>,
    pub(super) constants_for: Option<BiometryKind>,
    pub(super) constants: ConstantsForm,
    pub(super) results: ResultsForm,
}

impl LensForm {
    /// A record to change or to copy.
    pub(super) fn of(record: &LensRecord) -> Self {
        Self {
            name: Some(record.name.clone()),
            model: Some(record.model.clone()),
            site: Some(record.site),
            material: Some(record.material),
            haptic: Some(record.haptic),
            optic_diameter: Some(record.optic_diameter),
            overall_length: Some(record.overall_length),
            may_sit_in_sulcus: Some(record.may_sit_in_sulcus),
            powers: PowersForm::of(record),
            average_power: record.average_power,
            index: record.shape.map(|shape| shape.index),
            thickness: record
                .shape
                .and_then(|shape| shape.thickness.nearest_micrometer()),
            constants_for: Some(record.constants_for),
            constants: ConstantsForm::of(&record.constants),
            results: ResultsForm::of(&record.results),
        }
    }

    /// What is missing, in the order of the form.
    pub(super) fn missing(&self, words: Words) -> Vec<&'static str> {
        let mut missing: Vec<_> = [
            (say::missing_name(words), self.name.is_none()),
            (say::missing_model(words), self.model.is_none()),
            (say::missing_site(words), self.site.is_none()),
            (say::missing_material(words), self.material.is_none()),
            (say::missing_haptic(words), self.haptic.is_none()),
            (
                say::missing_optic_diameter(words),
                self.optic_diameter.is_none(),
            ),
            (
                say::missing_overall_length(words),
                self.overall_length.is_none(),
            ),
            (say::missing_sulcus(words), self.may_sit_in_sulcus.is_none()),
            (
                say::missing_index(words),
                self.index.is_none() && self.thickness.is_some(),
            ),
            (
                say::missing_thickness(words),
                self.thickness.is_none() && self.index.is_some(),
            ),
            (say::missing_biometry(words), self.constants_for.is_none()),
        ]
        .into_iter()
        .filter_map(|(what, is_missing)| is_missing.then_some(what))
        .collect();
        missing.extend(self.powers.missing(words));
        missing.extend(self.constants.missing(words));
        missing.extend(self.results.missing(words));
        missing
    }

    /// The record, or why it is none: what a file would refuse is refused here.
    pub(super) fn whole(&self, words: Words) -> Option<Result<LensRecord, String>> {
        if !self.missing(words).is_empty() {
            return None;
        }
        let shape = match (self.index, self.thickness) {
            (Some(index), Some(thickness)) => Some(LensShape {
                index,
                thickness: thickness.millimeters(),
            }),
            _ => None,
        };
        let made = || -> Option<Result<LensRecord, String>> {
            let (powers, toric) = match self.powers.whole(words) {
                Ok(whole) => whole,
                Err(why) => return Some(Err(why)),
            };
            Some(Ok(LensRecord {
                name: self.name.clone()?,
                model: self.model.clone()?,
                site: self.site?,
                material: self.material?,
                haptic: self.haptic?,
                optic_diameter: self.optic_diameter?,
                overall_length: self.overall_length?,
                may_sit_in_sulcus: self.may_sit_in_sulcus?,
                powers,
                toric,
                average_power: self.average_power,
                shape,
                constants_for: self.constants_for?,
                constants: self.constants.whole()?,
                results: self.results.whole()?,
            }))
        };
        let refused = |it: RecordRefused| it.show(words).into_owned();
        Some(made()?.and_then(|record| record.check().map(|()| record).map_err(refused)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use millrace_core::case_file;

    const EN: Words = Words::ENGLISH;
    const RECORDS: &str = include_str!("../../../../../../demo-data/lenses.ron");

    /// Everything of every demo record comes back out of the form.
    #[test]
    fn a_record_goes_through_the_form_unchanged() {
        let records = case_file::read_lenses(RECORDS).unwrap();
        assert!(3 <= records.len());
        for record in records {
            let form = LensForm::of(&record);
            assert_eq!(form.missing(EN), Vec::<&str>::new(), "{}", record.name);
            assert_eq!(form.whole(EN), Some(Ok(record)));
        }
    }

    #[test]
    fn what_is_missing_is_named_and_nothing_is_filled_in() {
        assert_eq!(
            LensForm::default().missing(EN),
            [
                "name",
                "model",
                "whether it is made for the capsular bag or the anterior chamber",
                "material",
                "haptic",
                "optic diameter",
                "overall length",
                "whether it may sit in the sulcus",
                "which biometry its constants are for",
                "a range of powers",
            ]
        );
        assert_eq!(LensForm::default().whole(EN), None);
    }

    /// The limits are those of the file of records.
    #[test]
    fn what_no_lens_has_is_refused_in_words() {
        let records = case_file::read_lenses(RECORDS).unwrap();
        let refused = |change: fn(&mut LensForm)| {
            let mut form = LensForm::of(&records[0]);
            change(&mut form);
            form.whole(EN).unwrap().unwrap_err()
        };
        assert_eq!(
            refused(|form| form.optic_diameter = Some(Micrometers::new(2_000))),
            "optic diameter 2.00 mm is outside 3.00 mm to 9.00 mm"
        );
        assert_eq!(
            refused(|form| form.index = Some(1.2)),
            "index of the optic 1.2 is outside 1.4 to 1.7"
        );
        assert_eq!(
            refused(|form| form.name = Some("a\u{202e}b".to_owned())),
            "lens name holds an invisible or a control character (U+202E)"
        );
    }
}
