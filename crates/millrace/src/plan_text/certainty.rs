//! How sure: what the refraction after each power may turn out to be, what it rests on, and what a
//! repeated measurement would gain.

use core::fmt::Write as _;

use millrace_core::certainty::{
    ColumnCertainty, Distribution, ErrorSource, Item, Level, NoDistribution, Origin,
};
use millrace_core::evidence::Source;
use millrace_core::iol_power::Formula;
use millrace_core::iol_power::ladder::Ladder;
use millrace_core::plan::{
    Because, HYPEROPIC, Plan, PlanCertainty, PowerCertainty, SHOWN_BANDS, STEP_SOURCE,
};
use millrace_core::quantity::{Diopters, HundredthDiopters};
use millrace_core::rules::percent;

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, plan: &Plan) {
    let (Ok(ladder), Some(certainty)) = (&plan.ladder, &plan.certainty) else {
        return;
    };
    page.heading("How sure is the predicted refraction?");
    let speaking: Vec<Formula> = certainty
        .ladder
        .columns
        .iter()
        .filter(|column| column.basis.is_ok())
        .map(|column| column.formula)
        .collect();
    if speaking.is_empty() {
        page.paragraph(1, "No formula has a distribution:");
    } else {
        write_rungs(page, ladder, certainty, speaking.len());
        if let Some(closely) = &certainty.closely {
            write_closely(page, closely, ladder.target);
            write_budget(page, closely);
        }
        write_basis(page, &certainty.ladder.columns);
    }
    write_silent(page, &certainty.ladder.columns);
}

/// What all formulas say together of every rung.
fn write_rungs(page: &mut Page, ladder: &Ladder, certainty: &PlanCertainty, count: usize) {
    let together = if count == 1 {
        "One formula speaks".to_owned()
    } else {
        format!("{count} formulas together, each with equal weight")
    };
    let text = format!(
        "{together}: predicted refraction, the range that holds 80 % of eyes like this one, and the \
         chance to end within so much of the target {}, or hyperopic.",
        ladder.target
    );
    page.paragraph(1, &text);
    let header = ["Power", "predicted", "80 % within"]
        .map(str::to_owned)
        .into_iter()
        .chain(band_names())
        .collect::<Vec<_>>();
    let chosen = certainty.closely.as_ref().map(|closely| closely.power);
    let rows = ladder
        .rungs
        .iter()
        .zip(&certainty.ladder.pooled)
        .filter_map(|(rung, pooled)| {
            let pooled = pooled.as_ref()?;
            let mark = if chosen == Some(rung.power) {
                "▶"
            } else {
                " "
            };
            let mut row = vec![unbroken(&format!("{mark} {}", rung.power))];
            row.push(unbroken(&pooled.mean().to_string()));
            row.push(range(pooled, Level::Eighty));
            row.extend(chances(pooled, ladder.target));
            Some(row)
        })
        .collect();
    page.table(&header, rows, &[]);
}

fn band_names() -> impl Iterator<Item = String> {
    let bands = SHOWN_BANDS.map(|band| format!("±{:.2}", band.diopters().d()));
    bands
        .into_iter()
        .chain([format!("over {}", bare(HYPEROPIC.diopters()))])
}

/// A refraction without its unit, where the heading says it.
fn bare(refraction: Diopters) -> String {
    let text = refraction.to_string();
    text.strip_suffix(" D").unwrap_or(&text).to_owned()
}

