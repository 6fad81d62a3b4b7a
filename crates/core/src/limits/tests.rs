//! Reading, setting, refusing and writing limits.

use super::*;

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
    let message = |text: &str| Limits::parse(text).unwrap_err().to_string();
    let entry = "chamber_depth: \"2.80 mm\"";
    let with = |entry_text: &str| SHIPPED_TEXT.replace(entry, entry_text);
    assert_eq!(
        message(&with("chamber_depth: \"2.80\"")),
        "limits: chamber_depth \"2.80\" needs its unit: write \"2.80 mm\""
    );
    assert_eq!(
        message(&with("chamber_depth: \"x mm\"")),
        "limits: chamber_depth \"x mm\" needs its unit: write \"2.80 mm\""
    );
    assert!(message(&with("chamber_dept: \"2.80 mm\"")).contains("chamber_dept"));
    assert!(message(&with(&format!("{entry}, {entry}"))).contains("chamber_depth"));
    assert!(message(&SHIPPED_TEXT.replace(&format!("{entry},"), "")).contains("chamber_depth"));
    assert!(message("").starts_with("limits: 1:1"));
    assert_eq!(
        message(&SHIPPED_TEXT.replace("\"24 months\"", "\"24 weeks\"")),
        "limits: measurement_age \"24 weeks\" is not a whole number of months"
    );
    assert_eq!(
        message(&with("chamber_depth: \"-0.10 mm\"")),
        "limits: chamber_depth \u{2212}0.10 mm is outside 0.00 mm to 100.00 mm"
    );
    assert_eq!(
        message(&SHIPPED_TEXT.replace("\"1000 cells/mm²\"", "\"1,000 cells/mm²\"")),
        "limits: endothelial_density \"1,000 cells/mm²\" is not a whole number of cells/mm²"
    );
    assert_eq!(
        message(&SHIPPED_TEXT.replace("\"41.00 D\"", "\"48.00 D\"")),
        "limits: mean_k_flattest is over mean_k_steepest"
    );
    assert_eq!(
        message(&SHIPPED_TEXT.replace("strict_screening: \"off\"", "strict_screening: \"no\"")),
        "limits: strict_screening \"no\" is neither \"on\" nor \"off\""
    );
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
    let message = |name, text| Limits::shipped().with(name, text).unwrap_err().to_string();
    assert_eq!(
        message("mean_k_flattest", "48.00 D"),
        "limits: mean_k_flattest is over mean_k_steepest"
    );
    assert_eq!(
        message("chamber", "1 mm"),
        "limits: no limit is called chamber"
    );
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
    let line =
        "    chamber_depth: \"2.60 mm\", // changed; shipped 2.80 mm: DP-01, common practice\n";
    assert!(text.contains(line), "{text}");
}
