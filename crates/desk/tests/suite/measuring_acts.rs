//! What the measuring room offers at a mistake, asks where a text has two readings, and does for many signs at
//! once: each by an act that says so, each taken back by one undo, and none for the other eye.

use crate::measuring_room::{Typist, focused, said};
use crate::reach_measurements::one_eye;
use crate::support::{click, date};
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::{EyeState, Method, Side, Sign, SiliconeOil};
use millrace_core::quantity::Micrometers;
use millrace_wording::{Show as _, Words};

/// At an eye of which nothing is measured, by an optical instrument.
fn measuring() -> Typist {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Method of measurement");
    click(&mut typist.window, "Optical");
    typist
}

impl Typist {
    fn undo(&mut self) {
        self.press_with(Modifiers::COMMAND, Key::Z);
    }

    /// Types into a field and leaves it by the Enter key.
    fn enter(&mut self, field: &str, text: &str) {
        click(&mut self.window, field);
        self.value(text);
        self.press(Key::Enter);
    }

    /// Pastes into a field and leaves it by the Enter key.
    fn paste(&mut self, field: &str, text: &str) {
        click(&mut self.window, field);
        self.window.event(Event::Paste(text.to_owned()));
        self.window.run();
        self.press(Key::Enter);
    }

    fn length(&self) -> Option<Micrometers> {
        let eye = &self.draft().eyes.right;
        eye.axial_length.as_ref().map(|it| it.value.get())
    }
}

/// Both readings stand beside the field in words, and neither is taken before it is chosen.
#[test]
fn a_day_with_two_readings_is_asked() {
    for (chosen, day) in [
        ("4 May 1949", date(1949, 5, 4)),
        ("5 Apr 1949", date(1949, 4, 5)),
    ] {
        let mut typist = Typist::at_case(one_eye());
        let born = |typist: &Typist| typist.draft().patient.birth_date;
        typist.enter("Birth date", "04/05/1949");
        assert_eq!(born(&typist), None);
        assert!(said(&typist.window).contains("can be 4 May 1949 or 5 Apr 1949; which?"));
        click(&mut typist.window, chosen);
        assert_eq!(born(&typist), Some(day));
        assert_eq!(focused(&typist.window).as_deref(), Some("Birth date"));
        assert!(!said(&typist.window).contains("which?"));
        typist.undo();
        assert_eq!(born(&typist), None);
    }
}

/// Whichever way it is written: it has one reading, and is shown in words.
#[test]
fn a_day_with_one_reading_is_taken_as_it_is_typed() {
    for text in ["9 Sep 1949", "09.09.1949", "1949-09-09", "19490909"] {
        let mut typist = Typist::at_case(one_eye());
        typist.enter("Birth date", text);
        assert_eq!(typist.draft().patient.birth_date, Some(date(1949, 9, 9)));
        let shown = typist.window.get_by_label("Birth date").value();
        assert_eq!(shown.as_deref(), Some("9 Sep 1949"), "{text}");
    }
}

/// A lost point is offered back, and nothing is recorded before it is taken.
#[test]
fn a_number_without_its_point_is_offered_with_it() {
    let mut typist = measuring();
    typist.enter("Axial length", "2387");
    assert_eq!(typist.length(), None);
    click(&mut typist.window, "23.87 mm?");
    assert_eq!(typist.length(), Some(Micrometers::new(23_870)));
    assert!(typist.window.query_by_label("23.87 mm?").is_none());
    typist.undo();
    assert_eq!(typist.length(), None);
}

/// No point is offered that would make no value of it either.
#[test]
fn no_point_is_offered_where_none_helps() {
    let mut typist = measuring();
    typist.enter("Lens thickness", "4545");
    click(&mut typist.window, "4.545 mm?");
    typist.enter("Corneal diameter", "1170");
    click(&mut typist.window, "11.70 mm?");
    typist.enter("Axial length", "999");
    assert_eq!(typist.length(), None);
    assert!(!said(&typist.window).contains("mm?"));
}

