//! What speaks against the plan: every rule that found something, could not be evaluated, or passed.

mod aims;
mod reasons;

use std::collections::BTreeSet;

use egui::text::{LayoutJob, TextFormat};
use egui::{CollapsingHeader, FontId, Id, RichText, Ui};
use millrace_core::finding::Fact;
use millrace_core::lens::Place;
use millrace_core::plan::{Evaluated, Plan};
use millrace_core::rules::{Certainty, Finding, Severity, Verdict};
use millrace_wording::desk::findings as say;
use millrace_wording::{Show as _, Words, rules};

use crate::exchange::{CaseId, Request};
use crate::message::Message;
use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures, strong_style};
use crate::whereabouts::Page;
use crate::widgets::sought::{Mark, Marks};
use crate::widgets::{
    beside, heading, low_row, minor_button, muted, open_ring, ring, severity_color,
    severity_outline, severity_shape, small,
};
use crate::words::in_use;
use aims::aim;
use millrace_wording::sentence;
use reasons::reason;

/// What is opened in the panel, and the reason being written.
#[derive(Debug, Default)]
pub struct FindingsState {
    opened: BTreeSet<Key>,
    writing: Option<Key>,
}

/// A finding of the panel: its rule, and the backup lens it is about, if it is about one.
type Key = (&'static str, Option<Place>);

const fn key(evaluated: &Evaluated) -> Key {
    (evaluated.rule.id, evaluated.backup)
}

/// What F6 lands on in the panel.
pub fn landing_id() -> Id {
    Id::unique("findings landing")
}

/// The fields of a page that findings are about, each with what is found; the gravest counts.
pub fn marks(words: Words, plan: &Plan, page: Page) -> Marks {
    let mut marks = Marks::new();
    // The gravest first, so that a graver one is never hidden by what comes after it.
    for severity in [Severity::Stop, Severity::Review, Severity::Note] {
        for evaluated in plan.findings(severity).filter(|found| is_marked(found)) {
            let Some(aim) = aim(words, evaluated).filter(|aim| aim.page == page) else {
                continue;
            };
            let title = rules::title(words, evaluated.rule.title, evaluated.backup);
            let told = say::found(words, severity, title);
            let mark = marks.entry(aim.name).or_insert_with(|| Mark {
                severity,
                told: String::new(),
            });
            if !mark.told.is_empty() {
                mark.told.push_str("; ");
            }
            mark.told.push_str(&told);
        }
    }
    marks
}

/// A Note speaks to whoever reads it and marks nothing; what has its reason was looked at.
fn is_marked(found: &Evaluated) -> bool {
    found.rule.severity != Severity::Note && found.is_open()
}

pub fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut FindingsState) -> Vec<Message> {
    let (mut messages, words) = (Vec::new(), in_use(ui));
    let Ok(plan) = view.plan else {
        heading(ui, say::title(words));
        muted(ui, say::choose_eye(words));
        return messages;
    };
    summary(ui, plan);
    for severity in [Severity::Stop, Severity::Review, Severity::Note] {
        for evaluated in plan.findings(severity) {
            if let Verdict::Finding(finding) = &evaluated.verdict {
                ui.add_space(measures::NEAR);
                ui.separator();
                messages.extend(one(ui, view, state, Found { evaluated, finding }));
            }
        }
    }
    ui.add_space(measures::NEAR);
    ui.separator();
    others(ui, plan);
    messages
}

fn summary(ui: &mut Ui, plan: &Plan) {
    let words = in_use(ui);
    let title = heading(ui, say::title(words));
    let landing = ui.interact(title.rect, landing_id(), egui::Sense::FOCUSABLE);
    ring(ui, &landing);
    landing.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, say::landing(words)));
    for severity in [Severity::Stop, Severity::Review, Severity::Note] {
        let count = plan.findings(severity).count();
        let open = plan
            .findings(severity)
            .filter(|found| found.is_open())
            .count();
        low_row(ui, |ui| {
            if count == 0 {
                severity_outline(ui, severity);
            } else {
                severity_shape(ui, severity);
            }
            let palette = Palette::current(ui);
            let color = if count == 0 {
                palette.muted
            } else {
                severity_color(palette, severity)
            };
            let text = RichText::new(say::count_of(words, severity, count));
            ui.label(text.text_style(strong_style()).color(color));
            if severity == Severity::Review && 0 < count {
                let reasons = match open {
                    0 => say::each_with_reason(words).to_owned(),
                    _ => say::without_reason(words, open),
                };
                muted(ui, reasons);
            }
            if severity == Severity::Stop && 0 < count {
                muted(ui, say::cannot_be_signed(words));
            }
        });
    }
    let missing = plan.not_evaluated().count();
    low_row(ui, |ui| {
        open_ring(ui);
        muted(ui, say::count_not_evaluated(words, missing));
    });
}

/// A rule that found something, and what.
#[derive(Clone, Copy)]
struct Found<'a> {
    evaluated: &'a Evaluated,
    finding: &'a Finding,
}

fn one(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut FindingsState,
    found: Found<'_>,
) -> Vec<Message> {
    let Found { evaluated, finding } = found;
    let rule = evaluated.rule;
    let shape = |ui: &mut Ui| {
        severity_shape(ui, rule.severity);
    };
    beside(ui, shape, |ui| {
        title(ui, evaluated);
        let words = in_use(ui);
        ui.label(sentence(&finding.show(words)));
        if let Certainty::Borderline { .. } = finding.certainty {
            certainty(ui, finding);
        }
        let commands = reason(ui, view, state, found);
        let mut messages: Vec<_> = commands.into_iter().map(Message::Change).collect();
        behind_why(ui, state, found);
        ui.add_space(measures::TIGHT);
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = measures::TIGHT;
            messages.extend(to_field(ui, evaluated));
            more(ui, state, key(evaluated));
        });
        messages.extend(to_others(ui, finding));
        messages
    })
}

