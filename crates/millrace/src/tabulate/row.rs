//! One line of the input: cells → what the formulas take.

use core::fmt::{self, Write as _};

use millrace_core::biometry::CornealRadius;
use millrace_core::iol_power::{
    AConstant, CornealHistory, CornealRadii, FormulaConstants, FormulaInputs, HaigisConstants,
    PersonalizedAcd, SurgeonFactor,
};
use millrace_core::quantity::{Diopters, Millimeters};

use super::columns::{Column, Columns};

/// What is wrong with a line, as one text for the note and the message.
#[derive(Debug, Default)]
pub(crate) struct Problems(String);

impl Problems {
    fn add(&mut self, problem: fmt::Arguments<'_>) {
        if !self.0.is_empty() {
            self.0.push_str("; ");
        }
        // Writing to a String does not fail.
        let _ = self.0.write_fmt(problem);
    }

    pub(crate) fn text(&self) -> &str {
        &self.0
    }
}

/// One eye of the input.
#[derive(Debug)]
pub(crate) struct Eye {
    pub(crate) inputs: FormulaInputs,
    pub(crate) target: Option<Diopters>,
    pub(crate) lens_power: Option<Diopters>,
}

/// Buffers for taking lines apart, used again for every line.
#[derive(Default)]
pub(crate) struct Scratch {
    unquoted: Vec<u8>,
    ends: Vec<usize>,
}

/// The cells of a line.
pub(crate) struct Cells<'a> {
    text: &'a str,
    ends: &'a [usize],
    /// Bytes between two cells: the comma, or nothing once quotation marks were taken off.
    gap: usize,
}

impl<'a> Cells<'a> {
    fn get(&self, index: usize) -> Option<&'a str> {
        let end = *self.ends.get(index)?;
        let start = match index.checked_sub(1) {
            None => 0,
            Some(before) => *self.ends.get(before)? + self.gap,
        };
        self.text.get(start..end)
    }
}

pub(crate) fn split<'a>(line: &'a [u8], scratch: &'a mut Scratch) -> Result<Cells<'a>, Problems> {
    scratch.ends.clear();
    let refused = |problem: fmt::Arguments<'_>| {
        let mut problems = Problems::default();
        problems.add(problem);
        problems
    };
    // A record is a line; a carriage return inside it would end the record for some readers and
    // take the rest of the line, perhaps another eye, with it.
    if memchr::memchr(b'\r', line).is_some() {
        return Err(refused(format_args!(
            "a carriage return stands inside the line"
        )));
    }
    if memchr::memchr(b'"', line).is_none() {
        let text =
            std::str::from_utf8(line).map_err(|_| refused(format_args!("not text (UTF-8)")))?;
        scratch.ends.extend(memchr::memchr_iter(b',', line));
        scratch.ends.push(line.len());
        return Ok(Cells {
            text,
            ends: &scratch.ends,
            gap: 1,
        });
    }

    if memchr::memchr_iter(b'"', line).count() % 2 == 1 {
        return Err(refused(format_args!("a quotation mark is not closed")));
    }
    scratch.unquoted.resize(line.len() + 1, 0);
    scratch.ends.resize(line.len() + 1, 0);
    let mut reader = csv_core::Reader::new();
    let (_, _, written, fields) =
        reader.read_record(line, &mut scratch.unquoted, &mut scratch.ends);
    // The second call, without input, ends the record.
    let rest = scratch.unquoted.get_mut(written..).unwrap_or_default();
    let rest_ends = scratch.ends.get_mut(fields..).unwrap_or_default();
    let (_, _, more_written, more_fields) = reader.read_record(&[], rest, rest_ends);
    scratch.unquoted.truncate(written + more_written);
    scratch.ends.truncate(fields + more_fields);
    let text = std::str::from_utf8(&scratch.unquoted)
        .map_err(|_| refused(format_args!("not text (UTF-8)")))?;
    Ok(Cells {
        text,
        ends: &scratch.ends,
        gap: 0,
    })
}

/// The eye's name as it stands, as far as the line has one.
pub(crate) fn eye_id<'a>(cells: &Cells<'a>, columns: &Columns) -> &'a str {
    let index = columns
        .order()
        .iter()
        .position(|&column| column == Column::EyeId);
    index.and_then(|index| cells.get(index)).unwrap_or_default()
}

/// Reads the cells of a line.
pub(crate) fn read(cells: &Cells<'_>, columns: &Columns) -> Result<Eye, Problems> {
    let mut problems = Problems::default();
    let expected = columns.order().len();
    if cells.ends.len() != expected {
        let found = cells.ends.len();
        problems.add(format_args!(
            "{found} cells where the header has {expected}; the line may be cut short"
        ));
        return Err(problems);
    }
    let mut numbers = [None; Column::COUNT];
    for (index, &column) in columns.order().iter().enumerate() {
        let cell = cells.get(index).unwrap_or_default().trim();
        match column.limits() {
            None if cell.is_empty() => problems.add(format_args!("{} is blank", column.name())),
            None => {}
            Some(_) if cell.is_empty() => {}
            Some(limits) => {
                if let Some(number) = number(column, cell, limits, &mut problems)
                    && let Some(slot) = numbers.get_mut(column as usize)
                {
                    *slot = Some(number);
                }
            }
        }
    }
    let numbers = Numbers(numbers);
    let cornea = cornea(&numbers, &mut problems);
    if !problems.0.is_empty() {
        return Err(problems);
    }
    Ok(Eye {
        inputs: inputs(&numbers, cornea),
        target: numbers.get(Column::Target).map(Diopters::new),
        lens_power: numbers.get(Column::LensPower).map(Diopters::new),
    })
}