/// K1 and K2 that were taken for each other are exchanged with their meridians, by one act.
#[test]
fn k1_and_k2_are_exchanged_by_an_act() {
    let mut typist = measuring();
    for (field, text) in [
        ("Keratometric index", "1.3375"),
        ("Flat reading", "45"),
        ("Flat meridian", "100"),
        ("Steep reading", "44.25"),
        ("Steep meridian", "10"),
    ] {
        typist.enter(field, text);
    }
    let recorded = |typist: &Typist| {
        let eye = &typist.draft().eyes.right;
        eye.keratometry.as_ref().map(|it| {
            let (flat, steep) = (it.value.flat, it.value.steep);
            [flat, steep].map(|at| format!("{} @ {}", at.reading, at.meridian.degrees()))
        })
    };
    assert_eq!(recorded(&typist), None);
    click(&mut typist.window, "Exchange K1 and K2");
    let exchanged = ["44.25 D at 1.3375 @ 10", "45.00 D at 1.3375 @ 100"];
    assert_eq!(recorded(&typist), Some(exchanged.map(str::to_owned)));
    let offer = typist.window.query_by_label("Exchange K1 and K2");
    assert!(offer.is_none());
    typist.undo();
    assert_eq!(recorded(&typist), None);
    assert!(typist.draft().eyes.left.is_blank());
}

/// A text from a printout brings its unit: its own is read, another one is another quantity.
#[test]
fn pasted_text_with_its_unit_is_read_and_with_another_refused() {
    let mut typist = measuring();
    typist.paste("Axial length", "22.84 D");
    assert_eq!(typist.length(), None);
    assert!(said(&typist.window).contains("has another unit; this is in mm"));
    typist.press_with(Modifiers::COMMAND, Key::A);
    typist.paste("Axial length", "22.84 mm");
    assert_eq!(typist.length(), Some(Micrometers::new(22_840)));
    typist.paste("Corneal thickness", "0.540 mm");
    assert!(said(&typist.window).contains("has another unit; this is in µm"));
    assert_eq!(typist.draft().eyes.right.corneal_thickness, None);
    // A radius says itself what the readings are in.
    typist.paste("Flat reading", "7.80 mm");
    typist.paste("Flat meridian", "180°");
    typist.paste("Steep reading", "7.60 mm");
    typist.paste("Steep meridian", "90°");
    let k = typist.draft().eyes.right.keratometry.as_ref().unwrap();
    assert_eq!(k.value.flat.reading.to_string(), "7.80 mm");
    assert_eq!(k.value.steep.meridian.degrees(), 90);
}

/// The act names every sign that it answers, leaves what was answered, and never touches the other eye.
#[test]
fn all_others_are_answered_by_one_act_that_names_them() {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Guttata, yes");
    click(&mut typist.window, "Macular disease, no");
    let before = typist.draft().clone();
    let named = said(&typist.window);
    let list = named.lines().find(|line| line.starts_with("Answers"));
    let list = list.expect("the signs are named").to_owned();
    for &sign in Sign::ALL {
        let name = sign.show(Words::ENGLISH);
        let is_open = sign.of(&before.eyes.right.state).is_none();
        assert_eq!(list.contains(&*name), is_open, "{name}: {list}");
    }
    assert!(list.contains("silicone oil"));
    click(&mut typist.window, "All others looked for, none found");
    let mut expected = EyeState::default();
    for &sign in Sign::ALL {
        sign.set(&mut expected, Some(sign == Sign::Guttata));
    }
    expected.silicone_oil = Some(SiliconeOil::Absent);
    assert_eq!(typist.draft().eyes.right.state, expected);
    assert_eq!(typist.draft().eyes.left, before.eyes.left);
    typist.undo();
    assert_eq!(typist.draft(), &before, "one act, one undo");
}

/// Enter goes on after each value; pressed once too often, it answers nothing.
#[test]
fn enter_answers_no_sign() {
    let mut typist = Typist::at_case(one_eye());
    click(&mut typist.window, "Nucleus, scale, LOCS III");
    typist.enter("Nuclear opalescence", "5.8");
    typist.value("6");
    typist.press(Key::Enter);
    let act = "All others looked for, none found";
    assert_eq!(focused(&typist.window).as_deref(), Some(act));
    for _ in 0..3 {
        typist.press(Key::Enter);
    }
    assert_ne!(focused(&typist.window).as_deref(), Some(act), "it goes on");
    let state = &typist.draft().eyes.right.state;
    assert!(Sign::ALL.iter().all(|sign| sign.of(state).is_none()));
    assert_eq!(state.silicone_oil, None);
}

