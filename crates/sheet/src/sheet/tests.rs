//! A fixed part that lacks something: it is never shipped, and never printed.

use millrace_core::case::RecordedReason;
use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::{Severity, Verdict};
use millrace_core::signing::{SheetNumber, Signature, ToSign, sign};
use millrace_wording::Show as _;

use super::*;
use crate::Block;

/// Of a cylinder that nothing proposes, with a reason for each finding that asks for one.
fn signed_plan() -> SignedPlan {
    let text = include_str!("../../../../demo-data/cases/astigmatic-eye.ron");
    let [chosen, instead] = ["+2.40 D", "+0.80 D"].map(|it| format!("cylinder: \"{it}\""));
    assert_eq!(text.matches(&chosen).count(), 1);
    let mut draft = case_file::read(&text.replace(&chosen, &instead)).unwrap();
    let eye = draft.eyes.get_mut(draft.operation.eye.unwrap());
    eye.state.other_difficulty = Some(true);
    let plan = Plan::of(&draft, Limits::shipped()).unwrap();
    for evaluated in plan.findings(Severity::Review) {
        let Verdict::Finding(finding) = &evaluated.verdict else {
            unreachable!()
        };
        draft.reasons.push(RecordedReason {
            rule: evaluated.rule.id.to_owned(),
            backup: evaluated.backup,
            measured: finding.measured.clone(),
            limit: finding.limit.clone(),
            reason: "A diopter with the rule is left on purpose".to_owned(),
            by: "A. Okafor".to_owned(),
            on: chrono::NaiveDate::from_ymd_opt(2026, 11, 24).unwrap(),
        });
    }
    let to_sign = ToSign {
        number: SheetNumber::FIRST,
        supersedes: None,
        draft: &draft,
        limits: Limits::shipped(),
        program: "millrace 0.1.0",
    };
    let signature = Signature {
        name: "M. Castellan-Oduya".to_owned(),
        role: "consultant surgeon".to_owned(),
        at: "2026-12-01T16:40:00Z".parse().unwrap(),
        consented_target: draft.lens.target.unwrap(),
    };
    sign(to_sign, signature).unwrap()
}

/// What stands in the fixed part, what takes its place, and the block that is then missing.
const LACKING: [(&str, &str, Block); 23] = [
    (
        "typed(who.name, size: name-size, weight: \"bold\")",
        "[]",
        Block::Identity,
    ),
    (
        "said(labels.number, number: typed(who.number, weight: \"bold\")) #h(6pt)",
        "[]",
        Block::Identity,
    ),
    (
        "said(labels.born, day: box(text(weight: \"bold\", who.born)))",
        "[]",
        Block::Identity,
    ),
    (
        "  bottom-edge: \"baseline\",\n  who.eye,",
        "  bottom-edge: \"baseline\",\n  [],",
        Block::Eye,
    ),
    ("size: 42pt", "size: 20pt", Block::Eye),
    (
        "number(lens.power, size: 38pt, weight: \"black\")",
        "[]",
        Block::Power,
    ),
    (
        "number(lens.power, size: 38pt, weight: \"black\")",
        "text(fill: white, lens.power, size: 38pt)",
        Block::Power,
    ),
    (
        "number(lens.power, size: 38pt, weight: \"black\")",
        "hide(number(lens.power, size: 38pt))",
        Block::Power,
    ),
    (
        "number(lens.power, size: 38pt, weight: \"black\")",
        "number(lens.power.slice(1), size: 38pt)",
        Block::Power,
    ),
    (
        "number(lens.power, size: 38pt, weight: \"black\")",
        "number(lens.power, size: 12pt)",
        Block::Power,
    ),
    (
        "number(lens.axis, size: 17pt, weight: \"bold\")",
        "[]",
        Block::Cylinder,
    ),
    (
        "typed(lens.name, size: 14pt, weight: \"bold\")",
        "[]",
        Block::Lens,
    ),
    (
        "said(labels.model, model: typed(lens.model, weight: \"bold\"))",
        "[]",
        Block::Lens,
    ),
    (
        "said(labels.sits_in, site: strong(lens.site))",
        "[]",
        Block::Lens,
    ),
    (
        "*#labels.reason* (#typed(over.by), #over.on): #typed(over.reason, weight: \"bold\")",
        "",
        Block::Overrides,
    ),
    ("facts(short)", "[]", Block::Target),
    ("else { alert(data.told) }", "else {}", Block::Told),
    ("  second-look\n  if boxes", "  if boxes", Block::SecondLook),
    (
        "number(other.power, size: 12pt, weight: \"bold\")",
        "[]",
        Block::Ready,
    ),
    ("typed(other.name)", "[]", Block::Ready),
    ("data.special.join(\"; \")", "[]", Block::Special),
    ("  footer: foot,", "  footer: none,", Block::Foot),
    (
        "said(labels.fingerprint, fingerprint: signed.fingerprint)",
        "[]",
        Block::Foot,
    ),
];

#[test]
fn a_template_without_a_part_that_must_be_there_is_refused() {
    let plan = signed_plan();
    for (whole, instead, block) in LACKING {
        let template = Template::with_fixed(|fixed| {
            assert!(fixed.contains(whole), "the template has no {whole}");
            fixed.replacen(whole, instead, 1)
        });
        let setting = Setting {
            paper: Paper::A4,
            template: &template,
            words: Words::ENGLISH,
        };
        let error = Sheet::signed(&plan, setting).err();
        assert_eq!(
            error,
            Some(SheetError::BlockMissing { block }),
            "{whole} -> {instead}"
        );
    }
}

/// Neither without the mark nor with one that is pale, small, or on the first page alone.
#[test]
fn a_template_without_the_mark_of_an_outdated_sheet_is_refused() {
    let plan = signed_plan();
    for (whole, instead) in [
        ("  foreground: mark,", ""),
        ("text(15.5pt, weight: \"black\", outdated.band)", "[]"),
        (
            "text(15.5pt, weight: \"black\", outdated.band)",
            "text(15.5pt, fill: luma(200), outdated.band)",
        ),
        (
            "text(15.5pt, weight: \"black\", outdated.band)",
            "text(9pt, outdated.band)",
        ),
        ("text(10pt, weight: \"bold\", outdated.note)", "[]"),
        (
            "  foreground: mark,",
            "  foreground: context if counter(page).get().first() == 1 { mark },",
        ),
    ] {
        let template = Template::with_fixed(|fixed| {
            assert!(fixed.contains(whole), "the template has no {whole}");
            fixed.replacen(whole, instead, 1)
        });
        let setting = Setting {
            paper: Paper::A4,
            template: &template,
            words: Words::ENGLISH,
        };
        for why in [
            Outdated::SupersededBy(SheetNumber::FIRST),
            Outdated::ChangedSince(plan.signature().at),
        ] {
            let error = Sheet::outdated(&plan, why, setting).err();
            let missing = SheetError::BlockMissing {
                block: Block::Standing,
            };
            assert_eq!(error, Some(missing), "{whole} -> {instead}");
        }
    }
}

#[test]
fn a_plan_of_another_eye_is_refused() {
    let plan = signed_plan();
    let mut document = plan.plan().clone();
    document.case.operation.eye = Some(document.results.eye.other());
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let at = plan.signature().at;
    let error = Sheet::draft(&document, at, setting).unwrap_err();
    assert_eq!(
        error.show(Words::ENGLISH),
        "the plan is not of this draft: they name different eyes"
    );
}
