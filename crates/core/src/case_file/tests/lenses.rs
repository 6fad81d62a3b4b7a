//! Lenses of a case and of a file of records.

use crate::case::{ChosenLens, Slot};
use crate::case_file::{read, read_json, read_lenses, write, write_json, write_lenses};
use crate::iol_power::HaigisConstants;
use crate::lens::{Obtained, Place, PowerLabel};

const CASE: &str = r#"(
    format: "millrace case", version: 2, patient: (), operation: (),
    lens: (
        target: "-0.30 D", posterior: measured, sum_of_segments: true,
        lenses: [
            (
                chosen_as: planned, place: bag,
                record: (
                    name: "Toric", model: "T", site: bag, material: silicone, haptic: plate,
                    optic_diameter: "6.00 mm", overall_length: "12.50 mm", may_sit_in_sulcus: true,
                    powers: [(from: "+10.00 D", to: "+30.00 D", step: "+0.50 D")],
                    toric: (label: weakest_meridian, cylinders: ["+1.50 D", "+2.25 D"]),
                    average_power: "+21.00 D", optic: (index: 1.46, thickness: "0.823 mm"),
                    constants_for: ultrasound,
                    constants: (
                        a_constant: (value: 118.66, obtained: optimized(eyes: 241)),
                        pacd_mm: (value: 5.35, obtained: given),
                        surgeon_factor_mm: (value: 1.6, obtained: converted_from_a),
                        haigis: (value: (a0_mm: 1.27, a1: 0.4, a2: 0.1), obtained: given),
                    ),
                    results: [(formula: t2, eyes: 88, deviation_d: 0.41, on: "2026-05-04")],
                ),
                power: "+21.50 D", toric: (cylinder: "+2.25 D", axis: 88),
            ),
            (
                chosen_as: backup, place: anterior_chamber,
                record: (
                    name: "Chamber", model: "C", site: anterior_chamber, material: pmma,
                    haptic: one_piece, optic_diameter: "5.50 mm", overall_length: "13.00 mm",
                    may_sit_in_sulcus: false, powers: [], constants_for: optical, constants: (),
                ),
            ),
        ],
    ),
)"#;

#[test]
fn every_field_of_a_lens_is_read_written_and_read_back() {
    let draft = read(CASE).unwrap();
    let written = write(&draft).unwrap();
    assert_eq!(read(&written).unwrap(), draft);
    assert_eq!(read_json(&write_json(&draft).unwrap()).unwrap(), draft);
    for text in CASE.split('"').skip(1).step_by(2) {
        assert!(written.contains(&format!("\"{text}\"")), "{text}");
    }
    let planned = draft.lens.lenses.planned().unwrap();
    let ChosenLens { record, .. } = planned;
    assert_eq!(
        record.toric.as_ref().unwrap().label(),
        PowerLabel::WeakestMeridian
    );
    assert_eq!(planned.toric.unwrap().axis.degrees(), 88);
    let haigis = record.constants.haigis.unwrap();
    let value = haigis.value;
    assert_eq!(value, HaigisConstants::new(1.27, 0.4, 0.1).unwrap());
    assert_eq!(haigis.obtained, Obtained::Given);
    let slots: Vec<_> = draft.lens.lenses.iter().map(|(slot, _)| slot).collect();
    assert_eq!(slots, [Slot::Planned, Slot::Backup(Place::AnteriorChamber)]);
    // A file of records holds the same.
    let records: Vec<_> = draft
        .lens
        .lenses
        .iter()
        .map(|(_, lens)| lens.record.clone())
        .collect();
    let listed = write_lenses(&records).unwrap();
    assert_eq!(read_lenses(&listed).unwrap(), records);
}

