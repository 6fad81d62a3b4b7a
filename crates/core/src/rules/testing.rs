//! Puts one rule in front of a draft; what it does not look at is not computed.

use chrono::NaiveDate;

pub(crate) use super::testing_facts::{diopters, limit, meridian, micrometers, quantity};
use super::testing_lens::lens_with_average;
use super::{Certainty, Fact, Facts, Finding, Limit, Rule, Verdict};
use crate::biometry::{
    ChamberDepth, CornealReading, CornealSurgery, CornealSurgeryKind, DepthStart, EarlierOperation,
    EyeRecord, EyeState, Keratometry, LocsTenths, Measured, MeridianReading, Method, NucleusGrade,
    Refraction, Side,
};
use crate::case::{Draft, Slot};
use crate::iol_power::Formula;
use crate::lens::{BiometryKind, LensRecord, Place};
use crate::limits::{Limits, Switch};
use crate::plan::Plan;
use crate::quantity::{Diopters, HundredthDiopters, Meridian};

/// A day of the calendar.
pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

/// A measurement without circumstances.
pub(crate) fn measured<T, S>(value: T, method: Method) -> Measured<T, S> {
    Measured {
        value,
        method,
        spread: None,
        on: Some(date(2026, 11, 20)),
        by: None,
    }
}

pub(crate) const SURGERIES: [CornealSurgeryKind; 3] = [
    CornealSurgeryKind::MyopicLaser,
    CornealSurgeryKind::HyperopicLaser,
    CornealSurgeryKind::Other,
];

fn keratometry(flat: &str, steep: &str) -> Keratometry {
    let at = |text: &str, degrees| MeridianReading {
        reading: text.parse::<CornealReading>().unwrap(),
        meridian: Meridian::new(degrees).unwrap(),
    };
    Keratometry {
        flat: at(flat, 180),
        steep: at(steep, 90),
        readings: Some(5),
        repeat_difference: None,
    }
}

/// An unremarkable eye: AL 23.50 mm, K 43.50/44.00 D, ACD 3.20 mm, CCT 540 µm.
fn ordinary_eye() -> EyeRecord {
    EyeRecord {
        axial_length: Some(measured("23.50 mm".parse().unwrap(), Method::Optical)),
        keratometry: Some(measured(
            keratometry("43.50 D at 1.3375", "44.00 D at 1.3375"),
            Method::Keratometer,
        )),
        chamber_depth: Some(measured(
            ChamberDepth {
                depth: "3.20 mm".parse().unwrap(),
                start: DepthStart::Epithelium,
            },
            Method::Optical,
        )),
        corneal_thickness: Some(measured("540 µm".parse().unwrap(), Method::Optical)),
        ..EyeRecord::default()
    }
}

/// A refraction without cylinder, hundredths of a diopter.
pub(crate) fn sphere(hundredths: i32) -> Refraction {
    let sphere = HundredthDiopters::new(hundredths);
    Refraction::new(sphere, HundredthDiopters::new(0), None).unwrap()
}

/// +21.50 D implanted, −0.25 D predicted by SRK/T, −0.75 D achieved.
pub(crate) fn earlier_operation(complicated: Option<bool>) -> EarlierOperation {
    EarlierOperation {
        lens_power: HundredthDiopters::new(2_150),
        predicted: sphere(-25),
        achieved: sphere(-75),
        formula: Some(Formula::SrkT),
        lens_model: Some("TEST-1".to_owned()),
        complicated,
    }
}

/// A draft for the right eye with two ordinary eyes and nothing else but dates.
pub(crate) struct DraftUnderTest(pub Draft);

impl DraftUnderTest {
    fn new() -> Self {
        let mut draft = Draft::default();
        draft.operation.eye = Some(Side::Right);
        draft.operation.date = Some(date(2026, 12, 3));
        draft.patient.birth_date = Some(date(1951, 3, 14));
        draft.eyes.right = ordinary_eye();
        draft.eyes.left = ordinary_eye();
        Self(draft)
    }

    pub(crate) fn operated(&mut self) -> &mut EyeRecord {
        &mut self.0.eyes.right
    }

    pub(crate) fn fellow(&mut self) -> &mut EyeRecord {
        &mut self.0.eyes.left
    }

    pub(crate) fn set_axial_length(&mut self, length: &str) {
        self.operated().axial_length = Some(measured(length.parse().unwrap(), Method::Optical));
    }

    pub(crate) fn set_axial_lengths(&mut self, operated: &str, fellow: &str) {
        self.set_axial_length(operated);
        self.fellow().axial_length = Some(measured(fellow.parse().unwrap(), Method::Optical));
    }

    /// Sets the readings of the operated eye, keeping count and circumstances.
    pub(crate) fn set_keratometry(&mut self, flat: &str, steep: &str) {
        self.operated().keratometry = Some(measured(keratometry(flat, steep), Method::Keratometer));
    }

