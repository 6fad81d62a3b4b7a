//! What the types of the domain read from a file and refuse to read.

mod lenses;

use super::{read, read_json, write, write_json};
use crate::quantity::HundredthDiopters;
use crate::rules::testing::ordinary_draft;
use crate::rules::testing_lens::second_look_of;

const CASE: &str = r#"(
    format: "millrace case", version: 2,
    patient: (name: "Vane, Ida", number: "1", birth_date: "1951-03-14", sex: female),
    operation: (date: "2026-12-03", eye: right, surgeon: trainee),
    right_eye: (
        keratometry: (
            flat: (reading: "43.00 D at 1.3375", meridian: 180),
            steep: (reading: "45.00 D at 1.3375", meridian: 90),
            method: keratometer, readings: 3, repeat_difference: "+0.12 D", spread: "+0.10 D",
        ),
        anterior_chamber_depth: (value: "3.12 mm", from: epithelium, method: optical),
        posterior_astigmatism: (
            magnitude: "+0.30 D", steep_meridian: 90, method: tomographer, spread: "+0.15 D",
        ),
        endothelium: (value: "2450 cells/mm²", method: specular_microscope),
        state: (
            nucleus: locs_iii(opalescence: "5.6", color: "5.8"),
            lens_decentration: "0.40 mm", silicone_oil: length_corrected,
            corneal_surgery: done(
                kind: myopic_laser, before: ("7.80 mm", "43.25 D at 1.3375"), correction: "+4.00 D",
            ),
            refraction: "-1.25 D / -0.75 D × 90°",
        ),
        earlier_operation: (
            lens_power: "+21.00 D", predicted: "-0.25 D", achieved: "-0.75 D", formula: holladay_1,
            complicated: false,
        ),
    ),
    approach: (
        approach: phacoemulsification, incision_width: "2.40 mm", incision_direction: 360,
        incision_effect: (flattening: "+0.25 D", scatter: "+0.35 D", eyes: 60, on: "2026-05-04"),
        nucleus: (diameter: "8.20 mm", thickness: "4.20 mm"), pieces: 8, capsulorhexis: "5.50 mm",
    ),
    theatre: (
        anesthesia: sub_tenon, viscoelastic: "cohesive", technique: ["stain"], in_room: ["hooks"],
        allergies: these(["penicillin"]), medicines: none_known,
    ),
    reasons: [(
        rule: "AL-01", measured: quantity(length_um(27010)),
        limit: within(length_um(21200), length_um(26600)), reason: "measured twice", by: "A. Okafor",
        on: "2026-12-01",
    )],
    eye_changes: [(from: left, to: right, reason: "listed wrongly", by: "A. Okafor", on: "2026-11-30")],
)"#;

#[test]
fn every_field_is_read_written_and_read_back() {
    let draft = read(CASE).unwrap();
    let written = write(&draft).unwrap();
    assert_eq!(read(&written).unwrap(), draft);
    assert_eq!(read_json(&write_json(&draft).unwrap()).unwrap(), draft);
    // Nothing is left out of what was written: each text of the file stands in it again.
    let texts = CASE.split('"').skip(1).step_by(2);
    for text in texts {
        assert!(
            written.contains(&format!("\"{text}\"")),
            "{text}: {written}"
        );
    }
    for name in [
        "female",
        "trainee",
        "keratometer",
        "readings: 3",
        "epithelium",
        "length_corrected",
        "myopic_laser",
        "holladay_1",
        "complicated: false",
        "phacodonesis",
        "sub_tenon",
        "none_known",
    ] {
        // What nobody looked for is left out.
        assert_eq!(written.contains(name), name != "phacodonesis", "{name}");
    }
}

