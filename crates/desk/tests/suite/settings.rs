//! What the settings change, and what they leave alone.

use crate::support::{
    Bench, HARD_AND_SHALLOW, click, date, demo, demo_lenses, enter, harness, light, texts,
};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::case::{Command, LensPlan, UsualPlan};
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Convention;
use millrace_core::limits::Limits;
use millrace_core::plan::{Evaluated, PlanRefused};
use millrace_core::quantity::Micrometers;
use millrace_core::rules::Verdict;
use millrace_desk::exchange::Request;
use millrace_desk::pages::{CaseView, use_mine};
use millrace_desk::power_lines::PowerLines;
use millrace_desk::settings::{OwnWays, Settings, UsualLens};
use millrace_desk::theme;
use millrace_wording::DecimalSign;

/// Tall enough that every row of a part is there to be clicked.
const TALL: [f32; 2] = [1100.0, 8000.0];

const DEPTH: &str = "Anterior chamber depth under which a hard nucleus speaks in favor of SICS";

fn settings(part: &str) -> Harness<'static, Bench> {
    let mut bench = Bench::new(vec![demo(HARD_AND_SHALLOW)], light());
    bench.open(0);
    let mut harness = harness(bench, TALL);
    click(&mut harness, "Settings");
    click(&mut harness, &format!("Part of the settings, {part}"));
    harness
}

fn kept_limits(harness: &Harness<'static, Bench>) -> Vec<Limits> {
    let told = harness.state().told.iter();
    told.filter_map(|request| match request {
        Request::KeepLimits(limits) => Some((**limits).clone()),
        _ => None,
    })
    .collect()
}

fn kept_settings(harness: &Harness<'static, Bench>) -> Option<Settings> {
    let told = harness.state().told.iter().rev();
    let mut kept = told.filter_map(|request| match request {
        Request::KeepSettings(settings) => Some(settings.clone()),
        _ => None,
    });
    kept.next()
}

fn is_found(harness: &Harness<'static, Bench>, id: &str) -> bool {
    let plan = harness.state().desk.session().unwrap().plan().unwrap();
    let of_rule = |evaluated: &&Evaluated| evaluated.rule.id == id;
    let evaluated = plan.rules.iter().find(of_rule).unwrap();
    matches!(evaluated.verdict, Verdict::Finding(_))
}

/// The eye's depth is 2.55 mm: under the shipped 2.80 mm, clearly over 2.2 mm.
#[test]
fn another_limit_is_kept_and_the_open_case_planned_by_it() {
    let mut harness = settings("Limits");
    assert!(is_found(&harness, "DP-01"));
    enter(&mut harness, DEPTH, "2,2");
    let kept = kept_limits(&harness);
    assert_eq!(kept.len(), 1);
    assert_eq!(kept[0].chamber_depth, Micrometers::new(2_200));
    assert!(!is_found(&harness, "DP-01"));
    assert_eq!(
        harness
            .state()
            .desk
            .session()
            .unwrap()
            .plan()
            .unwrap()
            .limits
            .changed()
            .len(),
        1
    );
    harness.get_by_label("Differs from the shipped 2.80 mm");

    click(
        &mut harness,
        &format!("Reset to the shipped value, {DEPTH}"),
    );
    assert_eq!(kept_limits(&harness)[1], *Limits::shipped());
    assert!(is_found(&harness, "DP-01"));
    assert!(
        harness
            .query_by_label("Differs from the shipped 2.80 mm")
            .is_none()
    );
    // Ctrl+Z takes changes of limits back here, and nothing of the case behind.
    let before = harness.state().draft().clone();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(
        kept_limits(&harness)[2].chamber_depth,
        Micrometers::new(2_200)
    );
    assert_eq!(harness.state().draft(), &before);
}

#[test]
fn what_is_no_limit_is_refused_in_words_and_changes_nothing() {
    let mut harness = settings("Limits");
    for (field, text, why) in [
        (
            DEPTH,
            "2.60 D",
            "Not accepted: \"2.60 D\" needs its unit: write \"2.80 mm\"",
        ),
        (
            DEPTH,
            "-1",
            "Not accepted: \"-1 mm\" is outside 1 mm to 6 mm",
        ),
        (
            "Flattest mean K that passes",
            "48",
            "Not accepted: \u{201c}Flattest mean K that passes\u{201d} would lie over \u{201c}Steepest mean K that passes\u{201d}; change the other one first",
        ),
    ] {
        enter(&mut harness, field, text);
        harness.get_by_label(why);
        harness.key_press(Key::Escape);
        harness.run();
    }
    assert_eq!(kept_limits(&harness), []);
}

#[test]
fn the_filter_finds_limits_by_meaning_rule_and_standing() {
    let mut harness = settings("Limits");
    let count = |harness: &Harness<'static, Bench>| {
        let all = texts(harness);
        all.iter()
            .filter(|text| text.starts_with("shipped "))
            .count()
    };
    assert_eq!(count(&harness), Limits::shipped().entries().len());
    harness
        .get_by_role_and_label(Role::TextInput, "Search limits")
        .click();
    harness.run();
    for (text, found) in [("dp-03 memory", 0), ("ID-99", 0), ("DP-03 borderline", 1)] {
        harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
        harness.run();
        harness
            .get_by_role_and_label(Role::TextInput, "Search limits")
            .type_text(text);
        harness.run();
        assert_eq!(count(&harness), found, "{text}");
    }
}

