//! `PO-01` to `PO-06`: a measurement outside what population studies found; `EX-01` to `EX-03`: far
//! outside.

use super::unless_cornea_operated;
use crate::biometry::DepthStart;
use crate::evidence::{HOUSE, POPULATION_14, Standing};
use crate::quantity::Micrometers;
use crate::rules::check::within;
use crate::rules::depth::depth_from;
use crate::rules::{
    Because, Facts, Finding, Group, Look, Missing, Quantity, Rule, Severity, Which,
};

/// A rule of the family: mean ± 2 SD of the studies, a published fact and not a limit of the clinic.
macro_rules! population {
    ($rule:ident, $id:literal, $title:literal, $what:literal, $low:literal, $high:literal, $end:literal, $evaluate:expr) => {
        #[doc = concat!("`", $id, "`.")]
        pub const $rule: Rule = Rule {
            id: $id,
            title: concat!($title, " is outside the population"),
            group: Group::Believable,
            severity: Severity::Note,
            bearing: None,
            checks: concat!(
                $what, " against ", $low, " and ", $high,
                ", the mean less and plus two standard deviations of population studies; both pass themselves.",
                $end
            ),
            why: concat!(
                "In 14 population studies two standard deviations on either side of the mean reach from ",
                $low, " to ", $high,
                ". Were the values normally distributed, about one healthy eye in twenty would lie outside: rare is not wrong, and worth a second look."
            ),
            options: "Consider it beside the other findings on this measurement; repeating it may settle a doubt.",
            sources: &[Standing::Printed.of(POPULATION_14, concat!("mean ± 2 SD: ", $low, " to ", $high))],
            limits: &[],
            evaluate: $evaluate,
        };
    };
}

/// A rule of the family of extremes: mean ± 2.5 SD of the same studies.
macro_rules! extreme {
    ($rule:ident, $id:literal, $title:literal, $what:literal, $low:literal, $high:literal, $evaluate:expr) => {
        #[doc = concat!("`", $id, "`.")]
        pub const $rule: Rule = Rule {
            id: $id,
            title: concat!($title, " is extreme"),
            group: Group::Believable,
            severity: Severity::Review,
            bearing: None,
            checks: concat!(
                $what, " against ", $low, " and ", $high,
                ", the mean less and plus two and a half standard deviations of population studies; both pass themselves."
            ),
            why: "About one healthy eye in eighty lies outside, were the values normally distributed: a slip of measurement or of typing is then not much less likely. Such an eye also leaves what formulas, chamber model and rules were made from.",
            options: "Consider repeating the measurement, by another method where there is one, and looking for the cause; what makes it believable may be the reason recorded.",
            sources: &[
                Standing::Printed.of(POPULATION_14, "mean and SD of the studies"),
                Standing::Assumption.of(HOUSE, concat!("two and a half standard deviations: ", $low, " to ", $high)),
            ],
            limits: &[],
            evaluate: $evaluate,
        };
    };
}

population!(
    LENGTH,
    "PO-01",
    "Axial length",
    "Axial length of the operative eye",
    "20.80 mm",
    "26.20 mm",
    "",
    |facts| Ok(length(facts.length()?, [20_800, 26_200]))
);
population!(
    RADIUS,
    "PO-02",
    "Mean corneal radius",
    "Mean corneal radius of the operative eye, mean of both meridians to the nearest 0.001 mm,",
    "7.13 mm",
    "8.25 mm",
    " It does not apply to a cornea that had refractive surgery.",
    radius
);
population!(
    DEPTH,
    "PO-03",
    "Anterior chamber depth",
    "Anterior chamber depth of the operative eye, from the epithelium,",
    "2.16 mm",
    "4.04 mm",
    "",
    |facts| unless_extreme(length, depth(facts)?, [2_160, 4_040], DEPTHS)
);
extreme!(
    DEPTH_EXTREME,
    "EX-01",
    "Anterior chamber depth",
    "Anterior chamber depth of the operative eye, from the epithelium,",
    "1.925 mm",
    "4.275 mm",
    |facts| Ok(length(depth(facts)?, DEPTHS))
);
population!(
    LENS,
    "PO-04",
    "Lens thickness",
    "Lens thickness of the operative eye",
    "3.51 mm",
    "5.23 mm",
    "",
    |facts| unless_extreme(length, lens(facts)?, [3_510, 5_230], LENSES)
);
extreme!(
    LENS_EXTREME,
    "EX-02",
    "Lens thickness",
    "Lens thickness of the operative eye",
    "3.295 mm",
    "5.445 mm",
    |facts| Ok(length(lens(facts)?, LENSES))
);
population!(
    DIAMETER,
    "PO-05",
    "Corneal diameter",
    "Corneal diameter of the operative eye",
    "11.00 mm",
    "12.60 mm",
    "",
    |facts| Ok(length(facts.corneal_diameter()?, [11_000, 12_600]))
);
population!(
    THICKNESS,
    "PO-06",
    "Corneal thickness",
    "Corneal thickness of the operative eye",
    "468 µm",
    "620 µm",
    "",
    |facts| unless_extreme(thickness, facts.thickness()?, [468, 620], CORNEAS)
);
extreme!(
    THICKNESS_EXTREME,
    "EX-03",
    "Corneal thickness",
    "Corneal thickness of the operative eye",
    "449 µm",
    "639 µm",
    |facts| Ok(thickness(facts.thickness()?, CORNEAS))
);

