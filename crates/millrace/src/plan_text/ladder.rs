//! The ladder: one row per available power, one column per formula.

use millrace_core::case::Draft;
use millrace_core::evidence::Source;
use millrace_core::iol_power::ladder::{Column, Convention, Ladder, Rung};
use millrace_core::iol_power::{Caution, Formula, FormulaConstants};
use millrace_core::lens::LensRecord;
use millrace_core::optics::CardinalPoints;
use millrace_core::plan::Plan;
use millrace_core::quantity::HundredthDiopters;

use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading(&format!("Lens power for the {}", plan.side));
    write_choice(page, draft, plan);
    match &plan.ladder {
        Err(missing) => page.paragraph(1, &format!("No ladder: {missing}.")),
        Ok(ladder) => {
            write_ladder(page, ladder, draft.lens.power, draft.lens.formula);
            write_legend(page, draft, ladder);
        }
    }
    if let Some(record) = &draft.lens.record {
        write_constants(page, record);
    }
    if let Ok(ladder) = &plan.ladder {
        write_sources(page, ladder);
    }
    if let Some(points) = &plan.thick_eye {
        write_thick_eye(page, points);
    }
    if let Ok(ladder) = &plan.ladder {
        write_cautions(page, ladder);
    }
}

/// Where each column comes from; columns of one source share a line.
fn write_sources(page: &mut Page, ladder: &Ladder) {
    let mut sources: Vec<(Source, Vec<&str>)> = Vec::new();
    for column in ladder.columns.iter().filter(|column| column.answer.is_ok()) {
        let source = column.formula.source();
        match sources.iter_mut().find(|(known, _)| *known == source) {
            Some((_, names)) => names.push(column.formula.name()),
            None => sources.push((source, vec![column.formula.name()])),
        }
    }
    for (source, names) in sources {
        page.hanging(" ", 3, &format!("{}: {source}", names.join("; ")));
    }
}

fn write_thick_eye(page: &mut Page, points: &CardinalPoints) {
    let power_d = points.power.d();
    let text = format!(
        "Thick-lens eye with the chosen power: equivalent power {power_d:.2} D; behind the corneal \
         vertex: principal points {} and {}, nodal points {} and {}, foci {} and {}.",
        points.front_principal,
        points.back_principal,
        points.front_nodal,
        points.back_nodal,
        points.front_focus,
        points.back_focus,
    );
    page.hanging(" ", 3, &text);
}

fn write_choice(page: &mut Page, draft: &Draft, plan: &Plan) {
    let lens = &draft.lens;
    let or_missing = |value: Option<HundredthDiopters>| {
        value.map_or_else(|| "not chosen".to_owned(), |value| value.to_string())
    };
    if let Some(record) = &lens.record {
        page.paragraph(
            1,
            &format!(
                "{}, model {}: {}, {}, optic {}, for the {}",
                record.name,
                record.model,
                record.material,
                record.haptic,
                record.optic_diameter,
                record.site
            ),
        );
    }
    page.line(&format!(
        " Target {}   consented target {}",
        or_missing(lens.target),
        or_missing(lens.consented_target)
    ));
    let formula = lens.formula.map_or("no formula yet", Formula::name);
    let predicted = plan
        .predicted_for_chosen()
        .map_or(String::new(), |refraction| {
            format!(", predicted refraction {refraction}")
        });
    let chosen = lens.power.map_or_else(
        || "No power chosen".to_owned(),
        |power| format!("Chosen power {power}"),
    );
    let text = format!("{HEADING}{chosen}{HEADING:#}   planned by {formula}{predicted}");
    page.hanging(" ", 3, &text);
    page.blank();
}

/// The name over a column, short enough for nine of them.
pub(super) fn column_name(formula: Formula) -> &'static str {
    match formula {
        Formula::DoubleKNoHistory => "Double-K, no history",
        Formula::DoubleKKnownCorrection => "Double-K, known corr.",
        Formula::HaigisModifiedRadius => "Haigis mod. radius",
        other => other.name(),
    }
}

