//! Both sides of the approach, with their evidence.

use millrace_core::case::{Draft, JudgedNucleus};
use millrace_core::plan::{Evaluated, Plan, TRIALS};
use millrace_core::rules::{Bearing, Verdict};
use millrace_wording::rules::finding_and_certainty;
use millrace_wording::terms::place;
use millrace_wording::text::plan as say;
use millrace_wording::{Show as _, Words};

use super::proximity;
use crate::page::{HEADING, Page};

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    let words = page.words();
    page.heading(say::approach_heading(words));
    let approach = &draft.approach;
    let chosen = match approach.approach {
        None => say::chosen(words, say::none_yet(words)),
        Some(approach) => say::chosen(words, approach),
    };
    let is_set = approach.incision_width.is_some() || approach.incision_direction.is_some();
    let incision = if is_set {
        let (width, place) = incision(draft, plan, words);
        say::incision_facing(words, width, place)
    } else {
        String::new()
    };
    page.hanging(" ", 3, &format!("{HEADING}{chosen}{HEADING:#}{incision}"));
    page.hanging(" ", 3, &say::hard_nucleus(words, plan.nucleus));
    if let Some(JudgedNucleus { reason, by, on, .. }) = &approach.nucleus_judged {
        page.hanging("   ", 3, &say::judged_nucleus(words, by, *on, reason));
    }
    page.blank();
    for (title, side) in [
        (
            say::for_phacoemulsification(words),
            Some(Bearing::Phacoemulsification),
        ),
        (say::for_small_incision(words), Some(Bearing::SmallIncision)),
        (say::no_difference(words), None),
    ] {
        page.line(&format!(" {HEADING}{title}{HEADING:#}"));
        write_side(page, plan, side);
    }
    proximity::write(page, draft, plan);
}

/// Width and place of the incision, or that they are not set.
pub(super) fn incision(draft: &Draft, plan: &Plan, words: Words) -> (String, String) {
    let approach = &draft.approach;
    let width = approach.incision_width.map_or_else(
        || say::width_not_set(words).to_owned(),
        |width| width.show(words).into_owned(),
    );
    let place = approach.incision_direction.map_or_else(
        || say::place_not_set(words).to_owned(),
        |direction| place(words, plan.side, direction),
    );
    (width, place)
}

fn write_side(page: &mut Page, plan: &Plan, side: Option<Bearing>) {
    let words = page.words();
    let mut write = |label: &str, text: &str| {
        page.hanging(&format!("   {label:<10} "), 14, text);
    };
    let findings = plan
        .rules
        .iter()
        .filter(|rule| side.is_some_and(|side| rule.bears_on(side)));
    for evaluated in findings {
        if let Some(text) = argument(evaluated, words) {
            write(say::this_eye(words), &text);
        }
    }
    for trial in TRIALS.iter().filter(|trial| trial.favors == side) {
        let label = if plan.concerns(trial) {
            say::published(words)
        } else {
            say::other_eyes(words)
        };
        write(
            label,
            &say::trial(words, trial.trial, trial.source.standing),
        );
    }
}

fn argument(evaluated: &Evaluated, words: Words) -> Option<String> {
    let Verdict::Finding(finding) = &evaluated.verdict else {
        return None;
    };
    let rule = evaluated.rule;
    let (title, found) = (
        words.reference(rule.title),
        finding_and_certainty(words, finding),
    );
    let standing = rule.sources.first()?.standing;
    Some(say::argument(words, title, found, standing, rule.id))
}
