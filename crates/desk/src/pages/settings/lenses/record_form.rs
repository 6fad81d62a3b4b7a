//! The form of one lens record.

use egui::{Id, Ui};
use millrace_core::lens::{BiometryKind, Haptic, LensRecord, LensSite, Material};
use millrace_wording::Show as _;
use millrace_wording::desk::lens_records as say;

use super::Edited;
use super::form::LensForm;
use crate::pages::settings::kinds::NUMBER;
use crate::theme::measures;
use crate::widgets::quantity_kind::{LENGTH, POWER};
use crate::widgets::{Bare, FormRows, muted, problem, section, small};
use crate::words::in_use;
use millrace_wording::sentence;

const LABEL: f32 = 184.0;
const MATERIALS: [Material; 4] = [
    Material::HydrophobicAcrylic,
    Material::HydrophilicAcrylic,
    Material::Silicone,
    Material::Pmma,
];

pub(super) enum End {
    Kept(Box<LensRecord>),
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
    let words = in_use(ui);
    lens(ui, &mut rows, form);
    section(ui, say::powers(words));
    form.powers.show(ui, &mut rows);
    let label = say::average_power(words);
    rows.number(ui, label, &POWER, &mut form.average_power);
    section(ui, say::optic(words));
    rows.row(ui, say::index_and_thickness(words), |rows, ui, _| {
        let index = Bare::new(say::index(words), &NUMBER, 64.0);
        rows.bare(ui, index, &mut form.index);
        let thickness = Bare::new(say::thickness(words), &LENGTH, 64.0);
        rows.bare(ui, thickness, &mut form.thickness);
        muted(ui, "mm");
    });
    small(ui, say::may_stay_empty(words));
    section(ui, say::constants(words));
    let biometry = [BiometryKind::Optical, BiometryKind::Ultrasound];
    let label = say::found_with(words);
    rows.choice_among(ui, label, &biometry, &mut form.constants_for);
    form.constants.show(ui, &mut rows);
    section(ui, say::own_results(words));
    form.results.show(ui, &mut rows);
    let mut problems = rows.problems;
    problems.extend(form.constants.problem(words));
    let others = records
        .iter()
        .enumerate()
        .filter(|(place, _)| Some(*place) != *index);
    if others
        .into_iter()
        .any(|(_, record)| Some(&record.name) == form.name.as_ref())
    {
        problems.push(say::same_name(words).to_owned());
    }
    foot(ui, form, problems)
}

fn lens(ui: &mut Ui, rows: &mut FormRows, form: &mut LensForm) {
    let words = in_use(ui);
    section(ui, say::lens(words));
    rows.words(ui, say::name(words), "lens name", &mut form.name);
    rows.words(ui, say::model(words), "lens model", &mut form.model);
    let sites = [LensSite::Bag, LensSite::AnteriorChamber];
    rows.choice_among(ui, say::site(words), &sites, &mut form.site);
    let materials = MATERIALS.map(|material| (material, sentence(&material.show(words))));
    rows.pick(ui, say::material(words), &materials, &mut form.material);
    let haptics = [Haptic::OnePiece, Haptic::ThreePiece, Haptic::Plate];
    rows.choice_among(ui, say::haptic(words), &haptics, &mut form.haptic);
    let label = say::optic_diameter(words);
    rows.number(ui, label, &LENGTH, &mut form.optic_diameter);
    let label = say::overall_length(words);
    rows.number(ui, label, &LENGTH, &mut form.overall_length);
    let options = [(false, say::no(words)), (true, say::yes(words))];
    let label = say::sulcus(words);
    rows.choice(ui, label, &options, &mut form.may_sit_in_sulcus);
}

fn foot(ui: &mut Ui, form: &LensForm, mut problems: Vec<String>) -> Option<End> {
    ui.add_space(measures::APART);
    let words = in_use(ui);
    let missing = form.missing(words);
    let whole = form.whole(words);
    if !missing.is_empty() {
        muted(ui, say::still_missing(words, words.list(missing)));
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
        let keep = ui.add_enabled(can_keep, egui::Button::new(say::keep(words)));
        let leave = ui.button(say::leave(words));
        if keep.clicked() {
            return record.map(|record| End::Kept(Box::new(record)));
        }
        leave.clicked().then_some(End::Left)
    })
    .inner
}
