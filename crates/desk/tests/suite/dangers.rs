//! Every known danger stands on the desk, in words.

use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::Verdict;
use millrace_wording::{Show as _, Words, rules as say, sentence};

use crate::reach_measurements::HIGH;
use crate::support::{Bench, harness, light, texts};

#[path = "../../../../tests/dangers/mod.rs"]
mod table;

use table::{ALL, close};

/// One window goes through the cases as a list of a day does.
#[test]
fn every_danger_stands_on_the_page() {
    let drafts = ALL.iter().map(table::Danger::draft).collect();
    let mut bench = Bench::new(drafts, light());
    bench.open(0);
    let mut window = harness(bench, HIGH);
    for (index, danger) in ALL.iter().enumerate() {
        window.state_mut().open(index);
        window.run();
        let plan = Plan::of(&danger.draft(), Limits::shipped()).unwrap();
        let mut rules = plan.rules.iter();
        let found = rules.find(|it| (it.rule.id, it.backup) == (danger.rule, danger.backup));
        let found = found.unwrap();
        let Verdict::Finding(finding) = &found.verdict else {
            panic!("{}: {} is silent", danger.name, danger.rule);
        };
        let page = close(&texts(&window).join("\n"));
        let title = say::title(Words::ENGLISH, found.rule.title, danger.backup);
        let severity = danger.severity.show(Words::ENGLISH);
        let words = sentence(&finding.show(Words::ENGLISH));
        for text in [format!("{severity}  {title}"), words] {
            assert!(page.contains(&close(&text)), "{}: {text}", danger.name);
        }
    }
}
