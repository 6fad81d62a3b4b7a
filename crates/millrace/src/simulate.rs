//! `millrace simulate`: how often the stated intervals hold the simulated truth.

use std::io::Write as _;
use std::process::ExitCode;

use millrace_core::certainty::Level;
use millrace_core::limits::Limits;
use millrace_simulate::{
    BAND_EDGES, CORRELATIONS, Counts, MARGINS, Report, SIMULATED_LENS, Simulation, simulate,
};
use millrace_wording::Words;
use serde::Serialize;

use crate::cli::{Format, SimulateArguments};
use crate::failure::{Failure, read_limits};
use crate::page::{self, Page};

pub(crate) fn run(arguments: &SimulateArguments) -> Result<ExitCode, Failure> {
    let limits = read_limits(arguments.limits.as_deref())?;
    let simulation = Simulation {
        eyes: arguments.eyes,
        seed: arguments.seed,
    };
    let report = simulate(simulation, &limits).map_err(Failure::Simulation)?;
    let printed = match arguments.format {
        Format::Text => text(simulation, &report, &limits, page::width(arguments.width)),
        Format::Json => json(simulation, &report),
    };
    anstream::stdout()
        .write_all(printed.as_bytes())
        .map_err(Failure::Output)?;
    Ok(ExitCode::SUCCESS)
}

#[derive(Serialize)]
struct Document {
    eyes: u32,
    seed: u64,
    coverage: Coverage,
    bands: Vec<Band>,
    formulas: Vec<FormulaLine>,
    drawn_again: u64,
    without_answer: u64,
}

/// Shares of eyes inside, 0 to 1; nothing where no eye was counted.
#[derive(Serialize)]
struct Coverage {
    #[serde(rename = "50")]
    half: Option<f64>,
    #[serde(rename = "80")]
    eighty: Option<f64>,
    #[serde(rename = "95")]
    ninety_five: Option<f64>,
}

#[derive(Serialize)]
struct Band {
    axial_length_mm: [f64; 2],
    eyes: u64,
    coverage: Coverage,
}

#[derive(Serialize)]
struct FormulaLine {
    formula: &'static str,
    eyes: u64,
    own_coverage: Coverage,
    pooled_coverage: Coverage,
}

fn coverage(counts: &Counts) -> Coverage {
    let [half, eighty, ninety_five] = Level::ALL.map(|level| counts.coverage(level));
    Coverage {
        half,
        eighty,
        ninety_five,
    }
}

fn band_ends() -> impl Iterator<Item = [f64; 2]> {
    let starts = BAND_EDGES.iter();
    starts
        .zip(BAND_EDGES.iter().skip(1))
        .map(|(from, to)| [*from, *to])
}

fn json(simulation: Simulation, report: &Report) -> String {
    let document = Document {
        eyes: simulation.eyes,
        seed: simulation.seed,
        coverage: coverage(&report.overall),
        bands: band_ends()
            .zip(&report.bands)
            .map(|(axial_length_mm, counts)| Band {
                axial_length_mm,
                eyes: counts.eyes,
                coverage: coverage(counts),
            })
            .collect(),
        formulas: report
            .formulas
            .iter()
            .map(|line| FormulaLine {
                formula: line.formula.key(),
                eyes: line.own.eyes,
                own_coverage: coverage(&line.own),
                pooled_coverage: coverage(&line.pooled),
            })
            .collect(),
        drawn_again: report.drawn_again,
        without_answer: report.without_answer,
    };
    // Only strings, finite numbers and lists of them: there is nothing that could fail.
    let mut text = serde_json::to_string_pretty(&document).unwrap_or_default();
    text.push('\n');
    text
}

fn text(simulation: Simulation, report: &Report, limits: &Limits, width: usize) -> String {
    let mut page = Page::new(width, Words::ENGLISH);
    let Simulation { eyes, seed } = simulation;
    page.heading(&format!("Simulated eyes: {eyes}, seed {seed}"));
    page.paragraph(
        1,
        "How often the stated range holds the simulated truth. Each eye is drawn, measured with \
         errors, planned from the measurements by all formulas for untouched corneas, and then gets \
         a true refraction by one of them, with errors of lens position, label and refraction.",
    );
    let header = ["Pooled", "eyes", "50 %", "80 %", "95 %"].map(str::to_owned);
    let mut rows = vec![row("all eyes", &report.overall)];
    rows.extend(
        band_ends().zip(&report.bands).map(|([from, to], counts)| {
            row(&format!("axial length {from:.1} to {to:.1} mm"), counts)
        }),
    );
    page.blank();
    page.table(&header, &rows);
    page.blank();
    let header = ["Truth by", "eyes", "50 %", "80 %", "95 %"].map(str::to_owned);
    let rows: Vec<_> = report
        .formulas
        .iter()
        .flat_map(|line| {
            let name = line.formula.name();
            [
                row(&format!("{name}, its own range"), &line.own),
                row(&format!("{name}, pooled range"), &line.pooled),
            ]
        })
        .collect();
    page.table(&header, &rows);
    page.blank();
    page.paragraph(
        1,
        "± is one standard error of sampling if the range holds exactly what it promises.",
    );
    if 0 < report.without_answer {
        let count = report.without_answer;
        page.paragraph(1, &format!("Without any answer, in no count: {count}."));
    }
    if 0 < report.drawn_again {
        let count = report.drawn_again;
        page.paragraph(
            1,
            &format!("Drawn again, as no instrument could report them: {count}."),
        );
    }
    let [a, depth, factor, a0, a1, a2] = SIMULATED_LENS;
    page.paragraph(
        1,
        &format!(
            "Lens of every eye, invented: A {a}, pACD {depth} mm, surgeon factor {factor} mm, Haigis \
             a0 {a0} mm, a1 {a1}, a2 {a2}; powers by 0.5 D, the one nearest to emmetropia by the \
             first formula that answers."
        ),
    );
    page.hanging(" ", 3, &format!("Population: {MARGINS}"));
    page.hanging(" ", 3, &format!("Correlations: {CORRELATIONS}"));
    for changed in limits.changed() {
        let text = format!(
            "{}: {}, shipped {}",
            changed.name, changed.in_use, changed.shipped
        );
        page.hanging(" ", 3, &format!("Limit of your own: {text}"));
    }
    page.finish()
}

fn row(name: &str, counts: &Counts) -> Vec<String> {
    let mut row = vec![name.to_owned(), counts.eyes.to_string()];
    row.extend(Level::ALL.map(|level| {
        match (counts.coverage(level), counts.standard_error(level)) {
            (Some(share), Some(error)) => {
                format!("{:.2} % ± {:.2}", share * 100.0, error * 100.0)
            }
            _ => "no eye".to_owned(),
        }
    }));
    row
}
