//! What the surgeon's own incisions did to the cornea: all of it or nothing.

use chrono::NaiveDate;
use egui::{CollapsingHeader, Ui};
use millrace_core::astigmatism::{IncisionEffect, IncisionTerm, ToricRefusal};
use millrace_core::biometry::Side;
use millrace_core::case::{Approach, Command};
use millrace_core::quantity::HundredthDiopters;

use super::kinds::{EYES, FLATTENING, SCATTER};
use super::{CaseView, LABEL, SECOND_LABEL, label, open_point, unit};
use crate::widgets::{Commit, NumberField, date_field, problem, small};
use crate::words::sentence;

/// Figures of which not all are entered, and the case they were entered for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct PartEffect {
    side: Option<Side>,
    approach: Option<Approach>,
    flattening: Option<HundredthDiopters>,
    scatter: Option<HundredthDiopters>,
    eyes: Option<u32>,
    on: Option<NaiveDate>,
}

impl PartEffect {
    fn of(effect: IncisionEffect) -> Self {
        Self {
            flattening: Some(effect.flattening()),
            scatter: Some(effect.scatter()),
            eyes: Some(effect.eyes()),
            on: effect.on(),
            ..Self::default()
        }
    }

    /// Those entered for this eye and approach: figures of another incision say nothing here.
    fn pending(kept: Option<Self>, side: Option<Side>, approach: Option<Approach>) -> Self {
        let fresh = Self {
            side,
            approach,
            ..Self::default()
        };
        match kept {
            Some(kept)
                if kept.side == side && (kept.approach.is_none() || kept.approach == approach) =>
            {
                Self { approach, ..kept }
            }
            _ => fresh,
        }
    }

    fn is_blank(&self) -> bool {
        self.missing().len() == 3 && self.on.is_none()
    }

    /// What is not entered yet. The day may stay unknown.
    fn missing(&self) -> Vec<&'static str> {
        [
            self.flattening.is_none().then_some("flattening"),
            self.scatter.is_none().then_some("scatter"),
            self.eyes.is_none().then_some("number of eyes"),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn whole(&self) -> Option<IncisionEffect> {
        IncisionEffect::new(self.flattening?, self.scatter?, self.eyes?, self.on).ok()
    }
}

pub(super) fn show(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut Option<PartEffect>,
) -> Option<Command> {
    let plan = &view.draft.approach;
    let recorded = plan.incision_effect;
    let side = view.draft.operation.eye;
    let shown = match recorded {
        Some(effect) => {
            *state = None;
            PartEffect {
                side,
                approach: plan.approach,
                ..PartEffect::of(effect)
            }
        }
        None => PartEffect::pending(*state, side, plan.approach),
    };
    let now = CollapsingHeader::new("Your own figures of the incision's effect on the cornea")
        .id_salt(view.ground.with("incision effect"))
        .default_open(!shown.is_blank())
        .show(ui, |ui| fields(ui, view, shown))
        .body_returned
        .unwrap_or(shown);
    account(ui, view, &now);
    let whole = now.whole();
    // Kept also without a change: it may have been entered before an approach was chosen, and
    // belongs to this one from now on.
    *state = (whole.is_none() && !now.is_blank()).then_some(now);
    if now == shown {
        return None;
    }
    (whole != recorded).then_some(Command::SetIncisionEffect(whole))
}

fn fields(ui: &mut Ui, view: &CaseView<'_>, shown: PartEffect) -> PartEffect {
    let mut now = shown;
    let mut problems = Vec::new();
    let id = |what: &str| view.ground.with(("incision effect", what));
    ui.horizontal(|ui| {
        let named = label(ui, LABEL - 18.0, "Flattening");
        let field = NumberField::new(id("flattening"), named, &FLATTENING, shown.flattening);
        let entered = field.show(ui);
        now.flattening = entered.commit.map_or(now.flattening, Commit::value);
        problems.extend(entered.problem);
        unit(ui, "D");
        let named = label(ui, SECOND_LABEL, "Scatter (SD)");
        let field = NumberField::new(id("scatter"), named, &SCATTER, shown.scatter);
        let entered = field.show(ui);
        now.scatter = entered.commit.map_or(now.scatter, Commit::value);
        problems.extend(entered.problem);
        unit(ui, "D");
    });
    ui.horizontal(|ui| {
        let named = label(ui, LABEL - 18.0, "Number of eyes");
        let entered = NumberField::new(id("eyes"), named, &EYES, shown.eyes).show(ui);
        now.eyes = entered.commit.map_or(now.eyes, Commit::value);
        problems.extend(entered.problem);
        unit(ui, "");
        let named = label(ui, SECOND_LABEL, "Worked out on");
        let entered = date_field(ui, (id("day"), named), shown.on);
        now.on = entered.commit.map_or(now.on, Commit::value);
        problems.extend(entered.problem);
    });
    for why in problems {
        problem(ui, &why);
    }
    let missing = now.missing();
    if !now.is_blank() && !missing.is_empty() {
        open_point(ui, &format!("Not yet taken: needs {}", missing.join(", ")));
    }
    small(
        ui,
        "Mean flattening of the incision's own meridian and the SD of each double-angle component, from your own results through such incisions. All three or none; they are cleared when the approach changes",
    );
    now
}

/// What the astigmatism is reckoned with now.
fn account(ui: &mut Ui, view: &CaseView<'_>, now: &PartEffect) {
    let Ok(plan) = view.plan else { return };
    if now.whole().is_some() && now.on.is_none() {
        small(ui, "Day of your figures not recorded");
    }
    small(ui, effect_in_use(&plan.toric.terms.incision));
}

fn effect_in_use(incision: &Result<IncisionTerm, ToricRefusal>) -> String {
    match incision {
        Err(refusal) => format!("Effect on astigmatism not known: {refusal}"),
        Ok(term) => {
            let scatter = term.scatter.d();
            let mut parts = vec![format!(
                "Effect on astigmatism, scatter {scatter:.2} D (SD)"
            )];
            parts.extend(term.cautions().map(|caution| sentence(caution.text())));
            if parts.len() == 1 {
                parts.push("From your own figures".to_owned());
            }
            parts.join(". ")
        }
    }
}
