//! Reading, setting, refusing and writing limits.

use super::*;
use crate::quantity::MeasureError;

#[test]
fn the_shipped_file_reads_and_differs_in_nothing_from_itself() {
    let limits = Limits::parse(SHIPPED_TEXT).unwrap();
    assert_eq!(limits.changed(), []);
    assert_eq!(limits.chamber_depth, Micrometers::new(2_800));
}

#[test]
fn a_clinics_change_is_named() {
    let text = SHIPPED_TEXT.replace("chamber_depth: \"2.80 mm\"", "chamber_depth: \"2,6 mm\"");
    let limits = Limits::parse(&text).unwrap();
    assert_eq!(
        limits.changed(),
        [ChangedLimit {
            name: "chamber_depth",
            shipped: "2.80 mm".to_owned(),
            in_use: "2.60 mm".to_owned(),
        }]
    );
}

#[test]
fn bad_files_are_refused_with_the_place_or_the_entry() {
    let refused = |text: &str| Limits::parse(text).unwrap_err();
    let entry = "chamber_depth: \"2.80 mm\"";
    let with = |entry_text: &str| SHIPPED_TEXT.replace(entry, entry_text);
    for written in ["2.80", "x mm"] {
        let LimitError::Value(MeasureError::Unit { quantity, text, .. }) =
            refused(&with(&format!("chamber_depth: \"{written}\"")))
        else {
            panic!("{written}");
        };
        assert_eq!((quantity, text.as_str()), ("chamber_depth", written));
    }
    for (text, said) in [
        (with("chamber_dept: \"2.80 mm\""), "chamber_dept"),
        (with(&format!("{entry}, {entry}")), "chamber_depth"),
        (
            SHIPPED_TEXT.replace(&format!("{entry},"), ""),
            "chamber_depth",
        ),
    ] {
        let LimitError::File(error) = refused(&text) else {
            panic!("{said}");
        };
        assert!(error.to_string().contains(said), "{error}");
    }
    let LimitError::File(error) = refused("") else {
        panic!("nothing is read");
    };
    assert_eq!((error.span.start.line, error.span.start.col), (1, 1));
    let whole = |name, text: &str, unit| LimitError::Whole {
        name,
        text: text.to_owned(),
        unit,
    };
    assert_eq!(
        refused(&SHIPPED_TEXT.replace("\"24 months\"", "\"24 weeks\"")),
        whole("measurement_age", "24 weeks", "months")
    );
    assert_eq!(
        refused(&SHIPPED_TEXT.replace("\"1000 cells/mm²\"", "\"1,000 cells/mm²\"")),
        whole("endothelial_density", "1,000 cells/mm²", "cells/mm²")
    );
    assert_eq!(
        refused(&with("chamber_depth: \"0.99 mm\"")),
        LimitError::Range {
            name: "chamber_depth",
            text: "0.99 mm".to_owned(),
            least: 1.0,
            most: 6.0,
            unit: "mm",
        }
    );
    assert_eq!(
        refused(&SHIPPED_TEXT.replace("\"41.00 D\"", "\"48.00 D\"")),
        wrong_way_round()
    );
    let LimitError::Word { name, text, .. } =
        refused(&SHIPPED_TEXT.replace("strict_screening: \"off\"", "strict_screening: \"no\""))
    else {
        panic!("neither on nor off is read");
    };
    assert_eq!((name, text.as_str()), ("strict_screening", "no"));
}

fn wrong_way_round() -> LimitError {
    LimitError::Order {
        lower: "mean_k_flattest",
        upper: "mean_k_steepest",
    }
}

#[test]
fn every_limit_is_told_with_its_meaning_group_and_standing() {
    let catalog = Limits::shipped().catalog();
    assert_eq!(catalog.len(), Limits::shipped().entries().len());
    for entry in &catalog {
        let about = entry.about;
        for text in [about.what, about.standing, &about.group] {
            assert!(!text.is_empty(), "{}", about.name);
        }
        assert!(!about.what.contains(['`', '\n']), "{}", about.what);
        assert_eq!(about.words.is_empty(), !about.unit.is_empty());
        for word in about.words {
            assert!(Limits::shipped().with(about.name, word).is_ok(), "{word}");
        }
        assert!(!entry.is_changed());
    }
    let find = |name| catalog.iter().find(|entry| entry.about.name == name);
    // As they stand in the documentation above and in the shipped file.
    let depth = find("chamber_depth").unwrap().about;
    assert_eq!(
        depth.what,
        "Anterior chamber depth under which a hard nucleus speaks in favor of SICS"
    );
    assert_eq!(depth.rules, "`DP-01`");
    assert_eq!(depth.standing, "DP-01, common practice");
    assert_eq!(
        depth.group,
        "Approach: phacoemulsification or manual small-incision surgery (SICS)"
    );
    let second = find("second_eye_k_difference").unwrap().about;
    assert_eq!(second.rules, "`SE-01` to `SE-03`");
    let shift = find("sulcus_shift").unwrap().about;
    assert_eq!((shift.rules, shift.standing), ("", "assumption"));
}

