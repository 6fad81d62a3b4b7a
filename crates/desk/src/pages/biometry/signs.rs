//! Signs that were looked for or not, and the few numbers of the state of an eye.

use egui::Ui;
use millrace_core::biometry::{EyeState, SiliconeOil};

use super::EyePage;
use super::row::other_cell;
use crate::theme::measures;
use crate::widgets::quantity_kind::{Kind, LENGTH};
use crate::widgets::{Named, NumberField, Segments, cell, muted, problem};

pub(super) const ANSWERS: [(Option<bool>, &str); 3] = [
    (None, "not recorded"),
    (Some(false), "no"),
    (Some(true), "yes"),
];

/// A sign: its name and where the state keeps it.
struct Sign(
    &'static str,
    fn(&EyeState) -> Option<bool>,
    fn(&mut EyeState, Option<bool>),
);

macro_rules! sign {
    ($name:literal, $field:ident) => {
        Sign(
            $name,
            |state| state.$field,
            |state, seen| state.$field = seen,
        )
    };
}

const SIGNS: [Sign; 13] = [
    sign!("Dense, total cataract", dense_cataract),
    sign!("White cataract", white_cataract),
    sign!("Brunescent cataract", brunescent),
    sign!("Posterior polar", posterior_polar),
    sign!("Capsule plaque", capsule_plaque),
    sign!("Pseudoexfoliation", pseudoexfoliation),
    sign!("Phacodonesis", phacodonesis),
    sign!("Guttata", guttata),
    sign!("Corneal scarring", corneal_scarring),
    sign!("Irregular cornea", irregular_cornea),
    sign!("Graft likely later", keratoplasty_likely),
    sign!("Previous vitrectomy", previous_vitrectomy),
    sign!("Other difficulty", other_difficulty),
];

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    for Sign(name, of, set) in &SIGNS {
        let other = of(&page.other.state).map(|seen| if seen { "yes" } else { "no" });
        let seen = choice(ui, page, (name, &ANSWERS), (of(next), other));
        set(next, seen);
    }
    let oil = [
        (None, "not recorded"),
        (Some(SiliconeOil::Absent), "no"),
        (Some(SiliconeOil::LengthUncorrected), "yes"),
        (Some(SiliconeOil::LengthCorrected), "yes, in oil mode"),
    ];
    let other = page.other.state.silicone_oil.map(|oil| match oil {
        SiliconeOil::Absent => "no",
        SiliconeOil::LengthUncorrected | SiliconeOil::LengthCorrected => "yes",
    });
    let now = (next.silicone_oil, other);
    next.silicone_oil = choice(ui, page, ("Silicone oil", &oil), now);
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
        .map(|off| off.to_string());
    let field = ("Lens decentration", &LENGTH, other);
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
