//! What counts as a difference, what is refused, and what a later change does.

use super::*;
use crate::biometry::{CornealReading, DepthStart, Measured, Measurement};
use crate::case::{Command, update};
use crate::quantity::Meridian;
use crate::rules::testing::ordinary_draft;
use crate::rules::testing_lens::second_look_of;

/// The ordinary eye with number, target and lens thickness, and a second look that agrees.
fn agreed() -> Draft {
    let mut draft = ordinary_draft();
    draft.set_lens_thickness("4.50 mm");
    draft.0.patient.number = Some("40-2291".to_owned());
    draft.0.lens.target = Some(HundredthDiopters::new(-25));
    let look = second_look_of(&draft.0);
    update(&draft.0, Command::RecordSecondLook(Box::new(look))).unwrap()
}

fn length(text: &str) -> Looked {
    Looked::Quantity(Quantity::Length(text.parse().unwrap()))
}

fn reading(text: &str) -> Looked {
    let reading: CornealReading = text.parse().unwrap();
    Looked::Quantity(reading.into())
}

fn depth_from(start: DepthStart) -> Looked {
    let depth = "3.20 mm".parse().unwrap();
    Looked::Quantity(ChamberDepth { depth, start }.into())
}

fn differing(change: impl FnOnce(&mut SecondLook)) -> Vec<(Critical, Option<Looked>)> {
    let mut draft = agreed();
    change(draft.second_look.as_mut().unwrap());
    let found = differences(&draft);
    found
        .into_iter()
        .map(|pair| (pair.what, pair.second))
        .collect()
}

#[test]
fn the_same_numbers_differ_in_nothing_and_are_all_shown() {
    let draft = agreed();
    assert_eq!(differences(&draft), []);
    let shown = pairs(&draft).unwrap();
    assert_eq!(shown.len(), 10);
    // The ordinary eye of the rules' tests.
    assert_eq!(shown[2].first, Some(length("23.50 mm")));
    assert_eq!(shown[3].first, Some(reading("43.50 D at 1.3375")));
    assert_eq!(shown[7].first, Some(depth_from(DepthStart::Epithelium)));
    assert_eq!(pairs(&Draft::default()), None);
    assert_eq!(differences(&Draft::default()), []);
}

/// One micrometer, one hundredth, one degree, another index, another surface: each counts.
#[test]
fn the_last_digit_of_each_number_counts() {
    type Change = fn(&mut SecondLook);
    let changes: [(Change, Critical, Looked); 10] = [
        (
            |look| look.number = "40-2292".to_owned(),
            Critical::Number,
            Looked::Number("40-2292".to_owned()),
        ),
        (
            |look| look.eye = Side::Left,
            Critical::Eye,
            Looked::Eye(Side::Left),
        ),
        (
            |look| look.axial_length = "23.501 mm".parse().unwrap(),
            Critical::AxialLength,
            length("23.501 mm"),
        ),
        (
            |look| look.flat.reading = "43.51 D at 1.3375".parse().unwrap(),
            Critical::Flat,
            reading("43.51 D at 1.3375"),
        ),
        (
            |look| look.flat.reading = "43.50 D at 1.3376".parse().unwrap(),
            Critical::Flat,
            reading("43.50 D at 1.3376"),
        ),
        (
            |look| look.flat.meridian = Meridian::new(179).unwrap(),
            Critical::FlatMeridian,
            Looked::Meridian(Meridian::new(179).unwrap()),
        ),
        (
            |look| look.steep.reading = "7.67 mm".parse().unwrap(),
            Critical::Steep,
            reading("7.67 mm"),
        ),
        (
            |look| look.chamber_depth.as_mut().unwrap().start = DepthStart::Endothelium,
            Critical::ChamberDepth,
            depth_from(DepthStart::Endothelium),
        ),
        (
            |look| look.lens_thickness = Some("4.501 mm".parse().unwrap()),
            Critical::LensThickness,
            length("4.501 mm"),
        ),
        (
            |look| look.target = Some(HundredthDiopters::new(25)),
            Critical::Target,
            Looked::Quantity(Quantity::Power(HundredthDiopters::new(25))),
        ),
    ];
    for (change, what, second) in changes {
        assert_eq!(differing(change), [(what, Some(second))]);
    }
}

#[test]
fn what_one_of_them_left_out_differs_except_a_thickness_not_looked_at() {
    assert_eq!(
        differing(|look| look.chamber_depth = None),
        [(Critical::ChamberDepth, None)]
    );
    assert_eq!(
        differing(|look| look.target = None),
        [(Critical::Target, None)]
    );
    assert_eq!(differing(|look| look.lens_thickness = None), []);

    let mut unmeasured = agreed();
    unmeasured.eyes.right.axial_length = None;
    unmeasured.eyes.right.lens_thickness = None;
    let what: Vec<_> = differences(&unmeasured)
        .into_iter()
        .map(|pair| (pair.what, pair.first))
        .collect();
    assert_eq!(
        what,
        [
            (Critical::AxialLength, None),
            (Critical::LensThickness, None)
        ]
    );
}

/// The number agreed on and then changed is not the number agreed on.
#[test]
fn a_later_change_of_the_first_number_differs_again() {
    let draft = agreed();
    let longer = Measured {
        value: "23.60 mm".parse().unwrap(),
        ..draft.eyes.right.axial_length.clone().unwrap()
    };
    let measure = Measurement::AxialLength(Some(longer));
    let changed = update(&draft, Command::Measure(Side::Right, measure)).unwrap();
    let pair = Pair {
        what: Critical::AxialLength,
        first: Some(length("23.60 mm")),
        second: Some(length("23.50 mm")),
    };
    assert_eq!(differences(&changed), [pair]);
}

#[test]
fn a_second_look_has_a_person_a_number_and_a_flat_meridian_that_is_flat() {
    let refused = |change: fn(&mut SecondLook)| {
        let mut look = agreed().second_look.unwrap();
        change(&mut look);
        update(&agreed(), Command::RecordSecondLook(Box::new(look)))
            .unwrap_err()
            .to_string()
    };
    assert_eq!(
        refused(|look| look.by = " ".to_owned()),
        "the name of the person is missing"
    );
    assert_eq!(
        refused(|look| look.number = " ".to_owned()),
        "the hospital number is missing"
    );
    assert_eq!(
        refused(|look| look.number = "1\n2".to_owned()),
        "hospital number holds an invisible or a control character (U+000A)"
    );
    assert_eq!(
        refused(|look| core::mem::swap(&mut look.flat, &mut look.steep)),
        "the flat meridian 44.00 D at 1.3375 has a shorter radius than the steep one 43.50 D at 1.3375"
    );
}

#[test]
fn a_newer_second_look_replaces_the_older_one() {
    let mut look = agreed().second_look.unwrap();
    look.by = "C. Third".to_owned();
    let command = Command::RecordSecondLook(Box::new(look.clone()));
    let draft = update(&agreed(), command).unwrap();
    assert_eq!(draft.second_look, Some(look));
}
