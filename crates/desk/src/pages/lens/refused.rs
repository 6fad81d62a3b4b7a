//! Formulas that gave no answer, or no distribution: named with their reason, never hidden.

use egui::Ui;
use millrace_core::certainty::NoDistribution;
use millrace_core::plan::Plan;

use crate::widgets::{open_ring, said, section};

pub(super) fn show(ui: &mut Ui, plan: &Plan) {
    let Ok(ladder) = &plan.ladder else { return };
    let mut reasons: Vec<(String, Vec<&str>)> = Vec::new();
    let mut add = |reason: String, name: &'static str| match reasons
        .iter_mut()
        .find(|(known, _)| *known == reason)
    {
        Some((_, names)) => names.push(name),
        None => reasons.push((reason, vec![name])),
    };
    for column in &ladder.columns {
        if let Err(refusal) = &column.answer {
            add(format!("refused: {refusal}"), column.formula.name());
        }
    }
    let columns = plan
        .certainty
        .iter()
        .flat_map(|it| it.ladder.columns.iter());
    for column in columns {
        if let Err(missing) = &column.basis
            && !matches!(missing, NoDistribution::Refused(_))
        {
            add(format!("no distribution: {missing}"), column.formula.name());
        }
    }
    for column in &ladder.columns {
        if let Ok(answer) = &column.answer {
            for caution in answer.cautions.iter() {
                add(caution.to_string(), column.formula.name());
            }
        }
    }
    if reasons.is_empty() {
        return;
    }
    section(ui, "Refused and dubious");
    for (reason, names) in reasons {
        ui.horizontal_top(|ui| {
            open_ring(ui);
            ui.vertical(|ui| said(ui, format!("{}: {reason}", names.join(", "))));
        });
    }
}