// 3.10 ± 2.5 · 0.47 mm, 4.37 ± 2.5 · 0.43 mm and 544 ± 2.5 · 38 µm, the means and a quarter of what
// lies between the printed ends at ± 2 SD.
const DEPTHS: [i32; 2] = [1_925, 4_275];
const LENSES: [i32; 2] = [3_295, 5_445];
const CORNEAS: [i32; 2] = [449, 639];

/// A finding outside `bounds_um`, unless it lies outside the extremes, of which a graver rule speaks.
fn unless_extreme(
    finding: fn(Micrometers, [i32; 2]) -> Option<Finding>,
    value: Micrometers,
    bounds_um: [i32; 2],
    extremes_um: [i32; 2],
) -> Look {
    if finding(value, extremes_um).is_some() {
        return Err(Because::WiderLimitExceeded.into());
    }
    Ok(finding(value, bounds_um))
}

fn depth(facts: &Facts<'_>) -> Result<Micrometers, Missing> {
    depth_from(facts, DepthStart::Epithelium)
}

fn lens(facts: &Facts<'_>) -> Result<Micrometers, Missing> {
    let thickness = facts.operated.0.lens_thickness.as_ref();
    known(
        thickness.map(|measured| measured.value.get()),
        Which::LensThickness,
    )
}

fn thickness(value: Micrometers, bounds_um: [i32; 2]) -> Option<Finding> {
    within(Quantity::Thickness, value, bounds_um.map(Micrometers::new))
}

fn radius(facts: &Facts<'_>) -> Look {
    unless_cornea_operated(facts)?;
    let radius = facts.keratometry()?.mean_radius().nearest_micrometer();
    Ok(length(known(radius, Which::Keratometry)?, [7_130, 8_250]))
}

fn length(value: Micrometers, bounds_um: [i32; 2]) -> Option<Finding> {
    within(Quantity::Length, value, bounds_um.map(Micrometers::new))
}

