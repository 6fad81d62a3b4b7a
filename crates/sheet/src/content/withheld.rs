//! What a draft does not say: no lens power, wherever it would stand. A power that stands on paper is
//! read as the one to implant, whatever stands across the page.

use std::collections::BTreeSet;

use millrace_core::case::Draft;
use millrace_core::document::Results;
use millrace_core::quantity::HundredthDiopters;
use millrace_wording::{Words, sheet as say};

use crate::data::SheetData;

/// Signs before a power; a hyphen typed for a minus is one.
const SIGNS: [char; 5] = ['+', '-', '\u{2212}', '±', '\u{2013}'];

/// Takes every lens power out of what a draft is printed from.
pub(super) fn take_out(data: &mut SheetData, (draft, results): (&Draft, &Results), words: Words) {
    let powers = Powers {
        known: known(draft, results),
        instead: say::power_in_text(words),
    };
    say::formulas_on_draft(words).clone_into(&mut data.formulas.title);
    for row in &mut data.formulas.rows {
        "–".clone_into(&mut row.proposed);
    }
    let of_program = data.formulas.notes.iter_mut();
    let of_program = of_program.chain(data.formulas.refused.iter_mut().map(|row| &mut row.reason));
    let overrides = data.overrides.iter_mut();
    let overrides = overrides.filter(|over| !is_of_targets(&over.id));
    let rows = data.findings.rows.iter_mut();
    let rows = rows.filter(|row| !is_of_targets(&row.id));
    let of_program = of_program.chain(overrides.map(|over| &mut over.sentence));
    let of_program = of_program.chain(rows.map(|row| &mut row.text));
    let names = data.lens.others.iter_mut().map(|other| &mut other.name);
    let names = names.chain([&mut data.lens.name, &mut data.lens.model]);
    let told = data.told.iter_mut().map(|fact| &mut fact.text);
    for text in of_program.chain(names).chain(told) {
        *text = powers.without(text, Whose::Program);
    }
    let reasons = data.overrides.iter_mut().map(|over| &mut over.reason);
    let reasons = reasons.chain(
        data.findings
            .rows
            .iter_mut()
            .filter_map(|row| row.reason.as_mut()),
    );
    let approach = data.approach.iter_mut();
    for text in reasons.chain(approach.map(|fact| &mut fact.text)) {
        *text = powers.without(text, Whose::Person);
    }
}

/// Rules that speak of targets alone, which are refractions and stand on a draft.
fn is_of_targets(rule: &str) -> bool {
    rule == "ID-02" || rule.starts_with("TG-")
}

/// Every power that was chosen or is proposed, and every cylinder, in hundredths and without its sign.
fn known(draft: &Draft, results: &Results) -> BTreeSet<i64> {
    let mut known = BTreeSet::new();
    let unsigned = |power: HundredthDiopters| i64::from(power.hundredths()).abs();
    for (_, lens) in draft.lens.lenses.iter() {
        let cylinder = lens.toric.map(|toric| toric.cylinder);
        known.extend(lens.power.into_iter().chain(cylinder).map(unsigned));
    }
    let ladders = results.backups.iter().map(|backup| &backup.ladder);
    let ladders = ladders.chain(results.ladder.answer());
    for result in ladders.flat_map(|ladder| &ladder.formulas) {
        let proposed = result.outcome.answer().and_then(|it| it.proposed_power_d);
        known.extend(proposed.map(unsigned));
    }
    known
}

/// Who wrote a text: a person leaves out signs and units.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Whose {
    Program,
    Person,
}

struct Powers {
    known: BTreeSet<i64>,
    /// What stands in the place of a power.
    instead: &'static str,
}

impl Powers {
    fn without(&self, text: &str, whose: Whose) -> String {
        let mut left = String::new();
        let mut rest = text;
        while let Some(number) = Number::first_in(rest) {
            left.push_str(number.before);
            if self.is_one(&number, whose) {
                left.push_str(self.instead);
            } else {
                for part in [number.sign, number.digits, number.unit] {
                    left.push_str(part);
                }
            }
            rest = number.after;
        }
        left.push_str(rest);
        left
    }

