//! What a person enters of each measurement, and what comes out.

use crate::support::{Bench, click, fill, harness, light};
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use millrace_core::biometry::{
    ChamberDepth, DepthStart, Item, Keratometry, Measured, Measurement, MeridianReading, Method,
    PosteriorAstigmatism, Side,
};
use millrace_core::case::{Command, Draft, update};
use millrace_core::quantity::{HundredthDiopters, Meridian};

/// High enough that nothing has to be scrolled to.
pub(crate) const HIGH: [f32; 2] = [1280.0, 3200.0];

pub(crate) type Window = Harness<'static, Bench>;

pub(crate) fn one_eye() -> Draft {
    let mut draft = Draft::default();
    draft.operation.eye = Some(Side::Right);
    draft
}

pub(crate) fn pick(window: &mut Window, list: &str, option: &str) {
    // The list, not the label beside it.
    window.get_by_role_and_label(Role::ComboBox, list).click();
    window.run();
    click(window, option);
}

/// What a person enters of a measurement in the fields of its row.
pub(crate) fn measure(window: &mut Window, item: Item) {
    let by_method = |window: &mut Window, row: &str, method: &str, number: &str| {
        click(window, &format!("{row}, details…"));
        pick(window, &format!("{row}, method"), method);
        fill(window, row, number);
    };
    match item {
        Item::AxialLength => by_method(window, "Axial length", "Optical", "23.5"),
        Item::Keratometry => {
            click(window, "Keratometry, details…");
            click(window, "Keratometry in, mm");
            fill(window, "Flat reading", "7.80");
            fill(window, "Flat meridian", "180");
            fill(window, "Steep reading", "7.60");
            fill(window, "Steep meridian", "90");
            pick(window, "Keratometry, method", "Keratometer");
        }
        Item::SecondKeratometry => {
            click(window, "Second keratometry…");
            click(window, "Second keratometry, details…");
            click(window, "Second keratometry, in, mm");
            fill(window, "Second keratometry, flat reading", "7.80");
            fill(window, "Second keratometry, flat meridian", "180");
            fill(window, "Second keratometry, steep reading", "7.60");
            fill(window, "Second keratometry, steep meridian", "90");
            pick(window, "Second keratometry, method", "Topographer");
        }
        Item::ChamberDepth => {
            click(window, "Anterior chamber depth from the, Epithelium");
            by_method(window, "Anterior chamber depth", "Optical", "3.12");
        }
        Item::LensThickness => by_method(window, "Lens thickness", "Optical", "4.6"),
        Item::CornealThickness => by_method(window, "Corneal thickness", "Pachymeter", "540"),
        Item::CornealDiameter => by_method(window, "Corneal diameter", "Optical", "11.8"),
        Item::PosteriorRadius => {
            click(window, "Posterior cornea…");
            by_method(window, "Posterior corneal radius", "Tomographer", "6.4");
        }
        Item::PosteriorAstigmatism => {
            click(window, "Posterior cornea…");
            fill(window, "Posterior astigmatism, steep meridian", "92");
            by_method(window, "Posterior astigmatism", "Tomographer", "0.3");
        }
        Item::Pupil => {
            click(window, "Dilated pupil…");
            by_method(window, "Dilated pupil diameter", "Manual", "7");
        }
        Item::Endothelium => {
            by_method(
                window,
                "Endothelial cell density",
                "Specular microscope",
                "2450",
            );
        }
    }
}

/// The measurement that should come out.
pub(crate) fn measured(item: Item) -> Measurement {
    #[expect(clippy::unnecessary_wraps, reason = "as a measurement takes it")]
    fn by<T, S>(value: T, method: Method) -> Option<Measured<T, S>> {
        Some(Measured {
            value,
            method,
            spread: None,
            on: None,
            by: None,
        })
    }
    let keratometry = || {
        let at = |text: &str, degrees| MeridianReading {
            reading: text.parse().unwrap(),
            meridian: Meridian::new(degrees).unwrap(),
        };
        Keratometry {
            flat: at("7.80 mm", 180),
            steep: at("7.60 mm", 90),
            readings: None,
            repeat_difference: None,
        }
    };
    let steep = Meridian::new(92).unwrap();
    let back = PosteriorAstigmatism::new(HundredthDiopters::new(30), steep).unwrap();
    let depth = ChamberDepth {
        depth: "3.12 mm".parse().unwrap(),
        start: DepthStart::Epithelium,
    };
    match item {
        Item::AxialLength => {
            Measurement::AxialLength(by("23.5 mm".parse().unwrap(), Method::Optical))
        }
        Item::Keratometry => Measurement::Keratometry(by(keratometry(), Method::Keratometer)),
        Item::SecondKeratometry => {
            Measurement::SecondKeratometry(by(keratometry(), Method::Topographer))
        }
        Item::ChamberDepth => Measurement::ChamberDepth(by(depth, Method::Optical)),
        Item::LensThickness => {
            Measurement::LensThickness(by("4.6 mm".parse().unwrap(), Method::Optical))
        }
        Item::CornealThickness => {
            Measurement::CornealThickness(by("540 µm".parse().unwrap(), Method::Pachymeter))
        }
        Item::CornealDiameter => {
            Measurement::CornealDiameter(by("11.8 mm".parse().unwrap(), Method::Optical))
        }
        Item::PosteriorRadius => {
            Measurement::PosteriorRadius(by("6.4 mm".parse().unwrap(), Method::Tomographer))
        }
        Item::PosteriorAstigmatism => {
            Measurement::PosteriorAstigmatism(by(back, Method::Tomographer))
        }
        Item::Pupil => Measurement::Pupil(by("7 mm".parse().unwrap(), Method::Manual)),
        Item::Endothelium => Measurement::Endothelium(by(
            "2450 cells/mm²".parse().unwrap(),
            Method::SpecularMicroscope,
        )),
    }
}

#[test]
fn every_measurement_has_fields_that_reach_it() {
    for &item in Item::ALL {
        let before = one_eye();
        let mut bench = Bench::new(vec![before.clone()], light());
        bench.open(0);
        let mut window = harness(bench, HIGH);
        measure(&mut window, item);
        let command = Command::Measure(Side::Right, measured(item));
        assert_eq!(measured(item).item(), item);
        assert_eq!(
            window.state().draft(),
            &update(&before, command).unwrap(),
            "{item:?}"
        );
    }
}