/// A key that is held down is no second press.
#[test]
fn a_held_key_acts_once() {
    let mut typist = measuring();
    let act = "All others looked for, none found";
    typist.window.get_by_label(act).focus();
    typist.window.run();
    for repeat in [false, true, true] {
        typist.window.event(Event::Key {
            key: Key::Space,
            physical_key: None,
            pressed: true,
            repeat,
            modifiers: Modifiers::NONE,
        });
        typist.window.run();
    }
    let onward = "On to the left eye, measured the same way";
    assert_eq!(focused(&typist.window).as_deref(), Some(onward));
}

/// Who measured the right eye, when and with what, is not said of the left one by that.
#[test]
fn nothing_said_of_one_eye_holds_for_the_other() {
    let mut typist = measuring();
    typist.enter("Day of measurement", "20 Nov 2026");
    typist.enter("Person who measures", "T. Lindqvist");
    typist.enter("Axial length", "22.84");
    typist.enter("Keratometric index", "1.3375");
    click(&mut typist.window, "Edit the left eye…");
    typist.enter("Axial length, left eye", "22.79");
    assert!(typist.draft().eyes.left.is_blank());
    assert!(said(&typist.window).contains("choose the method first"));
    let index = "Keratometric index, left eye";
    assert!(typist.window.query_by_label(index).is_some());

    // By an act that names what it takes over.
    let all = "Optical  ·  20 Nov 2026  ·  T. Lindqvist  ·  in D at 1.3375";
    assert!(said(&typist.window).contains(all));
    click(&mut typist.window, "As for the right eye");
    assert!(typist.window.query_by_label(index).is_none());
    let left = typist.draft().eyes.left.axial_length.clone().unwrap();
    assert_eq!(left.method, Method::Optical);
    assert_eq!(left.on, Some(date(2026, 11, 20)));
    assert_eq!(left.by.as_deref(), Some("T. Lindqvist"));

    // From then on each has its own.
    typist.enter("Person who measures, left eye", "");
    typist.press_with(Modifiers::COMMAND, Key::A);
    typist.enter("Person who measures, left eye", "A. Okafor");
    typist.enter("Lens thickness, left eye", "4.95");
    click(&mut typist.window, "Back to the right eye");
    typist.enter("Lens thickness", "5.05");
    let by = |side| {
        let measured = typist.draft().eyes.get(side).lens_thickness.clone();
        measured.and_then(|measured| measured.by)
    };
    let each = [Side::Right, Side::Left].map(by);
    assert_eq!(
        each.each_ref().map(|by| by.as_deref()),
        [Some("T. Lindqvist"), Some("A. Okafor")]
    );
}

/// What is wrong stands under its field, and never in the column of the other eye.
#[test]
fn what_is_wrong_stands_in_the_column_of_its_own_eye() {
    let mut typist = measuring();
    typist.enter("Axial length", "50");
    let column = |typist: &Typist, name: &str| typist.window.get_by_label(name).rect();
    let why = "Not accepted: axial length 50.00 mm is outside 14.00 mm to 40.00 mm";
    let (told, other) = (column(&typist, why), column(&typist, "Edit the left eye…"));
    assert!(told.right() < other.left(), "{told:?} {other:?}");
    let field = column(&typist, "Axial length");
    assert!(field.bottom() <= told.top() && told.top() < field.bottom() + 40.0);

    click(&mut typist.window, "Edit the left eye…");
    click(&mut typist.window, "As for the right eye");
    typist.enter("Axial length, left eye", "51");
    let why = "Not accepted: axial length 51.00 mm is outside 14.00 mm to 40.00 mm";
    let told = column(&typist, why);
    let field = column(&typist, "Axial length, left eye");
    assert!(field.left() <= told.left() + 40.0, "{told:?} {field:?}");
    assert!(field.bottom() <= told.top() && told.top() < field.bottom() + 40.0);
}
