//! Thirty overrides and more: everything that the rules can find in one eye, on one sheet.

use crate::support::hard::thirty_findings;
use crate::support::{reader, signed};
use millrace_core::document::ReasonResult;
use millrace_core::rules::{Severity, Verdict, by_id};
use millrace_sheet::{Paper, Setting, Sheet, Template};
use millrace_wording::{Show as _, Words, rules as say};

fn close(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}')
        .collect()
}

#[test]
fn thirty_overrides_are_all_there_in_full() {
    let plan = signed(&thirty_findings()).unwrap();
    let template = Template::shipped();
    let mut overrides = Vec::new();
    let mut others = Vec::new();
    for rule in &plan.plan().results.rules {
        let Verdict::Finding(finding) = &rule.verdict else {
            continue;
        };
        let (title, sentence) = (
            say::title(Words::ENGLISH, by_id(&rule.id).unwrap().title, rule.backup),
            finding.show(Words::ENGLISH).into_owned(),
        );
        let mut texts = vec![
            format!(
                "{} {} {title}: {sentence}",
                rule.severity.show(Words::ENGLISH),
                rule.id
            ),
            say::details(Words::ENGLISH, finding).unwrap_or_default(),
        ];
        if rule.reason == ReasonResult::Standing {
            assert_eq!(rule.severity, Severity::Review, "{}", rule.id);
            let recorded = plan.plan().reason(rule).unwrap();
            let (by, on) = (&recorded.by, Words::ENGLISH.day(recorded.on));
            texts.push(format!("Reason ({by}, {on}): {}", recorded.reason));
            overrides.push(texts);
        } else {
            assert_eq!(rule.severity, Severity::Note, "{}", rule.id);
            others.push(texts);
        }
    }
    // More rules may come; fewer findings would make this case an easier one.
    assert!(
        30 <= overrides.len() && 27 <= others.len(),
        "{} {}",
        overrides.len(),
        others.len()
    );
    for paper in Paper::ALL {
        let setting = Setting {
            paper,
            template: &template,
            words: Words::ENGLISH,
        };
        let sheet = Sheet::signed(&plan, setting).unwrap();
        assert_eq!(sheet.overlaps(), Vec::<[_; 2]>::new());
        let pages = reader::pages(&sheet.pdf().unwrap());
        let foot = close("Thorvald-Ames, Ingrid RIGHT EYE No. 31-0117 born 21 Sep 1958");
        for (index, page) in pages.iter().enumerate() {
            assert!(close(page).contains(&foot), "page {index}");
        }
        for texts in overrides.iter().chain(&others) {
            assert_in_full(&pages, texts);
        }
        let whole = close(&pages.concat());
        let at = |texts: &Vec<String>| whole.find(&close(&texts[0][..12])).unwrap();
        let boxed = whole
            .find(&close("OVERRIDDEN FINDINGS, WITH REASONS"))
            .unwrap();
        let notes = others.iter().map(at).min().unwrap();
        for texts in &overrides {
            assert!(boxed < at(texts) && at(texts) < notes, "{}", texts[0]);
        }
    }
}

/// On one page in one piece, or word by word where it runs on over the end of a page.
fn assert_in_full(pages: &[String], texts: &[String]) {
    let apart: Vec<String> = pages.iter().map(|page| close(page)).collect();
    for text in texts {
        let wanted = close(text);
        let in_one_piece = apart.iter().any(|page| page.contains(&wanted));
        let runs_on = || {
            wanted.char_indices().any(|(at, _)| {
                let (first, second) = wanted.split_at(at);
                apart
                    .windows(2)
                    .any(|two| two[0].contains(first) && two[1].contains(second))
            })
        };
        assert!(in_one_piece || runs_on(), "{text}");
    }
}