#[test]
fn the_comma_is_written_everywhere_on_the_desk_and_in_no_identifier() {
    let mut harness = settings("At the desk");
    click(&mut harness, "Decimal sign, Comma, 23,45");
    assert_eq!(
        kept_settings(&harness).unwrap().words.decimals,
        DecimalSign::Comma
    );
    click(&mut harness, "Biometry");
    let field = harness.get_by_role_and_label(Role::TextInput, "Axial length");
    assert_eq!(
        egui_kittest::kittest::NodeT::accesskit_node(&field).value(),
        Some("22,84".to_owned())
    );
    let all = texts(&harness);
    assert!(all.iter().any(|text| text.contains("14,00 to 40,00 mm")));
    assert!(all.iter().any(|text| text.contains("40-2291")));
}

/// A number with this sign between its digits.
fn has(text: &str, sign: u8) -> bool {
    let bytes = text.as_bytes();
    bytes
        .windows(3)
        .any(|three| three[1] == sign && three[0].is_ascii_digit() && three[2].is_ascii_digit())
}

/// What a screen reader finds; what is painted beside it is in the pictures.
#[test]
fn no_page_of_an_eye_with_everything_on_it_keeps_a_point() {
    let toric = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
    let mut comma = light();
    comma.words.decimals = DecimalSign::Comma;
    for case in [HARD_AND_SHALLOW, toric] {
        let mut bench = Bench::new(vec![demo(case)], comma.clone());
        bench.open(0);
        let mut harness = harness(bench, TALL);
        for page in ["Biometry", "Lens", "Approach", "Sheet"] {
            click(&mut harness, page);
            let all = texts(&harness);
            assert!(all.iter().any(|text| has(text, b',')), "{page}");
            let points: Vec<_> = all
                .iter()
                // Works have numbers of their own.
                .filter(|text| has(text, b'.') && !text.contains("doi 10."))
                .collect();
            assert_eq!(points, Vec::<&String>::new(), "{page}");
        }
    }
}

/// Own figures count once they are whole, and go into no case by themselves.
#[test]
fn own_ways_are_kept_and_touch_no_case() {
    let mut harness = settings("My preferences");
    let before = harness.state().draft().clone();
    click(&mut harness, "Haigis");
    click(&mut harness, "Proposed power, First myopic");
    enter(&mut harness, "Flattening, phacoemulsification", "0,25");
    enter(&mut harness, "Scatter, phacoemulsification", "0.40");
    assert_eq!(kept_settings(&harness).unwrap().own.phaco_incision, None);
    enter(&mut harness, "Eyes, phacoemulsification", "1");
    harness
        .get_by_label("Not accepted: number of eyes behind the SIA 1 is outside 2 to 4294967295");
    enter(&mut harness, "Eyes, phacoemulsification", "60");
    let own = kept_settings(&harness).unwrap().own;
    assert_eq!(own.formulas, [Formula::Haigis]);
    let effect = own.phaco_incision.unwrap();
    assert_eq!((effect.flattening().hundredths(), effect.eyes()), (25, 60));
    assert_eq!(harness.state().draft(), &before);
}

/// "Use mine" is a button on a page; what it asks for is an ordinary command.
#[test]
fn a_case_takes_an_own_way_only_by_the_button() {
    let mut draft = demo(HARD_AND_SHALLOW);
    draft.lens = LensPlan::default();
    let own = OwnWays {
        convention: Some(Convention::FirstMyopic),
        planned_by: Some(Formula::SrkT),
        lens: Some(UsualLens {
            name: "Weir one-piece".to_owned(),
            model: "Weir Q".to_owned(),
        }),
        ..OwnWays::default()
    };
    let clinic = demo_lenses();
    let asked = |ui: &mut egui::Ui, taken: &mut Vec<Command>| {
        let view = CaseView {
            ground: egui::Id::unique("case"),
            draft: &draft,
            plan: Err(&PlanRefused::NoEye),
            powers: &PowerLines::default(),
            limits: Limits::shipped(),
            lenses: &clinic,
            author: "",
            own: &own,
            today: date(2026, 11, 24),
        };
        taken.extend(use_mine::usual(ui, &view));
        taken.extend(use_mine::incision(ui, &view));
    };
    let mut harness = Harness::builder()
        .with_context_setup(theme::install)
        .build_ui_state(asked, Vec::new());
    harness.run();
    assert_eq!(harness.state(), &[]);
    let mine = "Use mine: Weir one-piece, model Weir Q, SRK/T, first myopic";
    harness.get_by_label(mine).click();
    harness.run();
    let record = clinic.iter().find(|record| record.model == "Weir Q");
    let usual = UsualPlan {
        lens: record.map(|record| (record.clone(), Vec::new())),
        formula: Some(Formula::SrkT),
        convention: Some(Convention::FirstMyopic),
    };
    assert!(usual.lens.is_some());
    assert_eq!(harness.state(), &[Command::PlanAsUsual(Box::new(usual))]);
}
