//! Every known danger is printed: with its reason on the sheet, or on the print of a draft where nothing can
//! be signed.

use millrace_core::rules::Severity;
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::{Show as _, Words, rules as say};
use rayon::prelude::*;

use crate::support::{document, reasoned, sheet, signed};

#[path = "../../../../tests/dangers/mod.rs"]
mod table;

use table::{ALL, Danger, close};

fn printed(danger: &Danger) -> Sheet {
    let draft = danger.draft();
    if !danger.plan().is_stopped() {
        return sheet(&signed(&draft).unwrap());
    }
    assert!(signed(&draft).is_err(), "{}", danger.name);
    let template = Template::shipped();
    let setting = Setting {
        paper: Paper::A4,
        template: &template,
        words: Words::ENGLISH,
    };
    let document = document(&reasoned(&draft, "discussed"));
    Sheet::draft(&document, chrono::DateTime::UNIX_EPOCH, setting).unwrap()
}

#[test]
fn every_danger_is_printed() {
    ALL.par_iter().for_each(|danger| {
        let plan = danger.plan();
        let (found, finding) = danger.found(&plan).unwrap();
        let sheet = printed(danger);
        let page = sheet.texts();
        let page = close(&page.iter().map(|text| &*text.text).collect::<String>());
        let title = say::title(Words::ENGLISH, found.rule.title, danger.backup);
        let severity = danger.severity.show(Words::ENGLISH);
        let finding = finding.show(Words::ENGLISH);
        // No lens power stands on a draft, in a finding neither.
        let is_draft = plan.is_stopped() && danger.rule.starts_with("PW-");
        let finding = match finding.split_once(['+', '\u{2212}']) {
            Some((until, _)) if is_draft => until,
            _ => &finding,
        };
        let text = format!("{severity} {} {title}: {finding}", danger.rule);
        assert!(
            page.contains(&close(&text)),
            "{}: {text}\n{page}",
            danger.name
        );
        if danger.severity == Severity::Review && !plan.is_stopped() {
            assert!(page.contains("Reason("), "{}", danger.name);
        }
    });
}
