//! The measuring room by keys alone: from a new case to both eyes measured and every sign answered.

use crate::reach_measurements::{HIGH, one_eye};
use crate::support::{Bench, click, date, harness, light};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT as _;
use millrace_core::biometry::{
    ChamberDepth, DepthStart, EyeRecord, Keratometry, LocsTenths, Measured, MeridianReading,
    Method, NucleusGrade, Side, Sign, SiliconeOil,
};
use millrace_core::case::Draft;
use millrace_core::quantity::Meridian;

/// The window as it first opens.
pub(crate) const FIRST: [f32; 2] = [1280.0, 820.0];

/// A person at the keyboard, and every key that is no character of a value.
pub(crate) struct Typist {
    pub(crate) window: Harness<'static, Bench>,
    /// The values typed, in order.
    values: Vec<String>,
    /// The keys pressed besides.
    keys: usize,
}

impl Typist {
    /// At an empty register.
    fn at_nothing() -> Self {
        Self::at(Bench::new(Vec::new(), light()), FIRST)
    }

    /// At a case, in a window so high that nothing has to be scrolled to.
    pub(crate) fn at_case(draft: Draft) -> Self {
        let mut bench = Bench::new(vec![draft], light());
        bench.open(0);
        Self::at(bench, HIGH)
    }

    pub(crate) fn at(bench: Bench, size: [f32; 2]) -> Self {
        Self {
            window: harness(bench, size),
            values: Vec::new(),
            keys: 0,
        }
    }

    pub(crate) fn press(&mut self, key: Key) {
        self.press_with(Modifiers::NONE, key);
    }

    pub(crate) fn press_with(&mut self, modifiers: Modifiers, key: Key) {
        self.keys += 1;
        self.window.key_press_modifiers(modifiers, key);
        self.window.run();
    }

    /// A letter that chooses in a list.
    pub(crate) fn letter(&mut self, letter: &str) {
        self.keys += 1;
        self.window.event(Event::Text(letter.to_owned()));
        self.window.run();
    }

    /// Characters of a value, one by one as they are typed.
    pub(crate) fn value(&mut self, text: &str) {
        self.values.push(text.to_owned());
        for character in text.chars() {
            self.window.event(Event::Text(character.to_string()));
            self.window.run();
        }
    }

    /// Values, each ended by the Enter key.
    fn values(&mut self, texts: &[&str]) {
        for text in texts {
            self.value(text);
            self.press(Key::Enter);
        }
    }

    pub(crate) fn draft(&self) -> &Draft {
        self.window.state().draft()
    }
}

/// What has the focus, as a screen reader names it.
pub(crate) fn focused(window: &Harness<'_, Bench>) -> Option<String> {
    let nodes = window.root().children_recursive();
    let mut focused = nodes.filter(|node| node.accesskit_node().is_focused());
    focused.find_map(|node| {
        let node = node.accesskit_node();
        node.label().or_else(|| {
            let named = node.labelled_by().next()?;
            named.label().or_else(|| named.value())
        })
    })
}

/// The texts that stand on the desk to be read, not those that only a screen reader tells.
pub(crate) fn said(window: &Harness<'_, Bench>) -> String {
    let nodes = window.root().children_recursive();
    let nodes = nodes.map(|node| node.accesskit_node());
    let labels = nodes.filter(|node| node.role() == Role::Label);
    let texts: Vec<_> = labels.filter_map(|node| node.value()).collect();
    texts.join("\n")
}

const RIGHT: [&str; 4] = ["44.25", "10", "45", "100"];
const LEFT: [&str; 4] = ["44.37", "170", "44.75", "80"];
const RIGHT_AXIAL: [&str; 4] = ["5.05", "540", "11.7", "2410"];
const LEFT_AXIAL: [&str; 4] = ["4.95", "543", "11.7", "2395"];

