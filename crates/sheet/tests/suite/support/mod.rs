//! Cases for sheets, and what tests look at them with.

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use millrace_core::case::{Draft, RecordedReason};
use millrace_core::case_file;
use millrace_core::document::PlanDocument;
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::{Severity, Verdict};
use millrace_core::signing::{Obstacle, SheetNumber, Signature, SignedPlan, ToSign, sign};
use millrace_sheet::{Paper, Setting, Sheet, Template, WithoutSheet};
use millrace_wording::Words;

pub(crate) const SIGNER: &str = "M. Castellan-Oduya";

pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

pub(crate) fn cases() -> Vec<(String, Draft)> {
    let directory = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-data/cases");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(directory)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    paths
        .into_iter()
        .map(|path| {
            let draft = case_file::read(&std::fs::read_to_string(&path).unwrap()).unwrap();
            (
                path.file_stem().unwrap().to_str().unwrap().to_owned(),
                draft,
            )
        })
        .collect()
}

pub(crate) fn case(name: &str) -> Draft {
    cases()
        .into_iter()
        .find(|(known, _)| known == name)
        .unwrap()
        .1
}

/// The draft with a reason for every open Review finding.
pub(crate) fn reasoned(draft: &Draft, reason: &str) -> Draft {
    let mut draft = draft.clone();
    let plan = Plan::of(&draft, Limits::shipped()).unwrap();
    for evaluated in plan
        .findings(Severity::Review)
        .filter(|found| found.is_open())
    {
        let Verdict::Finding(finding) = &evaluated.verdict else {
            unreachable!()
        };
        draft
            .reasons
            .retain(|known| !known.is_for(evaluated.rule.id, evaluated.backup));
        draft.reasons.push(RecordedReason {
            rule: evaluated.rule.id.to_owned(),
            backup: evaluated.backup,
            measured: finding.measured.clone(),
            limit: finding.limit.clone(),
            reason: reason.to_owned(),
            by: SIGNER.to_owned(),
            on: date(2026, 12, 1),
        });
    }
    draft
}

/// The plan of a draft, as a sheet is laid out from it.
pub(crate) fn document(draft: &Draft) -> PlanDocument {
    let plan = Plan::of(draft, Limits::shipped()).unwrap();
    PlanDocument::of(&plan, "millrace 0.1.0")
}

/// Signed as sheet 41, which supersedes 38.
pub(crate) fn signed(draft: &Draft) -> Result<SignedPlan, Vec<Obstacle>> {
    let draft = reasoned(
        draft,
        "Measured again on the other device; discussed with the patient",
    );
    let signature = Signature {
        name: SIGNER.to_owned(),
        role: "consultant surgeon".to_owned(),
        at: "2026-12-01T16:40:00Z".parse().unwrap(),
        consented_target: draft
            .lens
            .consented_target
            .unwrap_or(millrace_core::quantity::HundredthDiopters::new(0)),
    };
    sign(
        ToSign {
            number: SheetNumber::new(41).unwrap(),
            supersedes: SheetNumber::new(38),
            draft: &draft,
            limits: Limits::shipped(),
            program: "millrace 0.1.0",
        },
        signature,
    )
}

pub(crate) fn sheet(plan: &SignedPlan) -> Sheet {
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::signed(plan, setting).unwrap()
}

pub(crate) mod hard;
pub(crate) mod noise;
pub(crate) mod reader;

/// A page in shades of gray.
pub(crate) fn gray(page: &millrace_sheet::PageImage) -> image::GrayImage {
    let picture = image::RgbaImage::from_raw(page.width, page.height, page.rgba.clone()).unwrap();
    image::DynamicImage::ImageRgba8(picture).to_luma8()
}

/// Somebody on the list of a day whose plan nobody signed.
pub(crate) fn not_signed() -> WithoutSheet {
    WithoutSheet {
        name: Some("Mbeki-Lindqvist, Sunniva".to_owned()),
        number: Some("88-1004".to_owned()),
        birth_date: None,
        eye: None,
        why: "not signed".to_owned(),
    }
}