#[test]
fn every_limit_is_written_back_and_stays_the_same() {
    let shipped = Limits::shipped();
    for entry in shipped.catalog() {
        let again = shipped.with(entry.about.name, &entry.in_use).unwrap();
        assert_eq!(again, *shipped, "{}", entry.about.name);
    }
}

/// No limit is read from another unit, from no number, or from one that nothing can have.
#[test]
fn no_limit_takes_another_unit_or_a_number_that_cannot_be() {
    let shipped = Limits::shipped();
    for entry in shipped.catalog() {
        let AboutLimit { name, unit, .. } = entry.about;
        for text in [
            "",
            "x",
            "1",
            "1 furlong",
            &format!("x {unit}"),
            &format!("NaN {unit}"),
            &format!("-1000000000 {unit}"),
            &format!("1000000000 {unit}"),
        ] {
            assert!(shipped.with(name, text).is_err(), "{name}: {text}");
        }
    }
}

#[test]
fn one_limit_is_set_and_the_others_stay() {
    let limits = Limits::shipped().with("chamber_depth", "2,6 mm").unwrap();
    assert_eq!(limits.chamber_depth, Micrometers::new(2_600));
    let names: Vec<_> = limits
        .changed()
        .into_iter()
        .map(|limit| limit.name)
        .collect();
    assert_eq!(names, ["chamber_depth"]);
    let refused = |name, text| Limits::shipped().with(name, text).unwrap_err();
    assert_eq!(refused("mean_k_flattest", "48.00 D"), wrong_way_round());
    let name = "chamber".to_owned();
    assert_eq!(refused("chamber", "1 mm"), LimitError::NoSuch { name });
}

/// A limit that may be off is off or a length; the others are never off.
#[test]
fn only_the_margin_over_a_piece_may_be_off() {
    let shipped = Limits::shipped();
    assert_eq!(shipped.piece_margin, None);
    let set = shipped.with("piece_margin", "0.25 mm").unwrap();
    assert_eq!(set.piece_margin, Some(Micrometers::new(250)));
    assert_eq!(set.changed()[0].shipped, "off");
    assert_eq!(set.with("piece_margin", "off").unwrap(), *shipped);
    assert_eq!(Limits::parse(&set.write()).unwrap(), set);
    assert!(shipped.with("nucleus_retreat", "off").is_err());
    assert!(shipped.with("piece_margin", "Off").is_err());
}

#[test]
fn what_is_written_reads_back_and_keeps_the_shipped_value_in_sight() {
    assert_eq!(
        Limits::parse(&Limits::shipped().write()).unwrap(),
        *Limits::shipped()
    );
    let mut changed = Limits::shipped().clone();
    for (name, text) in [
        ("chamber_depth", "2.60 mm"),
        ("target_most_myopic", "-1.00 D"),
        ("strict_screening", "on"),
        ("spread_mean_k", "0.200 D"),
        ("risk_age", "85 years"),
    ] {
        changed = changed.with(name, text).unwrap();
    }
    let text = changed.write();
    assert_eq!(Limits::parse(&text).unwrap(), changed);
    // The heading of the shipped file, which says that nothing is changed, is not this file's.
    let first: Vec<_> = text.lines().take(2).collect();
    let heading =
        "// The limits of this clinic. After each changed value: what Millrace ships with.";
    assert_eq!(first, [heading, "("]);
    let line =
        "    chamber_depth: \"2.60 mm\", // changed; shipped 2.80 mm: DP-01, common practice\n";
    assert!(text.contains(line), "{text}");
}

/// Neither nothing nor what no eye has is a limit: a spread of 0 would make certain what is not, and a
/// chance of 0 lies nowhere.
#[test]
fn every_limit_passes_at_both_ends_of_its_range_and_not_beyond() {
    let shipped = Limits::shipped();
    let mut numbers = 0;
    for entry in shipped.catalog() {
        let AboutLimit { name, unit, .. } = entry.about;
        let Some([least, most]) = entry.about.range else {
            assert!(!entry.about.words.is_empty(), "{name}");
            continue;
        };
        numbers += 1;
        let at = |number: f64| shipped.with(name, &format!("{number} {unit}"));
        for end in [least, most] {
            let read = at(end);
            // What belongs to another limit may stand the wrong way round at an end.
            assert!(
                matches!(read, Ok(_) | Err(LimitError::Order { .. })),
                "{name} {end}: {read:?}"
            );
        }
        let step = match entry.about.unit {
            "mm" => 0.001,
            "D" => 0.01,
            _ => 1.0,
        };
        for beyond in [least - step, most + step] {
            let text = format!("{beyond:.3}");
            let text = text.trim_end_matches('0').trim_end_matches('.');
            let read = shipped.with(name, &format!("{text} {unit}"));
            let refused = match &read {
                Err(LimitError::Range { name: of, .. } | LimitError::Spread { name: of, .. }) => {
                    *of == *name
                }
                _ => false,
            };
            assert!(refused, "{name} {text}: {read:?}");
        }
    }
    assert_eq!(numbers, shipped.entries().len() - 2);
}
