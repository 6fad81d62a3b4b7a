//! The rows of measurements, in the order of the printout: length, cornea, chamber, lens.

use egui::Ui;
use millrace_core::biometry::{EndothelialDensity, EyeRecord, Measured, Method, NoSpread};
use millrace_core::case::{Command, Measurement};
use millrace_core::quantity::Micrometers;

use super::row::Row;
use super::{BiometryState, EyePage, Item, depth, keratometry};
use crate::widgets::Commit;
use crate::widgets::quantity_kind::{
    AXIAL_LENGTH, CORNEAL_DIAMETER, CORNEAL_THICKNESS, ENDOTHELIUM, Kind, LENGTH, LENS_THICKNESS,
    POSTERIOR_RADIUS, PUPIL,
};

const LENGTH_METHODS: &[Method] = &[
    Method::Optical,
    Method::ImmersionUltrasound,
    Method::ContactUltrasound,
];
const THICKNESS_METHODS: &[Method] = &[Method::Optical, Method::Pachymeter, Method::Tomographer];
const DIAMETER_METHODS: &[Method] = &[
    Method::Optical,
    Method::Topographer,
    Method::Tomographer,
    Method::Manual,
];
const BACK_METHODS: &[Method] = &[Method::Tomographer, Method::Optical];
const CELL_METHODS: &[Method] = &[Method::SpecularMicroscope, Method::Manual];

pub(super) fn show(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    length(ui, (page, state), &AXIAL_ROW);
    keratometry::show(ui, page, state);
    depth::show(ui, page, state);
    length(ui, (page, state), &LENS_ROW);
    length(ui, (page, state), &CORNEA_ROW);
    length(ui, (page, state), &DIAMETER_ROW);
    length(ui, (page, state), &PUPIL_ROW);
    length(ui, (page, state), &BACK_ROW);
    endothelium(ui, page, state);
}

/// A measurement that is one length.
struct LengthRow<T: 'static> {
    item: Item,
    name: &'static str,
    kind: &'static Kind<T>,
    methods: &'static [Method],
    of: fn(&EyeRecord) -> Option<&Measured<T>>,
    set: fn(Option<Measured<T>>) -> Measurement,
}

macro_rules! length_row {
    ($row:ident, $item:ident, $name:literal, $kind:ident, $methods:ident, $field:ident) => {
        const $row: LengthRow<millrace_core::biometry::$item> = LengthRow {
            item: Item::$item,
            name: $name,
            kind: &$kind,
            methods: $methods,
            of: |eye| eye.$field.as_ref(),
            set: Measurement::$item,
        };
    };
}

length_row!(
    AXIAL_ROW,
    AxialLength,
    "Axial length",
    AXIAL_LENGTH,
    LENGTH_METHODS,
    axial_length
);
length_row!(
    LENS_ROW,
    LensThickness,
    "Lens thickness",
    LENS_THICKNESS,
    LENGTH_METHODS,
    lens_thickness
);
length_row!(
    CORNEA_ROW,
    CornealThickness,
    "Corneal thickness",
    CORNEAL_THICKNESS,
    THICKNESS_METHODS,
    corneal_thickness
);
length_row!(
    DIAMETER_ROW,
    CornealDiameter,
    "White to white",
    CORNEAL_DIAMETER,
    DIAMETER_METHODS,
    corneal_diameter
);
length_row!(
    BACK_ROW,
    PosteriorRadius,
    "Back radius of cornea",
    POSTERIOR_RADIUS,
    BACK_METHODS,
    posterior_radius
);

const PUPIL_ROW: LengthRow<millrace_core::biometry::PupilDiameter> = LengthRow {
    item: Item::Pupil,
    name: "Dilated pupil",
    kind: &PUPIL,
    methods: DIAMETER_METHODS,
    of: |eye| eye.pupil.as_ref(),
    set: Measurement::Pupil,
};

fn length<T: Copy + PartialEq + core::fmt::Display>(
    ui: &mut Ui,
    (page, state): (&mut EyePage<'_>, &mut BiometryState),
    row: &LengthRow<T>,
) {
    let shown = Row::<'_, T, Micrometers> {
        item: row.item,
        name: row.name,
        kind: row.kind,
        spread: Some(&LENGTH),
        methods: row.methods,
        current: (row.of)(page.eye).cloned(),
        other: (row.of)(page.other).map(|measured| measured.value.to_string()),
        first: None,
    };
    if let Some(commit) = shown.show(ui, page, state) {
        let measurement = (row.set)(commit.value());
        page.commands.push(Command::Measure(page.side, measurement));
    }
}

fn endothelium(ui: &mut Ui, page: &mut EyePage<'_>, state: &mut BiometryState) {
    let row = Row::<'_, EndothelialDensity, NoSpread> {
        item: Item::Endothelium,
        name: "Endothelial cells",
        kind: &ENDOTHELIUM,
        spread: None,
        methods: CELL_METHODS,
        current: page.eye.endothelium.clone(),
        other: page
            .other
            .endothelium
            .as_ref()
            .map(|measured| measured.value.per_mm2().to_string()),
        first: None,
    };
    let change: Option<Commit<_>> = row.show(ui, page, state);
    if let Some(commit) = change {
        let measurement = Measurement::Endothelium(commit.value());
        page.commands.push(Command::Measure(page.side, measurement));
    }
}
