//! Grade of the nucleus, on a scale that is named and never converted.

use egui::Ui;
use millrace_core::biometry::{EmeryLittleGrade, EyeState, LocsTenths, NucleusGrade, WhoGrade};

use super::EyePage;
use super::signs::row;
use crate::widgets::quantity_kind::LOCS_GRADE;
use crate::widgets::{Commit, Named, NumberField, Segments, muted, problem};

/// The scale a grade is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scale {
    Locs,
    Who,
    EmeryLittle,
}

const SCALES: [(Option<Scale>, &str); 4] = [
    (None, "none"),
    (Some(Scale::Locs), "LOCS III"),
    (Some(Scale::Who), "WHO"),
    (Some(Scale::EmeryLittle), "Emery-Little"),
];

const fn scale_of(grade: NucleusGrade) -> Scale {
    match grade {
        NucleusGrade::LocsIii { .. } => Scale::Locs,
        NucleusGrade::WhoSimplified(_) => Scale::Who,
        NucleusGrade::EmeryLittle(_) => Scale::EmeryLittle,
    }
}

pub(super) fn show(
    ui: &mut Ui,
    page: &EyePage<'_>,
    next: &mut EyeState,
    wanted: &mut Option<Scale>,
) {
    let other = page.other.state.nucleus.map(short);
    let scale = next.nucleus.map(scale_of).or(*wanted);
    let chosen = row(ui, page, "Nucleus", other.as_deref(), |ui| {
        let id = page.id("nucleus scale");
        let name = page.name("Nucleus, scale");
        Segments::new(id, &name, &SCALES, Some(scale)).show(ui)
    });
    if let Some(chosen) = chosen {
        // A grade means nothing on another scale.
        next.nucleus = None;
        *wanted = chosen;
        return;
    }
    match scale {
        None => {}
        Some(Scale::Locs) => locs(ui, page, next),
        Some(Scale::Who) => {
            let grades = [1, 2, 3].map(|grade| WhoGrade::new(grade).ok());
            let options = ["1", "2", "3"];
            let now = match next.nucleus {
                Some(NucleusGrade::WhoSimplified(grade)) => Some(grade),
                _ => None,
            };
            if let Some(grade) = grade(ui, page, (&grades, &options), now) {
                next.nucleus = Some(NucleusGrade::WhoSimplified(grade));
            }
        }
        Some(Scale::EmeryLittle) => {
            let grades = [1, 2, 3, 4, 5].map(|grade| EmeryLittleGrade::new(grade).ok());
            let options = ["I", "II", "III", "IV", "V"];
            let now = match next.nucleus {
                Some(NucleusGrade::EmeryLittle(grade)) => Some(grade),
                _ => None,
            };
            if let Some(grade) = grade(ui, page, (&grades, &options), now) {
                next.nucleus = Some(NucleusGrade::EmeryLittle(grade));
            }
        }
    }
}

fn grade<T: Copy + PartialEq>(
    ui: &mut Ui,
    page: &EyePage<'_>,
    (grades, words): (&[Option<T>], &[&str]),
    now: Option<T>,
) -> Option<T> {
    let options: Vec<(T, &str)> = grades
        .iter()
        .zip(words)
        .filter_map(|(grade, word)| grade.map(|grade| (grade, *word)))
        .collect();
    row(ui, page, "    Grade", None, |ui| {
        let id = page.id("nucleus grade");
        Segments::new(id, &page.name("Nucleus, grade"), &options, now).show(ui)
    })
}

fn locs(ui: &mut Ui, page: &EyePage<'_>, next: &mut EyeState) {
    let (opalescence, color) = match next.nucleus {
        Some(NucleusGrade::LocsIii { opalescence, color }) => (Some(opalescence), color),
        _ => (None, None),
    };
    let mut problems = Vec::new();
    let mut field = |ui: &mut Ui, (word, what): (&str, &str), value: Option<LocsTenths>| {
        muted(ui, word);
        let name = page.name(what);
        let id = page.id(("nucleus", word));
        let entered = NumberField::new(id, Named::As(&name), &LOCS_GRADE, value);
        let entered = entered.width(56.0).show(ui);
        problems.extend(entered.problem);
        entered.commit.map_or(value, Commit::value)
    };
    let (opalescence_now, color_now) = row(ui, page, "    Grade", None, |ui| {
        (
            field(ui, ("NO", "Nuclear opalescence"), opalescence),
            field(ui, ("NC", "Nuclear color"), color),
        )
    });
    if color_now.is_some() && opalescence_now.is_none() {
        problems.push("a color is graded together with the opalescence".to_owned());
    }
    for why in problems {
        problem(ui, &why);
    }
    if (opalescence_now, color_now) != (opalescence, color) {
        next.nucleus = opalescence_now.map(|opalescence| NucleusGrade::LocsIii {
            opalescence,
            color: color_now,
        });
    }
}

/// "LOCS NO 4.4": the column is narrow.
fn short(grade: NucleusGrade) -> String {
    grade
        .to_string()
        .replace("LOCS III", "LOCS")
        .replace("WHO simplified", "WHO")
        .replace("Emery-Little", "E-L")
}
