//! Lenses that lie ready pass the checks of the planned one, each in its place.

use super::super::*;
use super::{signable, signature, to_sign};
use crate::case::{Command, Draft, Slot, update};
use crate::lens::{Haptic, LensRecord, Obtained, Place};
use crate::limits::Limits;
use crate::quantity::HundredthDiopters;

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

fn choose_power(draft: &mut Draft, place: Place, hundredths: i32) {
    let lens = draft.lens.lenses.get_mut(Slot::Backup(place));
    lens.unwrap().power = Some(HundredthDiopters::new(hundredths));
}

#[test]
fn zz_demo() {
    for entry in std::fs::read_dir("../../demo-data/cases").unwrap() {
        let path = entry.unwrap().path();
        let draft = crate::case_file::read(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let plan = crate::plan::Plan::of(&draft, Limits::shipped()).unwrap();
        println!("== {}", path.display());
        for (slot, lens) in draft.lens.lenses.iter() {
            println!(
                "   {slot}: {} {:?} {:?}",
                lens.record.name, lens.power, lens.record.haptic
            );
        }
        for o in ready(&plan) {
            println!("   OBSTACLE {:?} {:?}", o.rule(), o.backup());
        }
        for e in &plan.rules {
            if [
                "PW-04", "PW-05", "PW-06", "PW-07", "CT-01", "CT-03", "CT-04", "CT-05", "CT-06",
                "HA-01", "SU-02", "AC-02", "AC-03", "AC-04", "AC-05",
            ]
            .contains(&e.rule.id)
            {
                println!("   {} {:?} {:?}", e.rule.id, e.backup, e.verdict);
            }
        }
    }
}
