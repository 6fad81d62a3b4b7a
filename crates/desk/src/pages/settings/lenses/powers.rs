//! Powers a lens is made in, and the cylinders of a toric one.

use egui::Ui;
use millrace_core::iol_power::{PowerRange, Powers};
use millrace_core::lens::{LensRecord, PowerLabel, ToricSteps};
use millrace_core::quantity::{HundredthDiopters, decimal};
use millrace_wording::Words;
use millrace_wording::desk::lens_records as say;

use crate::widgets::quantity_kind::{POWER, UNSIGNED_POWER, in_words};
use crate::widgets::{Bare, Commit, Field, FormRows, JudgedField, minor_button, muted, small};
use crate::words::in_use;

/// Ranges and cylinders as entered so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PowersForm {
    ranges: Vec<RangeEntry>,
    is_toric: bool,
    label: Option<PowerLabel>,
    cylinders: Vec<HundredthDiopters>,
    /// Counts removals: a field that moves up does not inherit what was typed in its place.
    removed: u32,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct RangeEntry {
    from: Option<HundredthDiopters>,
    to: Option<HundredthDiopters>,
    step: Option<HundredthDiopters>,
}

impl PowersForm {
    pub(super) fn of(record: &LensRecord) -> Self {
        let range = |range: &PowerRange| RangeEntry {
            from: Some(range.from()),
            to: Some(range.to()),
            step: Some(range.step()),
        };
        Self {
            ranges: record.powers.ranges().iter().map(range).collect(),
            is_toric: record.toric.is_some(),
            label: record.toric.as_ref().map(ToricSteps::label),
            cylinders: record
                .toric
                .as_ref()
                .map(|toric| toric.cylinders().to_vec())
                .unwrap_or_default(),
            removed: 0,
        }
    }

