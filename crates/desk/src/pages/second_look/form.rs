//! The form of a second look: it shows what its own person enters, and nothing else.

use egui::Ui;
use millrace_core::biometry::{DepthStart, Side};
use millrace_core::case::{Command, Critical, update};
use millrace_wording::desk::second_look as say;
use millrace_wording::{Show as _, sentence, terms};

use super::entry::{Entry, MeridianEntry, Unit};
use super::{Asked, CaseView, ground};
use crate::theme::measures;
use crate::widgets::quantity_kind::{
    AXIAL_LENGTH, CHAMBER_DEPTH, CORNEAL_RADIUS, INDEX, LENS_THICKNESS, MERIDIAN, POWER,
    UNSIGNED_POWER,
};
use crate::widgets::{Bare, FormRows, Segments, cell, heading, muted, problem, section, small};
use crate::words::in_use;

const LABEL: f32 = 168.0;
const READING: f32 = 84.0;
const DEGREES: f32 = 56.0;

const UNITS: [(Unit, &str); 2] = [(Unit::Radius, "mm"), (Unit::Power, "D")];

pub(super) fn show(ui: &mut Ui, view: &CaseView<'_>, entry: &mut Entry) -> Asked {
    let words = in_use(ui);
    heading(ui, say::title(words));
    muted(ui, say::what_to_do(words));
    let head = |what: Critical| sentence(&what.show(words));
    let mut form = FormRows::new(ground(view), LABEL);
    section(ui, say::who(words));
    let label = say::your_name(words);
    form.words(ui, label, "name of the person", &mut entry.name);
    let label = head(Critical::Number);
    form.words(ui, &label, "patient number", &mut entry.number);
    let eyes = [Side::Right, Side::Left].map(|side| (side, terms::eye_head(words, side)));
    form.choice(ui, &head(Critical::Eye), &eyes, &mut entry.eye);
    section(ui, say::numbers(words));
    let label = head(Critical::AxialLength);
    form.number(ui, &label, &AXIAL_LENGTH, &mut entry.axial_length);
    keratometry(ui, &mut form, entry);
    depth(ui, &mut form, entry);
    let label = head(Critical::LensThickness);
    form.number(ui, &label, &LENS_THICKNESS, &mut entry.lens_thickness);
    form.number(ui, &head(Critical::Target), &POWER, &mut entry.target);
    small(ui, say::may_stay_empty(words));
    let problems = form.problems;
    for why in &problems {
        problem(ui, why);
    }
    foot(ui, view, entry, &problems)
}

/// What is missing, and the two ways on.
fn foot(ui: &mut Ui, view: &CaseView<'_>, entry: &Entry, problems: &[String]) -> Asked {
    ui.add_space(measures::APART);
    let words = in_use(ui);
    let whole = entry.whole(view.today);
    let mut command = None;
    match whole {
        None => {
            let missing = words.list(entry.missing(words));
            muted(ui, say::still_missing(words, missing));
        }
        Some(Err(why)) => problem(ui, &why.show(words)),
        Some(Ok(look)) => {
            let record = Command::RecordSecondLook(Box::new(look));
            match update(view.draft, record.clone()) {
                Ok(_) => command = Some(record),
                Err(refused) => problem(ui, &refused.show(words)),
            }
        }
    }
    ui.horizontal_wrapped(|ui| {
        let can_compare = command.is_some() && problems.is_empty();
        let compare = ui.add_enabled(can_compare, egui::Button::new(say::compare(words)));
        let leave = ui.button(say::leave(words));
        Asked {
            command: command.filter(|_| compare.clicked()),
            leaves: leave.clicked(),
        }
    })
    .inner
}

fn keratometry(ui: &mut Ui, form: &mut FormRows, entry: &mut Entry) {
    let words = in_use(ui);
    ui.horizontal(|ui| {
        let name = say::in_unit_head(words);
        cell(ui, LABEL, |ui| ui.label(name));
        let unit_id = form.ground.with("keratometry unit");
        let units = Segments::new(unit_id, name, &UNITS, entry.unit);
        entry.unit = units.show(ui).or(entry.unit);
        if entry.unit == Some(Unit::Power) {
            muted(ui, say::index(words));
            let name = sentence(say::index_missing(words));
            let index = Bare::new(&name, &INDEX, 72.0);
            form.bare(ui, index, &mut entry.index);
        }
    });
    let Some(unit) = entry.unit else {
        return;
    };
    let flat = [Critical::Flat, Critical::FlatMeridian];
    meridian(ui, form, flat, unit, &mut entry.flat);
    let steep = [Critical::Steep, Critical::SteepMeridian];
    meridian(ui, form, steep, unit, &mut entry.steep);
}

/// A meridian, by the names of its reading and of its angle.
fn meridian(
    ui: &mut Ui,
    form: &mut FormRows,
    names: [Critical; 2],
    unit: Unit,
    at: &mut MeridianEntry,
) {
    let words = in_use(ui);
    let [reading_name, name] = names.map(|name| sentence(&name.show(words)));
    ui.horizontal(|ui| {
        cell(ui, LABEL, |ui| {
            ui.label(format!("    {name}"));
        });
        match unit {
            Unit::Radius => {
                let reading = Bare::new(&reading_name, &CORNEAL_RADIUS, READING);
                form.bare(ui, reading, &mut at.radius);
                muted(ui, "mm @");
            }
            Unit::Power => {
                let reading = Bare {
                    key: 1,
                    ..Bare::new(&reading_name, &UNSIGNED_POWER, READING)
                };
                form.bare(ui, reading, &mut at.power);
                muted(ui, "D @");
            }
        }
        let meridian = Bare::new(&name, &MERIDIAN, DEGREES);
        form.bare(ui, meridian, &mut at.meridian);
        muted(ui, "°");
    });
}

fn depth(ui: &mut Ui, form: &mut FormRows, entry: &mut Entry) {
    let words = in_use(ui);
    let label = sentence(&Critical::ChamberDepth.show(words));
    form.number(ui, &label, &CHAMBER_DEPTH, &mut entry.depth);
    let surfaces = [
        (DepthStart::Epithelium, say::epithelium(words)),
        (DepthStart::Endothelium, say::endothelium(words)),
    ];
    let label = format!("    {}", say::depth_from(words));
    form.choice(ui, &label, &surfaces, &mut entry.depth_start);
}