    /// Sets the depth of the operated eye, from the epithelium, without a spread.
    pub(crate) fn set_depth(&mut self, depth: &str, method: Method) {
        let depth = ChamberDepth {
            depth: depth.parse().unwrap(),
            start: DepthStart::Epithelium,
        };
        self.operated().chamber_depth = Some(measured(depth, method));
    }

    /// Sets the depth of the operated eye, from the endothelium.
    pub(crate) fn set_aqueous_depth(&mut self, depth: &str) {
        let depth = ChamberDepth {
            depth: depth.parse().unwrap(),
            start: DepthStart::Endothelium,
        };
        self.operated().chamber_depth = Some(measured(depth, Method::Optical));
    }

    pub(crate) fn set_length_by(&mut self, length: &str, method: Method) {
        self.operated().axial_length = Some(measured(length.parse().unwrap(), method));
    }

    pub(crate) fn set_fellow_keratometry(&mut self, flat: &str, steep: &str) {
        self.fellow().keratometry = Some(measured(keratometry(flat, steep), Method::Keratometer));
    }

    pub(crate) fn set_corneal_diameter(&mut self, diameter: &str) {
        let diameter = measured(diameter.parse().unwrap(), Method::Optical);
        self.operated().corneal_diameter = Some(diameter);
    }

    pub(crate) fn set_corneal_thickness(&mut self, thickness: &str) {
        let thickness = measured(thickness.parse().unwrap(), Method::Optical);
        self.operated().corneal_thickness = Some(thickness);
    }

    pub(crate) fn set_lens_thickness(&mut self, thickness: &str) {
        let thickness = measured(thickness.parse().unwrap(), Method::Optical);
        self.operated().lens_thickness = Some(thickness);
    }

    /// Records corneal surgery on the operated eye without anything known of before.
    pub(crate) fn operate_cornea(&mut self, kind: CornealSurgeryKind) {
        self.operated().state.corneal_surgery = Some(CornealSurgery::Done {
            kind,
            before: None,
            correction: None,
        });
    }

    /// Plans by SRK/T with a lens for that kind of biometry; returns the lens to change it.
    pub(crate) fn choose_lens(&mut self, constants_for: BiometryKind) -> &mut LensRecord {
        self.0.lens.formula = Some(Formula::SrkT);
        self.plan_with(lens_with_average(constants_for));
        &mut self.chosen().record
    }

    /// Records every sign of the operated eye as looked for and absent, and a refraction of zero.
    pub(crate) fn set_unremarkable_state(&mut self) {
        let absent = Some(false);
        self.operated().state = EyeState {
            dense_cataract: absent,
            white_cataract: absent,
            brunescent: absent,
            posterior_polar: absent,
            capsule_plaque: absent,
            pseudoexfoliation: absent,
            phacodonesis: absent,
            guttata: absent,
            corneal_scarring: absent,
            keratoplasty_likely: absent,
            previous_vitrectomy: absent,
            other_difficulty: absent,
            refraction: Some(sphere(0)),
            ..EyeState::default()
        };
    }

    pub(crate) fn set_posterior_radius(&mut self, radius: &str) {
        let radius = measured(radius.parse().unwrap(), Method::Tomographer);
        self.operated().posterior_radius = Some(radius);
    }

    pub(crate) fn set_pupil(&mut self, diameter: &str) {
        self.operated().pupil = Some(measured(diameter.parse().unwrap(), Method::Manual));
    }

    pub(crate) fn set_endothelium(&mut self, density: &str) {
        let density = measured(density.parse().unwrap(), Method::SpecularMicroscope);
        self.operated().endothelium = Some(density);
    }

    /// Sets LOCS III nuclear opalescence of the operated eye, in tenths.
    pub(crate) fn set_locs_opalescence(&mut self, tenths: i32) {
        self.operated().state.nucleus = Some(NucleusGrade::LocsIii {
            opalescence: LocsTenths::new(tenths).unwrap(),
            color: None,
        });
    }

    /// Sets the softest nucleus that counts as hard with the shipped limits.
    pub(crate) fn set_hard_nucleus(&mut self) {
        self.set_locs_opalescence(50);
    }
}

/// An ordinary draft, to change step by step.
pub(crate) fn ordinary_draft() -> DraftUnderTest {
    DraftUnderTest::new()
}

/// The plan of an ordinary draft after `change`, with the shipped limits.
pub(crate) fn plan(change: impl FnOnce(&mut DraftUnderTest)) -> Plan {
    let mut draft = DraftUnderTest::new();
    change(&mut draft);
    Plan::of(&draft.0, Limits::shipped()).unwrap()
}

/// The verdict of a rule on an ordinary draft after `change`, with limits of one's own.
pub(crate) fn verdict_with(
    rule: &Rule,
    limits: &Limits,
    change: impl FnOnce(&mut DraftUnderTest),
) -> Verdict {
    let mut draft = DraftUnderTest::new();
    change(&mut draft);
    let side = draft.0.operation.eye.expect("a case under test has an eye");
    rule.verdict(&Facts::of(&draft.0, side, limits))
}

