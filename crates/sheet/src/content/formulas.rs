//! What each formula predicts for the power, and the constants it took.

use millrace_core::document::{FormulaAnswer, FormulaResult};
use millrace_core::iol_power::Formula;
use millrace_wording::text::{lens as of_lens, plan};
use millrace_wording::{Show, Words, sheet as say};

use super::Subject;
use crate::data::{FormulaRow, Formulas, Refused};

impl Subject<'_> {
    pub(super) fn formulas(self) -> Formulas {
        let (lens, results, words) = (&self.draft.lens, self.results, self.words);
        let title = match lens.power() {
            Some(power) => say::formulas_with(words, power),
            None => say::formulas_without_power(words).to_owned(),
        };
        let formulas = results
            .ladder
            .answer()
            .map_or(&[][..], |ladder| &ladder.formulas);
        let mut notes = cautions(words, formulas);
        if formulas.is_empty() {
            notes.push(say::no_formula_asked(words).to_owned());
        }
        if lens.formula.is_none() {
            notes.insert(0, say::planned_by_not_stated(words).to_owned());
        }
        let rows = answering(formulas).map(|(formula, answer)| FormulaRow {
            name: formula.show(words).into_owned(),
            planned_by: results.planned_by == Some(formula),
            predicted: or_dash(words, answer.predicted_d),
            proposed: or_dash(words, answer.proposed_power_d),
        });
        Formulas {
            title,
            rows: rows.collect(),
            refused: refused(words, formulas),
            notes,
            constants: lens.record().map_or_else(
                || plan::not_stated(words).to_owned(),
                |record| say::constants_for(words, record.constants_for, record.constants),
            ),
        }
    }
}

fn or_dash(words: Words, number: Option<impl Show>) -> String {
    number.map_or_else(|| "–".to_owned(), |number| number.show(words).into_owned())
}

fn answering(results: &[FormulaResult]) -> impl Iterator<Item = (Formula, &FormulaAnswer)> {
    let results = results.iter();
    results.filter_map(|result| Some((result.formula, result.outcome.answer()?)))
}

/// Each reason once, with the formulas it refuses.
fn refused(words: Words, results: &[FormulaResult]) -> Vec<Refused> {
    let refusals = results
        .iter()
        .filter_map(|result| Some((result.formula, result.outcome.refusal()?)));
    let refused = once_each(refusals).into_iter();
    refused
        .map(|(refusal, formulas)| Refused {
            names: words.clauses(formulas),
            reason: refusal.show(words).into_owned(),
        })
        .collect()
}

/// Each caution once, with the formulas it concerns; those of the same formulas in one line.
fn cautions(words: Words, results: &[FormulaResult]) -> Vec<String> {
    let cautions = answering(results)
        .flat_map(|(formula, answer)| answer.cautions.iter().map(move |it| (formula, it)));
    let mut lines: Vec<(Vec<Formula>, Vec<String>)> = Vec::new();
    for (caution, formulas) in once_each(cautions) {
        let caution = caution.show(words).into_owned();
        match lines.iter_mut().find(|(known, _)| *known == formulas) {
            Some((_, cautions)) => cautions.push(caution),
            None => lines.push((formulas, vec![caution])),
        }
    }
    let all = answering(results).count();
    let lines = lines.into_iter();
    lines
        .map(|(formulas, cautions)| {
            let cautions = words.clauses(cautions);
            if formulas.len() == all {
                of_lens::all_formulas(words, cautions)
            } else {
                plan::of_formulas(words, words.clauses(formulas), cautions)
            }
        })
        .collect()
}

fn once_each<T: PartialEq>(said: impl Iterator<Item = (Formula, T)>) -> Vec<(T, Vec<Formula>)> {
    let mut found: Vec<(T, Vec<Formula>)> = Vec::new();
    for (formula, it) in said {
        match found.iter_mut().find(|(known, _)| *known == it) {
            Some((_, formulas)) => formulas.push(formula),
            None => found.push((it, vec![formula])),
        }
    }
    found
}
