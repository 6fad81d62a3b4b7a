//! A print of a draft says so loudly on every page, and states no lens power anywhere.

use std::collections::BTreeSet;

use millrace_core::case::{Draft, RecordedReason};
use millrace_core::document::PlanDocument;
use millrace_core::quantity::HundredthDiopters;
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::{Show as _, Words};
use rayon::prelude::*;

use crate::support::hard::{full_theatre, thirty_findings, toric_and_hard};
use crate::support::{cases, document, reader, reasoned};

fn printed(document: &PlanDocument, paper: Paper) -> Sheet {
    let template = Template::shipped();
    let at = "2026-12-01T10:00:00Z".parse().unwrap();
    let setting = Setting {
        paper,
        template: &template,
        words: Words::ENGLISH,
    };
    Sheet::draft(document, at, setting).unwrap()
}

/// Every power of a lens in the case and in its results, from the document as JSON. Those under five diopters
/// could be a refraction that was found.
fn powers(document: &PlanDocument) -> BTreeSet<String> {
    fn take(key: &str, value: &serde_json::Value, found: &mut BTreeSet<String>) {
        let is_power = key.contains("power")
            || matches!(
                key,
                "stepwise" | "five_percent_d" | "vergence" | "exactly" | "at_most" | "between"
            );
        match value {
            serde_json::Value::Number(number) if is_power => {
                let power = number.as_f64().unwrap();
                if 5.0 < power.abs() {
                    let hundredths = HundredthDiopters::new(hundredths(power));
                    found.insert(hundredths.show(Words::ENGLISH).into_owned());
                }
            }
            serde_json::Value::String(text) if is_power && text.ends_with(" D") => {
                let text = text.replace('-', "\u{2212}");
                if !text.starts_with("+0") && !text.starts_with("\u{2212}0") {
                    found.insert(text);
                }
            }
            serde_json::Value::Array(values) => {
                for value in values {
                    take(key, value, found);
                }
            }
            serde_json::Value::Object(fields) => {
                for (name, value) in fields {
                    let key = if is_power { key } else { name };
                    take(key, value, found);
                }
            }
            _ => {}
        }
    }
    let value = serde_json::to_value(document).unwrap();
    let mut found = BTreeSet::new();
    take("", &value, &mut found);
    found
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a power of a lens, in hundredths of a diopter"
)]
fn hundredths(power: f64) -> i32 {
    (power * 100.0).round() as i32
}

/// With reasons that name the power in words of their own.
fn with_talkative_reasons(draft: &Draft) -> Draft {
    let Some(power) = draft.lens.power() else {
        return draft.clone();
    };
    let power = power.show(Words::ENGLISH).into_owned();
    let bare = power.trim_start_matches('+').trim_end_matches(" D");
    let short = bare.trim_end_matches('0');
    let said = format!("took {power}, that is {bare} and not {short} dpt less");
    let mut draft = reasoned(draft, &said);
    for RecordedReason { reason, .. } in &mut draft.reasons {
        reason.clone_from(&said);
    }
    draft.theatre.technique.push(said.clone());
    draft.theatre.in_room.push(format!("lens {power}"));
    draft
}

#[test]
fn a_draft_states_no_lens_power_anywhere() {
    let mut drafts = cases();
    drafts.push(("toric and hard".to_owned(), toric_and_hard()));
    drafts.push(("thirty".to_owned(), thirty_findings()));
    let mut looked_for = 0;
    for (name, draft) in drafts {
        let draft = with_talkative_reasons(&full_theatre(draft));
        let document = document(&draft);
        let powers = powers(&document);
        looked_for += powers.len();
        let sheet = printed(&document, Paper::A4);
        let pdf = sheet.pdf().unwrap();
        let mut said = reader::pages(&pdf).concat();
        said.push_str(&crate::pseudo::said(&sheet));
        said.push_str(&String::from_utf8_lossy(&pdf));
        let close = |text: &str| text.split_whitespace().collect::<String>();
        let said = close(&said);
        for power in powers {
            let bare = power
                .trim_end_matches(" D")
                .trim_start_matches(['+', '\u{2212}']);
            assert!(!said.contains(&close(&power)), "{name}: {power}");
            assert!(!said.contains(&format!("thatis{bare}")), "{name}: {bare}");
        }
        if draft.lens.power().is_some() {
            assert!(
                said.contains(&close(
                    "took [no power on a draft], that is [no power on a draft]"
                )),
                "{name}"
            );
        }
        assert!(
            said.contains(&close("A lens power stands only on a signed sheet")),
            "{name}"
        );
    }
    assert!(200 < looked_for, "{looked_for}");
}

/// In black at head and foot of every page, and across it so that it is seen.
#[test]
fn a_draft_says_so_loudly_on_every_page() {
    cases().into_par_iter().for_each(|(name, draft)| {
        for paper in Paper::ALL {
            let sheet = printed(&document(&draft), paper);
            let texts = sheet.texts();
            for page in 0..sheet.page_count() {
                let bands = texts.iter().filter(|text| {
                    text.page == page && text.text == "DRAFT, NOT SIGNED" && 15.0 < text.size
                });
                assert_eq!(bands.count(), 2, "{name}, page {page}");
                let picture = crate::support::gray(&sheet.page(page, 1.0).unwrap());
                let dark = picture.pixels().filter(|it| it.0[0] < 200).count();
                let all = picture.pixels().count();
                assert!(all / 14 < dark, "{name}, page {page}: {dark} of {all}");
            }
        }
    });
}