fn known(value: Option<Micrometers>, which: Which) -> Result<Micrometers, Missing> {
    value.ok_or(Missing::of_this_eye(which))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::biometry::{CornealSurgery, Method};
    use crate::rules::testing::{
        DraftUnderTest, SURGERIES, assert_finding, assert_limits, assert_not_applicable,
        assert_not_evaluated, assert_satisfied,
    };

    fn by_light(draft: &mut DraftUnderTest, depth: &str) {
        draft.set_depth(depth, Method::Optical);
    }

    fn both_radii(draft: &mut DraftUnderTest, radius: &str) {
        draft.set_keratometry(radius, radius);
    }

    #[test]
    fn at_the_limits_and_one_step_beyond() {
        let length = DraftUnderTest::set_axial_length;
        assert_limits(
            &LENGTH,
            length,
            ["20.80 mm", "26.20 mm"],
            ["20.799 mm", "26.201 mm"],
        );
        assert_limits(
            &RADIUS,
            both_radii,
            ["7.13 mm", "8.25 mm"],
            ["7.129 mm", "8.251 mm"],
        );
        assert_limits(
            &DEPTH,
            by_light,
            ["2.16 mm", "4.04 mm"],
            ["2.159 mm", "4.041 mm"],
        );
        let lens = DraftUnderTest::set_lens_thickness;
        assert_limits(
            &LENS,
            lens,
            ["3.51 mm", "5.23 mm"],
            ["3.509 mm", "5.231 mm"],
        );
        let diameter = DraftUnderTest::set_corneal_diameter;
        assert_limits(
            &DIAMETER,
            diameter,
            ["11.00 mm", "12.60 mm"],
            ["10.999 mm", "12.601 mm"],
        );
        let thickness = DraftUnderTest::set_corneal_thickness;
        assert_limits(
            &THICKNESS,
            thickness,
            ["468 µm", "620 µm"],
            ["467 µm", "621 µm"],
        );
    }

    #[test]
    fn at_the_extremes_and_one_step_beyond_where_only_the_graver_rule_speaks() {
        type Case = (
            [&'static Rule; 2],
            fn(&mut DraftUnderTest, &str),
            [&'static str; 2],
            [&'static str; 2],
        );
        let lens = DraftUnderTest::set_lens_thickness;
        let thickness = DraftUnderTest::set_corneal_thickness;
        let cases: [Case; 3] = [
            (
                [&DEPTH_EXTREME, &DEPTH],
                by_light,
                ["1.925 mm", "4.275 mm"],
                ["1.924 mm", "4.276 mm"],
            ),
            (
                [&LENS_EXTREME, &LENS],
                lens,
                ["3.295 mm", "5.445 mm"],
                ["3.294 mm", "5.446 mm"],
            ),
            (
                [&THICKNESS_EXTREME, &THICKNESS],
                thickness,
                ["449 µm", "639 µm"],
                ["448 µm", "640 µm"],
            ),
        ];
        for ([extreme, unusual], set, limits, beyond) in cases {
            assert_limits(extreme, set, limits, beyond);
            for value in beyond {
                assert_not_applicable(unusual, |draft| set(draft, value));
            }
        }
    }

    #[test]
    fn a_near_miss_inside_passes() {
        for length in ["20.801 mm", "26.199 mm"] {
            assert_satisfied(&LENGTH, |draft| draft.set_axial_length(length));
        }
        for radius in ["7.131 mm", "8.249 mm"] {
            assert_satisfied(&RADIUS, |draft| both_radii(draft, radius));
        }
        for depth in ["2.161 mm", "4.039 mm"] {
            assert_satisfied(&DEPTH, |draft| by_light(draft, depth));
        }
        for thickness in ["3.511 mm", "5.229 mm"] {
            assert_satisfied(&LENS, |draft| draft.set_lens_thickness(thickness));
        }
        for diameter in ["11.001 mm", "12.599 mm"] {
            assert_satisfied(&DIAMETER, |draft| draft.set_corneal_diameter(diameter));
        }
        for thickness in ["469 µm", "619 µm"] {
            assert_satisfied(&THICKNESS, |draft| draft.set_corneal_thickness(thickness));
        }
    }

    #[test]
    fn without_the_measurement_the_rule_says_so() {
        assert_not_evaluated(&LENGTH, |draft| draft.operated().axial_length = None);
        assert_not_evaluated(&RADIUS, |draft| draft.operated().keratometry = None);
        assert_not_evaluated(&DEPTH, |draft| draft.operated().chamber_depth = None);
        assert_not_evaluated(&LENS, |draft| draft.operated().lens_thickness = None);
        assert_not_evaluated(&DIAMETER, |draft| draft.operated().corneal_diameter = None);
        assert_not_evaluated(&THICKNESS, |draft| {
            draft.operated().corneal_thickness = None;
        });
    }

    #[test]
    fn a_cornea_that_had_surgery_is_not_asked_about() {
        for kind in SURGERIES {
            assert_not_applicable(&RADIUS, |draft| {
                both_radii(draft, "8.80 mm");
                draft.operate_cornea(kind);
            });
        }
        assert_finding(
            &RADIUS,
            |draft| {
                both_radii(draft, "8.80 mm");
                draft.operated().state.corneal_surgery = Some(CornealSurgery::Absent);
            },
            ["8.80 mm", "7.13 mm to 8.25 mm"],
        );
    }

    /// By hand: 8.00 and 8.52 mm have a mean of 8.26 mm; 337.5/40.00 = 8.4375 mm.
    #[test]
    fn both_meridians_count_and_powers_are_taken_as_radii() {
        assert_satisfied(&RADIUS, |draft| draft.set_keratometry("8.50 mm", "8.00 mm"));
        for (flat, steep, mean) in [
            ("8.52 mm", "8.00 mm", "8.26 mm"),
            ("39.94 D at 1.3375", "40.06 D at 1.3375", "8.438 mm"),
        ] {
            assert_finding(
                &RADIUS,
                |draft| draft.set_keratometry(flat, steep),
                [mean, "7.13 mm to 8.25 mm"],
            );
        }
    }

    /// By hand: 2.619 mm from the endothelium and 540 µm of cornea are 3.159 mm; 1.619 are 2.159.
    #[test]
    fn a_depth_from_the_endothelium_needs_the_thickness() {
        assert_satisfied(&DEPTH, |draft| draft.set_aqueous_depth("2.619 mm"));
        assert_finding(
            &DEPTH,
            |draft| draft.set_aqueous_depth("1.619 mm"),
            ["2.159 mm", "2.16 mm to 4.04 mm"],
        );
        assert_not_evaluated(&DEPTH, |draft| {
            draft.set_aqueous_depth("2.619 mm");
            draft.operated().corneal_thickness = None;
        });
    }
}
