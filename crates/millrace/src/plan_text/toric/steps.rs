//! What each cylinder of the lens leaves, beside none and beside the incision on the steep meridian.

use millrace_core::astigmatism::{StepResult, ToricPrediction};
use millrace_core::plan::{Plan, SHOWN_CYLINDERS, StepCertainty, ToricPlan};
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_wording::text::toric as say;
use millrace_wording::{Show as _, Words};

use super::super::chance;
use super::figures::{NOTHING, residual_cell, size};
use super::{plain_lens, write_refused};
use crate::page::Page;

/// Overcorrecting cylinders shown; every further one overcorrects by more.
const OVERCORRECTING: usize = 2;

pub(super) fn write(page: &mut Page, plan: &Plan, prediction: &ToricPrediction) {
    let toric = &plan.toric;
    let table = Table::of(plan, prediction, page.words());
    let words = page.words();
    let mut header = [
        say::column_cylinder,
        say::column_at_cornea,
        say::column_residual,
    ]
    .map(|column| column(words).to_owned())
    .to_vec();
    header.extend(
        SHOWN_CYLINDERS
            .iter()
            .skip(1)
            .map(|limit| say::at_most(words, size(limit.diopters(), words))),
    );
    header.push(say::column_helps(words).to_owned());
    page.blank();
    page.table(&header, &table.rows);
    page.blank();
    write_legend(page, plan, &table);
    if !table.omitted.is_empty() {
        let omitted = words.list(&table.omitted);
        page.hanging(" ", 3, &say::also_made(words, omitted));
    }
    let refused: Vec<_> = prediction
        .steps
        .iter()
        .filter_map(|step| Some((step.cylinder?, step.outcome.err()?)))
        .collect();
    write_refused(page, &refused);
    if let Err(refusal) = &toric.alternative {
        page.hanging(" ✕ ", 3, &say::steep_incision_refused(words, refusal));
    }
}

fn write_legend(page: &mut Page, plan: &Plan, table: &Table) {
    let words = page.words();
    let mut text = say::legend(words).to_owned();
    for (said, legend) in [
        (table.has_chosen, say::legend_chosen(words)),
        (table.overcorrects, say::legend_overcorrects(words)),
    ] {
        if said {
            text.push(' ');
            text.push_str(legend);
        }
    }
    page.paragraph(1, &text);
    if let Ok(alternative) = &plan.toric.alternative {
        let text = plain_lens::incision_on_the_steep_meridian(plan, alternative, words);
        page.hanging(" ", 3, &say::sentence(words, text));
    }
}

/// The rows, and what they left out.
struct Table {
    rows: Vec<Vec<String>>,
    has_chosen: bool,
    overcorrects: bool,
    omitted: Vec<HundredthDiopters>,
    words: Words,
}

impl Table {
    fn of(plan: &Plan, prediction: &ToricPrediction, words: Words) -> Self {
        let toric = &plan.toric;
        let mut table = Self {
            rows: Vec::new(),
            has_chosen: toric.chosen.is_some(),
            overcorrects: false,
            omitted: Vec::new(),
            words,
        };
        let least = prediction.least_left().map(|step| step.cylinder);
        let not_over = prediction.least_left_without_overcorrecting();
        let not_over = not_over.map(|step| step.cylinder);
        let mut overcorrecting = 0;
        for step in prediction.steps.iter().filter(|step| step.outcome.is_ok()) {
            let sure = toric
                .steps
                .iter()
                .find(|sure| sure.cylinder == step.cylinder);
            let is_chosen = is_chosen(prediction, step.cylinder, step.axis);
            let [is_least, is_not_over] = [least, not_over].map(|it| it == Some(step.cylinder));
            let star = match (is_least, is_not_over) {
                (true, true) => "*‡",
                (true, false) => "*",
                (false, true) => "‡",
                (false, false) => "",
            };
            overcorrecting += usize::from(step.overcorrects);
            match step.cylinder {
                Some(cylinder) if OVERCORRECTING < overcorrecting && !is_chosen => {
                    table.omitted.push(cylinder);
                }
                _ => table.add(prediction, step, sure, star),
            }
            if step.cylinder.is_none() {
                table.add_alternative(plan);
            }
        }
        table.add_chosen(toric, prediction);
        table
    }

