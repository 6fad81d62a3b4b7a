//! Lenses that lie ready pass the checks of the planned one, each in its place.

use super::super::*;
use super::{signable, signature, to_sign};
use crate::biometry::{ChamberDepth, DepthStart, Measured, Method};
use crate::case::{Draft, RecordedReason, Slot};
use crate::iol_power::{AConstant, PersonalizedAcd};
use crate::lens::{Constant, Haptic, LensRecord, Material, Obtained, Place};
use crate::limits::Limits;
use crate::plan::Plan;
use crate::quantity::HundredthDiopters;
use crate::rules::Verdict;
use crate::rules::testing::{date, measured};

/// What keeps the signable draft, changed so, from being signed: rule and backup lens.
fn obstacles(change: impl FnOnce(&mut Draft)) -> Vec<(Option<&'static str>, Option<Place>)> {
    let mut draft = signable();
    change(&mut draft);
    let signed = sign(to_sign(&draft, Limits::shipped()), signature(-30));
    let obstacles = signed.err().unwrap_or_default();
    let named = obstacles.iter().map(|it| (it.rule(), it.backup()));
    named.collect()
}

fn record(draft: &mut Draft, place: Place) -> &mut LensRecord {
    let lens = draft.lens.lenses.get_mut(Slot::Backup(place));
    &mut lens.unwrap().record
}

fn a_constant(value: f64) -> Constant<AConstant> {
    Constant {
        value: AConstant::new(value).unwrap(),
        obtained: Obtained::Given,
    }
}

/// A depth from the epithelium.
fn depth(depth: &str) -> Measured<ChamberDepth> {
    let depth = ChamberDepth {
        depth: depth.parse().unwrap(),
        start: DepthStart::Epithelium,
    };
    measured(depth, Method::Optical)
}

fn choose_power(draft: &mut Draft, place: Place, hundredths: i32) {
    let lens = draft.lens.lenses.get_mut(Slot::Backup(place));
    lens.unwrap().power = Some(HundredthDiopters::new(hundredths));
}

/// A reason recorded for the finding of a rule of one lens.
fn reason_for(draft: &Draft, rule: &str, backup: Option<Place>) -> RecordedReason {
    let plan = Plan::of(draft, Limits::shipped()).unwrap();
    let evaluated = plan.rules.into_iter();
    let mut evaluated = evaluated.filter(|it| (it.rule.id, it.backup) == (rule, backup));
    let Verdict::Finding(finding) = evaluated.next().unwrap().verdict else {
        panic!("{rule} finds nothing");
    };
    RecordedReason {
        rule: rule.to_owned(),
        backup,
        measured: finding.measured,
        limit: finding.limit,
        reason: "discussed".to_owned(),
        by: "A. Okafor".to_owned(),
        on: date(2026, 11, 24),
    }
}

/// One lens twice, both half a diopter too far off: the reason for the one in the bag says nothing of the
/// planned one, though both findings are the same.
#[test]
fn a_reason_for_one_lens_does_not_cover_another() {
    let bag = Slot::Backup(Place::Bag);
    let twice = |draft: &mut Draft| {
        let planned = draft.lens.lenses.get_mut(Slot::Planned).unwrap();
        planned.power = planned.power.map(|it| it + HundredthDiopters::new(200));
        let (record, power) = (planned.record.clone(), planned.power);
        draft.lens.lenses.choose(bag, Some(record));
        draft.lens.lenses.get_mut(bag).unwrap().power = power;
    };
    let both = [None, Some(Place::Bag)];
    let open = |found: &[(Option<&'static str>, Option<Place>)]| {
        both.map(|backup| found.contains(&(Some("PW-05"), backup)))
    };
    assert_eq!(open(&obstacles(twice)), [true, true]);
    for (index, reason) in both.into_iter().enumerate() {
        let found = obstacles(|draft| {
            twice(draft);
            let reason = reason_for(draft, "PW-05", reason);
            draft.reasons.push(reason);
        });
        assert_eq!(open(&found), [index != 0, index != 1]);
    }
}

/// Each of these was signed without a word.
#[test]
fn no_backup_lens_is_signed_that_could_not_be_the_planned_one() {
    use Place::{AnteriorChamber, Bag, Sulcus};
    type Change = fn(&mut Draft);
    let dangers: [(Change, &str, Option<Place>); 9] = [
        // A spare for another eye, in each place.
        (|draft| choose_power(draft, Bag, 950), "PW-06", Some(Bag)),
        (
            |draft| choose_power(draft, Sulcus, 950),
            "PW-06",
            Some(Sulcus),
        ),
        (
            |draft| choose_power(draft, AnteriorChamber, 2_750),
            "PW-06",
            Some(AnteriorChamber),
        ),
        (
            |draft| {
                let record = record(draft, Sulcus);
                (record.haptic, record.material) = (Haptic::OnePiece, Material::HydrophobicAcrylic);
            },
            "SU-02",
            None,
        ),
        (
            |draft| draft.eyes.right.chamber_depth = Some(depth("2.00 mm")),
            "AC-02",
            None,
        ),
        (
            |draft| draft.eyes.right.state.iris_defect = Some(true),
            "AC-03",
            None,
        ),
        (
            |draft| draft.eyes.right.state.narrow_angle = Some(true),
            "AC-04",
            None,
        ),
        (
            |draft| {
                record(draft, Bag).constants.a_constant = Some(a_constant(130.0));
            },
            "CT-04",
            Some(Bag),
        ),
        (
            |draft| {
                let constants = &mut record(draft, Sulcus).constants;
                constants.personalized_acd = Some(Constant {
                    value: PersonalizedAcd::new(6.5).unwrap(),
                    obtained: Obtained::ConvertedFromA,
                });
            },
            "CT-03",
            Some(Sulcus),
        ),
    ];
    assert_eq!(obstacles(|_| {}), []);
    for (index, (change, rule, backup)) in dangers.into_iter().enumerate() {
        let found = obstacles(change);
        assert!(found.contains(&(Some(rule), backup)), "{index}: {found:?}");
    }
}
