//! Signs that were looked for or not, and the few numbers of the state of an eye.

use egui::{Id, Response, Ui};
use millrace_core::biometry::{EyeState, Item, Sign, SiliconeOil};
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words, sentence};

use super::row::other_cell;
use super::{BiometryState, EyePage, go_to_other, id_of, sitting};
use crate::theme::measures;
use crate::widgets::quantity_kind::{Kind, LENGTH};
use crate::widgets::value_order::{self, Step};
use crate::widgets::{Named, NumberField, Segments, cell, muted};

/// What can be answered to a question.
pub(super) fn answers(words: Words) -> [(Option<bool>, &'static str); 3] {
    [
        (None, say::not_recorded(words)),
        (Some(false), say::no(words)),
        (Some(true), say::yes(words)),
    ]
}

/// What was recorded, if anything was.
pub(super) fn yes_or_no(words: Words, recorded: Option<bool>) -> Option<&'static str> {
    recorded.map(|is_so| {
        if is_so {
            say::yes(words)
        } else {
            say::no(words)
        }
    })
}

pub(super) fn show(
    ui: &mut Ui,
    page: &EyePage<'_>,
    next: &mut EyeState,
    state: &mut BiometryState,
) {
    all_others(ui, page, next, state);
    let words = page.words;
    for &sign in Sign::ALL {
        let name = sentence(&sign.show(words));
        let line = page.line(&name, yes_or_no(words, sign.of(&page.other.state)));
        let seen = line.choice(ui, &answers(words), sign.of(next));
        sign.set(next, seen);
        if sign == Sign::PosteriorPolar {
            polar_opacity(ui, page, next);
        }
    }
    let oil = [
        (None, say::not_recorded(words)),
        (Some(SiliconeOil::Absent), say::no(words)),
        (Some(SiliconeOil::LengthUncorrected), say::yes(words)),
        (
            Some(SiliconeOil::LengthCorrected),
            say::yes_in_oil_mode(words),
        ),
    ];
    let other = page.other.state.silicone_oil.map(|oil| match oil {
        SiliconeOil::Absent => say::no(words),
        SiliconeOil::LengthUncorrected | SiliconeOil::LengthCorrected => say::yes(words),
    });
    let line = page.line(say::silicone_oil(words), other);
    next.silicone_oil = line.choice(ui, &oil, next.silicone_oil);
}

/// One act for all signs of this eye that nobody recorded yet: they were looked for and are absent. It names
/// every one of them; what was answered stays as it is.
fn all_others(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState, state: &mut BiometryState) {
    let words = page.words;
    let is_next = core::mem::take(&mut state.leads_on);
    let open: Vec<_> = Sign::ALL
        .iter()
        .filter(|sign| sign.of(next).is_none())
        .collect();
    let mut names: Vec<_> = open.iter().map(|sign| sign.show(words)).collect();
    if next.silicone_oil.is_none() {
        names.push(say::silicone_oil_within(words).into());
    }
    let Some(first) = names.first() else {
        let button = lead_on(ui, page, state);
        if let Some(button) = button.filter(|_| is_next) {
            button.request_focus();
        }
        return;
    };
    let first = page.choice_id(&sentence(first));
    let name = say::all_others(words);
    let button = deed(ui, page, name).accessible_name(page.name(name));
    page.tell(ui, &say::answers_no(words, words.list(names)));
    if button.clicked() {
        for sign in open {
            sign.set(next, Some(false));
        }
        next.silicone_oil = next.silicone_oil.or(Some(SiliconeOil::Absent));
        // The button goes: on to the other eye, or to what it answered.
        if sitting::is_offered(&state.sitting, page.side.other()) {
            state.leads_on = true;
        } else {
            ui.memory_mut(|memory| memory.request_focus(first));
        }
    }
}

/// Once all signs of this eye are answered: on to the other one, while nothing was said of how that one is
/// measured. What is said of this one is taken over by this act, and named beside it.
fn lead_on(ui: &mut Ui, page: &EyePage<'_>, state: &mut BiometryState) -> Option<Response> {
    let (words, other) = (page.words, page.side.other());
    if !sitting::is_offered(&state.sitting, other) {
        return None;
    }
    let button = deed(ui, page, &say::lead_on(words, other));
    page.tell(ui, &state.sitting.get(page.side).said(words));
    if button.clicked() {
        sitting::take_over(&mut state.sitting, other);
        go_to_other(
            state,
            page.side,
            id_of(page.view, other, &Item::AxialLength),
        );
        ui.request_repaint();
    }
    Some(button)
}

