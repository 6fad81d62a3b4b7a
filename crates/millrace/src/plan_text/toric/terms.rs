//! The terms of the corneal astigmatism, each with what it rests on.

use millrace_core::astigmatism::{
    IncisionBasis, IncisionTerm, Orientation, PosteriorBasis, PosteriorTerm,
};
use millrace_core::case::Draft;
use millrace_core::evidence::Standing;
use millrace_core::optics::DoubleAngle;
use millrace_core::plan::Plan;

use super::figures::{astigmatism, capitalized, size};
use crate::day::date;
use crate::page::{HEADING, Page};

/// How angles are read, where the first ones stand.
const READING: &str = "Facing the patient, from the observer's right, counter-clockwise. @ steep meridian \
    of the cornea; × axis of a minus cylinder; meridians to 180°, directions to 360°.";
/// Column in which the basis of a term starts.
const TEXT: usize = 41;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let terms = &plan.toric.terms;
    let front = match &terms.front {
        Ok(front) => front.at_standard_index(),
        Err(refusal) => {
            page.hanging(" ✕ ", 3, &format!("Not computed: {refusal}."));
            return;
        }
    };
    let eye = draft.eyes.get(plan.side);
    let method = eye.keratometry.as_ref().map(|measured| measured.method);
    let method = method.map_or_else(String::new, |method| format!("{method}, "));
    write_term(
        page,
        "Front of the cornea",
        front,
        &format!("{method}index 1.3375"),
    );
    match &terms.posterior {
        Ok(term) => write_posterior(page, draft, plan, term),
        Err(refusal) => write_line(
            page,
            "Posterior cornea",
            "not known",
            &format!("✕ {refusal}"),
        ),
    }
    match &terms.incision {
        Ok(term) => write_incision(page, term),
        Err(refusal) => write_line(page, "Incision", "not known", &format!("✕ {refusal}")),
    }
    if let Ok(cornea) = &plan.toric.cornea {
        write_sum(page, "After the operation", cornea.total());
    } else if let (Ok(front), Ok(posterior)) = (&terms.front, &terms.posterior) {
        let sum = front.at_standard_index() + posterior.astigmatism;
        write_sum(page, "Before the operation", sum);
    }
    page.hanging(" ", 3, READING);
    let texts: Vec<_> = plan
        .toric
        .cautions
        .iter()
        .map(ToString::to_string)
        .collect();
    if !texts.is_empty() {
        page.hanging(" ▲ ", 3, &format!("{}.", capitalized(&texts.join("; "))));
    }
}

fn write_posterior(page: &mut Page, draft: &Draft, plan: &Plan, term: &PosteriorTerm) {
    let basis = match term.basis {
        PosteriorBasis::Measured => measured_posterior(draft, plan),
        PosteriorBasis::NotMeasured => "not measured".to_owned(),
        PosteriorBasis::LeftOut => "by choice".to_owned(),
        PosteriorBasis::Regression(orientation) => {
            format!("estimated by regression, {orientation}")
        }
        PosteriorBasis::Multiplier(orientation) => {
            format!("estimated by multiplier, {orientation}")
        }
    };
    if matches!(
        term.basis,
        PosteriorBasis::NotMeasured | PosteriorBasis::LeftOut
    ) {
        write_line(page, "Posterior cornea", "left out", &basis);
    } else {
        write_term(page, "Posterior cornea adds", term.astigmatism, &basis);
    }
}

fn measured_posterior(draft: &Draft, plan: &Plan) -> String {
    let eye = draft.eyes.get(plan.side);
    eye.posterior_astigmatism
        .as_ref()
        .map_or_else(String::new, |measured| {
            let (back, method) = (measured.value, measured.method);
            format!(
                "{method}: {} @ {}, of negative power, so that it adds at right angles",
                size(back.magnitude().diopters()),
                back.steep()
            )
        })
}

fn write_incision(page: &mut Page, term: &IncisionTerm) {
    let place = format!(
        "{} at {}: flattens that meridian by {}, so that it adds at right angles",
        term.place,
        term.direction,
        size(term.astigmatism.cylinder())
    );
    let rests_on = match term.basis {
        IncisionBasis::Surgeon(own) => {
            let on = own
                .on()
                .map_or_else(String::new, |day| format!(", {}", date(day)));
            format!("the surgeon's own results, {} eyes{on}", own.eyes())
        }
        IncisionBasis::Published => "published mean".to_owned(),
    };
    let basis = format!(
        "{place}; {rests_on}; scatter {} (SD{})",
        size(term.scatter),
        derived(term.basis)
    );
    write_term(page, "Incision adds", term.astigmatism, &basis);
}

/// The published scatter is not printed per component.
fn derived(basis: IncisionBasis) -> String {
    match basis {
        IncisionBasis::Surgeon(_) => String::new(),
        IncisionBasis::Published => format!(" per component, {}", Standing::Derived),
    }
}

fn write_sum(page: &mut Page, name: &str, sum: DoubleAngle) {
    let orientation = sum
        .steep_degrees()
        .map_or_else(String::new, |degrees| Orientation::of(degrees).to_string());
    let first = format!("   {name:<22}{:<16}", astigmatism(sum));
    page.hanging(
        "",
        TEXT,
        &format!("{HEADING}{first}{HEADING:#}{orientation}"),
    );
}

fn write_term(page: &mut Page, name: &str, vector: DoubleAngle, basis: &str) {
    write_line(page, name, &astigmatism(vector), basis);
}

fn write_line(page: &mut Page, name: &str, amount: &str, basis: &str) {
    page.hanging(&format!("   {name:<22}{amount:<16}"), TEXT, basis);
}
