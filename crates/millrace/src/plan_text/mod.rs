//! The plan as text, made to be read at a desk: who and which eye, what to believe, the ladder,
//! what lies ready, both sides of the approach, the pieces, and everything refused with its reason.

mod approach;
mod backup;
mod banner;
mod certainty;
mod findings;
mod ladder;
mod measurements;
mod proximity;
mod refused;
mod risk;
mod second_eye;
mod state;
mod summary;
mod theatre;
mod toric;

use millrace_core::iol_power::Formula;
use millrace_core::plan::Plan;
use millrace_core::rules::Group;
use millrace_wording::text::banner::caution;
use millrace_wording::text::plan as say;
use millrace_wording::{Show, Words};

use crate::page::{FAINT, Page};

/// Writes the plan, `width` columns wide.
pub(crate) fn write(plan: &Plan, width: usize, words: Words) -> String {
    let draft = &plan.draft;
    let mut page = Page::new(width, words);
    banner::write(&mut page, draft, plan);
    summary::write(&mut page, draft, plan);
    findings::write(
        &mut page,
        plan,
        say::right_patient(words),
        &[Group::Identity],
    );
    findings::write(
        &mut page,
        plan,
        say::believable(words),
        &[Group::Believable],
    );
    measurements::write(&mut page, draft, plan, words);
    state::write(&mut page, draft, plan);
    ladder::write(&mut page, draft, plan);
    certainty::write(&mut page, plan, draft.lens.formula);
    second_eye::write(&mut page, plan);
    toric::write(&mut page, draft, plan);
    findings::write(&mut page, plan, say::lens_fits(words), &[Group::LensChoice]);
    backup::write(&mut page, draft, plan);
    approach::write(&mut page, draft, plan);
    risk::write(&mut page, plan);
    findings::write(
        &mut page,
        plan,
        say::approach_and_risk(words),
        &[Group::Approach, Group::Risk],
    );
    theatre::write(&mut page, draft);
    refused::write(&mut page, plan);
    page.blank();
    banner::write_identity(&mut page, draft, plan);
    page.hanging("", 0, caution(words));
    let version = env!("CARGO_PKG_VERSION");
    page.line(&format!("{FAINT}millrace {version}{FAINT:#}"));
    page.finish()
}

/// Formulas of which one thing is said, together.
fn grouped<T: PartialEq>(said: impl IntoIterator<Item = (T, Formula)>) -> Vec<(T, Vec<Formula>)> {
    let mut groups: Vec<(T, Vec<Formula>)> = Vec::new();
    for (what, formula) in said {
        match groups.iter_mut().find(|(known, _)| *known == what) {
            Some((_, formulas)) => formulas.push(formula),
            None => groups.push((what, vec![formula])),
        }
    }
    groups
}

/// "SRK/T; T2: radius under 7.0 mm".
fn of_formulas(words: Words, formulas: &[Formula], said: impl Show) -> String {
    say::of_formulas(words, words.clauses(formulas), said)
}

/// A chance in a table, in whole percent.
fn chance(chance: f64) -> String {
    if 0.995 <= chance {
        ">99 %".to_owned()
    } else if chance < 0.005 {
        "<1 %".to_owned()
    } else {
        format!("{:.0} %", chance * 100.0)
    }
}
