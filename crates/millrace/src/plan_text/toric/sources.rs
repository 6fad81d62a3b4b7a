//! Where the numbers of the section come from.

use millrace_core::astigmatism::{ADDITION_SOURCE, AXIS_SOURCE, cloud, rotation, toric_eye};
use millrace_core::evidence::Source;
use millrace_core::plan::ToricPlan;
use millrace_wording::text::toric as say;

use crate::page::Page;

/// Everything a toric plan takes.
pub(super) fn write(page: &mut Page, toric: &ToricPlan) {
    let mut sources = vec![AXIS_SOURCE];
    sources.extend(of_terms(toric));
    sources.extend([toric_eye::SOURCE, toric_eye::PUBLISHED_RATIO_SOURCE]);
    sources.extend(cloud::SOURCES);
    sources.extend([rotation::ADDED_SOURCE, rotation::PRINTED_SOURCE]);
    cite(page, &sources);
}

/// What is said of a lens without a cylinder.
pub(super) fn write_plain(page: &mut Page, toric: &ToricPlan) {
    let mut sources = of_terms(toric);
    sources.push(toric_eye::SOURCE);
    sources.extend(cloud::SOURCES);
    cite(page, &sources);
}

pub(super) fn write_terms(page: &mut Page, toric: &ToricPlan) {
    if toric.terms.front.is_ok() {
        cite(page, &of_terms(toric));
    }
}

fn of_terms(toric: &ToricPlan) -> Vec<Source> {
    let terms = &toric.terms;
    let mut sources = vec![ADDITION_SOURCE];
    sources.extend(terms.posterior.iter().map(|term| term.basis.source()));
    sources.extend(terms.incision.iter().flat_map(|term| term.basis.sources()));
    sources
}

fn cite(page: &mut Page, sources: &[Source]) {
    let cited = page.cite(sources);
    page.hanging(" ", 3, &say::sources(page.words(), cited));
}