/// What stands in [`CASE`], what is written in its place, and how the message begins.
const REFUSED: &[(&str, &str, &str)] = &[
    (
        "chosen_as: planned, place: bag",
        "chosen_as: planned, place: sulcus",
        "the planned lens is for the bag",
    ),
    (
        "place: anterior_chamber,\n",
        "place: bag,\n",
        "the backup lens for the bag is made for the anterior chamber",
    ),
    (
        "site: anterior_chamber",
        "site: bag",
        "the anterior chamber IOL is made for the capsular bag",
    ),
    ("\"Toric\"", "\"To\\nric\"", "lens name holds an invisible"),
    (
        "optic_diameter: \"6.00 mm\"",
        "optic_diameter: \"9.001 mm\"",
        "optic diameter 9.001 mm is outside 3.00 mm to 9.00 mm",
    ),
    (
        "\"12.50 mm\"",
        "\"7.999 mm\"",
        "overall length of the lens 7.999 mm is outside 8.00 mm to 16.00 mm",
    ),
    (
        "step: \"+0.50 D\"",
        "step: \"+0.30 D\"",
        "powers from +10.00 D to +30.00 D cannot be reached in steps of +0.30 D",
    ),
    (
        "step: \"+0.50 D\")",
        "step: \"+0.50 D\"), (from: \"+29.00 D\", to: \"+34.00 D\", step: \"+1.00 D\")",
        "power ranges overlap or are out of order at +29.00 D",
    ),
    (
        "label: weakest_meridian, ",
        "",
        "Unexpected missing field named `label`",
    ),
    (
        "[\"+1.50 D\", \"+2.25 D\"]",
        "[]",
        "a toric lens needs at least one cylinder",
    ),
    (
        "[\"+1.50 D\", \"+2.25 D\"]",
        "[\"+2.25 D\", \"+1.50 D\"]",
        "cylinders of a toric lens must rise: +1.50 D does not",
    ),
    (
        "index: 1.46",
        "index: 1.39",
        "index of the optic 1.39 is outside 1.4 to 1.7",
    ),
    (
        "\"0.823 mm\"",
        "\"3.001 mm\"",
        "thickness of the optic in mm 3.001 is outside 0.2 to 3",
    ),
    (
        "value: 118.66",
        "value: 130.1",
        "A constant 130.1 is outside 100 to 130",
    ),
    (
        "value: 5.35",
        "value: 12.1",
        "personalized ACD in mm 12.1 is outside 0 to 12",
    ),
    (
        "value: 1.6,",
        "value: -5.1,",
        "surgeon factor in mm -5.1 is outside -5 to 8",
    ),
    ("a1: 0.4", "a1: 2.1", "a1 2.1 is outside -2 to 2"),
    (
        "eyes: 241",
        "eyes: 0",
        "number of eyes a constant was optimized on 0 is outside 1 to",
    ),
    (
        "eyes: 88",
        "eyes: 1",
        "number of eyes of own results 1 is outside 2 to",
    ),
    (
        "deviation_d: 0.41",
        "deviation_d: 0.04",
        "standard deviation of own results in D 0.04 is outside 0.05 to 3",
    ),
    (
        "on: \"2026-05-04\")",
        "on: \"2026-05-04\"), (formula: t2, eyes: 9, deviation_d: 0.5, on: \"2026-06-01\")",
        "more than one result of T2 is recorded for the lens",
    ),
    (
        "cylinder: \"+2.25 D\"",
        "cylinder: \"-2.25 D\"",
        "chosen cylinder \u{2212}2.25 D is outside +0.01 D to +20.00 D",
    ),
    (
        "axis: 88",
        "axis: 0",
        "meridian 0° is outside 1° to 180°; the horizontal is written 180",
    ),
    (
        "power: \"+21.50 D\", ",
        "powers: \"+21.50 D\", ",
        "Unexpected field named `powers`",
    ),
];

/// Each check of the domain stands before the file.
#[test]
fn a_lens_that_cannot_be_is_refused_with_its_place() {
    for (from, to, message) in REFUSED {
        assert!(CASE.contains(from), "{from}");
        let text = read(&CASE.replacen(from, to, 1)).unwrap_err().to_string();
        let (place, said) = text.split_once(": ").unwrap();
        assert!(place.starts_with("line "), "{text}");
        assert!(said.starts_with(message), "{said}");
    }
}

#[test]
fn two_lenses_of_one_place_are_refused() {
    let (before, chamber) = CASE.split_at(
        CASE.find("            (\n                chosen_as: backup")
            .unwrap(),
    );
    let (chamber, after) = chamber.split_at(chamber.find("        ],\n    ),").unwrap());
    let error = read(&[before, chamber, chamber, after].concat()).unwrap_err();
    let said = error.to_string();
    assert!(
        said.ends_with("there is more than one anterior chamber IOL"),
        "{said}"
    );
}
