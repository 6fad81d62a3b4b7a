//! What the plan rests on: the operated eye's measurements with method, day and person. The fellow
//! eye's numbers are not printed: one eye at a time.

use millrace_core::biometry::{DepthStart, EyeRecord, Measured, MeridianReading};
use millrace_core::case::Draft;
use millrace_core::plan::Plan;

use crate::day::date;
use crate::page::Page;

/// What stands where nothing is known.
const NOTHING: &str = "–";
const AGAIN_FLAT: &str = "Second K, flat";
const AGAIN_STEEP: &str = "Second K, steep";

pub(super) fn write(page: &mut Page, draft: &Draft, plan: &Plan) {
    page.heading(&format!("Measurements of the {}", plan.side));
    let eye = draft.eyes.get(plan.side);
    let mut rows = Rows::default();
    rows.add(
        "Axial length",
        eye.axial_length.as_ref(),
        ToString::to_string,
    );
    add_keratometry(&mut rows, eye);
    let depth_name = match &eye.chamber_depth {
        Some(depth) => match depth.value.start {
            DepthStart::Epithelium => "ACD from epithelium",
            DepthStart::Endothelium => "ACD from endothelium",
        },
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
    add_derived(&mut rows, eye);
    let header = ["", "value", "method", "SD", "day", "who"].map(str::to_owned);
    page.table_of_words(&header, rows.measured, &[1, 2, 4, 5]);
    if !rows.missing.is_empty() {
        page.hanging(
            " ",
            3,
            &format!("Not measured: {}.", missing(&rows.missing)),
        );
    }
}

fn add_keratometry(rows: &mut Rows, eye: &EyeRecord) {
    rows.add("Keratometry, flat", eye.keratometry.as_ref(), |k| {
        reading(k.flat)
    });
    rows.add("Keratometry, steep", eye.keratometry.as_ref(), |k| {
        reading(k.steep)
    });
    rows.add(AGAIN_FLAT, eye.second_keratometry.as_ref(), |k| {
        reading(k.flat)
    });
    rows.add(AGAIN_STEEP, eye.second_keratometry.as_ref(), |k| {
        reading(k.steep)
    });
}

/// A second keratometry has two rows and is missed once.
fn missing(names: &[String]) -> String {
    let names: Vec<String> = names
        .iter()
        .filter(|name| *name != AGAIN_STEEP)
        .map(|name| {
            if name == AGAIN_FLAT {
                return "second keratometry".to_owned();
            }
            // It stands in the middle of a sentence.
            let mut letters = name.chars();
            let first = letters.next().map(char::to_lowercase);
            first.into_iter().flatten().chain(letters).collect()
        })
        .collect();
    names.join("; ")
}

fn add_derived(rows: &mut Rows, eye: &EyeRecord) {
    if let Some(k) = &eye.keratometry {
        let (mean_d, cylinder_d) = (k.value.mean_power().d(), k.value.radii().astigmatism().d());
        let steep = k.value.steep.meridian;
        rows.add_plain(
            "Mean K at 1.3375",
            &format!("{mean_d:.2} D"),
            "from the two",
        );
        let text = format!("{cylinder_d:.2} D, steep @ {steep}");
        rows.add_plain("Corneal astigmatism", &text, "from the two");
    }
    if let Some(depth) = eye.aqueous_depth() {
        let derived = match eye.chamber_depth.as_ref().map(|depth| depth.value.start) {
            Some(DepthStart::Epithelium) => "ACD less CCT",
            _ => "as measured",
        };
        rows.add_plain("Aqueous depth", &depth.millimeters().to_string(), derived);
    }
    if let Some(grade) = eye.state.nucleus {
        rows.add_plain("Nucleus", &grade.to_string(), "");
    }
}

#[derive(Default)]
struct Rows {
    measured: Vec<Vec<String>>,
    missing: Vec<String>,
}

impl Rows {
    fn add<T, S: ToString>(
        &mut self,
        name: &str,
        measured: Option<&Measured<T, S>>,
        value: impl Fn(&T) -> String,
    ) {
        let Some(measured) = measured else {
            self.missing.push(name.to_owned());
            return;
        };
        let or_nothing = |text: Option<String>| text.unwrap_or_else(|| NOTHING.to_owned());
        self.measured.push(vec![
            name.to_owned(),
            value(&measured.value),
            measured.method.to_string(),
            or_nothing(measured.spread.as_ref().map(size)),
            or_nothing(measured.on.map(date)),
            or_nothing(measured.by.clone()),
        ]);
    }

    fn add_plain(&mut self, name: &str, value: &str, method: &str) {
        let row = [name, value, method, "", "", ""];
        self.measured.push(row.map(str::to_owned).to_vec());
    }
}

/// A spread is a size: a plus before it would say that it has a direction.
fn size<S: ToString>(spread: &S) -> String {
    spread.to_string().trim_start_matches('+').to_owned()
}

fn reading(at: MeridianReading) -> String {
    format!("{} @ {}", at.reading, at.meridian)
}
