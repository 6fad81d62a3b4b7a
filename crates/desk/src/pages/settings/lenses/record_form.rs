//! The form of one lens record.

use egui::{Id, Ui};
use millrace_core::lens::{BiometryKind, Haptic, LensRecord, LensSite, Material};

use super::Edited;
use super::form::LensForm;
use crate::pages::settings::kinds::NUMBER;
use crate::theme::measures;
use crate::widgets::quantity_kind::{LENGTH, POWER};
use crate::widgets::{Bare, FormRows, muted, problem, section, small};
use crate::words::sentence;

const LABEL: f32 = 184.0;
const SITES: [(LensSite, &str); 2] = [
    (LensSite::Bag, "Capsular bag"),
    (LensSite::AnteriorChamber, "Anterior chamber"),
];
const HAPTICS: [(Haptic, &str); 3] = [
    (Haptic::OnePiece, "One-piece"),
    (Haptic::ThreePiece, "Three-piece"),
    (Haptic::Plate, "Plate"),
];
const BIOMETRY: [(BiometryKind, &str); 2] = [
    (BiometryKind::Optical, "Optical biometry"),
    (BiometryKind::Ultrasound, "Ultrasound"),
];
const MATERIALS: [Material; 4] = [
    Material::HydrophobicAcrylic,
    Material::HydrophilicAcrylic,
    Material::Silicone,
    Material::Pmma,
];

/// How a form ended.
pub(super) enum End {
    /// The record is to be kept.
    Kept(Box<LensRecord>),
    /// Nothing of it is.
    Left,
}

/// Shows the form; tells once it is over.
pub(super) fn show(
    ui: &mut Ui,
    ground: Id,
    records: &[LensRecord],
    edited: &mut Edited,
) -> Option<End> {
    let Edited { index, form } = edited;
    let mut rows = FormRows::new(ground, LABEL);
    lens(ui, &mut rows, form);
    section(ui, "Powers");
    form.powers.show(ui, &mut rows);
    rows.number(ui, "Average power", &POWER, &mut form.average_power);
    section(ui, "Optic");
    rows.row(ui, "Index and thickness", |rows, ui, _| {
        let index = Bare::new("Index of the optic", &NUMBER, 64.0);
        rows.bare(ui, index, &mut form.index);
        let thickness = Bare::new("Thickness of the optic", &LENGTH, 64.0);
        rows.bare(ui, thickness, &mut form.thickness);
        muted(ui, "mm");
    });
    small(ui, "May stay empty: only the thick-lens eye asks for them");
    section(ui, "Constants");
    let label = "Found with";
    rows.choice(ui, label, &BIOMETRY, &mut form.constants_for);
    form.constants.show(ui, &mut rows);
    section(ui, "Own results");
    form.results.show(ui, &mut rows);
    let mut problems = rows.problems;
    problems.extend(form.constants.problem());
    let others = records
        .iter()
        .enumerate()
        .filter(|(place, _)| Some(*place) != *index);
    if others
        .into_iter()
        .any(|(_, record)| Some(&record.name) == form.name.as_ref())
    {
        problems.push("another record has this name".to_owned());
    }
    foot(ui, form, problems)
}

fn lens(ui: &mut Ui, rows: &mut FormRows, form: &mut LensForm) {
    section(ui, "Lens");
    rows.words(ui, "Name in this clinic", "lens name", &mut form.name);
    rows.words(ui, "Model on the box", "lens model", &mut form.model);
    rows.choice(ui, "Made to sit in the", &SITES, &mut form.site);
    let materials = MATERIALS.map(|material| (material, sentence(&material.to_string())));
    rows.pick(ui, "Material", &materials, &mut form.material);
    rows.choice(ui, "Haptic", &HAPTICS, &mut form.haptic);
    let label = "Optic diameter";
    rows.number(ui, label, &LENGTH, &mut form.optic_diameter);
    let label = "Overall length";
    rows.number(ui, label, &LENGTH, &mut form.overall_length);
    let options = [(false, "No"), (true, "Yes")];
    let label = "May sit in the sulcus";
    rows.choice(ui, label, &options, &mut form.may_sit_in_sulcus);
}

fn foot(ui: &mut Ui, form: &LensForm, mut problems: Vec<String>) -> Option<End> {
    ui.add_space(measures::APART);
    let missing = form.missing();
    let whole = form.whole();
    if !missing.is_empty() {
        muted(ui, format!("Still missing: {}", missing.join(", ")));
    }
    let record = match whole {
        Some(Ok(record)) => Some(record),
        Some(Err(why)) => {
            problems.push(why);
            None
        }
        None => None,
    };
    for why in &problems {
        problem(ui, why);
    }
    ui.horizontal_wrapped(|ui| {
        let can_keep = record.is_some() && problems.is_empty();
        let keep = ui.add_enabled(can_keep, egui::Button::new("Keep the record"));
        let leave = ui.button("Leave it as it was");
        if keep.clicked() {
            return record.map(|record| End::Kept(Box::new(record)));
        }
        leave.clicked().then_some(End::Left)
    })
    .inner
}