    fn add(
        &mut self,
        prediction: &ToricPrediction,
        step: &StepResult,
        sure: Option<&StepCertainty>,
        star: &str,
    ) {
        let mark = if is_chosen(prediction, step.cylinder, step.axis) {
            "▶"
        } else {
            " "
        };
        let words = self.words;
        let name = named(step.cylinder, step.axis, words);
        let over = if step.overcorrects { "†" } else { "" };
        self.overcorrects |= step.overcorrects;
        let left = step.outcome.as_ref().map(|left| residual_cell(left, words));
        self.rows.push(row(
            format!("{mark} {name}{star}{over}"),
            at_cornea(prediction, step.cylinder, words),
            left.unwrap_or_else(|_| NOTHING.to_owned()),
            sure,
        ));
    }

    fn add_alternative(&mut self, plan: &Plan) {
        let Ok(alternative) = &plan.toric.alternative else {
            return;
        };
        let as_planned = plain_lens::is_as_planned(plan, alternative);
        if let (false, Ok(step)) = (as_planned, &alternative.without_cylinder) {
            let name = format!("  {}", say::none_steep_incision(self.words));
            let left = residual_cell(&step.residual, self.words);
            self.rows
                .push(row(name, NOTHING.to_owned(), left, Some(step)));
        }
    }

    /// The chosen cylinder where it stands at another axis than the suggested one, or is not made.
    fn add_chosen(&mut self, toric: &ToricPlan, prediction: &ToricPrediction) {
        let (Some(chosen), Some(sure)) = (&prediction.chosen, &toric.chosen) else {
            return;
        };
        let choice = chosen.choice;
        let (cylinder, axis) = (Some(choice.cylinder), Some(choice.axis));
        let shown = |step: &StepResult| step.cylinder == cylinder && step.axis == axis;
        if prediction.steps.iter().any(shown) {
            return;
        }
        let over = if chosen.overcorrects { "†" } else { "" };
        self.overcorrects |= chosen.overcorrects;
        self.rows.push(row(
            format!("▶ {}{over}", named(cylinder, axis, self.words)),
            at_cornea(prediction, cylinder, self.words),
            residual_cell(&sure.residual, self.words),
            Some(sure),
        ));
    }
}

fn is_chosen(
    prediction: &ToricPrediction,
    cylinder: Option<HundredthDiopters>,
    axis: Option<Meridian>,
) -> bool {
    prediction.chosen.as_ref().is_some_and(|chosen| {
        Some(chosen.choice.cylinder) == cylinder && Some(chosen.choice.axis) == axis
    })
}

/// "+2.25 D at 83°", or "none".
fn named(cylinder: Option<HundredthDiopters>, axis: Option<Meridian>, words: Words) -> String {
    match (cylinder, axis) {
        (Some(cylinder), Some(axis)) => say::cylinder_at(words, cylinder, axis),
        (Some(cylinder), None) => cylinder.show(words).into_owned(),
        (None, _) => say::none(words).to_owned(),
    }
}

fn at_cornea(
    prediction: &ToricPrediction,
    cylinder: Option<HundredthDiopters>,
    words: Words,
) -> String {
    cylinder.map_or_else(
        || NOTHING.to_owned(),
        |cylinder| {
            let at_cornea = prediction.at_corneal_plane(cylinder.diopters());
            at_cornea.show(words).into_owned()
        },
    )
}

fn row(name: String, at_cornea: String, left: String, sure: Option<&StepCertainty>) -> Vec<String> {
    let mut cells = vec![name, at_cornea, left];
    for index in 1..SHOWN_CYLINDERS.len() {
        let found = sure.and_then(|sure| sure.chances.get(index));
        cells.push(found.map_or_else(|| NOTHING.to_owned(), |found| chance(*found)));
    }
    let helps = sure.and_then(|sure| sure.chance_of_less);
    cells.push(helps.map_or_else(|| NOTHING.to_owned(), chance));
    cells
}
