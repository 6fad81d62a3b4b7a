//! The form of a second look: it shows what its own person enters, and nothing else.

use egui::Ui;
use millrace_core::biometry::{DepthStart, Side};
use millrace_core::case::{Command, update};

use super::entry::{Entry, MeridianEntry, Unit};
use super::{Asked, CaseView, ground};
use crate::theme::measures;
use crate::widgets::quantity_kind::{
    AXIAL_LENGTH, CHAMBER_DEPTH, CORNEAL_RADIUS, INDEX, LENS_THICKNESS, MERIDIAN, POWER,
    UNSIGNED_POWER,
};
use crate::widgets::{Bare, FormRows, Segments, cell, heading, muted, problem, section, small};

const LABEL: f32 = 168.0;
const READING: f32 = 84.0;
const DEGREES: f32 = 56.0;

const EYES: [(Side, &str); 2] = [(Side::Right, "Right eye"), (Side::Left, "Left eye")];
const UNITS: [(Unit, &str); 2] = [(Unit::Radius, "mm"), (Unit::Power, "D")];
const SURFACES: [(DepthStart, &str); 2] = [
    (DepthStart::Epithelium, "Epithelium"),
    (DepthStart::Endothelium, "Endothelium"),
];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, entry: &mut Entry) -> Asked {
    heading(ui, "Second look");
    muted(
        ui,
        "Enter the numbers from the papers. What was entered before is hidden until you compare",
    );
    let mut form = FormRows::new(ground(view), LABEL);
    section(ui, "Who, and whose eye");
    form.words(ui, "Your name", "name of the person", &mut entry.name);
    let label = "Hospital number";
    form.words(ui, label, "patient number", &mut entry.number);
    form.choice(ui, "Operated eye", &EYES, &mut entry.eye);
    section(ui, "Numbers");
    form.number(ui, "Axial length", &AXIAL_LENGTH, &mut entry.axial_length);
    keratometry(ui, &mut form, entry);
    depth(ui, &mut form, entry);
    let label = "Lens thickness";
    form.number(ui, label, &LENS_THICKNESS, &mut entry.lens_thickness);
    form.number(ui, "Target", &POWER, &mut entry.target);
    small(
        ui,
        "Chamber depth and target may stay empty if the papers give none; a lens thickness may be left alone",
    );
    let problems = form.problems;
    for why in &problems {
        problem(ui, why);
    }
    foot(ui, view, entry, &problems)
}

/// What is missing, and the two ways on.
fn foot(ui: &mut Ui, view: &CaseView<'_>, entry: &Entry, problems: &[String]) -> Asked {
    ui.add_space(measures::APART);
    let whole = entry.whole(view.today);
    let mut command = None;
    match whole {
        None => {
            let missing = entry.missing().join(", ");
            muted(ui, format!("Still missing: {missing}"));
        }
        Some(Err(why)) => problem(ui, &why),
        Some(Ok(look)) => {
            let record = Command::RecordSecondLook(Box::new(look));
            match update(view.draft, record.clone()) {
                Ok(_) => command = Some(record),
                Err(refused) => problem(ui, &refused.to_string()),
            }
        }
    }
    ui.horizontal_wrapped(|ui| {
        let can_compare = command.is_some() && problems.is_empty();
        let compare = ui.add_enabled(can_compare, egui::Button::new("Record and compare"));
        let leave = ui.button("Leave without comparing");
        Asked {
            command: command.filter(|_| compare.clicked()),
            leaves: leave.clicked(),
        }
    })
    .inner
}

fn keratometry(ui: &mut Ui, form: &mut FormRows, entry: &mut Entry) {
    ui.horizontal(|ui| {
        cell(ui, LABEL, |ui| ui.label("Keratometry in"));
        let unit_id = form.ground.with("keratometry unit");
        let units = Segments::new(unit_id, "Keratometry in", &UNITS, entry.unit);
        entry.unit = units.show(ui).or(entry.unit);
        if entry.unit == Some(Unit::Power) {
            muted(ui, "index");
            let index = Bare::new("Keratometric index", &INDEX, 72.0);
            form.bare(ui, index, &mut entry.index);
        }
    });
    let Some(unit) = entry.unit else {
        return;
    };
    meridian(ui, form, "Flat", unit, &mut entry.flat);
    meridian(ui, form, "Steep", unit, &mut entry.steep);
}

fn meridian(ui: &mut Ui, form: &mut FormRows, which: &str, unit: Unit, at: &mut MeridianEntry) {
    ui.horizontal(|ui| {
        cell(ui, LABEL, |ui| {
            ui.label(format!("    {which} meridian"));
        });
        let name = format!("{which} reading");
        match unit {
            Unit::Radius => {
                let reading = Bare::new(&name, &CORNEAL_RADIUS, READING);
                form.bare(ui, reading, &mut at.radius);
                muted(ui, "mm @");
            }
            Unit::Power => {
                let reading = Bare {
                    key: 1,
                    ..Bare::new(&name, &UNSIGNED_POWER, READING)
                };
                form.bare(ui, reading, &mut at.power);
                muted(ui, "D @");
            }
        }
        let name = format!("{which} meridian");
        let meridian = Bare::new(&name, &MERIDIAN, DEGREES);
        form.bare(ui, meridian, &mut at.meridian);
        muted(ui, "°");
    });
}

fn depth(ui: &mut Ui, form: &mut FormRows, entry: &mut Entry) {
    let label = "Chamber depth (ACD)";
    form.number(ui, label, &CHAMBER_DEPTH, &mut entry.depth);
    form.choice(ui, "    ACD from the", &SURFACES, &mut entry.depth_start);
}
