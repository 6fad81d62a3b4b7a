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
mod screen;
mod second_eye;
mod state;
mod summary;
mod theatre;
mod toric;

use millrace_core::iol_power::Formula;
use millrace_core::plan::Plan;
use millrace_core::rules::Group;
use millrace_wording::text::plan as say;
use millrace_wording::{Show, Words};

use crate::page::{FAINT, Page};

/// How much of the plan is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Extent {
    Screen,
    Full,
}

impl From<bool> for Extent {
    /// As `--full` was given or not.
    fn from(full: bool) -> Self {
        if full { Self::Full } else { Self::Screen }
    }
}

/// Writes the plan, `width` columns wide.
pub(crate) fn write(plan: &Plan, extent: Extent, (width, words): (usize, Words)) -> String {
    let mut page = Page::new(width, words);
    match extent {
        Extent::Screen => screen::write(&mut page, plan),
        Extent::Full => write_full(&mut page, plan),
    }
    page.finish()
}

fn write_full(page: &mut Page, plan: &Plan) {
    let (draft, words) = (&plan.draft, page.words());
    banner::write(page, draft, plan);
    summary::write(page, draft, plan);
    findings::write(page, plan, say::right_patient(words), &[Group::Identity]);
    findings::write(page, plan, say::believable(words), &[Group::Believable]);
    measurements::write(page, draft, plan, words);
    state::write(page, draft, plan);
    ladder::write(page, draft, plan);
    certainty::write(page, plan, draft.lens.formula);
    second_eye::write(page, plan);
    toric::write(page, draft, plan);
    findings::write(page, plan, say::lens_fits(words), &[Group::LensChoice]);
    backup::write(page, draft, plan);
    approach::write(page, draft, plan);
    risk::write(page, plan);
    findings::write(
        page,
        plan,
        say::approach_and_risk(words),
        &[Group::Approach, Group::Risk],
    );
    theatre::write(page, draft);
    refused::write(page, plan);
    page.heading(say::sources_heading(words));
    page.write_cited();
    page.blank();
    banner::write_identity(page, draft, plan);
    banner::write_caution(page);
    let version = env!("CARGO_PKG_VERSION");
    page.line(&format!("{FAINT}millrace {version}{FAINT:#}"));
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
