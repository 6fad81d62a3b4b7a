//! What each formula predicts for the power, and the constants it took.

use millrace_core::signing::results::FormulaResult;

use super::{NOT_STATED, Subject, diopters};
use crate::data::{FormulaRow, Formulas, Refused};

impl Subject<'_> {
    pub(super) fn formulas(self) -> Formulas {
        let (lens, results) = (&self.draft.lens, self.results);
        let title = match lens.power {
            Some(power) => format!("Formulas, refraction with {power}"),
            None => "Formulas, no power chosen".to_owned(),
        };
        let mut notes = cautions(&results.formulas);
        if results.formulas.is_empty() {
            notes.push("No formula was asked: lens or target not stated.".to_owned());
        }
        if lens.formula.is_none() {
            notes.insert(0, "Formula planned by: not stated".to_owned());
        }
        let planned_by = results.planned_by.as_ref();
        let answering = |result: &&FormulaResult| result.refusal.is_none();
        let rows = results
            .formulas
            .iter()
            .filter(answering)
            .map(|result| FormulaRow {
                name: result.name.clone(),
                planned_by: planned_by == Some(&result.formula),
                predicted: or_dash(result.predicted_d),
                proposed: or_dash(result.proposed_power_d),
            });
        Formulas {
            title,
            rows: rows.collect(),
            refused: refused(&results.formulas),
            notes,
            constants: lens.record.as_ref().map_or_else(
                || NOT_STATED.to_owned(),
                |record| format!("for {}: {}", record.constants_for, record.constants),
            ),
        }
    }
}

fn or_dash(number: Option<f64>) -> String {
    number.map_or_else(|| "–".to_owned(), diopters)
}

/// Each reason once, with the formulas it refuses.
fn refused(results: &[FormulaResult]) -> Vec<Refused> {
    let mut refused: Vec<Refused> = Vec::new();
    for result in results {
        let Some(reason) = &result.refusal else {
            continue;
        };
        match refused.iter_mut().find(|known| known.reason == *reason) {
            Some(known) => {
                known.names.push_str("; ");
                known.names.push_str(&result.name);
            }
            None => refused.push(Refused {
                names: result.name.clone(),
                reason: reason.clone(),
            }),
        }
    }
    refused
}

/// Each caution once, with the formulas it concerns.
fn cautions(results: &[FormulaResult]) -> Vec<String> {
    let mut cautions: Vec<(&str, Vec<&str>)> = Vec::new();
    let answering = || results.iter().filter(|result| result.refusal.is_none());
    for result in answering() {
        for caution in &result.cautions {
            match cautions.iter_mut().find(|(known, _)| known == caution) {
                Some((_, names)) => names.push(&result.name),
                None => cautions.push((caution, vec![&result.name])),
            }
        }
    }
    cautions
        .into_iter()
        .map(|(caution, names)| {
            if names.len() == answering().count() {
                format!("All formulas: {caution}")
            } else {
                format!("{}: {caution}", names.join("; "))
            }
        })
        .collect()
}
