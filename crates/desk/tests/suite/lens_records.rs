//! Lens records are changed whole or not at all, and no case with them.

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, demo, demo_lenses, enter, harness, light, texts,
};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::lens::{LensRecord, Obtained};
use millrace_desk::exchange::Request;

const TALL: [f32; 2] = [1100.0, 1800.0];

fn records() -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, TALL);
    click(&mut harness, "Settings");
    click(&mut harness, "Part of the settings, Lens records");
    harness
}

fn kept(harness: &Harness<'static, Bench>) -> Vec<Vec<LensRecord>> {
    let told = harness.state().told.iter();
    told.filter_map(|request| match request {
        Request::KeepLenses(lenses) => Some(lenses.clone()),
        _ => None,
    })
    .collect()
}

#[test]
fn a_changed_constant_is_kept_and_the_case_keeps_its_own_copy() {
    let mut harness = records();
    let before = harness.state().draft().clone();
    click(&mut harness, "Change… Weir one-piece");
    enter(&mut harness, "A (SRK/T, T2)", "118,71");
    enter(&mut harness, "A (SRK/T, T2), number of eyes", "260");
    click(&mut harness, "Save the record");
    let mut expected = demo_lenses();
    let constant = expected[0].constants.a_constant.as_mut().unwrap();
    constant.value = millrace_core::iol_power::AConstant::new(118.71).unwrap();
    constant.obtained = Obtained::Optimized { eyes: 260 };
    assert_eq!(kept(&harness), [expected]);
    assert_eq!(harness.state().draft(), &before);
    // Taken back as a whole.
    click(&mut harness, "Undo");
    assert_eq!(kept(&harness)[1], demo_lenses());
}

#[test]
fn a_removed_record_comes_back_by_the_key() {
    let mut harness = records();
    click(&mut harness, "Remove Weir one-piece");
    assert_eq!(kept(&harness)[0], demo_lenses()[1..]);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(kept(&harness)[1], demo_lenses());
}

#[test]
fn a_copy_needs_a_name_of_its_own() {
    let mut harness = records();
    click(&mut harness, "Copy… Weir one-piece");
    harness.get_by_label("Still missing: name");
    enter(&mut harness, "Name in this clinic", "Weir one-piece");
    harness.get_by_label("Not accepted: another record has this name");
    click(&mut harness, "Save the record");
    assert_eq!(kept(&harness), Vec::<Vec<LensRecord>>::new());
    enter(&mut harness, "Name in this clinic", "Weir, second bench");
    click(&mut harness, "Save the record");
    let kept = &kept(&harness)[0];
    assert_eq!(kept.len(), demo_lenses().len() + 1);
    assert_eq!(kept.last().unwrap().name, "Weir, second bench");
}

/// 28.50 − 4.50 = 24 D is no whole number of steps of 0.70 D; the refusal is the core's.
#[test]
fn powers_that_do_not_go_up_in_their_step_are_refused() {
    let mut harness = records();
    click(&mut harness, "Change… Weir one-piece");
    enter(&mut harness, "Range 1, step", "0.70");
    harness.get_by_label(
        "Not accepted: powers from +4.50 D to +28.50 D cannot be reached in steps of +0.70 D",
    );
    click(&mut harness, "Save the record");
    assert_eq!(kept(&harness), Vec::<Vec<LensRecord>>::new());
    click(&mut harness, "Cancel");
    assert!(texts(&harness).iter().any(|text| text == "Weir one-piece"));
}

#[test]
fn an_empty_record_says_everything_it_lacks() {
    let mut harness = records();
    click(&mut harness, "Add a record…");
    let missing = texts(&harness);
    let missing = missing
        .iter()
        .find(|text| text.starts_with("Still missing"));
    assert_eq!(
        missing.unwrap(),
        "Still missing: name, model, whether it is made for the capsular bag or the anterior chamber, material, haptic, optic diameter, overall length, whether it may sit in the sulcus, which biometry its constants are for, a range of powers"
    );
}