    fn is_one(&self, number: &Number<'_>, whose: Whose) -> bool {
        let is_known = number
            .hundredths()
            .is_some_and(|value| self.known.contains(&value));
        let is_signed = !number.sign.is_empty() && !number.is_of_a_word();
        match (unit(number.unit.trim_start_matches([' ', '\u{a0}'])), whose) {
            (Unit::Diopters, Whose::Program) => is_signed || is_known,
            (Unit::Diopters, Whose::Person) => true,
            (Unit::None, Whose::Person) => is_known && !number.is_of_a_word(),
            (Unit::None, Whose::Program) | (Unit::Other, _) => false,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Unit {
    None,
    Diopters,
    Other,
}

fn unit(name: &str) -> Unit {
    let name = name.to_lowercase();
    if matches!(name.as_str(), "d" | "dpt" | "dptr") || name.starts_with("diopt") {
        Unit::Diopters
    } else if matches!(name.as_str(), "mm" | "µm" | "μm" | "°" | "%") {
        Unit::Other
    } else {
        Unit::None
    }
}

/// A number in a text, with what stands around it.
struct Number<'a> {
    before: &'a str,
    sign: &'a str,
    digits: &'a str,
    /// With the space before it; nothing for what is no unit.
    unit: &'a str,
    after: &'a str,
}

impl<'a> Number<'a> {
    fn first_in(text: &'a str) -> Option<Self> {
        const MARKS: [char; 2] = ['.', ','];
        let start = text.find(|letter: char| letter.is_ascii_digit())?;
        let (until, from) = text.split_at(start);
        let before = until.trim_end_matches(SIGNS);
        let is_of_it = |letter: char| letter.is_ascii_digit() || MARKS.contains(&letter);
        let run = from.split(|letter| !is_of_it(letter)).next()?;
        let digits = run.trim_end_matches(MARKS);
        let behind = from.get(digits.len()..)?;
        let word = behind.trim_start_matches([' ', '\u{a0}']);
        let mut letters =
            word.split(|letter: char| !letter.is_alphabetic() && !"°%".contains(letter));
        let name = letters.next()?;
        let end = match unit(name) {
            Unit::None => 0,
            Unit::Diopters | Unit::Other => behind.len() - word.len() + name.len(),
        };
        let (unit, after) = behind.split_at(end);
        Some(Self {
            before,
            sign: until.get(before.len()..)?,
            digits,
            unit,
            after,
        })
    }

    /// "EN-01", "a0".
    fn is_of_a_word(&self) -> bool {
        self.before.ends_with(char::is_alphabetic)
    }

    /// Without its sign; nothing for what is no number with at most two decimals.
    fn hundredths(&self) -> Option<i64> {
        let mut parts = self.digits.split(['.', ',']);
        let (whole, decimals) = (parts.next()?, parts.next().unwrap_or_default());
        let decimals = decimals.trim_end_matches('0');
        if parts.next().is_some() || 2 < decimals.len() {
            return None;
        }
        let whole: i64 = whole.parse().ok()?;
        let decimals: i64 = format!("{decimals:0<2}").parse().ok()?;
        whole.checked_mul(100)?.checked_add(decimals)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn without(text: &str, whose: Whose) -> String {
        let powers = Powers {
            known: [2_150, 2_000, 240].into(),
            instead: "[-]",
        };
        powers.without(text, whose)
    }

    #[test]
    fn a_power_is_taken_out_however_a_person_writes_it() {
        for (text, left) in [
            ("21.5 chosen, not +22.0 D", "[-] chosen, not [-]"),
            (
                "took 20 as he has 21,50 in the other",
                "took [-] as he has [-] in the other",
            ),
            ("\u{2212}3.25D or 19 diopters.", "[-] or [-]."),
            (
                "ring 12/10 mm, 2.40 mm knife, 20°",
                "ring 12/10 mm, 2.40 mm knife, 20°",
            ),
            (
                "seen on 2 visits, EN-20, a20",
                "seen on 2 visits, EN-20, a20",
            ),
            ("20.", "[-]."),
            ("", ""),
        ] {
            assert_eq!(without(text, Whose::Person), left);
        }
    }

    #[test]
    fn of_the_programs_numbers_only_powers_are_taken_out() {
        for (text, left) in [
            (
                "1.06 D; Holladay 1 +9.16 D to T2 +10.22 D",
                "1.06 D; Holladay 1 [-] to T2 [-]",
            ),
            (
                "43.50 D at 1.3375, cylinder 2.40 D at 20°",
                "43.50 D at 1.3375, cylinder [-] at 20°",
            ),
            ("warfarin, INR 2.4 on 20 Dec", "warfarin, INR 2.4 on 20 Dec"),
        ] {
            assert_eq!(without(text, Whose::Program), left);
        }
    }
}
