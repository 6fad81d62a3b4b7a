//! Formulas that gave no answer, or no distribution: named with their reason, never hidden.

use egui::Ui;
use millrace_core::certainty::NoDistribution;
use millrace_core::iol_power::Formula;
use millrace_core::plan::Plan;
use millrace_wording::Show as _;
use millrace_wording::certainty::tendency;
use millrace_wording::desk::lens as say;

use crate::widgets::{open_ring, section};
use crate::words::in_use;

pub(super) fn show(ui: &mut Ui, plan: &Plan) {
    let Ok(ladder) = &plan.ladder else { return };
    let words = in_use(ui);
    let mut reasons: Vec<(String, Vec<Formula>)> = Vec::new();
    let mut add = |reason: String, name: Formula| match reasons
        .iter_mut()
        .find(|(known, _)| *known == reason)
    {
        Some((_, names)) => names.push(name),
        None => reasons.push((reason, vec![name])),
    };
    for column in &ladder.columns {
        if let Err(refusal) = &column.answer {
            add(say::refused(words, refusal), column.formula);
        }
    }
    let columns = plan
        .certainty
        .iter()
        .flat_map(|it| it.ladder.columns.iter());
    for column in columns {
        for known in column.tendencies() {
            add(tendency(words, known.eye, known.way), column.formula);
        }
        if let Err(missing) = &column.basis
            && !matches!(missing, NoDistribution::Refused(_))
        {
            add(say::no_distribution(words, missing), column.formula);
        }
    }
    for column in &ladder.columns {
        if let Ok(answer) = &column.answer {
            for caution in answer.cautions.iter() {
                add(caution.show(words).into_owned(), column.formula);
            }
        }
    }
    if reasons.is_empty() {
        return;
    }
    section(ui, say::refused_and_dubious(words));
    for (reason, names) in reasons {
        ui.horizontal_top(|ui| {
            open_ring(ui);
            let text = say::of_formulas(words, words.list(names), reason);
            ui.vertical(|ui| ui.label(text));
        });
    }
}
