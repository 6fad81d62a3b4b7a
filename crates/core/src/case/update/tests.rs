//! What changes a draft, what is refused, and what a change clears.

mod near_the_endothelium;

use super::*;
use crate::astigmatism::{IncisionEffect, PosteriorChoice};
use crate::biometry::{Measured, Measurement, Method};
use crate::case::{Approach, LensPlan};
use crate::lens::{LensRecord, Place, ToricChoice};
use crate::quantity::{HundredthDiopters, Meridian, Micrometers};
use crate::rules::testing::{date, ordinary_draft};
use crate::rules::testing_lens::lens_record;
use crate::rules::{Limit, Quantity};

fn measured_right_eye() -> Draft {
    let length = Measured {
        value: "23.45 mm".parse().unwrap(),
        method: Method::Optical,
        spread: None,
        on: None,
        by: None,
    };
    let draft = update(&Draft::default(), Command::ChooseEye(Side::Right)).unwrap();
    update(
        &draft,
        Command::Measure(Side::Right, Measurement::AxialLength(Some(length))),
    )
    .unwrap()
}

#[test]
fn the_eye_may_change_freely_only_before_anything_was_measured() {
    let draft = update(&Draft::default(), Command::ChooseEye(Side::Right)).unwrap();
    let draft = update(&draft, Command::ChooseEye(Side::Left)).unwrap();
    assert_eq!(draft.operation.eye, Some(Side::Left));

    let measured = measured_right_eye();
    assert_eq!(
        update(&measured, Command::ChooseEye(Side::Left))
            .unwrap_err()
            .to_string(),
        "the case is planned for the right eye and has measurements: \
         a change to the left eye needs a recorded reason"
    );
    assert!(update(&measured, Command::ChooseEye(Side::Right)).is_ok());
}

#[test]
fn an_explicit_change_of_eye_is_kept_and_clears_the_power() {
    let power = Some(HundredthDiopters::new(2_150));
    let lens = Command::ChooseLens(Slot::Planned, Some(Box::new(lens_record())), Vec::new());
    let mut draft = update(&measured_right_eye(), lens).unwrap();
    draft = update(&draft, Command::ChoosePower(Slot::Planned, power)).unwrap();
    draft = update(
        &draft,
        Command::ChooseToric(Slot::Planned, Some(toric_choice())),
    )
    .unwrap();
    draft.lens.target = Some(HundredthDiopters::new(-25));
    draft.lens.consented_target = Some(HundredthDiopters::new(-25));
    draft.lens.ultrasound = Some(crate::case::UltrasoundChoice::AsMeasured);
    draft.lens.second_eye = Some(crate::case::SecondEyeChoice::Refined);
    draft.lens.posterior = Some(PosteriorChoice::Regression);
    draft.approach.pieces = Some(16);
    draft = update(&draft, al_01_reason("measured twice")).unwrap();
    let change = |from, reason: &str, name: &str| {
        Command::ChangeEye(EyeChange {
            from,
            to: from.other(),
            reason: reason.to_owned(),
            by: name.to_owned(),
            on: date(2026, 12, 1),
        })
    };
    let done = update(&draft, change(Side::Right, "listed wrongly", "A. Okafor")).unwrap();
    assert_eq!(done.operation.eye, Some(Side::Left));
    let mut only_the_lens = LensPlan::default();
    only_the_lens
        .lenses
        .choose(Slot::Planned, Some(lens_record()));
    assert_eq!(done.lens, only_the_lens);
    assert_eq!(done.approach, ApproachPlan::default());
    assert_eq!(done.reasons, []);
    assert_eq!(done.eye_changes.len(), 1);
    let same = Command::ChangeEye(EyeChange {
        from: Side::Right,
        to: Side::Right,
        reason: "x".to_owned(),
        by: "y".to_owned(),
        on: date(2026, 12, 1),
    });
    assert_eq!(update(&draft, same).unwrap_err(), CommandRefused::SameEye);

    assert_eq!(
        update(&draft, change(Side::Left, "x", "y")).unwrap_err(),
        CommandRefused::OtherEye { from: Side::Left }
    );
    assert_eq!(
        update(&draft, change(Side::Right, " ", "y")).unwrap_err(),
        CommandRefused::ReasonMissing
    );
    assert_eq!(
        update(&draft, change(Side::Right, "x", "")).unwrap_err(),
        CommandRefused::AuthorMissing
    );
}

fn reason(rule: &str, text: &str, name: &str) -> Command {
    Command::RecordReason(RecordedReason {
        rule: rule.to_owned(),
        backup: None,
        measured: Quantity::Length(Micrometers::new(28_500)).into(),
        limit: Limit::AtMost(Quantity::Length(Micrometers::new(26_600))),
        reason: text.to_owned(),
        by: name.to_owned(),
        on: date(2026, 12, 1),
    })
}

