//! What the plan rests on: the operated eye's measurements. The fellow eye's are not printed.

use millrace_core::biometry::{DepthStart, EyeRecord, Measured, MeridianReading};
use millrace_core::document::Derived;
use millrace_core::words::day;

use super::Subject;
use crate::data::{DayAndWho, MeasuredRow, Measurements};

/// What stands in a cell for which nothing is known.
const NOTHING: &str = "not stated";

impl Subject<'_> {
    pub(super) fn measurements(self) -> Measurements {
        let eye = self.draft.eyes.get(self.side);
        let mut rows = Rows::default();
        rows.add(
            "Axial length",
            eye.axial_length.as_ref(),
            ToString::to_string,
        );
        add_keratometry(&mut rows, eye);
        let depth_name = match eye.chamber_depth.as_ref().map(|depth| depth.value.start) {
            Some(DepthStart::Epithelium) => "ACD from epithelium",
            Some(DepthStart::Endothelium) => "ACD from endothelium",
            None => "Chamber depth (ACD)",
        };
        rows.add(depth_name, eye.chamber_depth.as_ref(), |depth| {
            depth.depth.to_string()
        });
        rows.add(
            "Lens thickness",
            eye.lens_thickness.as_ref(),
            ToString::to_string,
        );
        rows.add(
            "Corneal thickness",
            eye.corneal_thickness.as_ref(),
            ToString::to_string,
        );
        rows.add(
            "Corneal diameter",
            eye.corneal_diameter.as_ref(),
            ToString::to_string,
        );
        rows.add(
            "Posterior radius",
            eye.posterior_radius.as_ref(),
            ToString::to_string,
        );
        rows.add(
            "Posterior astigmatism",
            eye.posterior_astigmatism.as_ref(),
            |back| {
                format!(
                    "{:.2} D @ {}",
                    back.magnitude().diopters().d(),
                    back.steep()
                )
            },
        );
        rows.add("Dilated pupil", eye.pupil.as_ref(), ToString::to_string);
        rows.add(
            "Endothelial density",
            eye.endothelium.as_ref(),
            ToString::to_string,
        );
        add_derived(&mut rows, eye, self.results.derived.get(self.side));
        Measurements {
            title: format!("Measurements of the {}", self.side),
            missing: rows
                .missing
                .join("; ")
                .to_lowercase()
                .replace("(acd)", "(ACD)"),
            all: same_for_all(&rows.measured),
            rows: rows.measured,
        }
    }
}

/// Day and person, if every measurement has the same.
fn same_for_all(rows: &[MeasuredRow]) -> Option<DayAndWho> {
    let mut taken = rows.iter().filter_map(|row| row.taken.as_ref());
    let first = taken.next()?;
    taken.all(|other| other == first).then(|| first.clone())
}

fn add_keratometry(rows: &mut Rows, eye: &EyeRecord) {
    let (first, second) = (eye.keratometry.as_ref(), eye.second_keratometry.as_ref());
    if first.is_none() {
        rows.missing.push("Keratometry");
    } else {
        rows.add("Keratometry, flat", first, |k| reading(k.flat));
        rows.add("Keratometry, steep", first, |k| reading(k.steep));
    }
    if second.is_none() {
        rows.missing.push("second keratometry");
    } else {
        rows.add("Second K, flat", second, |k| reading(k.flat));
        rows.add("Second K, steep", second, |k| reading(k.steep));
    }
}

fn add_derived(rows: &mut Rows, eye: &EyeRecord, derived: &Derived) {
    if let Some(mean) = derived.mean_k_d {
        let text = format!("{:.2} D", mean.d());
        rows.add_plain("Mean K at 1.3375", text, "from the two");
    }
    if let Some((cylinder, steep)) = derived.corneal_astigmatism_d.zip(derived.steep_degrees) {
        let text = format!("{:.2} D, steep @ {steep}", cylinder.d());
        rows.add_plain("Corneal astigmatism", text, "from the two");
    }
    if let Some(depth) = derived.aqueous_depth_mm {
        let method = match eye.chamber_depth.as_ref().map(|depth| depth.value.start) {
            Some(DepthStart::Epithelium) => "ACD less CCT",
            _ => "as measured",
        };
        rows.add_plain("Aqueous depth", depth.to_string(), method);
    }
}

#[derive(Default)]
struct Rows {
    measured: Vec<MeasuredRow>,
    missing: Vec<&'static str>,
}

impl Rows {
    fn add<T, S>(
        &mut self,
        name: &'static str,
        measured: Option<&Measured<T, S>>,
        value: impl Fn(&T) -> String,
    ) {
        let Some(measured) = measured else {
            self.missing.push(name);
            return;
        };
        let or_nothing = |text: Option<String>| text.unwrap_or_else(|| NOTHING.to_owned());
        self.measured.push(MeasuredRow {
            name,
            value: value(&measured.value),
            method: measured.method.to_string(),
            taken: Some(DayAndWho {
                day: or_nothing(measured.on.map(day)),
                who: or_nothing(measured.by.clone()),
            }),
        });
    }

    fn add_plain(&mut self, name: &'static str, value: String, method: &str) {
        self.measured.push(MeasuredRow {
            name,
            value,
            method: method.to_owned(),
            taken: None,
        });
    }
}

fn reading(at: MeridianReading) -> String {
    format!("{} @ {}", at.reading, at.meridian)
}