struct Numbers([Option<f64>; Column::COUNT]);

impl Numbers {
    fn get(&self, column: Column) -> Option<f64> {
        self.0.get(column as usize).copied().flatten()
    }

    fn millimeters(&self, column: Column) -> Option<Millimeters> {
        self.get(column).map(Millimeters::new)
    }
}

fn number(
    column: Column,
    cell: &str,
    [min, max]: [f64; 2],
    problems: &mut Problems,
) -> Option<f64> {
    // "inf", "nan" and hexadecimal are numbers to some readers, not to this one.
    let plain = cell
        .bytes()
        .all(|byte| matches!(byte, b'0'..=b'9' | b'.' | b'+' | b'-' | b'e' | b'E'));
    let name = column.name();
    match cell.parse::<f64>() {
        Ok(number) if plain && min <= number && number <= max => Some(number),
        Ok(number) if plain && number.is_finite() => {
            problems.add(format_args!(
                "{name} {} is outside {min} to {max}",
                shortened(cell)
            ));
            None
        }
        _ => {
            let hint = if cell.contains(',') {
                "; write a decimal point"
            } else {
                ""
            };
            problems.add(format_args!(
                "{name} \"{}\" is not a number{hint}",
                shortened(cell)
            ));
            None
        }
    }
}

/// A cell can be a pasted page: its head is enough to recognize it.
fn shortened(cell: &str) -> &str {
    let end = cell
        .char_indices()
        .nth(40)
        .map_or(cell.len(), |(index, _)| index);
    cell.get(..end).unwrap_or(cell)
}

/// The two radii: as measured, or from the two powers and the index behind them.
fn cornea(numbers: &Numbers, problems: &mut Problems) -> Option<CornealRadii> {
    let radii = [Column::K1Radius, Column::K2Radius].map(|column| numbers.get(column));
    let powers = [Column::K1Power, Column::K2Power].map(|column| numbers.get(column));
    let index = numbers.get(Column::KIndex);
    if radii.iter().any(Option::is_some) && powers.iter().any(Option::is_some) {
        problems.add(format_args!(
            "keratometry is given both in mm and in D; give one"
        ));
        return None;
    }
    if let [Some(first), Some(second)] = radii {
        return Some(CornealRadii(
            Millimeters::new(first),
            Millimeters::new(second),
        ));
    }
    if powers.iter().any(Option::is_some) && index.is_none() {
        problems.add(format_args!(
            "k1_d and k2_d need the k_index they were made with"
        ));
        return None;
    }
    let ([Some(first), Some(second)], Some(index)) = (powers, index) else {
        return None;
    };
    let radius_mm = |power_d: f64| 1000.0 * (index - 1.0) / power_d;
    let [min, max] = [CornealRadius::MIN, CornealRadius::MAX].map(|r| r.millimeters().mm());
    for (column, power_d) in [(Column::K1Power, first), (Column::K2Power, second)] {
        let radius_mm = radius_mm(power_d);
        if !(min <= radius_mm && radius_mm <= max) {
            let name = column.name();
            problems.add(format_args!(
                "{name} {power_d} at {index} is a radius of {radius_mm:.2} mm, outside {min} to {max}"
            ));
            return None;
        }
    }
    Some(CornealRadii(
        Millimeters::new(radius_mm(first)),
        Millimeters::new(radius_mm(second)),
    ))
}

fn inputs(numbers: &Numbers, cornea: Option<CornealRadii>) -> FormulaInputs {
    let haigis = match [Column::A0, Column::A1, Column::A2].map(|column| numbers.get(column)) {
        [Some(a0), Some(a1), Some(a2)] => HaigisConstants::new(a0, a1, a2).ok(),
        _ => None,
    };
    // Stated in the help and the README: untouched corneas, lengths that suit the constants.
    let eye = FormulaInputs {
        cornea,
        acd: numbers.millimeters(Column::Acd),
        lens_thickness: numbers.millimeters(Column::LensThickness),
        corneal_thickness: numbers
            .get(Column::CornealThickness)
            .map(|um| Millimeters::new(um / 1000.0)),
        history: CornealHistory::Untouched,
        constants: FormulaConstants {
            a_constant: numbers
                .get(Column::AConstant)
                .and_then(|a| AConstant::new(a).ok()),
            personalized_acd: numbers
                .get(Column::Pacd)
                .and_then(|depth| PersonalizedAcd::new(depth).ok()),
            surgeon_factor: numbers
                .get(Column::SurgeonFactor)
                .and_then(|factor| SurgeonFactor::new(factor).ok()),
            haigis,
        },
        ..FormulaInputs::absent()
    };
    match numbers.millimeters(Column::AxialLength) {
        Some(length) => eye.with_length(length),
        None => eye,
    }
}