/// A button of the column that the Enter key passes by.
fn deed(ui: &mut Ui, page: &EyePage<'_>, name: &str) -> Response {
    ui.horizontal(|ui| {
        ui.add_space(page.columns.indent() + page.columns.label + measures::NEAR);
        value_order::act(ui, page.id(("deed", name)), name, Step::Deed)
    })
    .inner
}

/// How wide a posterior polar opacity is: asked where there is one, or a width is recorded.
fn polar_opacity(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    if next.posterior_polar != Some(true) && next.polar_opacity.is_none() {
        return;
    }
    let (words, other) = (page.words, page.other.state.polar_opacity);
    let other = other.map(|diameter| diameter.show(words).into_owned());
    page.line(say::polar_opacity(words), other.as_deref())
        .number(ui, &LENGTH, &mut next.polar_opacity);
}

/// What can be answered, "not recorded" among it.
pub(super) type Answers<'a, T> = [(Option<T>, &'a str)];

pub(super) fn numbers(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let other = page
        .other
        .state
        .lens_decentration
        .map(|off| off.show(page.words).into_owned());
    page.line(say::decentration(page.words), other.as_deref())
        .number(ui, &LENGTH, &mut next.lens_decentration);
}

/// A row of one eye.
#[derive(Clone, Copy)]
pub(super) struct Line<'a> {
    pub(super) page: &'a EyePage<'a>,
    /// What it is called.
    pub(super) name: &'a str,
    /// The other eye's text.
    other: Option<&'a str>,
}

impl EyePage<'_> {
    /// A choice of the state of an eye.
    fn choice_id(&self, name: &str) -> Id {
        id_of(self.view, self.side, &("choice", name))
    }

    /// A row called `name` with the other eye's text beside it.
    pub(super) fn line<'a>(&'a self, name: &'a str, other: Option<&'a str>) -> Line<'a> {
        let page = self;
        Line { page, name, other }
    }
}

impl Line<'_> {
    /// Shows name, control and the other eye's text.
    pub(super) fn show<R>(self, ui: &mut Ui, control: impl FnOnce(&mut Ui) -> R) -> R {
        let (page, place) = (self.page, self.page.columns);
        ui.horizontal(|ui| {
            if place.is_turned {
                other_cell(ui, page, self.name, self.other);
            }
            cell(ui, place.label, |ui| ui.label(self.name));
            let width = place.field + place.unit + place.method + place.more + 3.0 * measures::NEAR;
            let result = cell(ui, width, control);
            if !place.is_turned {
                other_cell(ui, page, self.name, self.other);
            }
            result
        })
        .inner
    }

    /// With a choice; what is chosen now.
    pub(super) fn choice<T: Copy + PartialEq>(
        self,
        ui: &mut Ui,
        options: &Answers<'_, T>,
        now: Option<T>,
    ) -> Option<T> {
        let Self { page, name, .. } = self;
        self.show(ui, |ui| {
            let id = page.choice_id(name);
            let chosen = Segments::new(id, &page.name(name), options, Some(now)).show(ui);
            value_order::pass(ui, id, id, Step::Choice);
            chosen.unwrap_or(now)
        })
    }

    /// With one number.
    pub(super) fn number<T: Copy + PartialEq>(
        self,
        ui: &mut Ui,
        kind: &Kind<T>,
        value: &mut Option<T>,
    ) {
        let Self { page, name, .. } = self;
        let entered = self.show(ui, |ui| {
            let name = page.name(name);
            let id = page.id(("number", &name));
            let entered = NumberField::new(id, Named::As(&name), kind, *value).show(ui);
            muted(ui, kind.unit);
            entered
        });
        if let Some(why) = entered.problem {
            page.wrong(ui, &why);
        }
        if let Some(commit) = entered.commit {
            *value = commit.value();
        }
    }
}
