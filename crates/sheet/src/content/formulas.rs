//! What each formula predicts for the power, and the constants it took.

use millrace_core::iol_power::ladder::{Column, Ladder};
use millrace_core::iol_power::{Caution, Formula};
use millrace_core::quantity::HundredthDiopters;

use super::{NOT_STATED, Subject};
use crate::data::{FormulaRow, Formulas};

impl Subject<'_> {
    pub(super) fn formulas(self) -> Formulas {
        let lens = &self.draft.lens;
        let power = lens.power;
        let title = match power {
            Some(power) => format!("Formulas, predicted refraction with {power}"),
            None => "Formulas, no power chosen".to_owned(),
        };
        let (rows, mut notes) = match &self.plan.ladder {
            Ok(ladder) => (
                ladder
                    .columns
                    .iter()
                    .map(|column| row(ladder, column, power, lens.formula))
                    .collect(),
                cautions(ladder),
            ),
            Err(missing) => (Vec::new(), vec![format!("No ladder: {missing}.")]),
        };
        if lens.formula.is_none() {
            notes.insert(0, "Formula planned by: not stated".to_owned());
        }
        let constants = lens.record.as_ref().map_or_else(
            || NOT_STATED.to_owned(),
            |record| format!("for {}: {}", record.constants_for, record.constants),
        );
        Formulas {
            title,
            rows,
            notes,
            constants,
        }
    }
}

fn row(
    ladder: &Ladder,
    column: &Column,
    power: Option<HundredthDiopters>,
    planned_by: Option<Formula>,
) -> FormulaRow {
    let formula = column.formula;
    let predicted = power.and_then(|power| ladder.predicted(formula, power));
    let or_dash = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
    let (proposed, refused) = match &column.answer {
        Ok(answer) => (answer.proposed.map(|power| power.to_string()), None),
        Err(refusal) => (None, Some(refusal.to_string())),
    };
    FormulaRow {
        name: formula.name().to_owned(),
        planned_by: planned_by == Some(formula),
        predicted: or_dash(predicted.map(|refraction| refraction.to_string())),
        proposed: or_dash(proposed),
        refused,
    }
}

/// Each caution once, with the formulas it concerns.
fn cautions(ladder: &Ladder) -> Vec<String> {
    let mut cautions: Vec<(Caution, Vec<&str>)> = Vec::new();
    let mut answering = 0;
    for column in &ladder.columns {
        let Ok(answer) = &column.answer else { continue };
        answering += 1;
        for caution in answer.cautions.iter() {
            match cautions.iter_mut().find(|(known, _)| *known == caution) {
                Some((_, names)) => names.push(column.formula.name()),
                None => cautions.push((caution, vec![column.formula.name()])),
            }
        }
    }
    cautions
        .into_iter()
        .map(|(caution, names)| {
            if names.len() == answering {
                format!("All formulas: {caution}")
            } else {
                format!("{}: {caution}", names.join("; "))
            }
        })
        .collect()
}