fn al_01_reason(text: &str) -> Command {
    reason("AL-01", text, "A. Okafor")
}

#[test]
fn a_second_reason_for_a_rule_replaces_the_first() {
    let draft = update(&Draft::default(), al_01_reason("measured twice")).unwrap();
    let draft = update(&draft, al_01_reason("measured three times")).unwrap();
    assert_eq!(draft.reasons.len(), 1);
    assert_eq!(draft.reasons[0].reason, "measured three times");
    let withdrawn = update(
        &draft,
        Command::WithdrawReason {
            rule: "AL-01".to_owned(),
            backup: None,
        },
    )
    .unwrap();
    assert_eq!(withdrawn.reasons, []);
}

#[test]
fn a_reason_has_words_a_person_and_a_rule() {
    let refused = |command| update(&Draft::default(), command).unwrap_err().to_string();
    assert_eq!(refused(reason("AL-01", " ", "x")), "a reason is missing");
    assert_eq!(
        refused(reason("AL-01", "x", " ")),
        "the name of the person is missing"
    );
    assert_eq!(
        refused(reason("ZZ-99", "x", "y")),
        "no rule is called ZZ-99"
    );
    assert_eq!(
        refused(reason("AL-01", "fine\nSIGNED", "y")),
        "reason holds an invisible or a control character (U+000A)"
    );
}

#[test]
fn a_lens_is_chosen_for_where_it_is_made_to_sit() {
    let bag = lens_record();
    let chamber = LensRecord {
        site: LensSite::AnteriorChamber,
        ..bag.clone()
    };
    let sulcus = LensRecord {
        may_sit_in_sulcus: true,
        ..bag.clone()
    };
    let refused = |slot, record: &LensRecord| {
        let choose = Command::ChooseLens(slot, Some(Box::new(record.clone())), Vec::new());
        update(&Draft::default(), choose).err()
    };
    let [in_bag, in_sulcus, in_chamber] =
        [Place::Bag, Place::Sulcus, Place::AnteriorChamber].map(Slot::Backup);
    for (slot, may) in [
        (Slot::Planned, [true, true, false]),
        (in_bag, [true, true, false]),
        (in_sulcus, [false, true, false]),
        (in_chamber, [false, false, true]),
    ] {
        for (record, may) in [&bag, &sulcus, &chamber].into_iter().zip(may) {
            let site = record.site;
            let expected = (!may).then_some(CommandRefused::Site { slot, site });
            assert_eq!(refused(slot, record), expected);
        }
    }
    let power = Some(HundredthDiopters::new(2_150));
    for command in [
        Command::ChoosePower(in_sulcus, power),
        Command::ChooseToric(in_sulcus, Some(toric_choice())),
    ] {
        let none = CommandRefused::NoLens { slot: in_sulcus };
        assert_eq!(update(&Draft::default(), command), Err(none));
    }
}

/// Half of another error is another refinement.
#[test]
fn a_decision_on_the_second_eye_does_not_outlive_the_first_eyes_result() {
    use crate::case::SecondEyeChoice;
    use crate::rules::testing::earlier_operation;

    let earlier = |complicated| {
        Command::SetEarlierOperation(Side::Left, Some(earlier_operation(complicated)))
    };
    let draft = update(&measured_right_eye(), earlier(Some(false))).unwrap();
    let choice = Some(SecondEyeChoice::Refined);
    let draft = update(&draft, Command::ChooseSecondEye(choice)).unwrap();
    assert_eq!(draft.lens.second_eye, choice);
    let same = update(&draft, earlier(Some(false))).unwrap();
    assert_eq!(same.lens.second_eye, choice);
    let changed = update(&draft, earlier(Some(true))).unwrap();
    assert_eq!(changed.lens.second_eye, None);
}

fn toric_choice() -> ToricChoice {
    ToricChoice {
        cylinder: HundredthDiopters::new(225),
        axis: Meridian::new(90).unwrap(),
    }
}

/// Cylinder and axis of one lens say nothing of another.
#[test]
fn another_lens_clears_power_and_cylinder() {
    let slot = Slot::Backup(Place::Bag);
    let choose = |record: LensRecord| Command::ChooseLens(slot, Some(Box::new(record)), Vec::new());
    let power = Some(HundredthDiopters::new(2_150));
    let mut draft = update(&Draft::default(), choose(lens_record())).unwrap();
    draft = update(&draft, Command::ChoosePower(slot, power)).unwrap();
    draft = update(&draft, Command::ChooseToric(slot, Some(toric_choice()))).unwrap();
    let same = update(&draft, choose(lens_record())).unwrap();
    let of = |draft: &Draft| {
        draft
            .lens
            .lenses
            .get(slot)
            .map(|lens| (lens.power, lens.toric))
    };
    assert_eq!(of(&same), Some((power, Some(toric_choice()))));
    let other = LensRecord {
        name: "Another".to_owned(),
        ..lens_record()
    };
    let changed = update(&draft, choose(other)).unwrap();
    assert_eq!(of(&changed), Some((None, None)));
    let none = update(&draft, Command::ChooseLens(slot, None, Vec::new())).unwrap();
    assert_eq!(none, Draft::default());
}

