//! What speaks against the plan: every rule that found something, could not be evaluated, or passed.

use std::collections::BTreeSet;

use egui::text::{LayoutJob, TextFormat};
use egui::{CollapsingHeader, FontId, Id, RichText, Ui};
use millrace_core::case::{Command, RecordedReason};
use millrace_core::plan::{Evaluated, Plan, ReasonState};
use millrace_core::rules::{Finding, Rule, Severity, Verdict, wording};

use crate::pages::CaseView;
use crate::theme::{Palette, bold, measures, strong_style};
use crate::widgets::{
    Commit, Field, beside, heading, low_row, minor_button, muted, open_ring, problem, said,
    severity_color, severity_shape, small, text_field,
};
use crate::words::{day, sentence};

/// What is opened in the panel, and the reason being written.
#[derive(Debug, Default)]
pub struct FindingsState {
    opened: BTreeSet<&'static str>,
    writing: Option<&'static str>,
}

/// What F6 lands on in the panel.
#[must_use]
pub fn landing_id() -> Id {
    Id::unique("findings landing")
}

/// Shows the panel.
pub fn show(ui: &mut Ui, view: &CaseView<'_>, state: &mut FindingsState) -> Vec<Command> {
    let mut commands = Vec::new();
    let Ok(plan) = view.plan else {
        heading(ui, "Findings");
        muted(ui, "Choose the operated eye; every rule looks at it");
        return commands;
    };
    summary(ui, plan);
    for severity in [Severity::Stop, Severity::Review, Severity::Note] {
        for evaluated in plan.findings(severity) {
            if let Verdict::Finding(finding) = &evaluated.verdict {
                ui.add_space(measures::NEAR);
                ui.separator();
                commands.extend(one(ui, view, state, Found { evaluated, finding }));
            }
        }
    }
    ui.add_space(measures::NEAR);
    ui.separator();
    others(ui, plan);
    commands
}

