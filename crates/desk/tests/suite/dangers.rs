//! Every known danger stands on the desk, in words.

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
        let plan = danger.plan();
        let (found, finding) = danger.found(&plan).unwrap();
        let page = close(&texts(&window).join("\n"));
        let title = say::title(Words::ENGLISH, found.rule.title, danger.backup);
        let severity = danger.severity.show(Words::ENGLISH);
        let words = sentence(&finding.show(Words::ENGLISH));
        for text in [format!("{severity}  {title}"), words] {
            assert!(page.contains(&close(&text)), "{}: {text}", danger.name);
        }
    }
}