/// The way from a finding to its field.
fn to_field(ui: &mut Ui, evaluated: &Evaluated) -> Option<Message> {
    let words = in_use(ui);
    let aim = aim(words, evaluated)?;
    let go = say::go_to_field(words);
    let button = minor_button(ui, go);
    let is_clicked = button.clicked();
    let id = rules::id(words, evaluated.rule.id, evaluated.backup);
    button.accessible_name(say::of_rule(words, go, id));
    is_clicked.then_some(Message::GoTo(aim))
}

/// The ways to the other cases that it names.
fn to_others(ui: &mut Ui, finding: &Finding) -> Vec<Message> {
    let (mut messages, words) = (Vec::new(), in_use(ui));
    if let Fact::OtherCases(others) = &finding.measured {
        for other in others {
            if minor_button(ui, &say::open_case(words, other.name())).clicked() {
                let case = CaseId(other.case.clone());
                messages.push(Message::Ask(Request::OpenCase(case)));
            }
        }
    }
    messages
}

/// The strength as a word, then what was found.
fn title(ui: &mut Ui, evaluated: &Evaluated) {
    let rule = evaluated.rule;
    let palette = Palette::current(ui);
    let color = severity_color(palette, rule.severity);
    let font = FontId::new(measures::BODY, bold());
    let mut job = LayoutJob::default();
    let words = in_use(ui);
    let word = format!("{}  ", rule.severity.show(words));
    job.append(&word, 0.0, TextFormat::simple(font.clone(), color));
    job.append(
        &rules::title(words, rule.title, evaluated.backup),
        0.0,
        TextFormat::simple(font, palette.ink),
    );
    ui.label(job);
}

fn certainty(ui: &mut Ui, finding: &Finding) {
    if let Some(text) = rules::certainty(in_use(ui), finding.certainty) {
        muted(ui, sentence(&text));
    }
}

/// On request: how sure it is, why it matters and what may be done, and where limit and reason come from, each
/// with its standing. A card that is closed is read in a glance.
fn behind_why(ui: &mut Ui, state: &FindingsState, found: Found<'_>) {
    let Found { evaluated, finding } = found;
    let (rule, key) = (evaluated.rule, key(evaluated));
    let words = in_use(ui);
    if state.opened.contains(&key) {
        if !matches!(finding.certainty, Certainty::Borderline { .. }) {
            certainty(ui, finding);
        }
        if let Some(details) = rules::details(words, finding) {
            muted(ui, sentence(&details));
        }
        for source in rule.sources {
            small(ui, source.show(words));
        }
        ui.add_space(measures::TIGHT);
        muted(ui, words.reference(rule.why));
        muted(ui, words.reference(rule.options));
        let checks = words.reference(rule.checks);
        small(ui, say::rule(words, rule.id, checks));
    }
}

fn more(ui: &mut Ui, state: &mut FindingsState, key: Key) {
    let is_open = state.opened.contains(&key);
    let words = in_use(ui);
    let text = if is_open {
        say::less(words)
    } else {
        say::more(words)
    };
    let button = minor_button(ui, text);
    if button.clicked() {
        if is_open {
            state.opened.remove(&key);
        } else {
            state.opened.insert(key);
        }
    }
    let name = rules::id(words, key.0, key.1);
    button.accessible_name(say::of_rule(words, text, name));
}

fn others(ui: &mut Ui, plan: &Plan) {
    let missing = plan.not_evaluated().count();
    let words = in_use(ui);
    let title = say::not_evaluated(words, missing);
    let folds = CollapsingHeader::new(title)
        .id_salt("not evaluated")
        .default_open(true)
        .show(ui, |ui| {
            for evaluated in plan.not_evaluated() {
                if let Verdict::NotEvaluated(missing) = evaluated.verdict {
                    ui.label(
                        rules::title(words, evaluated.rule.title, evaluated.backup).into_owned(),
                    );
                    small(ui, say::missing(words, missing, evaluated.rule.id));
                }
            }
        });
    ring(ui, &folds.header_response);
    let satisfied = plan
        .rules
        .iter()
        .filter(|evaluated| matches!(evaluated.verdict, Verdict::Satisfied));
    list(ui, "satisfied", say::satisfied, satisfied);
    let elsewhere = plan
        .rules
        .iter()
        .filter(|evaluated| matches!(evaluated.verdict, Verdict::NotApplicable(_)));
    list(ui, "elsewhere", say::elsewhere, elsewhere);
}

fn list<'a>(
    ui: &mut Ui,
    salt: &str,
    title: fn(Words, usize) -> String,
    rules: impl Iterator<Item = &'a Evaluated> + Clone,
) {
    let words = in_use(ui);
    let folds = CollapsingHeader::new(title(words, rules.clone().count()))
        .id_salt(salt)
        .show(ui, |ui| {
            for evaluated in rules {
                let rule = evaluated.rule;
                let title = rules::title(words, rule.title, evaluated.backup);
                let text = match evaluated.verdict {
                    Verdict::NotApplicable(because) => say::because(words, rule.id, title, because),
                    _ => format!("{} {title}", rule.id),
                };
                small(ui, text);
            }
        });
    ring(ui, &folds.header_response);
}