/// With spaces at which a narrow table does not break.
fn unbroken(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

fn summary(distribution: &Distribution) -> [String; 2] {
    let deviation = format!("{:.2} D", distribution.deviation().d());
    [distribution.mean().to_string(), deviation].map(|text| unbroken(&text))
}

fn range(distribution: &Distribution, level: Level) -> String {
    let [low, high] = distribution.interval(level);
    format!("{} to {}", bare(low), high)
}

fn chances(distribution: &Distribution, target: HundredthDiopters) -> Vec<String> {
    let mut texts: Vec<_> = SHOWN_BANDS
        .iter()
        .map(|band| percent(distribution.chance_within(target.diopters(), band.diopters())))
        .collect();
    texts.push(percent(distribution.chance_over(HYPEROPIC.diopters())));
    texts
}

/// Each formula and all of them on one power.
fn write_closely(page: &mut Page, closely: &PowerCertainty, target: HundredthDiopters) {
    page.blank();
    let because = match closely.because {
        Because::Chosen => "chosen",
        Because::Proposed => "proposed by the formula planned by; none is chosen",
    };
    let title = format!("{HEADING}Power {}{HEADING:#} ({because})", closely.power);
    page.hanging(" ", 3, &title);
    let header: Vec<String> = ["Formula", "predicted", "SD", "50 %", "80 %", "95 %"]
        .map(str::to_owned)
        .into_iter()
        .chain(band_names().nth(1))
        .collect();
    let row = |name: &str, distribution: &Distribution| {
        let mut row = vec![name.to_owned()];
        row.extend(summary(distribution));
        row.extend(Level::ALL.map(|level| range(distribution, level)));
        let [_, band, _] = SHOWN_BANDS;
        row.push(percent(
            distribution.chance_within(target.diopters(), band.diopters()),
        ));
        row
    };
    let mut rows: Vec<_> = closely
        .predictions
        .iter()
        .map(|(formula, prediction)| {
            row(
                super::ladder::column_name(*formula),
                &prediction.distribution(),
            )
        })
        .collect();
    if 1 < rows.len() {
        rows.push(row("together", &closely.budget.distribution));
    }
    page.table(&header, rows, &[]);
}

fn write_budget(page: &mut Page, closely: &PowerCertainty) {
    let budget = &closely.budget;
    let whole_d = budget.distribution.deviation().d();
    page.blank();
    page.hanging(
        " ",
        3,
        &format!("{HEADING}What makes it unsure{HEADING:#} (share of the variance; together 1 SD {whole_d:.2} D)"),
    );
    let mut rows: Vec<Vec<String>> = budget
        .items
        .iter()
        .map(|item| {
            let gain = item
                .repeated
                .map_or(String::new(), |after| gain(whole_d, after));
            vec![
                item.source.to_string(),
                spread(item, closely),
                percent(item.share),
                gain,
            ]
        })
        .collect();
    if 1 < closely.predictions.len() {
        let disagreement_d = budget.disagreement.sqrt();
        rows.push(vec![
            "formulas disagree".to_owned(),
            format!("{disagreement_d:.3} D"),
            percent(budget.disagreement_share()),
            String::new(),
        ]);
    }
    let header = ["Source", "1 SD", "share", "measured once more"].map(str::to_owned);
    page.table(&header, rows, &[]);
    if let Some(step) = closely.step_alone {
        let text = format!(
            "Besides: steps of the labeled power alone make {:.2} D where the target may lie \
             anywhere within a step; no part of the budget, since each rung says how far it lies \
             from the target. {STEP_SOURCE}",
            step.d()
        );
        page.hanging(" ", 3, &text);
    }
}

/// What measuring once more and taking the mean would do to the standard deviation.
fn gain(whole_d: f64, after: Diopters) -> String {
    let after_d = after.d();
    // Two decimals are shown: less than half a hundredth is no gain to work for.
    if whole_d - after_d < 0.005 {
        return "no visible gain".to_owned();
    }
    format!("{whole_d:.2} → {after_d:.2} D")
}

/// The spread of a source, the same for all formulas or from one to another.
fn spread(item: &Item, closely: &PowerCertainty) -> String {
    let unit = if item.source.is_length() { "mm" } else { "D" };
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for (_, prediction) in &closely.predictions {
        if let Ok(spread) = prediction.spreads.get(item.source)
            && prediction.linear.slope(item.source) != 0.0
        {
            least = least.min(spread.deviation);
            most = most.max(spread.deviation);
        }
    }
    let [low, high] = [least, most].map(|value| format!("{value:.3}"));
    if low == high {
        return format!("{low} {unit}");
    }
    format!("{low} to {high} {unit}")
}

/// Where the numbers come from.
fn write_basis(page: &mut Page, columns: &[ColumnCertainty]) {
    page.blank();
    let text = "Pooled as an equal mixture of normal distributions; errors taken as independent. \
                The lens position takes what a formula's published scatter leaves after the other \
                sources in an average eye. The whole model: docs/uncertainty.md.";
    page.paragraph(1, text);
    write_scatter(page, columns);
    for source in ErrorSource::ALL {
        let origin = columns.iter().find_map(|column| {
            let prediction = column.rungs.iter().flatten().next()?;
            let used = prediction.linear.slope(source) != 0.0;
            used.then(|| prediction.spreads.get(source).ok()).flatten()
        });
        if let Some(spread) = origin
            && spread.origin != Origin::Calibrated
        {
            page.hanging(
                " ",
                3,
                &format!("Spread of the {source}: {}", spread.origin),
            );
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
                own.on
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
            "Scatter of the prediction error: {}. {source}",
            texts.join(", ")
        );
        page.hanging(" ", 3, &text);
    }
}

/// Formulas that answer and yet have no distribution: never left out in silence.
fn write_silent(page: &mut Page, columns: &[ColumnCertainty]) {
    for column in columns {
        if let Err(missing) = &column.basis
            && !matches!(missing, NoDistribution::Refused(_))
        {
            let text = format!("{}: no distribution; {missing}", column.formula.name());
            page.hanging(" ▲ ", 3, &text);
        }
    }
}