/// The verdict of a rule on the lens that lies ready for a place.
pub(crate) fn verdict_of_backup(
    rule: &Rule,
    place: Place,
    change: impl FnOnce(&mut DraftUnderTest),
) -> Verdict {
    let mut draft = DraftUnderTest::new();
    change(&mut draft);
    let facts = Facts::of(&draft.0, Side::Right, Limits::shipped());
    rule.verdict(&facts.of_slot(Slot::Backup(place)))
}

/// The verdict of a rule on an ordinary draft after `change`, with the shipped limits.
pub(crate) fn verdict(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) -> Verdict {
    verdict_with(rule, Limits::shipped(), change)
}

/// The shipped limits with the stricter screening set switched on.
fn strict_limits() -> Limits {
    Limits {
        strict_screening: Switch::On,
        ..Limits::shipped().clone()
    }
}

/// The verdict of a rule with the stricter screening set switched on.
pub(crate) fn verdict_strictly(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) -> Verdict {
    verdict_with(rule, &strict_limits(), change)
}

/// The verdict, with the stricter screening set switched on, for given powers for emmetropia.
pub(crate) fn verdict_with_powers(
    rule: &Rule,
    emmetropic_power: [Option<Diopters>; 2],
    change: impl FnOnce(&mut DraftUnderTest),
) -> Verdict {
    let mut draft = DraftUnderTest::new();
    change(&mut draft);
    let limits = strict_limits();
    let facts = Facts::of(&draft.0, Side::Right, &limits);
    rule.verdict(&facts.with_emmetropic_power(emmetropic_power))
}

#[track_caller]
pub(crate) fn assert_satisfied(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) {
    assert_eq!(verdict(rule, change), Verdict::Satisfied);
}

/// Asserts a finding as measured, written as [`quantity`] and [`limit`] read it; returns it for its
/// details.
#[track_caller]
pub(crate) fn assert_finding(
    rule: &Rule,
    change: impl FnOnce(&mut DraftUnderTest),
    expected: [&str; 2],
) -> Finding {
    assert_shows(verdict(rule, change), expected)
}

/// Asserts that a verdict is a finding as measured, written as [`quantity`] and [`limit`] read it.
#[track_caller]
pub(crate) fn assert_shows(verdict: Verdict, [measured, against]: [&str; 2]) -> Finding {
    assert_is(verdict, &quantity(measured).into(), &limit(against))
}

/// Asserts a finding as measured of these facts; returns it for its details.
#[expect(clippy::needless_pass_by_value, reason = "facts are written in place")]
#[track_caller]
pub(crate) fn assert_found(
    rule: &Rule,
    change: impl FnOnce(&mut DraftUnderTest),
    measured: Fact,
    limit: Limit,
) -> Finding {
    assert_is(verdict(rule, change), &measured, &limit)
}

#[track_caller]
fn assert_is(verdict: Verdict, measured: &Fact, limit: &Limit) -> Finding {
    match verdict {
        Verdict::Finding(finding) => {
            assert_eq!((&finding.measured, &finding.limit), (measured, limit));
            assert_eq!(finding.certainty, Certainty::AsMeasured);
            finding
        }
        other => panic!("no finding but {other:?}"),
    }
}

/// Two limits that pass themselves, and a value one step beyond each.
#[track_caller]
pub(crate) fn assert_limits(
    rule: &Rule,
    set: fn(&mut DraftUnderTest, &str),
    [low, high]: [&str; 2],
    beyond: [&str; 2],
) {
    for value in [low, high] {
        assert_satisfied(rule, |draft| set(draft, value));
    }
    for value in beyond {
        let limit = format!("{low} to {high}");
        assert_finding(rule, |draft| set(draft, value), [value, &limit]);
    }
}

/// Asserts that a verdict is a finding of this certainty, its chance as printed tables of the normal
/// distribution give it, to four decimals.
#[track_caller]
pub(crate) fn assert_certainty(verdict: Verdict, expected: Certainty) -> Finding {
    let Verdict::Finding(finding) = verdict else {
        panic!("no finding but {verdict:?}");
    };
    let off = match (finding.certainty, expected) {
        (Certainty::Clear { chance }, Certainty::Clear { chance: printed })
        | (Certainty::Borderline { chance }, Certainty::Borderline { chance: printed }) => {
            (chance - printed).abs()
        }
        _ => panic!("{finding:?}"),
    };
    assert!(off <= 0.00005, "{finding:?}");
    finding
}

#[track_caller]
pub(crate) fn assert_not_evaluated(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) {
    let verdict = verdict(rule, change);
    assert!(matches!(verdict, Verdict::NotEvaluated(_)), "{verdict:?}");
}

#[track_caller]
pub(crate) fn assert_not_applicable(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) {
    let verdict = verdict(rule, change);
    assert!(matches!(verdict, Verdict::NotApplicable(_)), "{verdict:?}");
}

#[track_caller]
pub(crate) fn not_evaluated_strictly(rule: &Rule, change: impl FnOnce(&mut DraftUnderTest)) {
    let verdict = verdict_strictly(rule, change);
    assert!(matches!(verdict, Verdict::NotEvaluated(_)), "{verdict:?}");
}
