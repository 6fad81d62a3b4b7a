//! Where the numbers come from, and who stays silent.

use core::fmt::Write as _;

use millrace_core::certainty::{AVERAGE, ColumnCertainty, ErrorSource, NoDistribution};
use millrace_core::evidence::Source;
use millrace_core::plan::PlanCertainty;

use crate::day::date;
use crate::page::Page;

pub(super) fn write(page: &mut Page, certainty: &PlanCertainty) {
    let columns = &certainty.ladder.columns;
    page.blank();
    let text = "Together: every formula counts alike, as an equal mixture of their normal \
                distributions; errors taken as independent. What a formula's published scatter leaves \
                after the other sources in an average eye is put down to the lens position. The whole \
                model with its assumptions: docs/uncertainty.md.";
    page.paragraph(1, text);
    let average = certainty.average;
    let text = format!(
        "Average eye: axial length {}, mean K {:.2} D, chamber depth {}. {AVERAGE}",
        average.length,
        average.mean_k.diopters().d(),
        average.depth
    );
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
            let text = format!("Spread of the {source}: {}", spread.origin);
            page.hanging(" ", 3, &text);
        }
    }
}

/// Scatter of each formula; those of one source share a line.
fn write_scatter(page: &mut Page, columns: &[ColumnCertainty]) {
    let mut groups: Vec<(Source, Vec<String>)> = Vec::new();
    for column in columns {
        let Ok(basis) = &column.basis else { continue };
        let scatter = &basis.scatter;
        let mut text = format!("{} {:.3} D", column.formula.name(), scatter.published.d());
        if let Some(own) = &scatter.own {
            let _ = write!(
                text,
                " (used {:.3} D: drawn toward the clinic's own {:.3} D in {} eyes, {})",
                scatter.deviation.d(),
                own.deviation.d(),
                own.eyes,
                date(own.on)
            );
        }
        match groups
            .iter_mut()
            .find(|(source, _)| *source == scatter.source)
        {
            Some((_, texts)) => texts.push(text),
            None => groups.push((scatter.source, vec![text])),
        }
    }
    for (source, texts) in groups {
        let text = format!(
            "Scatter (SD) of the prediction error: {}. {source}",
            texts.join(", ")
        );
        page.hanging(" ", 3, &text);
    }
}

/// Formulas that answer and yet have no distribution: never left out in silence.
pub(super) fn write_silent(page: &mut Page, columns: &[ColumnCertainty]) {
    for column in columns {
        if let Err(missing) = &column.basis
            && !matches!(missing, NoDistribution::Refused(_))
        {
            let text = format!("{}: no distribution; {missing}", column.formula.name());
            page.hanging(" ▲ ", 3, &text);
        }
    }
}
