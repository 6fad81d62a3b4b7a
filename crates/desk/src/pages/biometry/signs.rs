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

const SIGNS: [Sign; 15] = [
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
    sign!(iris_defect),
    sign!(narrow_angle),
    sign!(other_difficulty),
];

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let words = page.words;
    for Sign(name, of, set) in &SIGNS {
        let line = page.line(name(words), yes_or_no(words, of(&page.other.state)));
        set(next, line.choice(ui, &answers(words), of(next)));
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
                other_cell(ui, page, self.other);
            }
            cell(ui, place.label, |ui| ui.label(self.name));
            let width = place.field + place.unit + place.method + place.more + 3.0 * measures::NEAR;
            let result = cell(ui, width, control);
            if !place.is_turned {
                other_cell(ui, page, self.other);
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
            let id = page.id(("choice", name));
            Segments::new(id, &page.name(name), options, Some(now))
                .show(ui)
                .unwrap_or(now)
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
            problem(ui, &why);
        }
        if let Some(commit) = entered.commit {
            *value = commit.value();
        }
    }
}
