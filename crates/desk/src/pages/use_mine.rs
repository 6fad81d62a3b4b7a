//! "Use mine": a surgeon's own way put into the case, by hand and visibly.
//!
//! Each function shows a button where there is something to offer, and nothing where not; what it
//! returns is an ordinary command, undone as any other.

use egui::Ui;
use millrace_core::case::Command;
use millrace_wording::Show as _;
use millrace_wording::desk::settings as say;
use millrace_wording::text::lens::model;

use super::CaseView;
use crate::words::in_use;

/// Offers lens, formula and proposal together, as far as the case says nothing of them yet.
pub fn usual(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let usual = view.own.usual_for(view.draft, view.lenses);
    let words = in_use(ui);
    let lens = usual.lens.as_ref();
    let lens = lens.map(|(record, _)| model(words, &record.name, &record.model));
    let formula = usual.formula.map(|it| it.show(words).into_owned());
    let convention = usual.convention.map(|it| it.show(words).into_owned());
    let said = [lens, formula, convention].into_iter().flatten();
    let mine = said.reduce(|first, others| say::all_of_these(words, first, others))?;
    let clicked = ui.button(say::use_mine(words, mine)).clicked();
    clicked.then(|| Command::PlanAsUsual(Box::new(usual)))
}

/// Offers the effect of the surgeon's own incision for the approach of the case.
pub fn incision(ui: &mut Ui, view: &CaseView<'_>) -> Option<Command> {
    let command = view.own.incision_for(view.draft)?;
    let mine = view.own.incision(view.draft.approach.approach?)?;
    let words = in_use(ui);
    let mine = say::incision(words, mine.flattening(), mine.scatter(), mine.eyes());
    let mine = say::use_mine(words, mine);
    ui.button(mine).clicked().then_some(command)
}
