//! The terms of the corneal astigmatism, each with what it rests on.

use millrace_core::astigmatism::{
    IncisionBasis, IncisionTerm, Orientation, PosteriorBasis, PosteriorTerm, ToricRefusal,
};
use millrace_core::case::Draft;
use millrace_core::evidence::Standing;
use millrace_core::optics::DoubleAngle;
use millrace_core::plan::Plan;
use millrace_wording::text::toric as say;
use millrace_wording::{Show as _, Words, sentence};

use super::figures::{astigmatism, size};
use crate::page::{HEADING, Page};

/// Column in which the basis of a term starts.
const TEXT: usize = 41;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    let terms = &plan.toric.terms;
    let front = match &terms.front {
        Ok(front) => front.at_standard_index(),
        Err(refusal) => {
            page.hanging(" ✕ ", 3, &say::not_computed(words, refusal));
            return;
        }
    };
    let eye = draft.eyes.get(plan.side);
    let method = eye.keratometry.as_ref().map(|measured| measured.method);
    let basis = method.map_or_else(
        || say::at_index(words).to_owned(),
        |method| say::by_at_index(words, method),
    );
    write_term(page, say::anterior_cornea(words), front, &basis);
    let not_known = |page: &mut Page, name: &str, refusal: &ToricRefusal| {
        let why = format!("✕ {}", refusal.show(words));
        write_line(page, name, say::not_known(words), &why);
    };
    match &terms.posterior {
        Ok(term) => write_posterior(page, draft, plan, term),
        Err(refusal) => not_known(page, say::posterior_cornea(words), refusal),
    }
    match &terms.incision {
        Ok(term) => write_incision(page, term),
        Err(refusal) => not_known(page, say::incision(words), refusal),
    }
    if let Ok(cornea) = &plan.toric.cornea {
        write_sum(page, say::after_operation(words), cornea.total());
    } else if let (Ok(front), Ok(posterior)) = (&terms.front, &terms.posterior) {
        let sum = front.at_standard_index() + posterior.astigmatism;
        write_sum(page, say::before_operation(words), sum);
    }
    page.hanging(" ", 3, say::reading(words));
    let texts: Vec<_> = plan
        .toric
        .cautions
        .iter()
        .map(|caution| caution.show(words))
        .collect();
    if !texts.is_empty() {
        let text = sentence(&texts.join("; "));
        page.hanging(" ▲ ", 3, &say::sentence(words, text));
    }
}

fn write_posterior(page: &mut Page, draft: &Draft, plan: &Plan, term: &PosteriorTerm) {
    let words = page.words();
    let basis = match term.basis {
        PosteriorBasis::Measured => measured_posterior(draft, plan, words),
        PosteriorBasis::NotMeasured => say::not_measured(words).to_owned(),
        PosteriorBasis::LeftOut => say::by_choice(words).to_owned(),
        PosteriorBasis::Regression(orientation) => say::by_regression(words, orientation),
        PosteriorBasis::Multiplier(orientation) => say::by_multiplier(words, orientation),
    };
    if matches!(
        term.basis,
        PosteriorBasis::NotMeasured | PosteriorBasis::LeftOut
    ) {
        let name = say::posterior_cornea(words);
        write_line(page, name, say::left_out(words), &basis);
    } else {
        write_term(page, say::posterior_adds(words), term.astigmatism, &basis);
    }
}

fn measured_posterior(draft: &Draft, plan: &Plan, words: Words) -> String {
    let eye = draft.eyes.get(plan.side);
    eye.posterior_astigmatism
        .as_ref()
        .map_or_else(String::new, |measured| {
            let (back, method) = (measured.value, measured.method);
            let size = size(back.magnitude().diopters(), words);
            say::measured_posterior(words, method, size, back.steep())
        })
}

fn write_incision(page: &mut Page, term: &IncisionTerm) {
    let words = page.words();
    let scatter = size(term.scatter, words);
    let (rests_on, scatter) = match term.basis {
        IncisionBasis::Surgeon(own) => {
            let results = match own.on() {
                Some(day) => say::own_results_on(words, own.eyes(), day),
                None => say::own_results(words, own.eyes()),
            };
            (results, say::scatter(words, scatter))
        }
        // The published scatter is not printed per component.
        IncisionBasis::Published => (
            say::published_mean(words).to_owned(),
            say::scatter_per_component(words, scatter, Standing::Derived),
        ),
    };
    let flattening = size(term.astigmatism.cylinder(), words);
    let basis = say::incision_basis(
        words,
        term.place,
        term.direction,
        flattening,
        rests_on,
        scatter,
    );
    write_term(page, say::incision_adds(words), term.astigmatism, &basis);
}

fn write_sum(page: &mut Page, name: &str, sum: DoubleAngle) {
    let words = page.words();
    let orientation = sum.steep_degrees().map_or_else(String::new, |degrees| {
        Orientation::of(degrees).show(words).into_owned()
    });
    let first = format!("   {name:<22}{:<16}", astigmatism(sum, words));
    page.hanging(
        "",
        TEXT,
        &format!("{HEADING}{first}{HEADING:#}{orientation}"),
    );
}

fn write_term(page: &mut Page, name: &str, vector: DoubleAngle, basis: &str) {
    let amount = astigmatism(vector, page.words());
    write_line(page, name, &amount, basis);
}

fn write_line(page: &mut Page, name: &str, amount: &str, basis: &str) {
    page.hanging(&format!("   {name:<22}{amount:<16}"), TEXT, basis);
}