/// The eye that these texts describe, written down apart from the desk.
fn eye(length: &str, k: [&str; 4], depth: &str, rest: [&str; 4], nucleus: [i32; 2]) -> EyeRecord {
    #[expect(clippy::unnecessary_wraps, reason = "as the record takes it")]
    fn by<T, S>(value: T, method: Method) -> Option<Measured<T, S>> {
        Some(Measured {
            value,
            method,
            spread: None,
            on: Some(date(2026, 11, 20)),
            by: Some("T. Lindqvist".to_owned()),
        })
    }
    let at = |reading: &str, meridian: &str| MeridianReading {
        reading: format!("{reading} D at 1.3375").parse().unwrap(),
        meridian: Meridian::parse(meridian).unwrap(),
    };
    let optical = Method::Optical;
    let unit = |number: &str, unit: &str| format!("{number} {unit}");
    let keratometry = Keratometry {
        flat: at(k[0], k[1]),
        steep: at(k[2], k[3]),
        readings: None,
        repeat_difference: None,
    };
    let depth = ChamberDepth {
        depth: unit(depth, "mm").parse().unwrap(),
        start: DepthStart::Epithelium,
    };
    let density = unit(rest[3], "cells/mm²").parse().unwrap();
    let mut eye = EyeRecord {
        axial_length: by(unit(length, "mm").parse().unwrap(), optical),
        keratometry: by(keratometry, optical),
        chamber_depth: by(depth, optical),
        lens_thickness: by(unit(rest[0], "mm").parse().unwrap(), optical),
        corneal_thickness: by(unit(rest[1], "µm").parse().unwrap(), optical),
        corneal_diameter: by(unit(rest[2], "mm").parse().unwrap(), optical),
        endothelium: by(density, Method::SpecularMicroscope),
        ..EyeRecord::default()
    };
    let [opalescence, color] = nucleus.map(|tenths| LocsTenths::new(tenths).unwrap());
    eye.state.nucleus = Some(NucleusGrade::LocsIii {
        opalescence,
        color: Some(color),
    });
    for &sign in Sign::ALL {
        sign.set(&mut eye.state, Some(false));
    }
    eye.state.silicone_oil = Some(SiliconeOil::Absent);
    eye
}

/// Every value that is typed, in order, and what it is. The unit of the readings, the surface of the depth, the
/// scale of the nucleus, the methods and the signs are chosen, not typed: their keys count.
const VALUES: [(&str, &str); 31] = [
    ("name", "Okonjo, Adaeze"),
    ("hospital number", "40-2291"),
    ("birth date", "1951-03-14"),
    ("operation day", "2026-12-03"),
    ("day of measurement", "2026-11-20"),
    ("person who measures", "T. Lindqvist"),
    ("axial length, right", "22.84"),
    ("keratometric index", "1.3375"),
    ("flat reading, right", "44.25"),
    ("flat meridian, right", "10"),
    ("steep reading, right", "45"),
    ("steep meridian, right", "100"),
    ("anterior chamber depth, right", "2.55"),
    ("lens thickness, right", "5.05"),
    ("corneal thickness, right", "540"),
    ("corneal diameter, right", "11.7"),
    ("endothelial cell density, right", "2410"),
    ("nuclear opalescence, right", "5.8"),
    ("nuclear color, right", "6.0"),
    ("axial length, left", "22.79"),
    ("flat reading, left", "44.37"),
    ("flat meridian, left", "170"),
    ("steep reading, left", "44.75"),
    ("steep meridian, left", "80"),
    ("anterior chamber depth, left", "2.61"),
    ("lens thickness, left", "4.95"),
    ("corneal thickness, left", "543"),
    ("corneal diameter, left", "11.7"),
    ("endothelial cell density, left", "2395"),
    ("nuclear opalescence, left", "5.6"),
    ("nuclear color, left", "5.9"),
];

/// Every key that is no character of a value counts: those that choose, go on, act, and begin the case.
#[test]
fn both_eyes_are_measured_with_few_keys_besides_the_values() {
    let mut typist = Typist::at_nothing();
    typist.press_with(Modifiers::COMMAND, Key::N);
    assert_eq!(focused(&typist.window).as_deref(), Some("Name"));
    typist.values(&["Okonjo, Adaeze", "40-2291", "1951-03-14", "2026-12-03"]);
    // The right eye.
    typist.press(Key::ArrowRight);
    typist.press(Key::Enter);
    typist.values(&["2026-11-20", "T. Lindqvist"]);
    // Optical.
    typist.letter("O");
    typist.press(Key::Enter);
    typist.values(&["22.84", "1.3375"]);
    typist.values(&RIGHT);
    // From the epithelium.
    typist.press(Key::ArrowRight);
    typist.press(Key::Enter);
    typist.values(&["2.55"]);
    typist.values(&RIGHT_AXIAL);
    // Its own instrument: asked for once the number stands there.
    typist.letter("S");
    typist.press(Key::Enter);
    // LOCS III.
    typist.press(Key::ArrowRight);
    typist.press(Key::Enter);
    typist.values(&["5.8", "6.0"]);
    // All others looked for, none found.
    typist.press(Key::Space);
    let onward = "On to the left eye, measured the same way";
    assert_eq!(focused(&typist.window).as_deref(), Some(onward));
    typist.press(Key::Space);
    typist.values(&["22.79"]);
    typist.values(&LEFT);
    typist.values(&["2.61"]);
    typist.values(&LEFT_AXIAL);
    typist.values(&["5.6", "5.9"]);
    typist.press(Key::Space);

    let mut expected = Draft::default();
    expected.patient.name = Some("Okonjo, Adaeze".to_owned());
    expected.patient.number = Some("40-2291".to_owned());
    expected.patient.birth_date = Some(date(1951, 3, 14));
    expected.operation.date = Some(date(2026, 12, 3));
    expected.operation.eye = Some(Side::Right);
    let right = eye("22.84", RIGHT, "2.55", RIGHT_AXIAL, [58, 60]);
    let left = eye("22.79", LEFT, "2.61", LEFT_AXIAL, [56, 59]);
    *expected.eyes.get_mut(Side::Right) = right;
    *expected.eyes.get_mut(Side::Left) = left;
    assert_eq!(typist.draft(), &expected);
    let values = VALUES.map(|(_, text)| text.to_owned());
    assert_eq!(typist.values, values);
    assert_eq!(typist.keys, 45, "keys besides the characters of the values");
}

