//! What each formula predicts for the power, and the constants it took.

use millrace_core::document::{FormulaAnswer, FormulaResult};
use millrace_core::iol_power::Formula;

use super::{NOT_STATED, Subject};
use crate::data::{FormulaRow, Formulas, Refused};

impl Subject<'_> {
    pub(super) fn formulas(self) -> Formulas {
        let (lens, results) = (&self.draft.lens, self.results);
        let title = match lens.power() {
            Some(power) => format!("Formulas, refraction with {power}"),
            None => "Formulas, no power chosen".to_owned(),
        };
        let formulas = results
            .ladder
            .answer()
            .map_or(&[][..], |ladder| &ladder.formulas);
        let mut notes = cautions(formulas);
        if formulas.is_empty() {
            notes.push("No formula was asked: lens or target not stated.".to_owned());
        }
        if lens.formula.is_none() {
            notes.insert(0, "Formula planned by: not stated".to_owned());
        }
        let rows = answering(formulas).map(|(formula, answer)| FormulaRow {
            name: formula.name().to_owned(),
            planned_by: results.planned_by == Some(formula),
            predicted: or_dash(answer.predicted_d),
            proposed: or_dash(answer.proposed_power_d),
        });
        Formulas {
            title,
            rows: rows.collect(),
            refused: refused(formulas),
            notes,
            constants: lens.record().map_or_else(
                || NOT_STATED.to_owned(),
                |record| format!("for {}: {}", record.constants_for, record.constants),
            ),
        }
    }
}

fn or_dash<T: ToString>(number: Option<T>) -> String {
    number.map_or_else(|| "–".to_owned(), |number| number.to_string())
}

fn answering(results: &[FormulaResult]) -> impl Iterator<Item = (Formula, &FormulaAnswer)> {
    let results = results.iter();
    results.filter_map(|result| Some((result.formula, result.outcome.answer()?)))
}

/// Each reason once, with the formulas it refuses.
fn refused(results: &[FormulaResult]) -> Vec<Refused> {
    let mut refused: Vec<Refused> = Vec::new();
    for result in results {
        let Some(refusal) = result.outcome.refusal() else {
            continue;
        };
        let (name, reason) = (result.formula.name(), refusal.to_string());
        match refused.iter_mut().find(|known| known.reason == reason) {
            Some(known) => {
                known.names.push_str("; ");
                known.names.push_str(name);
            }
            None => refused.push(Refused {
                names: name.to_owned(),
                reason,
            }),
        }
    }
    refused
}

/// Each caution once, with the formulas it concerns.
fn cautions(results: &[FormulaResult]) -> Vec<String> {
    let mut cautions: Vec<(_, Vec<&str>)> = Vec::new();
    for (formula, answer) in answering(results) {
        for caution in &answer.cautions {
            match cautions.iter_mut().find(|(known, _)| *known == caution) {
                Some((_, names)) => names.push(formula.name()),
                None => cautions.push((caution, vec![formula.name()])),
            }
        }
    }
    cautions
        .into_iter()
        .map(|(caution, names)| {
            if names.len() == answering(results).count() {
                format!("All formulas: {caution}")
            } else {
                format!("{}: {caution}", names.join("; "))
            }
        })
        .collect()
}
