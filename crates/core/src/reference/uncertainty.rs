//! The page on uncertainty: its text, with the tables of the values in use.

use core::fmt::Write as _;

use crate::certainty::{TABLE, calibrate, scatter};
use crate::iol_power::{CornealHistory, Formula, FormulaConstants};
use crate::limits::Limits;

const TEXT: &str = include_str!("../certainty/uncertainty.md");

/// The whole page, in Markdown, with the shipped table; lens positions are calibrated for `lens`, the
/// constants of the simulated lens.
pub fn uncertainty(lens: FormulaConstants) -> String {
    let limits = Limits::shipped();
    TEXT.replace("{table}", &table(limits))
        .replace("{calibration}", &calibration(lens, limits))
}

fn table(limits: &Limits) -> String {
    let entries = limits.entries();
    let mut text =
        String::from("| entry | of | shipped | source | standing |\n|---|---|---|---|---|\n");
    for entry in TABLE {
        let value = entries.iter().find(|(name, _)| *name == entry.limit);
        let value = value.map_or("", |(_, value)| value.as_str());
        let locator = entry.source.locator;
        let _ = writeln!(
            text,
            "| `{}` | {} | {value} | {}; {locator} | {} |",
            entry.limit, entry.meaning, entry.source.work.citation, entry.source.standing
        );
    }
    text.push('\n');
    text
}

fn calibration(lens: FormulaConstants, limits: &Limits) -> String {
    let mut text = String::from(
        "| formula | scatter | unexplained | as an error of the lens position in the average eye |\n|---|---|---|---|\n",
    );
    for formula in Formula::THIN_LENS {
        let Some(scatter) = scatter(formula, CornealHistory::Untouched, None, limits) else {
            continue;
        };
        let scatter_d = scatter.deviation.d();
        let spread = match calibrate(formula, &scatter, lens, limits) {
            Ok(calibration) => format!(
                "{:.3} D | {:.3} mm",
                calibration.unexplained.d(),
                calibration.as_lens_position.mm()
            ),
            Err(missing) => missing.to_string(),
        };
        let _ = writeln!(text, "| {} | {scatter_d:.3} D | {spread} |", formula.name());
    }
    text.push('\n');
    text
}