    pub(super) fn missing(&self, words: Words) -> Vec<&'static str> {
        let is_partial =
            |range: &RangeEntry| range.from.is_none() || range.to.is_none() || range.step.is_none();
        let parts = [
            (say::missing_range(words), self.ranges.is_empty()),
            (
                say::missing_part_of_range(words),
                self.ranges.iter().any(is_partial),
            ),
            (
                say::missing_labeled_power(words),
                self.is_toric && self.label.is_none(),
            ),
        ];
        parts
            .into_iter()
            .filter_map(|(what, is_missing)| is_missing.then_some(what))
            .collect()
    }

    /// Powers and cylinders, or why they are none; only called once nothing is missing.
    pub(super) fn whole(&self, words: Words) -> Result<(Powers, Option<ToricSteps>), String> {
        let ranges = self
            .ranges
            .iter()
            .filter_map(|range| Some((range.from?, range.to?, range.step?)));
        let ranges: Result<Vec<_>, _> = ranges
            .map(|(from, to, step)| PowerRange::new(from, to, step))
            .collect();
        let powers = ranges.and_then(Powers::new).map_err(in_words(words))?;
        let toric = match self.label {
            Some(label) if self.is_toric => {
                let steps = ToricSteps::new(self.cylinders.clone(), label);
                Some(steps.map_err(in_words(words))?)
            }
            _ => None,
        };
        Ok((powers, toric))
    }

    pub(super) fn show(&mut self, ui: &mut Ui, form: &mut FormRows) {
        let (mut removed, words) = (None, in_use(ui));
        let key = self.removed;
        for (index, range) in self.ranges.iter_mut().enumerate() {
            let label = if index == 0 { say::powers(words) } else { "" };
            form.wide_row(ui, label, |form, ui, _| {
                let nth = index + 1;
                form.bare(
                    ui,
                    power(&say::range_from(words, nth), key),
                    &mut range.from,
                );
                muted(ui, say::to(words));
                form.bare(ui, power(&say::range_to(words, nth), key), &mut range.to);
                muted(ui, say::by(words));
                let step = Bare {
                    name: &say::range_step(words, nth),
                    key,
                    kind: &UNSIGNED_POWER,
                    width: 64.0,
                };
                form.bare(ui, step, &mut range.step);
                muted(ui, "D");
                let button = minor_button(ui, say::remove(words));
                if button.clicked() {
                    removed = Some(index);
                }
                button.accessible_name(say::remove_range(words, nth));
            });
        }
        if let Some(index) = removed {
            self.ranges.remove(index);
            self.removed += 1;
            ui.request_repaint();
        }
        let label = if self.ranges.is_empty() {
            say::powers(words)
        } else {
            ""
        };
        form.wide_row(ui, label, |_, ui, _| {
            if minor_button(ui, say::add_range(words)).clicked() {
                self.ranges.push(RangeEntry::default());
            }
        });
        self.toric(ui, form);
    }

    fn toric(&mut self, ui: &mut Ui, form: &mut FormRows) {
        let mut is_toric = Some(self.is_toric);
        let words = in_use(ui);
        let options = [(false, say::no(words)), (true, say::yes(words))];
        form.choice(ui, say::toric(words), &options, &mut is_toric);
        self.is_toric = is_toric.unwrap_or_default();
        if !self.is_toric {
            return;
        }
        let labels = [PowerLabel::SphericalEquivalent, PowerLabel::WeakestMeridian];
        let label = format!("    {}", say::labeled_power(words));
        form.choice_among(ui, &label, &labels, &mut self.label);
        let name = say::cylinders(words);
        form.wide_row(ui, &format!("    {name}"), |form, ui, named| {
            let field = Field::by(form.ground.with("cylinders"), named, name);
            self.cylinder_list(ui, field, &mut form.problems);
        });
        small(ui, say::what_cylinders_are(words));
    }

    fn cylinder_list(&mut self, ui: &mut Ui, field: Field<'_>, problems: &mut Vec<String>) {
        let words = in_use(ui);
        let shown: Vec<_> = self
            .cylinders
            .iter()
            .map(|cylinder| words.exact(cylinder.hundredths(), 2, 2))
            .collect();
        let judge = |text: &str| read_list(text, words).map(|_| ());
        let entered = JudgedField {
            field,
            text: &shown.join("; "),
            about: say::about_cylinders(words),
            width: 300.0,
        }
        .show(ui, &judge);
        muted(ui, "D");
        problems.extend(entered.problem);
        match entered.commit {
            Some(Commit::Entered(text)) => {
                self.cylinders = read_list(&text, words).unwrap_or_default();
            }
            Some(Commit::Cleared) => self.cylinders.clear(),
            None => {}
        }
    }
}

/// The field of one end of a range.
const fn power(name: &str, key: u32) -> Bare<'_, HundredthDiopters> {
    Bare {
        name,
        key,
        kind: &POWER,
        width: 76.0,
    }
}

/// "1.00; 1,50; 2.25": a comma may be a decimal sign, so that only ; and spaces part two numbers.
fn read_list(text: &str, words: Words) -> Result<Vec<HundredthDiopters>, String> {
    let parts = text.split([';', ' ']).filter(|part| !part.is_empty());
    let numbers = parts.map(|part| {
        let number = part.strip_suffix('D').unwrap_or(part);
        decimal::parse(number, 2).map(HundredthDiopters::new)
    });
    numbers.collect::<Result<_, _>>().map_err(in_words(words))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cylinders_are_read_with_point_or_comma() {
        let read = |text| {
            let list = read_list(text, Words::ENGLISH)?;
            Ok::<_, String>(
                list.into_iter()
                    .map(HundredthDiopters::hundredths)
                    .collect(),
            )
        };
        let three: Vec<i32> = vec![100, 150, 225];
        for text in ["1.00; 1.50; 2.25", "1,00;1,50;2,25", "1 1.5 2.25"] {
            assert_eq!(read(text), Ok(three.clone()), "{text}");
        }
        assert_eq!(read("1.00, 1.50").unwrap_err(), "\"1.00,\" is not a number");
    }
}
