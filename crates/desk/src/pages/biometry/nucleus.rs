//! Grade of the nucleus, on a scale that is named and never converted.

use egui::Ui;
use millrace_core::biometry::{EmeryLittleGrade, EyeState, LocsTenths, NucleusGrade, WhoGrade};
use millrace_wording::Words;
use millrace_wording::desk::biometry as say;

use super::EyePage;
use super::sitting::Sitting;
use crate::widgets::quantity_kind::LOCS_GRADE;
use crate::widgets::value_order::{self, Step};
use crate::widgets::{Commit, Named, NumberField, Segments, muted};

/// The scale a grade is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scale {
    Locs,
    Who,
    EmeryLittle,
}

impl Scale {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Locs => "LOCS III",
            Self::Who => "WHO",
            Self::EmeryLittle => "Emery-Little",
        }
    }
}

const NUMERALS: [&str; 5] = ["I", "II", "III", "IV", "V"];

const fn scale_of(grade: NucleusGrade) -> Scale {
    match grade {
        NucleusGrade::LocsIii { .. } => Scale::Locs,
        NucleusGrade::WhoSimplified(_) => Scale::Who,
        NucleusGrade::EmeryLittle(_) => Scale::EmeryLittle,
    }
}

pub(super) fn show(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState, sitting: &mut Sitting) {
    let other = page
        .other
        .state
        .nucleus
        .map(|grade| short(page.words, grade));
    let scale = next.nucleus.map(scale_of).or(sitting.scale);
    let words = page.words;
    let scales = [
        (None, say::no_scale(words)),
        (Some(Scale::Locs), Scale::Locs.name()),
        (Some(Scale::Who), Scale::Who.name()),
        (Some(Scale::EmeryLittle), Scale::EmeryLittle.name()),
    ];
    let chosen = page
        .line(say::nucleus(words), other.as_deref())
        .show(ui, |ui| {
            let id = page.id("nucleus scale");
            let name = page.name(say::nucleus_scale(words));
            let chosen = Segments::new(id, &name, &scales, Some(scale)).show(ui);
            value_order::pass_choice(ui, id, scale.as_ref());
            chosen
        });
    if let Some(chosen) = chosen {
        // A grade means nothing on another scale.
        next.nucleus = None;
        sitting.scale = chosen;
        return;
    }
    match scale {
        None => {}
        Some(Scale::Locs) => locs(ui, page, next),
        Some(Scale::Who) => {
            let options = grades(WhoGrade::new, &["1", "2", "3"]);
            let now = match next.nucleus {
                Some(NucleusGrade::WhoSimplified(grade)) => Some(grade),
                _ => None,
            };
            if let Some(grade) = grade(ui, page, &options, now) {
                next.nucleus = Some(NucleusGrade::WhoSimplified(grade));
            }
        }
        Some(Scale::EmeryLittle) => {
            let options = grades(EmeryLittleGrade::new, &NUMERALS);
            let now = match next.nucleus {
                Some(NucleusGrade::EmeryLittle(grade)) => Some(grade),
                _ => None,
            };
            if let Some(grade) = grade(ui, page, &options, now) {
                next.nucleus = Some(NucleusGrade::EmeryLittle(grade));
            }
        }
    }
}

fn grade<T: Copy + PartialEq>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    options: &[(T, &str)],
    now: Option<T>,
) -> Option<T> {
    let label = format!("    {}", say::grade(page.words));
    page.line(&label, None).show(ui, |ui| {
        let id = page.id("nucleus grade");
        let name = page.name(say::nucleus_grade(page.words));
        let chosen = Segments::new(id, &name, options, now).show(ui);
        value_order::pass(ui, id, id, Step::Value);
        chosen
    })
}

/// The grades of a scale, from 1, with their texts.
fn grades<T, E>(grade: fn(u8) -> Result<T, E>, texts: &[&'static str]) -> Vec<(T, &'static str)> {
    let numbered = (1..).zip(texts);
    numbered
        .filter_map(|(number, text)| Some((grade(number).ok()?, *text)))
        .collect()
}

fn locs(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let (opalescence, color) = match next.nucleus {
        Some(NucleusGrade::LocsIii { opalescence, color }) => (Some(opalescence), color),
        _ => (None, None),
    };
    let mut problems = Vec::new();
    let mut field = |ui: &mut Ui, word: &str, what: &str, value: Option<LocsTenths>| {
        muted(ui, word);
        let name = page.name(what);
        let id = page.id(("nucleus", word));
        let entered = NumberField::new(id, Named::As(&name), &LOCS_GRADE, value);
        let entered = entered.width(56.0).show(ui);
        problems.extend(entered.problem);
        entered.commit.map_or(value, Commit::value)
    };
    let words = page.words;
    let label = format!("    {}", say::grade(words));
    let (opalescence_now, color_now) = page.line(&label, None).show(ui, |ui| {
        (
            field(ui, "NO", say::opalescence(words), opalescence),
            field(ui, "NC", say::color(words), color),
        )
    });
    if color_now.is_some() && opalescence_now.is_none() {
        problems.push(say::color_with_opalescence(words).to_owned());
    }
    for why in problems {
        page.wrong(ui, &why);
    }
    if (opalescence_now, color_now) != (opalescence, color) {
        next.nucleus = opalescence_now.map(|opalescence| NucleusGrade::LocsIii {
            opalescence,
            color: color_now,
        });
    }
}

/// "LOCS 4.4 (NO)": the column is narrow, and beside answers "no" alone is read as one.
fn short(words: Words, grade: NucleusGrade) -> String {
    match grade {
        NucleusGrade::LocsIii {
            opalescence,
            color: None,
        } => say::short_locs(words, opalescence),
        NucleusGrade::LocsIii {
            opalescence,
            color: Some(color),
        } => say::short_locs_with_color(words, opalescence, color),
        NucleusGrade::WhoSimplified(grade) => say::short_who(words, grade.grade()),
        NucleusGrade::EmeryLittle(grade) => {
            let index = usize::from(grade.grade()).saturating_sub(1);
            let numeral = NUMERALS.get(index).copied().unwrap_or("?");
            say::short_emery_little(words, numeral)
        }
    }
}