/// What stands in [`CASE`], what is written in its place, and how the message begins.
const REFUSED: &[(&str, &str, &str)] = &[
    (
        "\"Vane, Ida\"",
        r#""Vane\nIda""#,
        "patient name holds an invisible or a control character (U+000A)",
    ),
    (
        "\"1951-03-14\"",
        "\"1951-02-30\"",
        "\"1951-02-30\" is not a valid date",
    ),
    (
        "\"43.00 D at 1.3375\"",
        "\"46.00 D at 1.3375\"",
        "the flat meridian 46.00 D at 1.3375 has a shorter radius than the steep one 45.00 D at 1.3375",
    ),
    (
        "\"43.00 D at 1.3375\"",
        "\"43.00 D\"",
        "keratometry \"43.00 D\" is a power without its index",
    ),
    (
        "meridian: 180",
        "meridian: 0",
        "meridian 0° is outside 1° to 180°; the horizontal is written 180",
    ),
    (
        "\"3.12 mm\"",
        "\"31.2 mm\"",
        "anterior chamber depth 31.20 mm is outside",
    ),
    (
        "from: epithelium, ",
        "",
        "Unexpected missing field named `from`",
    ),
    (
        "magnitude: \"+0.30 D\"",
        "magnitude: \"-0.30 D\"",
        "posterior corneal astigmatism \u{2212}0.30 D is outside +0.00 D to +5.00 D",
    ),
    (
        "spread: \"+0.15 D\"",
        "spread: \"0.00 D\"",
        "spread of the posterior corneal astigmatism +0.00 D is outside +0.01 D to +3.00 D",
    ),
    (
        "steep_meridian: 90",
        "steep_meridian: 181",
        "meridian 181° is outside 1° to 180°; the horizontal is written 180",
    ),
    (
        "method: specular_microscope",
        "method: specular_microscope, spread: \"2 cells/mm²\"",
        "instruments report no spread of this measurement",
    ),
    (
        "opalescence: \"5.6\"",
        "opalescence: \"7.6\"",
        "LOCS III grade 7.6 is outside 0.1 to 6.9",
    ),
    (
        "opalescence: \"5.6\"",
        "opalescence: \"x\"",
        "LOCS III grade \"x\" is outside 0.1 to 6.9",
    ),
    (
        "locs_iii(opalescence: \"5.6\", color: \"5.8\")",
        "who_simplified(4)",
        "WHO simplified grade 4 is outside 1 to 3",
    ),
    (
        "\"+4.00 D\"",
        "\"-4.00 D\"",
        "myopia removed \u{2212}4.00 D is outside +0.00 D to +30.00 D",
    ),
    (
        "incision_direction: 360",
        "incision_direction: 0",
        "direction 0° is outside 1° to 360°",
    ),
    (
        "eyes: 60",
        "eyes: 1",
        "number of eyes behind the SIA 1 is outside 2 to 4294967295",
    ),
    (
        "scatter: \"+0.35 D\"",
        "scatter: \"+0.00 D\"",
        "scatter of the SIA +0.00 D is outside +0.01 D to +3.00 D",
    ),
    (
        "\"4.20 mm\"",
        "\"8.30 mm\"",
        "nucleus of 8.20 mm × 8.30 mm is outside 3 to 10 mm × 1.5 to 7 mm",
    ),
    (
        "pieces: 8",
        "pieces: 7",
        "the model divides the nucleus into 4, 6, 8, 12, 16, 24 or 32 pieces, not 7",
    ),
    (
        "\"stain\"",
        "\" \"",
        "an entry of the technique has no words",
    ),
    (
        "these([\"penicillin\"])",
        "these([])",
        "allergies are marked as known and none is named",
    ),
    (
        "rule: \"AL-01\"",
        "rule: \"AL-99\"",
        "no rule is called AL-99",
    ),
    (
        "-0.75 D × 90°\"",
        "-0.75 D\"",
        "a cylinder of \u{2212}0.75 D needs its axis",
    ),
    ("\"measured twice\"", "\" \"", "a reason is missing"),
    (
        "from: left",
        "from: right",
        "a change of eye leads to the other eye",
    ),
    (
        "sex: female",
        "sexx: female",
        "Unexpected field named `sexx`",
    ),
];

