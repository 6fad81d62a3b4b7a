//! The cylinder in the plan: terms of the cornea, steps, rotation; refused where nothing stands behind
//! it; the same figures in text and JSON.

use std::fs;

use crate::support::{millrace_in, root};
use serde_json::Value;

/// What the program makes of a case.
struct Printed {
    /// Exit status.
    code: i32,
    /// The section on astigmatism, 100 columns wide, every run of spaces and line ends made one space.
    text: String,
    /// The section as it stands.
    lines: Vec<String>,
    /// What it cites, as the list at the end of the plan has it.
    sources: String,
    /// `toric` of the document.
    json: Value,
}

/// A demo case with some of its text replaced, each where it first stands.
fn plan(demo: &str, replacements: &[(&str, &str)], width: &str) -> Printed {
    let path = root().join(format!("demo-data/cases/{demo}.ron"));
    let mut text = fs::read_to_string(path).expect("the demo reads");
    for (from, to) in replacements {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    let directory = tempfile::tempdir().expect("a directory");
    fs::write(directory.path().join("case.ron"), text).expect("written");
    let page = millrace_in(
        directory.path(),
        &["plan", "case.ron", "--full", "--width", width],
    );
    let json = millrace_in(directory.path(), &["plan", "case.ron", "--format", "json"]);
    assert_eq!((page.err.as_str(), page.code), ("", json.code));
    let json: Value = serde_json::from_str(&json.out).expect("valid JSON");
    let lines: Vec<String> = page
        .out
        .lines()
        .skip_while(|line| !line.starts_with("Astigmatism"))
        .take_while(|line| !line.starts_with("Choice of lens"))
        .map(str::to_owned)
        .collect();
    assert!(!lines.is_empty(), "the section is there");
    let text = words(&lines.join(" "));
    let (_, list) = page.out.rsplit_once("\nSources ─").expect("a list");
    let cited: Vec<_> = words(&list.replace("\n [", "\n¶["))
        .split(" ¶")
        .filter(|source| {
            let number = source.split_inclusive(']').next();
            number.is_some_and(|number| text.contains(number))
        })
        .map(str::to_owned)
        .collect();
    Printed {
        code: page.code,
        sources: cited.join("\n"),
        text,
        lines,
        json: json["results"]["toric"].clone(),
    }
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn demo() -> Printed {
    plan("astigmatic-eye", &[], "100")
}

/// By hand, vectors at twice the angle: 2.25 at 82, −0.32 at 86 and −0.22 at 180 are
/// (−2.1628 + 0.3169 − 0.22, 0.6202 − 0.0445) = (−2.0660, 0.5756): 2.14 D at 82.2. The incision at 180 of
/// a right eye lies temporally.
#[test]
fn the_terms_of_the_cornea_stand_with_their_sources() {
    let Printed { text, sources, .. } = demo();
    for row in [
        "Anterior cornea 2.25 D @ 82° keratometer",
        "Posterior cornea adds 0.32 D @ 176° tomographer: 0.32 D @ 86°, of negative power",
        "Incision adds (SIA) 0.22 D @ 90° temporal at 180°: flattens that meridian by 0.22 D, so that it \
         adds at right angles; the surgeon's own results, 84 eyes, 30 Jun 2026; scatter 0.33 D (SD)",
        "After the operation 2.14 D @ 82° with the rule",
    ] {
        assert!(text.contains(row), "{row}\n{text}");
    }
    for source in [
        "front, back and incision added as vectors [printed]",
        "negative power of the back as measured, added to the front [derived]",
        "an incision flattens its own meridian, wherever it lies, and leaves the mean power [assumption]",
    ] {
        assert!(sources.contains(source), "{source}\n{sources}");
    }
}

/// All of `tests/oracle/toric_demo.py`, 4×4 matrices in Python: residual refraction of each cylinder at
/// 82, exact cylinder 3.0760 D, ratio 1.4546.
#[test]
fn suggested_axis_and_steps_agree_with_the_second_implementation() {
    let Printed { text, sources, .. } = demo();
    for row in [
        "Chosen cylinder +2.40 D, axis 82° leaves −0.27 D / −0.47 D × 173°",
        "Suggested axis of the lens (its marks) 82°",
        "Exact cylinder +3.08 D",
        "none – +0.56 D / −2.14 D × 172°",
        "+0.80 D at 82° +0.55 D +0.29 D / −1.58 D × 172°",
        "+1.60 D at 82° +1.10 D +0.01 D / −1.03 D × 172°",
        "▶ +2.40 D at 82°‡ +1.65 D −0.27 D / −0.47 D × 173°",
        "+3.20 D at 82°*† +2.20 D −0.46 D / −0.09 D × 77°",
        "+4.00 D at 82°† +2.75 D −0.19 D / −0.64 D × 81°",
        "Also made, overcorrecting by more: +4.80 D.",
        "▸ SRK/T 82° +3.08 D 1.45",
        "published range 1.3 to 2.3 [from memory]",
    ] {
        assert!(text.contains(row), "{row}\n{text}");
    }
    // ISO 8429 counts from 1 to 180.
    assert!(!text.contains("× 0°") && !text.contains("at 0°"), "{text}");
    assert_eq!(sources.matches("ISO 8429").count(), 1);
}

/// Residuals of `tests/oracle/toric_demo.py`. The error added is 2·sin of the turn times the lens at the
/// cornea, 2.40/1.45463 = 1.6499 D: at 1° 0.0349 of it, at 10° 0.3473, at 30° all. The eye is no better
/// off than without from half the arc whose cosine is 1.6499/(2·2.1147) = 0.3901: 33.5°.
#[test]
fn a_turn_shows_what_it_leaves_in_both_senses() {
    let text = demo().text;
    for row in [
        "1° −0.47 D × 169° −0.48 D × 176° 0.06 D",
        "2° −0.48 D × 166° −0.49 D × 180° 0.12 D",
        "3° −0.50 D × 163° −0.52 D × 3° 0.17 D",
        "5° −0.57 D × 158° −0.58 D × 8° 0.29 D",
        "10° −0.80 D × 150° −0.82 D × 15° 0.57 D",
        "15° −1.07 D × 147° −1.10 D × 17° 0.85 D",
        "20° −1.36 D × 147° −1.39 D × 18° 1.13 D",
        "30° −1.94 D × 148° −1.96 D × 16° 1.65 D",
        "From 34° off the suggested axis the eye is no better off than without a cylinder",
    ] {
        assert!(text.contains(row), "{row}\n{text}");
    }
}

/// A chosen axis off the suggested one is a row of its own, marked; no other row is.
#[test]
fn another_axis_than_the_suggested_one_has_its_own_row() {
    let printed = plan("astigmatic-eye", &[("axis: 82", "axis: 88")], "100");
    assert_eq!(printed.text.matches("▶ +").count(), 1);
    assert!(
        printed.text.contains("▶ +2.40 D at 88°"),
        "{}",
        printed.text
    );
    assert!(
        printed
            .text
            .contains("Suggested axis of the lens (its marks) 82°")
    );
}

#[test]
fn an_irregular_cornea_is_refused_in_words_and_in_the_document() {
    let irregular = ("irregular_cornea: false", "irregular_cornea: true");
    let printed = plan("astigmatic-eye", &[irregular], "100");
    let refusal = "the cornea is recorded as irregular: no cylinder describes it";
    assert!(printed.text.contains(&format!("✕ Not computed: {refusal}")));
    assert!(!printed.text.contains("Suggested"), "{}", printed.text);
    // The chosen cylinder stays, and stops the plan (TO-10).
    assert!(printed.text.contains("Chosen cylinder +2.40 D"));
    assert_eq!(printed.code, 1);
    let refused = serde_json::json!({ "refusal": "irregular_cornea" });
    assert_eq!(printed.json["cornea"]["total"], refused);
    assert_eq!(printed.json["cornea"]["front"], refused);
    assert_eq!(printed.json["steps"], Value::Array(Vec::new()));
    assert_eq!(printed.json["formulas"][0]["outcome"], refused);
}

/// Without the surgeon's own figures: the incision is not known, the cornea before it is.
#[test]
fn a_small_incision_without_own_figures_is_not_known() {
    let printed = plan("hard-and-shallow", &[], "100");
    let refusal = "surgically induced astigmatism (SIA) of a small-incision (SICS) wound is not \
                   known: the surgeon's own SIA may be recorded";
    assert!(
        printed
            .text
            .contains(&format!("Incision not known ✕ {refusal}"))
    );
    // Keratometry of the demo: 43.75 D at 10 and 44.50 D at 100.
    assert!(
        printed
            .text
            .contains("Before the operation 0.75 D @ 100° with the rule")
    );
    assert!(
        !printed.text.contains("After the operation "),
        "{}",
        printed.text
    );
    assert!(
        printed
            .text
            .contains("Posterior cornea not measured and left out")
    );
    let refused = serde_json::json!({ "refusal": "small_incision_unknown" });
    assert_eq!(printed.json["cornea"]["incision"], refused);
    assert_eq!(printed.json["cornea"]["total"], refused);
    assert_eq!(printed.json["steep_incision"], refused);
}

/// A refused formula or cylinder is named with its reason, none is left out in silence.
#[test]
fn what_an_estimate_is_not_published_for_is_refused_by_name() {
    let multiplier = (
        "formula: srk_t,",
        "formula: srk_t,\n        posterior: multiplier,",
    );
    let printed = plan("astigmatic-eye", &[multiplier], "100");
    for sentence in [
        "✕ +2.40 D to +4.80 D: the multiplier is published for lens cylinders up to +2.00 D",
        "✕ what it leaves is not computed: the multiplier is published",
        "▲ Exact cylinder lies beyond +2.00 D",
        "▲ Posterior cornea estimated from the anterior one, not measured",
        "✕ What a rotation of the lens leaves is not computed",
        "✕ Thick lens: not computed meridian by meridian for this formula",
    ] {
        assert!(
            printed.text.contains(sentence),
            "{sentence}\n{}",
            printed.text
        );
    }
    let formula = ("formula: srk_t,", "");
    let printed = plan("astigmatic-eye", &[formula], "100");
    assert!(
        printed
            .text
            .contains("not computed: chosen formula is missing")
    );
}

/// A lens without a cylinder: the terms, what is left, the other incision, and no more than a hurried
/// reader takes in.
#[test]
fn a_lens_without_a_cylinder_has_a_short_section() {
    let printed = plan("ordinary-eye", &[], "100");
    assert!(printed.lines.len() <= 24, "{:#?}", printed.lines);
    for sentence in [
        "Astigmatism of the right eye",
        "published mean; scatter 0.42 D (SD per component, derived)",
        "Residual refraction with +21.00 D and no cylinder in the lens, by SRK/T:",
        "The same incision on the steep meridian, superior at 85° or, with the same effect \
         [assumption], inferior at 265°",
        "incision not temporal; the published SIA is of temporal incisions",
    ] {
        assert!(
            printed.text.contains(sentence),
            "{sentence}\n{}",
            printed.text
        );
    }
    // Read too fast, "left" is an eye.
    assert!(!printed.text.contains("Left"), "{}", printed.text);
    assert!(!printed.text.contains("Suggested"), "{}", printed.text);
    assert_eq!(printed.json["chosen"], Value::Null);
    assert_eq!(printed.json["rotations"], Value::Array(Vec::new()));
}

/// Rows stay whole where the page is narrow: the table is cut in two, and every row has its name.
#[test]
fn no_row_breaks_on_a_narrow_page() {
    for width in ["72", "100", "120"] {
        let printed = plan("astigmatic-eye", &[], width);
        let named = |name: &str| {
            let starts = |line: &&String| line.trim_start().starts_with(name);
            printed.lines.iter().filter(starts).count()
        };
        let tables = if width == "72" { 2 } else { 1 };
        assert_eq!(named("▶ +2.40 D at 82°"), tables, "{width}");
        assert_eq!(named("none, steep incision"), tables, "{width}");
        // A residual cylinder stands in one line with its axis: seven cylinders, five formulas.
        let whole = printed.lines.iter().filter(|line| {
            line.contains(" D / ")
                && line.contains(" D × ")
                && line.trim_end().ends_with(['°', '%', '–'])
        });
        assert!(11 <= whole.count(), "{width}: {:#?}", printed.lines);
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn signed(value: &Value) -> String {
    let shown = format!("{:.2} D", number(value).abs());
    let minus = number(value) < 0.0 && shown != "0.00 D";
    format!("{}{shown}", if minus { '−' } else { '+' })
}

fn axis(value: &Value) -> String {
    match number(value).round() % 180.0 {
        0.0 => "180°".to_owned(),
        whole => format!("{whole}°"),
    }
}

fn cylinder(residual: &Value) -> String {
    let axis = axis(&residual["axis_degrees"]);
    format!("{} × {axis}", signed(&residual["cylinder_d"]))
}

fn percent(value: &Value) -> String {
    match number(value) {
        sure if 0.995 <= sure => ">99 %".to_owned(),
        rare if rare < 0.005 => "<1 %".to_owned(),
        chance => format!("{:.0} %", chance * 100.0),
    }
}

/// What the document says of a step, rounded, in the order of the text's table.
fn row_of(step: &Value) -> String {
    let left = &step["residual"];
    let chances = step["chances"].as_array().expect("a list");
    let limits: Vec<_> = chances
        .iter()
        .map(|it| number(&it["cylinder_at_most_d"]))
        .collect();
    assert_eq!(limits, [0.25, 0.50, 0.75, 1.00]);
    let chances: Vec<_> = chances[1..]
        .iter()
        .map(|it| percent(&it["chance"]))
        .collect();
    format!(
        "{} {} / {} {} {}",
        signed(&step["at_corneal_plane_d"]),
        signed(&left["sphere_d"]),
        cylinder(left),
        chances.join(" "),
        percent(&step["chance_of_less_than_without"])
    )
}

/// Every figure of the document that the text shows stands there rounded.
#[test]
fn the_document_rounds_to_the_text() {
    let Printed { text, json, .. } = demo();
    let total = &json["cornea"]["total"]["answer"];
    let size = number(&total["cylinder_d"]);
    let mut rows = vec![format!("{size:.2} D @ {}", axis(&total["steep_degrees"]))];
    let steps = json["steps"].as_array().expect("a list");
    assert_eq!(steps.len(), 7);
    // The last overcorrects most and is named only.
    rows.extend(steps[1..6].iter().map(row_of));
    let turns = json["rotations"].as_array().expect("a list");
    assert_eq!(turns.len(), 30);
    let shown = [1, 2, 3, 5, 10, 15, 20, 30].map(|degrees: usize| &turns[degrees - 1]);
    rows.extend(shown.map(|turn| {
        format!(
            "{}° {} {} {:.2} D",
            turn["turn_degrees"],
            cylinder(&turn["counter_clockwise"]),
            cylinder(&turn["clockwise"]),
            number(&turn["added_error_d"])
        )
    }));
    let planned = &json["formulas"][0]["outcome"]["answer"];
    rows.push(format!(
        "▸ SRK/T {}° {} {:.2}",
        planned["suggested_axis_degrees"],
        signed(&planned["exact_cylinder_d"]),
        number(&planned["plane_ratio"])
    ));
    for row in rows {
        assert!(text.contains(&row), "{row}\n{text}");
    }
}

/// A temporal incision is not exchanged for a nasal one, which nothing was published for. The demo's left
/// eye is steep at 10 and its incision lies at 360, both temporal.
#[test]
fn the_other_end_is_named_only_where_the_nearer_one_is_not_temporal() {
    let text = plan("silicone-oil", &[], "100").text;
    assert!(
        text.contains("on the steep meridian, temporal at 10°: cornea"),
        "{text}"
    );
    assert!(!text.contains("nasal at 190°"), "{text}");
}
