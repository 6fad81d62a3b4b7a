//! The ladder: one row per available power, one column per formula.

use millrace_core::case::Draft;
use millrace_core::iol_power::ladder::{Answer, Column, Convention, Ladder, Rung};
use millrace_core::iol_power::{Caution, Formula, FormulaConstants};
use millrace_core::lens::LensRecord;
use millrace_core::optics::CardinalPoints;
use millrace_core::plan::Plan;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::iol_power::column_name;
use millrace_wording::quantity::computed_unsigned;
use millrace_wording::text::lens as say;
use millrace_wording::{Show as _, Words};

use super::{grouped, of_formulas};
use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    page.heading(&say::heading(words, plan.side));
    write_choice(page, draft, plan);
    match &plan.ladder {
        Err(missing) => page.paragraph(1, &say::no_ladder(words, missing)),
        Ok(ladder) => {
            write_ladder(page, ladder, draft.lens.power(), draft.lens.formula);
            write_legend(page, draft, ladder);
        }
    }
    if let Some(record) = draft.lens.record() {
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

/// Where each column comes from.
fn write_sources(page: &mut Page, ladder: &Ladder) {
    let formulas = answering(ladder).map(|(column, _)| column.formula);
    let groups = grouped(formulas.map(|formula| (formula.source(), formula)));
    let words = page.words();
    let cited = groups.iter().map(|(source, formulas)| {
        let cited = page.cite(&[*source]);
        of_formulas(words, formulas, cited)
    });
    let cited = cited.collect::<Vec<_>>().join("; ");
    page.hanging(" ", 3, &cited);
}

fn answering(ladder: &Ladder) -> impl Iterator<Item = (&Column, &Answer)> {
    let columns = ladder.columns.iter();
    columns.filter_map(|column| Some((column, column.answer.as_ref().ok()?)))
}

fn write_thick_eye(page: &mut Page, points: &CardinalPoints) {
    let words = page.words();
    let text = say::thick_eye(
        words,
        computed_unsigned(words, points.power),
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
    let (lens, words) = (&draft.lens, page.words());
    let or_missing = |value: Option<HundredthDiopters>| {
        value.map_or_else(
            || say::not_chosen(words).to_owned(),
            |value| value.show(words).into_owned(),
        )
    };
    if let Some(record) = lens.record() {
        let text = say::record(
            words,
            say::model(words, &record.name, &record.model),
            record.material,
            record.haptic,
            record.optic_diameter,
            record.site,
        );
        page.paragraph(1, &text);
    }
    let (target, consented) = (or_missing(lens.target), or_missing(lens.consented_target));
    page.line(&format!(" {}", say::targets(words, target, consented)));
    let planned_by = lens.formula.map_or_else(
        || say::no_formula(words).to_owned(),
        |formula| say::planned_by(words, formula),
    );
    let predicted = plan
        .predicted_for_chosen()
        .map_or_else(String::new, |refraction| say::predicted(words, refraction));
    let chosen = lens.power().map_or_else(
        || say::no_power(words).to_owned(),
        |power| say::chosen_power(words, power),
    );
    let text = format!("{HEADING}{chosen}{HEADING:#}   {planned_by}{predicted}");
    page.hanging(" ", 3, &text);
    page.blank();
}

pub(super) fn write_ladder(
    page: &mut Page,
    ladder: &Ladder,
    chosen: Option<HundredthDiopters>,
    planned_by: Option<Formula>,
) {
    let words = page.words();
    if answering(ladder).next().is_none() {
        return page.paragraph(1, say::no_answer(words));
    }
    for caution in shared_cautions(ladder) {
        page.hanging(" ▲ ", 3, &say::all_formulas(words, caution));
    }
    let mut header = vec![say::power(words).to_owned()];
    header.extend(answering(ladder).map(|(column, _)| {
        let is_planned_by = planned_by == Some(column.formula);
        let mark = if is_planned_by { "▸ " } else { "" };
        format!("{mark}{}", column_name(words, column.formula))
    }));
    let mut rows: Vec<Vec<String>> = ladder
        .rungs
        .iter()
        .map(|rung| rung_row(rung, ladder, chosen, words))
        .collect();
    if ladder.rungs.is_empty() {
        page.paragraph(1, say::no_power_near(words));
    }
    let mut add = |name: &str, text: &dyn Fn(&Column, &Answer) -> String| {
        let mut row = vec![name.to_owned()];
        row.extend(answering(ladder).map(|(column, answer)| text(column, answer)));
        rows.push(row);
    };
    add(say::exact_power(words), &|_, answer| {
        answer.exact_power.show(words).into_owned()
    });
    add(say::proposed(words), &|column, answer| {
        answer.proposed.map_or_else(
            || no_proposal(column.formula, words),
            |power| power.show(words).into_owned(),
        )
    });
    add(say::lens_position(words), &|_, answer| {
        answer.eye.lens_position().show(words).into_owned()
    });
    page.table(&header, &rows);
}

/// Why a column proposes no power: a check without a fitted constant never does.
fn no_proposal(formula: Formula, words: Words) -> String {
    if formula.has_fitted_constant() {
        say::none_near(words).to_owned()
    } else {
        "–".to_owned()
    }
}

fn rung_row(
    rung: &Rung,
    ladder: &Ladder,
    chosen: Option<HundredthDiopters>,
    words: Words,
) -> Vec<String> {
    let is_chosen = chosen == Some(rung.power);
    let mark = if is_chosen { "▶" } else { " " };
    let mut row = vec![format!("{mark} {}", rung.power.show(words))];
    for (column, predicted) in ladder.columns.iter().zip(&rung.predicted) {
        let Ok(answer) = &column.answer else { continue };
        let is_proposed = answer.proposed == Some(rung.power);
        let star = if is_proposed { "*" } else { " " };
        row.push(match predicted {
            Some(refraction) => format!("{}{star}", refraction.show(words)),
            None => format!("{}{star}", say::none(words)),
        });
    }
    row
}

fn write_legend(page: &mut Page, draft: &Draft, ladder: &Ladder) {
    if answering(ladder).next().is_none() {
        return;
    }
    let words = page.words();
    let convention = match draft.lens.convention {
        None => say::no_convention(words),
        Some(Convention::FirstMyopic) => say::first_myopic(words),
        Some(Convention::FirstHyperopic) => say::first_hyperopic(words),
        Some(Convention::Nearest) => say::nearest(words),
    };
    page.blank();
    page.paragraph(1, &say::legend(words, convention));
}

/// The constants of a lens, each with its origin.
pub(super) fn write_constants(page: &mut Page, record: &LensRecord) {
    let words = page.words();
    let text = say::constants(words, record.constants_for, record.constants);
    page.hanging(" ", 3, &text);
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
        page.hanging(" ", 3, say::not_filled_in(words));
    }
}

/// Cautions that every answering column carries: they stand above the ladder, once.
fn shared_cautions(ladder: &Ladder) -> Vec<Caution> {
    let mut answers = answering(ladder).map(|(_, answer)| answer);
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
    let shared = &shared_cautions(ladder);
    let single = answering(ladder).flat_map(|(column, answer)| {
        let single = answer
            .cautions
            .iter()
            .filter(move |it| !shared.contains(it));
        single.map(move |caution| (caution, column.formula))
    });
    for (caution, formulas) in grouped(single) {
        page.hanging(" ▲ ", 3, &of_formulas(page.words(), &formulas, caution));
    }
}