/// Each check of the domain stands before the file.
#[test]
fn what_cannot_be_is_refused_with_its_place() {
    for (from, to, message) in REFUSED {
        assert!(CASE.contains(from), "{from}");
        let text = read(&CASE.replacen(from, to, 1)).unwrap_err().to_string();
        let (place, said) = text.split_once(": ").unwrap();
        assert!(
            place.starts_with("line ") && place.contains(", column "),
            "{text}"
        );
        assert!(said.starts_with(message), "{said}");
    }
}

/// What a file says of the patient is what a sheet will show.
#[test]
fn a_name_that_could_not_be_printed_is_refused_in_a_file() {
    let mut draft = ordinary_draft().0;
    for (name, message) in [
        (
            "བསྟན་འཛིན",
            "patient name has Tibetan letters (U+0F56), which no sheet could be printed with",
        ),
        (
            "Vale 😀",
            "patient name has a character (U+1F600) that no sheet could be printed with",
        ),
    ] {
        draft.patient.name = Some(name.to_owned());
        let refused = read(&write(&draft).unwrap()).unwrap_err().to_string();
        assert!(refused.ends_with(message), "{refused}");
        let refused = read_json(&write_json(&draft).unwrap()).unwrap_err();
        assert!(refused.to_string().ends_with(message), "{refused}");
    }
    draft.patient.name = Some("김민수".to_owned());
    assert_eq!(read(&write(&draft).unwrap()).unwrap(), draft);
}

#[test]
fn a_second_reason_for_one_rule_is_refused() {
    let reason =
        &CASE[CASE.find("(\n        rule:").unwrap()..CASE.find(")],\n    eye_changes").unwrap()];
    let twice = CASE.replacen("reasons: [", &format!("reasons: [{reason}), "), 1);
    let message = read(&twice).unwrap_err().to_string();
    assert_eq!(
        message,
        "reasons: rule AL-01 has more than one recorded reason"
    );
}

/// A look without and with everything that may be left out.
#[test]
fn a_second_look_reads_back_as_written() {
    let mut draft = ordinary_draft();
    draft.0.second_look = Some(second_look_of(&draft.0));
    assert_eq!(read(&write(&draft.0).unwrap()).unwrap(), draft.0);
    draft.set_lens_thickness("4.503 mm");
    draft.0.lens.target = Some(HundredthDiopters::new(-25));
    draft.0.second_look = Some(second_look_of(&draft.0));
    let text = write(&draft.0).unwrap();
    for stored in [
        "target: \"-0.25 D\"",
        "lens_thickness: \"4.503 mm\"",
        "from: epithelium",
    ] {
        assert!(text.contains(stored), "{stored}: {text}");
    }
    assert_eq!(read(&text).unwrap(), draft.0);
}

#[test]
fn a_file_without_one_reads_as_before() {
    let draft = ordinary_draft().0;
    let text = write(&draft).unwrap();
    assert!(!text.contains("second_look"));
    assert_eq!(read(&text).unwrap().second_look, None);
}

#[test]
fn a_look_the_program_would_not_have_recorded_is_refused() {
    let mut draft = ordinary_draft();
    draft.0.second_look = Some(second_look_of(&draft.0));
    let text = write(&draft.0).unwrap();
    let message = |from: &str, to: &str| {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text);
        read(&changed).unwrap_err().to_string()
    };
    for (from, to, said) in [
        (
            "\"B. Second\"",
            "\" \"",
            "the name of the person is missing",
        ),
        (
            "number: \"1\"",
            "number: \"\"",
            "the hospital number is missing",
        ),
    ] {
        let message = message(from, to);
        assert!(
            message.starts_with("line ") && message.ends_with(&format!(": {said}")),
            "{message}"
        );
    }
    assert!(message("number: \"1\"", "numbr: \"1\"").contains("numbr"));
}