/// The surgeon's figures belong to one approach's incision.
#[test]
fn another_approach_clears_the_incisions_effect() {
    let [flattening, scatter] = [20, 30].map(HundredthDiopters::new);
    let effect = IncisionEffect::new(flattening, scatter, 80, None).ok();
    let approach = |approach| Command::ChooseApproach(Some(approach));
    let set = Command::SetIncisionEffect(effect);
    let draft = update(&Draft::default(), set).unwrap();
    let draft = update(&draft, approach(Approach::Phacoemulsification)).unwrap();
    let same = update(&draft, approach(Approach::Phacoemulsification)).unwrap();
    assert_eq!(same.approach.incision_effect, effect);
    let other = update(&draft, approach(Approach::SmallIncision)).unwrap();
    assert_eq!(other.approach.incision_effect, None);
    let none = update(&draft, Command::ChooseApproach(None)).unwrap();
    assert_eq!(none.approach.incision_effect, None);
    let choice = Some(PosteriorChoice::Multiplier);
    let chosen = update(&draft, Command::ChoosePosterior(choice)).unwrap();
    assert_eq!(chosen.lens.posterior, choice);
}

#[test]
fn a_person_without_a_printable_name_or_a_flat_meridian_that_is_steeper_is_not_recorded() {
    let draft = Draft::default();
    let measured = |by: &str| Measured {
        value: "4.60 mm".parse().unwrap(),
        method: Method::Optical,
        spread: None,
        on: None,
        by: Some(by.to_owned()),
    };
    let measure = |by: &str| {
        let measurement = Measurement::LensThickness(Some(measured(by)));
        update(&draft, Command::Measure(Side::Left, measurement))
    };
    assert!(measure(&"é".repeat(120)).is_ok());
    assert_eq!(
        measure(&"é".repeat(121)).unwrap_err().to_string(),
        "name of the person has 121 characters; at most 120 are kept"
    );
    assert_eq!(
        measure("T.\nLindqvist").unwrap_err().to_string(),
        "name of the person holds an invisible or a control character (U+000A)"
    );
    let ordinary = ordinary_draft().0;
    let mut exchanged = ordinary.eyes.right.keratometry.clone().unwrap();
    core::mem::swap(&mut exchanged.value.flat, &mut exchanged.value.steep);
    for set in [Measurement::Keratometry, Measurement::SecondKeratometry] {
        let command = Command::Measure(Side::Right, set(Some(exchanged.clone())));
        assert_eq!(
            update(&ordinary, command).unwrap_err().to_string(),
            "the flat meridian 44.00 D at 1.3375 has a shorter radius than the steep one 43.50 D at 1.3375"
        );
    }
}

#[test]
fn a_judgment_has_a_reason_and_does_not_outlive_its_entries() {
    let judged = JudgedNucleus {
        hard: false,
        reason: "soft in the fellow eye".to_owned(),
        by: "A. Okafor".to_owned(),
        on: date(2026, 12, 1),
    };
    let judge = |judged: &JudgedNucleus| Command::JudgeNucleus(Some(judged.clone()));
    let draft = measured_right_eye();
    for (wrong, refusal) in [
        (
            JudgedNucleus {
                reason: " ".to_owned(),
                ..judged.clone()
            },
            CommandRefused::ReasonMissing,
        ),
        (
            JudgedNucleus {
                by: String::new(),
                ..judged.clone()
            },
            CommandRefused::AuthorMissing,
        ),
    ] {
        assert_eq!(update(&draft, judge(&wrong)), Err(refusal));
    }
    let draft = update(&draft, judge(&judged)).unwrap();
    assert_eq!(draft.approach.nucleus_judged, Some(judged));
    let after = |side, sign: Sign| {
        let mut state = draft.eyes.get(side).state.clone();
        sign.set(&mut state, Some(true));
        let changed = update(&draft, Command::SetState(side, Box::new(state))).unwrap();
        changed.approach.nucleus_judged.is_some()
    };
    assert!(after(Side::Right, Sign::Guttata));
    assert!(after(Side::Left, Sign::Brunescent));
    for sign in [Sign::Brunescent, Sign::WhiteCataract, Sign::DenseCataract] {
        assert!(!after(Side::Right, sign), "{sign:?}");
    }
    let withdrawn = update(&draft, Command::JudgeNucleus(None)).unwrap();
    assert_eq!(withdrawn.approach.nucleus_judged, None);
}
