//! Five rows of output for one eye.

use core::fmt::Write as _;

use millrace_core::iol_power::{Estimate, EyeModel, Formula, NeededConstant, Refusal};
use millrace_core::quantity::Diopters;
use millrace_wording::{Show as _, Words};

use super::columns::Column;
use super::row::Eye;
use crate::terminal::seen;

pub(crate) const HEADER: &str =
    "eye_id,formula,status,lens_position_mm,power_for_target_d,predicted_refraction_d,note\n";

/// Writes the rows of an eye, one per formula.
pub(crate) fn write_eye(out: &mut String, eye_id: &str, eye: &Eye) {
    for formula in Formula::THIN_LENS {
        write_start(out, eye_id, formula);
        match answer(formula, eye) {
            Ok(answer) => write_answer(out, eye, &answer),
            Err(refusal) => {
                out.push_str("refused,,,,");
                write_note(out, |note| write_refusal(note, formula, eye, &refusal));
            }
        }
        out.push('\n');
    }
}

/// A refusal in the words of this file: what is missing is a blank cell.
fn write_refusal(note: &mut String, formula: Formula, eye: &Eye, refusal: &Refusal) {
    if !matches!(
        refusal,
        Refusal::NotMeasured { .. } | Refusal::NoConstant { .. }
    ) {
        note.push_str(&refusal.show(Words::ENGLISH));
        return;
    }
    let inputs = &eye.inputs;
    let constants = &inputs.constants;
    let own = match formula.constant() {
        NeededConstant::SurgeonFactor => {
            let is_blank = constants.surgeon_factor.is_none();
            (Column::SurgeonFactor.name(), is_blank)
        }
        NeededConstant::PersonalizedAcd => {
            (Column::Pacd.name(), constants.personalized_acd.is_none())
        }
        NeededConstant::Haigis => ("a0_mm, a1 or a2", constants.haigis.is_none()),
        NeededConstant::A | NeededConstant::Optic => {
            (Column::AConstant.name(), constants.a_constant.is_none())
        }
    };
    let needs_depth = formula == Formula::Haigis;
    let blank = [
        (Column::AxialLength.name(), inputs.axial_length.is_err()),
        (
            "keratometry (two radii, or two powers with k_index)",
            inputs.cornea.is_none(),
        ),
        (Column::Acd.name(), needs_depth && inputs.acd.is_none()),
        own,
    ];
    let blank = blank.into_iter().filter(|(_, is_blank)| *is_blank);
    for (index, (name, _)) in blank.enumerate() {
        note.push_str(if index == 0 { "blank: " } else { ", " });
        note.push_str(name);
    }
}

/// Writes the rows of an eye whose line was refused.
pub(crate) fn write_refused(out: &mut String, eye_id: &str, line: u64, problems: &str) {
    for formula in Formula::THIN_LENS {
        write_start(out, eye_id, formula);
        out.push_str("refused,,,,");
        write_note(out, |note| {
            let _ = write!(note, "line {line}: {problems}");
        });
        out.push('\n');
    }
}

struct Answer {
    eye: Estimate<EyeModel>,
    power: Option<Diopters>,
    refraction: Option<Diopters>,
}

/// A formula answers only if it can answer all that was asked.
fn answer(formula: Formula, eye: &Eye) -> Result<Answer, Refusal> {
    let built = formula.eye(&eye.inputs)?;
    let power = eye
        .target
        .map(|target| built.value.power_for(target))
        .transpose()?;
    let refraction = eye
        .lens_power
        .map(|power| built.value.refraction_with(power))
        .transpose()?;
    if power.is_none() && refraction.is_none() {
        // Even without a question, a lens outside the eye is no answer.
        built.value.refraction_with(Diopters::new(0.0))?;
    }
    Ok(Answer {
        eye: built,
        power,
        refraction,
    })
}

fn write_start(out: &mut String, eye_id: &str, formula: Formula) {
    write_text(out, eye_id);
    out.push(',');
    out.push_str(formula.key());
    out.push(',');
}

fn write_answer(out: &mut String, eye: &Eye, answer: &Answer) {
    let cautions = answer.eye.cautions;
    out.push_str(if cautions.is_empty() {
        "ok,"
    } else {
        "caution,"
    });
    write_number(out, Some(answer.eye.value.lens_position().mm()));
    write_number(out, answer.power.map(Diopters::d));
    write_number(out, answer.refraction.map(Diopters::d));
    if cautions.is_empty() && eye.target.is_some() && eye.lens_power.is_some() {
        return;
    }
    write_note(out, |note| {
        let blanks = [
            (eye.target.is_none(), "target_d is blank"),
            (eye.lens_power.is_none(), "lens_power_d is blank"),
        ];
        let mut add = |text: &str| {
            if !note.is_empty() {
                note.push_str("; ");
            }
            note.push_str(text);
        };
        for caution in cautions.iter() {
            add(&caution.show(Words::ENGLISH));
        }
        for (_, text) in blanks.iter().filter(|(is_blank, _)| *is_blank) {
            add(text);
        }
    });
}

/// The shortest digits that read back to the same bits.
fn write_number(out: &mut String, number: Option<f64>) {
    if let Some(number) = number {
        out.push_str(zmij::Buffer::new().format(number));
    }
    out.push(',');
}

fn write_note(out: &mut String, write: impl FnOnce(&mut String)) {
    let mut note = String::new();
    write(&mut note);
    write_text(out, &note);
}

/// What a table of cells would take for the start of something to compute.
const COMPUTED: [char; 5] = ['=', '+', '-', '@', '\t'];

/// A cell of text, in quotation marks where it needs them. What a table of cells would compute has an
/// apostrophe before it, which makes it text there; what would be obeyed instead of shown is written as its
/// number.
fn write_text(out: &mut String, text: &str) {
    let text = seen(text);
    let mark = if text.starts_with(COMPUTED) { "'" } else { "" };
    let text = format!("{mark}{text}");
    if !text.contains([',', '"', '\n', '\r']) {
        out.push_str(&text);
        return;
    }
    out.push('"');
    for part in text.split_inclusive('"') {
        out.push_str(part);
        if part.ends_with('"') {
            out.push('"');
        }
    }
    out.push('"');
}
