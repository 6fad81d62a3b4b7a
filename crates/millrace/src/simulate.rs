//! `millrace simulate`: how often the stated intervals hold the simulated truth.

use std::process::ExitCode;

use millrace_core::certainty::Level;
use millrace_core::limits::Limits;
use millrace_simulate::{
    BAND_EDGES, CORRELATIONS, Counts, ERRORS, MARGINS, MOST_EYES, PopulationError, Report,
    SIMULATED_LENS, Simulation, SimulationError, simulate,
};
use millrace_wording::{Show as _, Words, quantity, simulation as say};
use serde::Serialize;

use crate::cli::{Format, SimulateArguments};
use crate::failure::{Failure, read_limits};
use crate::page::{self, Page};
use crate::terminal::print;

pub(crate) fn run(arguments: &SimulateArguments, words: Words) -> Result<ExitCode, Failure> {
    let limits = read_limits(arguments.limits.as_deref())?;
    let simulation = Simulation {
        eyes: arguments.eyes,
        seed: arguments.seed,
    };
    let report = simulate(simulation, &limits).map_err(Failure::Simulation)?;
    let printed = match arguments.format {
        Format::Text => {
            let page = Page::new(page::width(arguments.width), words);
            text(simulation, &report, &limits, page)
        }
        Format::Json => json(simulation, &report),
    };
    print(&printed)?;
    Ok(ExitCode::SUCCESS)
}

#[derive(Serialize)]
struct Document {
    eyes: u32,
    seed: u64,
    coverage: Coverage,
    deviation_d: Deviation,
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

/// As stated, and as the truth was drawn about the stated mean; nothing where no eye was counted.
#[derive(Serialize)]
struct Deviation {
    stated: Option<f64>,
    drawn: Option<f64>,
}

#[derive(Serialize)]
struct Band {
    axial_length_mm: [f64; 2],
    eyes: u64,
    coverage: Coverage,
    deviation_d: Deviation,
}

#[derive(Serialize)]
struct FormulaLine {
    formula: &'static str,
    eyes: u64,
    own_coverage: Coverage,
    own_deviation_d: Deviation,
    own_bands: Vec<Band>,
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

fn deviation(counts: &Counts) -> Deviation {
    Deviation {
        stated: counts.stated_deviation(),
        drawn: counts.drawn_deviation(),
    }
}

fn bands(counts: &[Counts]) -> Vec<Band> {
    let bands = band_ends().zip(counts);
    bands
        .map(|(axial_length_mm, counts)| Band {
            axial_length_mm,
            eyes: counts.eyes,
            coverage: coverage(counts),
            deviation_d: deviation(counts),
        })
        .collect()
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
        deviation_d: deviation(&report.overall),
        bands: bands(&report.bands),
        formulas: report
            .formulas
            .iter()
            .map(|line| FormulaLine {
                formula: line.formula.key(),
                eyes: line.own.eyes,
                own_coverage: coverage(&line.own),
                own_deviation_d: deviation(&line.own),
                own_bands: bands(&line.bands),
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

fn text(simulation: Simulation, report: &Report, limits: &Limits, mut page: Page) -> String {
    let words = page.words();
    let Simulation { eyes, seed } = simulation;
    page.heading(&say::heading(words, eyes, seed));
    page.paragraph(1, say::what_is_shown(words));
    let mut rows = vec![row(say::all_eyes(words), &report.overall, words)];
    rows.extend(band_ends().zip(&report.bands).map(|(ends, counts)| {
        let [from, to] = ends.map(|end| words.fixed(end, 1));
        row(&say::axial_length(words, from, to), counts, words)
    }));
    page.blank();
    page.table(&header(say::column_pooled(words), words), &rows);
    page.blank();
    let rows: Vec<_> = report
        .formulas
        .iter()
        .flat_map(|line| {
            let (own, pooled) = (
                say::own_range(words, line.formula),
                say::pooled_range(words, line.formula),
            );
            let mut rows = vec![row(&own, &line.own, words)];
            rows.extend(band_ends().zip(&line.bands).map(|(ends, counts)| {
                let [from, to] = ends.map(|end| words.fixed(end, 1));
                row(&say::own_in_band(words, from, to), counts, words)
            }));
            rows.push(row(&pooled, &line.pooled, words));
            rows
        })
        .collect();
    page.table(&header(say::column_truth_by(words), words), &rows);
    page.blank();
    page.paragraph(1, say::standard_error(words));
    if 0 < report.without_answer {
        page.paragraph(1, &say::without_answer(words, report.without_answer));
    }
    if 0 < report.drawn_again {
        page.paragraph(1, &say::drawn_again(words, report.drawn_again));
    }
    let [a, depth, factor, a0, a1, a2] =
        SIMULATED_LENS.map(|number| words.number(&number.to_string()).into_owned());
    page.paragraph(1, &say::lens(words, a, depth, factor, a0, a1, a2));
    page.hanging(" ", 3, &say::population(words, MARGINS));
    page.hanging(" ", 3, &say::correlations(words, CORRELATIONS));
    for source in ERRORS {
        page.hanging(" ", 3, &say::errors(words, source));
    }
    for changed in limits.changed() {
        let text = say::own_limit(words, changed.name, &changed.in_use, &changed.shipped);
        page.hanging(" ", 3, &text);
    }
    page.finish()
}

fn header(first: &str, words: Words) -> [String; 7] {
    [
        first,
        say::column_eyes(words),
        "50 %",
        "80 %",
        "95 %",
        say::column_stated(words),
        say::column_drawn(words),
    ]
    .map(str::to_owned)
}

fn row(name: &str, counts: &Counts, words: Words) -> Vec<String> {
    let mut row = vec![name.to_owned(), counts.eyes.to_string()];
    row.extend(Level::ALL.map(|level| {
        match (counts.coverage(level), counts.standard_error(level)) {
            (Some(share), Some(error)) => format!(
                "{} % ± {}",
                words.fixed(share * 100.0, 2),
                words.fixed(error * 100.0, 2)
            ),
            _ => say::no_eye(words).to_owned(),
        }
    }));
    let deviations = [counts.stated_deviation(), counts.drawn_deviation()];
    row.extend(deviations.map(|deviation| {
        deviation.map_or_else(String::new, |deviation| {
            quantity::diopters(words, words.fixed(deviation, 3))
        })
    }));
    row
}

/// Why nothing was simulated.
pub(crate) fn refused(error: &SimulationError, words: Words) -> String {
    match error {
        SimulationError::Eyes { eyes } => say::number_of_eyes(words, eyes, MOST_EYES),
        SimulationError::Certainty { formula, reason } => {
            say::formula_refused(words, formula, reason)
        }
        SimulationError::Population(PopulationError::Correlations) => {
            say::not_positive_definite(words).to_owned()
        }
        SimulationError::Population(PopulationError::Cylinder) => say::no_gamma(words).to_owned(),
        SimulationError::Lens(error) => error.show(words).into_owned(),
    }
}
