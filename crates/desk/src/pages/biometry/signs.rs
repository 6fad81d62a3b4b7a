//! Signs that were looked for or not, and the few numbers of the state of an eye.

use egui::Ui;
use millrace_core::biometry::{EyeState, SiliconeOil};
use millrace_wording::desk::biometry as say;
use millrace_wording::{Show as _, Words};

use super::EyePage;
use super::row::other_cell;
use crate::theme::measures;
use crate::widgets::quantity_kind::{Kind, LENGTH};
use crate::widgets::{Named, NumberField, Segments, cell, muted, problem};

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

/// A sign: its name and where the state keeps it.
struct Sign(
    fn(Words) -> &'static str,
    fn(&EyeState) -> Option<bool>,
    fn(&mut EyeState, Option<bool>),
);

macro_rules! sign {
    ($field:ident) => {
        Sign(
            say::$field,
            |state| state.$field,
            |state, seen| state.$field = seen,
        )
    };
}

const SIGNS: [Sign; 13] = [
    sign!(dense_cataract),
    sign!(white_cataract),
    sign!(brunescent),
    sign!(posterior_polar),
    sign!(capsule_plaque),
    sign!(pseudoexfoliation),
    sign!(phacodonesis),
    sign!(guttata),
    sign!(corneal_scarring),
    sign!(irregular_cornea),
    sign!(keratoplasty_likely),
    sign!(previous_vitrectomy),
    sign!(other_difficulty),
];

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let words = page.words;
    for Sign(name, of, set) in &SIGNS {
        let other = yes_or_no(words, of(&page.other.state));
        let seen = choice(ui, page, (name(words), &answers(words)), (of(next), other));
        set(next, seen);
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
    let now = (next.silicone_oil, other);
    next.silicone_oil = choice(ui, page, (say::silicone_oil(words), &oil), now);
}

/// What can be answered, "not recorded" among it.
pub(super) type Answers<'a, T> = [(Option<T>, &'a str)];

/// A row with a choice; what is chosen now.
pub(super) fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    (name, options): (&str, &Answers<'_, T>),
    (now, other): (Option<T>, Option<&str>),
) -> Option<T> {
    row(ui, page, name, other, |ui| {
        let id = page.id(("choice", name));
        Segments::new(id, &page.name(name), options, Some(now))
            .show(ui)
            .unwrap_or(now)
    })
}

/// A row of name, control and the other eye's text.
pub(super) fn row<R>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    name: &str,
    other: Option<&str>,
    control: impl FnOnce(&mut Ui) -> R,
) -> R {
    let place = page.columns;
    ui.horizontal(|ui| {
        if place.is_turned {
            other_cell(ui, page, other);
        }
        cell(ui, place.label, |ui| ui.label(name));
        let width = place.field + place.unit + place.method + place.more + 3.0 * measures::NEAR;
        let result = cell(ui, width, control);
        if !place.is_turned {
            other_cell(ui, page, other);
        }
        result
    })
    .inner
}

pub(super) fn numbers(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let other = page
        .other
        .state
        .lens_decentration
        .map(|off| off.show(page.words).into_owned());
    let field = (say::decentration(page.words), &LENGTH, other);
    number(ui, page, field, &mut next.lens_decentration);
}

/// A row with one number.
pub(super) fn number<T: Copy + PartialEq>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    (name, kind, other): (&str, &Kind<T>, Option<String>),
    value: &mut Option<T>,
) {
    let entered = row(ui, page, name, other.as_deref(), |ui| {
        let name = page.name(name);
        let id = page.id(("number", &name));
        let entered = NumberField::new(id, Named::As(&name), kind, *value).show(ui);
        muted(ui, kind.unit);
        entered
    });
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    if let Some(commit) = entered.commit {
        *value = commit.value();
    }
}