pub(super) fn write_ladder(
    page: &mut Page,
    ladder: &Ladder,
    chosen: Option<HundredthDiopters>,
    planned_by: Option<Formula>,
) {
    let answering: Vec<(usize, &Column)> = ladder
        .columns
        .iter()
        .enumerate()
        .filter(|(_, column)| column.answer.is_ok())
        .collect();
    if answering.is_empty() {
        page.paragraph(
            1,
            "No formula answers for this eye and lens; see \"Refused\" below.",
        );
        return;
    }
    for caution in shared_cautions(ladder) {
        page.hanging(" ▲ ", 3, &format!("All formulas: {caution}"));
    }
    let mut header = vec!["Power".to_owned()];
    header.extend(answering.iter().map(|(_, column)| {
        let mark = if planned_by == Some(column.formula) {
            "▸ "
        } else {
            ""
        };
        format!("{mark}{}", column_name(column.formula))
    }));
    let mut rows: Vec<Vec<String>> = ladder
        .rungs
        .iter()
        .map(|rung| rung_row(rung, &answering, chosen))
        .collect();
    if ladder.rungs.is_empty() {
        page.paragraph(1, "The lens is made in no power near this eye's.");
    }
    let summary = |name: &str, text: &dyn Fn(&Column) -> String| {
        let mut row = vec![name.to_owned()];
        row.extend(answering.iter().map(|(_, column)| text(column)));
        row
    };
    rows.push(summary("exact power", &|column| match &column.answer {
        Ok(answer) => answer.exact_power.to_string(),
        Err(_) => String::new(),
    }));
    rows.push(summary("proposed", &|column| match &column.answer {
        Ok(answer) => answer
            .proposed
            .map_or_else(|| no_proposal(column.formula), |power| power.to_string()),
        Err(_) => String::new(),
    }));
    rows.push(summary("lens position", &|column| match &column.answer {
        Ok(answer) => answer.eye.lens_position().to_string(),
        Err(_) => String::new(),
    }));
    page.table(&header, &rows);
}

/// Why a column proposes no power: a check without a fitted constant never does.
fn no_proposal(formula: Formula) -> String {
    if formula.has_fitted_constant() {
        "none near".to_owned()
    } else {
        "–".to_owned()
    }
}

fn rung_row(
    rung: &Rung,
    answering: &[(usize, &Column)],
    chosen: Option<HundredthDiopters>,
) -> Vec<String> {
    let mark = if chosen == Some(rung.power) {
        "▶"
    } else {
        " "
    };
    let mut row = vec![format!("{mark} {}", rung.power)];
    row.extend(answering.iter().map(|(index, column)| {
        let proposed = column
            .answer
            .as_ref()
            .ok()
            .and_then(|answer| answer.proposed);
        let star = if proposed == Some(rung.power) {
            "*"
        } else {
            " "
        };
        match rung.predicted.get(*index).copied().flatten() {
            Some(refraction) => format!("{refraction}{star}"),
            None => format!("none{star}"),
        }
    }));
    row
}

fn write_legend(page: &mut Page, draft: &Draft, ladder: &Ladder) {
    let convention = match draft.lens.convention {
        None => "no convention chosen, so no power is proposed",
        Some(Convention::FirstMyopic) => {
            "* proposed: weakest power predicted at the target or on its myopic side"
        }
        Some(Convention::FirstHyperopic) => {
            "* proposed: strongest power predicted at the target or on its hyperopic side"
        }
        Some(Convention::Nearest) => "* proposed: power predicted nearest to the target",
    };
    if ladder.columns.iter().all(|column| column.answer.is_err()) {
        return;
    }
    page.blank();
    page.paragraph(
        1,
        &format!(
            "Predicted refraction at the spectacle plane (12 mm). ▶ chosen power; ▸ formula planned by; {convention}."
        ),
    );
}

/// The constants of a lens, each with its origin.
pub(super) fn write_constants(page: &mut Page, record: &LensRecord) {
    page.hanging(
        " ",
        3,
        &format!(
            "Constants, for {}: {}.",
            record.constants_for, record.constants
        ),
    );
    let FormulaConstants {
        personalized_acd,
        surgeon_factor,
        haigis,
        ..
    } = record.constants.values();
    let missing = [
        personalized_acd.is_none(),
        surgeon_factor.is_none(),
        haigis.is_none(),
    ];
    if missing.contains(&true) {
        page.hanging(
            " ",
            3,
            "A constant the record lacks is not filled in by conversion.",
        );
    }
}

/// Cautions that every answering column carries: they stand above the ladder, once.
fn shared_cautions(ladder: &Ladder) -> Vec<Caution> {
    let mut answers = ladder
        .columns
        .iter()
        .filter_map(|column| column.answer.as_ref().ok());
    let Some(first) = answers.next() else {
        return Vec::new();
    };
    let mut shared: Vec<_> = first.cautions.iter().collect();
    for answer in answers {
        shared.retain(|caution| answer.cautions.iter().any(|other| other == *caution));
    }
    shared
}

/// Cautions of single columns, each with the formulas it concerns.
pub(super) fn write_cautions(page: &mut Page, ladder: &Ladder) {
    let shared = shared_cautions(ladder);
    let mut cautions: Vec<(Caution, Vec<&str>)> = Vec::new();
    for column in &ladder.columns {
        let Ok(answer) = &column.answer else { continue };
        for caution in answer
            .cautions
            .iter()
            .filter(|caution| !shared.contains(caution))
        {
            match cautions.iter_mut().find(|(known, _)| *known == caution) {
                Some((_, names)) => names.push(column.formula.name()),
                None => cautions.push((caution, vec![column.formula.name()])),
            }
        }
    }
    for (caution, names) in cautions {
        page.hanging(" ▲ ", 3, &format!("{}: {caution}", names.join("; ")));
    }
}
