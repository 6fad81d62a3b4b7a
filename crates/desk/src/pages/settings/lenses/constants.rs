//! The constants of a lens, each with how it was come by.

use egui::Ui;
use millrace_core::iol_power::{AConstant, HaigisConstants, PersonalizedAcd, SurgeonFactor};
use millrace_core::lens::{Constant, Obtained, RecordConstants};
use millrace_wording::desk::lens_records as say;
use millrace_wording::{Show as _, Words};

use crate::pages::settings::kinds::{A_CONSTANT, EYES, NUMBER, PACD, SURGEON_FACTOR};
use crate::widgets::{Bare, FormRows, Kind, Pick, cell, muted};
use crate::words::in_use;

/// Width of the list of ways.
const WAY: f32 = 170.0;

/// The constants as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct ConstantsForm {
    a_constant: Entry<AConstant>,
    pacd: Entry<PersonalizedAcd>,
    surgeon_factor: Entry<SurgeonFactor>,
    haigis: [Option<f64>; 3],
    haigis_obtained: Origin,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Entry<T> {
    value: Option<T>,
    origin: Origin,
}

impl<T> Default for Entry<T> {
    fn default() -> Self {
        Self {
            value: None,
            origin: Origin::default(),
        }
    }
}

/// How a constant was come by, as entered so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Origin {
    way: Option<Way>,
    eyes: Option<u32>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Way {
    Given,
    Optimized,
    ConvertedFromA,
}

impl Origin {
    fn of(obtained: Obtained) -> Self {
        let (way, eyes) = match obtained {
            Obtained::Given => (Way::Given, None),
            Obtained::Optimized { eyes } => (Way::Optimized, Some(eyes)),
            Obtained::ConvertedFromA => (Way::ConvertedFromA, None),
        };
        Self {
            way: Some(way),
            eyes,
        }
    }

    fn whole(self) -> Option<Obtained> {
        Some(match self.way? {
            Way::Given => Obtained::Given,
            Way::Optimized => Obtained::Optimized { eyes: self.eyes? },
            Way::ConvertedFromA => Obtained::ConvertedFromA,
        })
    }

    fn show(&mut self, ui: &mut Ui, form: &mut FormRows, name: &str) {
        let words = in_use(ui);
        let ways = [
            (Way::Given, say::given(words).to_owned()),
            (Way::Optimized, say::optimized(words).to_owned()),
            (Way::ConvertedFromA, say::converted(words).to_owned()),
        ];
        let how = say::how_obtained(words, name);
        let id = form.ground.with(&how);
        let chosen = cell(ui, WAY, |ui| {
            Pick::new(id, &how, &ways, self.way).show(ui, WAY)
        });
        self.way = chosen.or(self.way);
        if self.way == Some(Way::Optimized) {
            muted(ui, say::on(words));
            let name = say::number_of_eyes(words, name);
            form.bare(ui, Bare::new(&name, &EYES, 64.0), &mut self.eyes);
            muted(ui, say::eyes(words));
        }
    }
}

impl<T: Copy + PartialEq> Entry<T> {
    fn of(constant: Option<Constant<T>>) -> Self {
        constant.map_or_else(Self::default, |constant| Self {
            value: Some(constant.value),
            origin: Origin::of(constant.obtained),
        })
    }

    fn is_partial(&self) -> bool {
        self.value.is_some() && self.origin.whole().is_none()
    }

    fn whole(&self) -> Option<Constant<T>> {
        Some(Constant {
            value: self.value?,
            obtained: self.origin.whole()?,
        })
    }

    fn show(&mut self, ui: &mut Ui, form: &mut FormRows, name: &str, kind: &Kind<T>) {
        form.wide_row(ui, name, |form, ui, _| {
            form.bare(ui, Bare::new(name, kind, 84.0), &mut self.value);
            if !kind.unit.is_empty() {
                muted(ui, kind.unit);
            }
            if self.value.is_some() {
                self.origin.show(ui, form, name);
            }
        });
    }
}

impl ConstantsForm {
    pub(super) fn of(constants: &RecordConstants) -> Self {
        let haigis = constants.haigis;
        Self {
            a_constant: Entry::of(constants.a_constant),
            pacd: Entry::of(constants.personalized_acd),
            surgeon_factor: Entry::of(constants.surgeon_factor),
            haigis: haigis.map_or([None; 3], |haigis| {
                let value = haigis.value;
                [value.a0_mm(), value.a1(), value.a2()].map(Some)
            }),
            haigis_obtained: haigis
                .map_or_else(Origin::default, |haigis| Origin::of(haigis.obtained)),
        }
    }

    pub(super) fn missing(&self, words: Words) -> Vec<&'static str> {
        let entered = self.haigis.iter().flatten().count();
        let parts = [
            (say::missing_a_constant(words), self.a_constant.is_partial()),
            (say::missing_pacd(words), self.pacd.is_partial()),
            (
                say::missing_surgeon_factor(words),
                self.surgeon_factor.is_partial(),
            ),
            (say::missing_of_haigis(words), entered == 1 || entered == 2),
            (
                say::missing_haigis(words),
                entered == 3 && self.haigis_obtained.whole().is_none(),
            ),
        ];
        parts
            .into_iter()
            .filter_map(|(what, is_missing)| is_missing.then_some(what))
            .collect()
    }

    /// Why the three of Haigis are none.
    pub(super) fn problem(&self, words: Words) -> Option<String> {
        let [Some(a0), Some(a1), Some(a2)] = self.haigis else {
            return None;
        };
        let made = HaigisConstants::new(a0, a1, a2);
        made.err().map(|error| error.show(words).into_owned())
    }

    /// The constants once nothing is missing and nothing is wrong.
    pub(super) fn whole(&self) -> Option<RecordConstants> {
        let haigis = match self.haigis {
            [Some(a0), Some(a1), Some(a2)] => Some(Constant {
                value: HaigisConstants::new(a0, a1, a2).ok()?,
                obtained: self.haigis_obtained.whole()?,
            }),
            _ => None,
        };
        Some(RecordConstants {
            a_constant: self.a_constant.whole(),
            personalized_acd: self.pacd.whole(),
            surgeon_factor: self.surgeon_factor.whole(),
            haigis,
        })
    }

    pub(super) fn show(&mut self, ui: &mut Ui, form: &mut FormRows) {
        let words = in_use(ui);
        let name = say::a_constant(words);
        self.a_constant.show(ui, form, name, &A_CONSTANT);
        self.pacd.show(ui, form, say::pacd(words), &PACD);
        let name = say::surgeon_factor(words);
        self.surgeon_factor.show(ui, form, name, &SURGEON_FACTOR);
        let name = say::haigis(words);
        form.wide_row(ui, name, |form, ui, _| {
            for (field, value) in ["Haigis a0", "Haigis a1", "Haigis a2"]
                .into_iter()
                .zip(&mut self.haigis)
            {
                form.bare(ui, Bare::new(field, &NUMBER, 64.0), value);
            }
        });
        if self.haigis.iter().any(Option::is_some) {
            form.wide_row(ui, "", |form, ui, _| {
                self.haigis_obtained.show(ui, form, "Haigis");
            });
        }
    }
}
