//! Where the numbers come from, and who stays silent.

use millrace_core::certainty::{AVERAGE, ColumnCertainty, ErrorSource, NoDistribution};
use millrace_core::evidence::Source;
use millrace_core::plan::PlanCertainty;
use millrace_core::quantity::Diopters;
use millrace_wording::certainty::tendency;
use millrace_wording::quantity;
use millrace_wording::text::{certainty as say, plan as say_of_plan};

use crate::page::Page;

pub(super) fn write(page: &mut Page, certainty: &PlanCertainty) {
    let columns = &certainty.ladder.columns;
    page.blank();
    let words = page.words();
    page.paragraph(1, say::together(words));
    let average = certainty.average;
    let mean_k = quantity::unsigned(words, average.mean_k);
    let text = say::average_eye(words, average.length, mean_k, average.depth, AVERAGE);
    page.hanging(" ", 3, &text);
    write_scatter(page, columns);
    for source in ErrorSource::ALL {
        let origin = columns.iter().find_map(|column| {
            let prediction = column.rungs.iter().flatten().next()?;
            let used = prediction.linear.slope(source) != 0.0;
            used.then(|| prediction.spreads.get(source).ok()).flatten()
        });
        let Some(spread) = origin else { continue };
        if 0.0 < spread.deviation {
            page.hanging(" ", 3, &say::spread_of(words, source, spread.origin));
        }
    }
}

/// Scatter of each formula; those of one source share a line.
fn write_scatter(page: &mut Page, columns: &[ColumnCertainty]) {
    let words = page.words();
    let mut groups: Vec<(Source, Vec<String>)> = Vec::new();
    for column in columns {
        let Ok(basis) = &column.basis else { continue };
        let scatter = &basis.scatter;
        let three = |power: Diopters| quantity::diopters(words, words.fixed(power.d(), 3));
        let published = three(scatter.published);
        let text = match &scatter.own {
            None => say::scatter_of(words, column.formula, published),
            Some(own) => say::scatter_drawn(
                words,
                column.formula,
                published,
                three(scatter.deviation),
                three(own.deviation),
                own.eyes,
                own.on,
            ),
        };
        match groups
            .iter_mut()
            .find(|(source, _)| *source == scatter.source)
        {
            Some((_, texts)) => texts.push(text),
            None => groups.push((scatter.source, vec![text])),
        }
    }
    for (source, texts) in groups {
        page.hanging(" ", 3, &say::scatter(words, words.list(texts), source));
    }
}

/// Formulas that answer and yet have no distribution: never left out in silence.
pub(super) fn write_silent(page: &mut Page, columns: &[ColumnCertainty]) {
    for column in columns {
        if let Err(missing) = &column.basis
            && !matches!(
                missing,
                NoDistribution::Refused(_) | NoDistribution::Withheld { .. }
            )
        {
            let text = say::silent(page.words(), column.formula, missing);
            page.hanging(" ▲ ", 3, &text);
        }
    }
}

/// What formulas are known to tend to in this eye, beside their predictions and never in them.
pub(super) fn write_tendencies(page: &mut Page, columns: &[ColumnCertainty]) {
    let words = page.words();
    let mut sources: Vec<Source> = Vec::new();
    for column in columns {
        for known in column.tendencies() {
            let text = tendency(words, known.eye, known.way);
            page.hanging(" ▲ ", 3, &say::formula_tends(words, column.formula, text));
            if !sources.contains(&known.source) {
                sources.push(known.source);
            }
        }
    }
    if !sources.is_empty() {
        let cited = page.cite(&sources);
        page.hanging(" ", 3, &say_of_plan::source(words, cited));
    }
}
