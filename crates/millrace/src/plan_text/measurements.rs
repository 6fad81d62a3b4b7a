//! What the plan rests on: the operated eye's measurements with method, day and person. The fellow
//! eye's numbers are not printed: one eye at a time.

use millrace_core::biometry::{Measured, MeridianReading};
use millrace_core::case::Draft;
use millrace_core::plan::Plan;

use super::banner::date;
use crate::page::Page;

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading(&format!("Measurements of the {}", plan.side));
    let eye = draft.eyes.get(plan.side);
    let mut rows: Vec<Vec<String>> = Vec::new();
    push(
        &mut rows,
        "Axial length",
        eye.axial_length.as_ref(),
        ToString::to_string,
    );
    push(
        &mut rows,
        "Keratometry, flat",
        eye.keratometry.as_ref(),
        |k| reading(k.flat),
    );
    push(
        &mut rows,
        "Keratometry, steep",
        eye.keratometry.as_ref(),
        |k| reading(k.steep),
    );
    let depth_name = match &eye.chamber_depth {
        Some(depth) => format!("Chamber depth, {}", depth.value.start),
        None => "Anterior chamber depth".to_owned(),
    };
    push(
        &mut rows,
        &depth_name,
        eye.chamber_depth.as_ref(),
        |depth| depth.depth.to_string(),
    );
    push(
        &mut rows,
        "Lens thickness",
        eye.lens_thickness.as_ref(),
        ToString::to_string,
    );
    push(
        &mut rows,
        "Corneal thickness",
        eye.corneal_thickness.as_ref(),
        ToString::to_string,
    );
    push(
        &mut rows,
        "Corneal diameter",
        eye.corneal_diameter.as_ref(),
        ToString::to_string,
    );
    push(
        &mut rows,
        "Posterior corneal radius",
        eye.posterior_radius.as_ref(),
        |radius| radius.to_string(),
    );
    push(
        &mut rows,
        "Pupil, dilated",
        eye.pupil.as_ref(),
        ToString::to_string,
    );
    push(
        &mut rows,
        "Endothelial density",
        eye.endothelium.as_ref(),
        ToString::to_string,
    );
    let aqueous = eye.aqueous_depth().map(|depth| depth.to_string());
    if let Some(depth) = aqueous {
        let row = ["Aqueous depth", &depth, "from the two", "–", "", ""];
        rows.push(row.map(str::to_owned).to_vec());
    }
    let nucleus = eye.state.nucleus.map(|grade| grade.to_string());
    if let Some(grade) = nucleus {
        rows.push(
            ["Nucleus", &grade, "", "", "", ""]
                .map(str::to_owned)
                .to_vec(),
        );
    }
    let header = ["", "value", "method", "SD", "day", "who"].map(str::to_owned);
    page.table(&header, rows, &[1, 2, 3, 4, 5]);
}

fn push<T, S: ToString>(
    rows: &mut Vec<Vec<String>>,
    name: &str,
    measured: Option<&Measured<T, S>>,
    value: impl Fn(&T) -> String,
) {
    let row = match measured {
        None => [
            name.to_owned(),
            "not measured".to_owned(),
            String::new(),
            String::new(),
            String::new(),
            String::new(),
        ],
        Some(measured) => [
            name.to_owned(),
            value(&measured.value),
            measured.method.to_string(),
            measured
                .spread
                .as_ref()
                .map_or_else(|| "–".to_owned(), S::to_string),
            measured.on.map_or_else(|| "–".to_owned(), date),
            measured.by.clone().unwrap_or_else(|| "–".to_owned()),
        ],
    };
    rows.push(row.to_vec());
}

fn reading(at: MeridianReading) -> String {
    format!("{} @ {}", at.reading, at.meridian)
}