fn summary(ui: &mut Ui, plan: &Plan) {
    let title = heading(ui, "Findings");
    ui.interact(title.rect, landing_id(), egui::Sense::FOCUSABLE)
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, "Findings panel"));
    for severity in [Severity::Stop, Severity::Review, Severity::Note] {
        let count = plan.findings(severity).count();
        let open = plan
            .findings(severity)
            .filter(|found| found.is_open())
            .count();
        low_row(ui, |ui| {
            severity_shape(ui, severity);
            let color = severity_color(Palette::current(ui), severity);
            let text = RichText::new(format!("{severity} {count}"));
            ui.label(text.text_style(strong_style()).color(color));
            if severity == Severity::Review && 0 < count {
                let words = match open {
                    0 => "each with a reason".to_owned(),
                    _ => format!("{open} without a reason"),
                };
                muted(ui, words);
            }
            if severity == Severity::Stop && 0 < count {
                muted(ui, "cannot be signed");
            }
        });
    }
    let missing = plan.not_evaluated().count();
    low_row(ui, |ui| {
        open_ring(ui);
        muted(ui, format!("{missing} could not be evaluated"));
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
) -> Vec<Command> {
    let Found { evaluated, finding } = found;
    let rule = evaluated.rule;
    let shape = |ui: &mut Ui| {
        severity_shape(ui, rule.severity);
    };
    beside(ui, shape, |ui| {
        title(ui, rule);
        said(ui, sentence(&wording::finding(finding)));
        if let Some(text) = wording::certainty(finding.certainty) {
            muted(ui, sentence(&text));
        }
        if let Some(details) = wording::details(finding) {
            muted(ui, sentence(&details));
        }
        let commands = reason(ui, view, state, found);
        sources(ui, state, rule);
        commands
    })
}

/// The strength as a word, then what was found.
fn title(ui: &mut Ui, rule: &Rule) {
    let palette = Palette::current(ui);
    let color = severity_color(palette, rule.severity);
    let font = FontId::new(measures::BODY, bold());
    let mut job = LayoutJob::default();
    let word = format!("{}  ", rule.severity);
    job.append(&word, 0.0, TextFormat::simple(font.clone(), color));
    job.append(rule.title, 0.0, TextFormat::simple(font, palette.ink));
    ui.label(job);
}

/// Where limit and reason come from, each with its standing; on request also why and what then.
fn sources(ui: &mut Ui, state: &mut FindingsState, rule: &'static Rule) {
    ui.add_space(measures::TIGHT);
    for source in rule.sources {
        small(ui, source.to_string());
    }
    if state.opened.contains(rule.id) {
        ui.add_space(measures::TIGHT);
        muted(ui, rule.why);
        muted(ui, rule.options);
        small(ui, format!("Rule {}. {}", rule.id, rule.checks));
    }
    more(ui, state, rule.id);
}

fn more(ui: &mut Ui, state: &mut FindingsState, id: &'static str) {
    let is_open = state.opened.contains(id);
    let words = if is_open {
        "Less"
    } else {
        "Why, and what may be done"
    };
    let button = minor_button(ui, words);
    if button.clicked() {
        if is_open {
            state.opened.remove(id);
        } else {
            state.opened.insert(id);
        }
    }
    button.accessible_name(format!("{words}, {id}"));
}

fn reason(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut FindingsState,
    found: Found<'_>,
) -> Vec<Command> {
    let evaluated = found.evaluated;
    let rule = evaluated.rule;
    let mut commands = Vec::new();
    match &evaluated.reason {
        ReasonState::None => {}
        ReasonState::Standing(recorded) => {
            said(ui, reason_text("Reason", recorded));
            let button = minor_button(ui, "Withdraw the reason");
            if button.clicked() {
                commands.push(Command::WithdrawReason {
                    rule: rule.id.to_owned(),
                });
            }
            button.accessible_name(format!("Withdraw the reason, {}", rule.id));
        }
        ReasonState::Outdated(recorded) => {
            muted(
                ui,
                reason_text(
                    "Does not count any more, the finding reads otherwise now",
                    recorded,
                ),
            );
        }
    }
    // No reason lifts a Stop.
    if evaluated.is_open() && rule.severity == Severity::Review {
        commands.extend(write_reason(ui, view, state, found));
    }
    commands
}

fn reason_text(head: &str, recorded: &RecordedReason) -> String {
    format!(
        "{head} ({}, {}) {}",
        recorded.by,
        day(recorded.on),
        recorded.reason
    )
}

fn write_reason(
    ui: &mut Ui,
    view: &CaseView<'_>,
    state: &mut FindingsState,
    found: Found<'_>,
) -> Option<Command> {
    let (id, finding) = (found.evaluated.rule.id, found.finding);
    if state.writing != Some(id) {
        let button = ui.button("Record a reason…");
        if button.clicked() {
            state.writing = Some(id);
        }
        button.accessible_name(format!("Record a reason for {id}…"));
        return None;
    }
    if view.author.is_empty() {
        muted(
            ui,
            "Set your name in the settings first; a reason is signed",
        );
        return None;
    }
    let name = format!("Reason for {id}");
    let field = Field::called(view.ground.with(("reason", id)), &name);
    let width = ui.available_width();
    let entered = text_field(ui, field, None, "reason", width);
    small(
        ui,
        format!("{}, {}; Enter records it", view.author, day(view.today)),
    );
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    let Some(Commit::Entered(reason)) = entered.commit else {
        return None;
    };
    state.writing = None;
    Some(Command::RecordReason(RecordedReason {
        rule: id.to_owned(),
        measured: finding.measured.clone(),
        limit: finding.limit.clone(),
        reason,
        by: view.author.to_owned(),
        on: view.today,
    }))
}

fn others(ui: &mut Ui, plan: &Plan) {
    let missing = plan.not_evaluated().count();
    let title = format!("Could not be evaluated ({missing})");
    CollapsingHeader::new(title)
        .id_salt("not evaluated")
        .default_open(true)
        .show(ui, |ui| {
            for evaluated in plan.not_evaluated() {
                if let Verdict::NotEvaluated(missing) = evaluated.verdict {
                    let missing = wording::missing(missing);
                    ui.label(evaluated.rule.title);
                    small(ui, format!("Missing: {missing} ({})", evaluated.rule.id));
                }
            }
        });
    let satisfied = plan
        .rules
        .iter()
        .filter(|evaluated| matches!(evaluated.verdict, Verdict::Satisfied));
    list(ui, "Satisfied", satisfied);
    let elsewhere = plan
        .rules
        .iter()
        .filter(|evaluated| matches!(evaluated.verdict, Verdict::NotApplicable(_)));
    list(ui, "Do not concern this case", elsewhere);
}

fn list<'a>(ui: &mut Ui, title: &str, rules: impl Iterator<Item = &'a Evaluated> + Clone) {
    let count = rules.clone().count();
    CollapsingHeader::new(format!("{title} ({count})"))
        .id_salt(title)
        .show(ui, |ui| {
            for evaluated in rules {
                let because = match evaluated.verdict {
                    Verdict::NotApplicable(because) => format!(": {}", wording::because(because)),
                    _ => String::new(),
                };
                small(
                    ui,
                    format!("{} {}{because}", evaluated.rule.id, evaluated.rule.title),
                );
            }
        });
}