/// What Enter and Tab pass in the column of an eye of which nothing is known yet.
const PRINTOUT: [&str; 12] = [
    "Axial length",
    "Keratometric index",
    "Flat reading",
    "Flat meridian",
    "Steep reading",
    "Steep meridian",
    "Anterior chamber depth from the",
    "Anterior chamber depth",
    "Lens thickness",
    "Corneal thickness",
    "Corneal diameter",
    "Endothelial cell density",
];

#[test]
fn tab_and_enter_go_from_value_to_value_as_a_printout_has_them() {
    for key in [Key::Tab, Key::Enter] {
        let mut typist = Typist::at_case(one_eye());
        click(&mut typist.window, "Axial length");
        for name in PRINTOUT {
            assert_eq!(focused(&typist.window).as_deref(), Some(name), "{key:?}");
            match name {
                "Keratometric index" => typist.value("1.3375"),
                "Anterior chamber depth from the" => typist.press(Key::ArrowRight),
                _ => {}
            }
            typist.press(key);
        }
    }
}

/// The key goes to the same value of the fellow eye and back, and takes what is being typed. How the fellow eye is
/// measured is asked on the first way there.
#[test]
fn a_key_goes_to_the_same_value_of_the_fellow_eye_and_back() {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Method of measurement");
    click(&mut typist.window, "Optical");
    click(&mut typist.window, "Lens thickness");
    typist.value("5.05");
    typist.press(Key::F2);
    let at = |typist: &Typist| focused(&typist.window);
    assert_eq!(at(&typist).as_deref(), Some("As for the right eye"));
    typist.press(Key::F2);
    assert_eq!(at(&typist).as_deref(), Some("Lens thickness"));
    typist.press(Key::F2);
    typist.press(Key::Enter);
    assert_eq!(at(&typist).as_deref(), Some("Lens thickness, left eye"));
    typist.value("4.95");
    typist.press(Key::F2);
    assert_eq!(at(&typist).as_deref(), Some("Lens thickness"));
    typist.press(Key::F2);
    assert_eq!(at(&typist).as_deref(), Some("Lens thickness, left eye"));
    let length = |side| {
        let thickness = &typist.draft().eyes.get(side).lens_thickness;
        thickness.as_ref().map(|measured| measured.value.get().um())
    };
    assert_eq!(
        [Side::Right, Side::Left].map(length),
        [Some(5_050), Some(4_950)]
    );
}

/// Method, spread, day and person are out of the way until they are asked for, and then beside the value.
#[test]
fn details_of_a_value_open_by_a_key_and_close_again() {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Lens thickness");
    typist.press(Key::F3);
    typist.press(Key::Tab);
    let list = focused(&typist.window);
    assert_eq!(list.as_deref(), Some("Lens thickness, method"));
    click(&mut typist.window, "Lens thickness");
    typist.press(Key::F3);
    typist.press(Key::Tab);
    assert_eq!(
        focused(&typist.window).as_deref(),
        Some("Corneal thickness")
    );
}

/// What is wrong stays in hand; nothing is told of a number that is not typed to its end, and a range only where it
/// is broken.
#[test]
fn enter_stays_at_what_is_wrong_and_says_it_only_then() {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Method of measurement");
    click(&mut typist.window, "Optical");
    click(&mut typist.window, "Lens thickness");
    let said = |typist: &Typist| said(&typist.window);
    typist.value("50");
    let range = "2.00 mm to 8.00 mm";
    assert!(!said(&typist).contains("Not accepted"));
    assert!(!said(&typist).contains(range));
    typist.press(Key::Enter);
    assert!(said(&typist).contains("Not accepted"));
    assert!(said(&typist).contains(range), "{}", said(&typist));
    assert_eq!(focused(&typist.window).as_deref(), Some("Lens thickness"));
}
