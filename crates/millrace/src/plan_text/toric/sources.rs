//! Where the numbers of the section come from.

use millrace_core::astigmatism::{ADDITION_SOURCE, AXIS_SOURCE, cloud, rotation, toric_eye};
use millrace_core::evidence::{Source, Standing, Work};
use millrace_core::plan::ToricPlan;
use millrace_wording::text::toric as say;

use crate::page::Page;

/// Everything a toric plan takes, a line per work and standing.
pub(super) fn write(page: &mut Page, toric: &ToricPlan) {
    let words = page.words();
    let mut sources = vec![AXIS_SOURCE];
    sources.extend(of_terms(toric));
    sources.extend([toric_eye::SOURCE, toric_eye::PUBLISHED_RATIO_SOURCE]);
    sources.extend(cloud::SOURCES);
    sources.extend([rotation::ADDED_SOURCE, rotation::PRINTED_SOURCE]);
    for (work, standing, locators) in grouped(&sources) {
        let places: Vec<_> = locators
            .iter()
            .map(|place| words.reference(place))
            .collect();
        let work = words.reference(work.citation);
        page.hanging(" ", 3, &say::work(words, work, places.join("; "), standing));
    }
}

/// Those of a lens without a cylinder: works and standings only.
pub(super) fn write_plain(page: &mut Page, toric: &ToricPlan) {
    let mut sources = of_terms(toric);
    sources.push(toric_eye::SOURCE);
    sources.extend(cloud::SOURCES);
    write_works(page, &sources);
}

pub(super) fn write_terms(page: &mut Page, toric: &ToricPlan) {
    if toric.terms.front.is_ok() {
        write_works(page, &of_terms(toric));
    }
}

fn of_terms(toric: &ToricPlan) -> Vec<Source> {
    let terms = &toric.terms;
    let mut sources = vec![ADDITION_SOURCE];
    sources.extend(terms.posterior.iter().map(|term| term.basis.source()));
    sources.extend(terms.incision.iter().flat_map(|term| term.basis.sources()));
    sources
}

fn write_works(page: &mut Page, sources: &[Source]) {
    let words = page.words();
    let texts: Vec<_> = grouped(sources)
        .iter()
        .map(|(work, standing, _)| say::work_alone(words, words.reference(work.citation), standing))
        .collect();
    page.hanging(" ", 3, &say::sources(words, texts.join("; ")));
}

type Group = (Work, Standing, Vec<&'static str>);

/// What was taken from one work with one standing, together.
fn grouped(sources: &[Source]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for source in sources {
        let same =
            |(work, standing, _): &&mut Group| (*work, *standing) == (source.work, source.standing);
        match groups.iter_mut().find(same) {
            Some((_, _, locators)) => locators.push(source.locator),
            None => groups.push((source.work, source.standing, vec![source.locator])),
        }
    }
    groups
}
