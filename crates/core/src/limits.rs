//! Every threshold a clinic may set for itself, and the ones the program ships with.
//!
//! The shipped file is `assets/limits.ron`; a clinic's own has the same entries. A plan says which
//! of its limits differ from the shipped ones.

mod catalog;
mod value;

use std::sync::LazyLock;

pub use catalog::{AboutLimit, LimitEntry};
pub use value::{LimitError, OFF, Switch};
use value::{LimitValue, Place};

use crate::biometry::DepthStart;
use crate::quantity::{Diopters, HundredthDiopters, Micrometers};

/// One limit that differs from the shipped one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangedLimit {
    /// Its name in the file.
    pub name: &'static str,
    /// The shipped value.
    pub shipped: String,
    /// The value in use.
    pub in_use: String,
}

macro_rules! limits {
    ($($(#[doc = $doc:literal])* $name:ident: $kind:ty, $unit:literal $(, $range:expr)?;)*) => {
        /// Name, meaning and unit of every limit, in the order of the file.
        const TEXTS: &[[&str; 3]] = &[$([stringify!($name), concat!($($doc),*), $unit],)*];

        /// The words a limit may be, where it is no number, in the order of the file.
        const WORDS: &[&[&str]] = &[$(<$kind as LimitValue>::WORDS,)*];

        /// Between which numbers a limit may lie, both included, in the order of the file; nothing for a word.
        /// Beyond them no eye lies, or what is computed with it would be no number: our own values.
        const RANGES: &[&[[f64; 2]]] = &[$(&[$($range)?],)*];

        /// The thresholds in use, all of them: a missing entry is refused, never filled in.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Limits {
            $($(#[doc = $doc])* pub $name: $kind,)*
        }

        #[derive(serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        struct LimitsFile {
            $($name: String,)*
        }

        impl Limits {
            fn from_file(file: &LimitsFile) -> Result<Self, LimitError> {
                Ok(Self {
                    $($name: <$kind>::read(&file.$name, &Place {
                        name: stringify!($name),
                        unit: $unit,
                        range: &[$($range)?],
                    })?,)*
                })
            }

            /// Name and value of every limit, in the order of the file.
            pub fn entries(&self) -> Vec<(&'static str, String)> {
                vec![$((stringify!($name), self.$name.show($unit)),)*]
            }

            fn put(&mut self, name: &str, text: &str) -> Result<(), LimitError> {
                match name {
                    $(stringify!($name) => {
                        self.$name = <$kind>::read(text, &Place {
                            name: stringify!($name),
                            unit: $unit,
                            range: &[$($range)?],
                        })?;
                    })*
                    _ => return Err(LimitError::NoSuch { name: name.to_owned() }),
                }
                Ok(())
            }
        }
    };
}

limits! {
    /// Shortest axial length that passes (`AL-01`).
    axial_length_shortest: Micrometers, "mm", [15.0, 30.0];
    /// Longest axial length that passes (`AL-01`).
    axial_length_longest: Micrometers, "mm", [15.0, 40.0];
    /// Largest difference of axial length between the eyes, longer eye up to the short end (`AL-02`).
    axial_difference_short: Micrometers, "mm", [0.05, 10.0];
    /// Longer eye up to which the short end holds (`AL-02`).
    axial_difference_short_end: Micrometers, "mm", [15.0, 40.0];
    /// Largest difference of axial length between the eyes, longer eye from the long end on (`AL-02`).
    axial_difference_long: Micrometers, "mm", [0.05, 10.0];
    /// Longer eye from which the long end holds (`AL-02`).
    axial_difference_long_end: Micrometers, "mm", [15.0, 40.0];
    /// Largest difference of axial length between eyes of ordinary length (`AL-03`).
    axial_difference_flat: Micrometers, "mm", [0.05, 10.0];
    /// Longer eye up to which that difference holds (`AL-03`).
    axial_difference_flat_end: Micrometers, "mm", [15.0, 40.0];
    /// Flattest mean K that passes (`KM-01`).
    mean_k_flattest: HundredthDiopters, "D", [25.0, 70.0];
    /// Steepest mean K that passes (`KM-01`).
    mean_k_steepest: HundredthDiopters, "D", [25.0, 70.0];
    /// Largest corneal astigmatism that passes (`KM-02`).
    corneal_astigmatism: HundredthDiopters, "D", [0.25, 15.0];
    /// Largest difference of mean K between the eyes (`KM-03`).
    mean_k_difference: HundredthDiopters, "D", [0.1, 15.0];
    /// Largest difference of mean K between the eyes with which the first eye's error is a guide
    /// (`SE-01` to `SE-03`).
    second_eye_k_difference: HundredthDiopters, "D", [0.05, 5.0];
    /// Largest prediction error of the first eye that is a guide (`SE-01` to `SE-03`).
    second_eye_error: HundredthDiopters, "D", [0.1, 10.0];
    /// Largest difference of axial length between the eyes with which the first eye's error is a guide
    /// (`SE-01` to `SE-03`).
    second_eye_length_difference: Micrometers, "mm", [0.01, 5.0];
    /// Largest difference of repeated readings in one meridian (`KM-04`).
    keratometry_repeat: HundredthDiopters, "D", [0.05, 5.0];
    /// Fewest keratometry readings (`KM-04`).
    keratometry_readings: i32, "readings", [1.0, 100.0];
    /// Smallest corneal diameter that passes (`WT-01`).
    corneal_diameter_smallest: Micrometers, "mm", [8.0, 16.0];
    /// Largest corneal diameter that passes (`WT-01`).
    corneal_diameter_largest: Micrometers, "mm", [8.0, 16.0];
    /// Days that soft contact lenses are left out before keratometry (`CW-01`).
    contact_lens_soft: i32, "days", [0.0, 365.0];
    /// Days that hard contact lenses are left out before keratometry (`CW-01`).
    contact_lens_hard: i32, "days", [0.0, 365.0];
    /// Largest misfit between refraction and biometry of the two eyes (`RF-01`).
    refraction_misfit: HundredthDiopters, "D", [0.25, 20.0];
    /// Age of a measurement from which repeating it may be considered (`MA-01`).
    measurement_age: i32, "months", [1.0, 240.0];
    /// Below this axial length guidance names Haigis or Hoffer Q (`FL-01`).
    guidance_short: Micrometers, "mm", [15.0, 30.0];
    /// Above this axial length guidance names Haigis or SRK/T (`FL-01`).
    guidance_long: Micrometers, "mm", [15.0, 40.0];
    /// Whether the stricter screening set of 1988 is applied (`HS-01` to `HS-06`).
    strict_screening: Switch, "";
    /// Strict set: shortest axial length (`HS-01`).
    strict_axial_shortest: Micrometers, "mm", [15.0, 30.0];
    /// Strict set: longest axial length (`HS-01`).
    strict_axial_longest: Micrometers, "mm", [15.0, 40.0];
    /// Strict set: flattest mean K (`HS-02`).
    strict_k_flattest: HundredthDiopters, "D", [25.0, 70.0];
    /// Strict set: steepest mean K (`HS-02`).
    strict_k_steepest: HundredthDiopters, "D", [25.0, 70.0];
    /// Strict set: emmetropic power against the lens's average (`HS-03`).
    strict_power_off_average: HundredthDiopters, "D", [0.1, 30.0];
    /// Strict set: mean K between the eyes (`HS-04`).
    strict_k_difference: HundredthDiopters, "D", [0.1, 15.0];
    /// Strict set: axial length between the eyes (`HS-05`).
    strict_axial_difference: Micrometers, "mm", [0.05, 10.0];
    /// Strict set: emmetropic power between the eyes (`HS-06`).
    strict_power_difference: HundredthDiopters, "D", [0.1, 30.0];
    /// Anterior chamber depth under which a hard nucleus speaks in favor of SICS (`DP-01`).
    chamber_depth: Micrometers, "mm", [1.0, 6.0];
    /// From which surface that depth counts (`DP-01`).
    chamber_depth_start: DepthStart, "";
    /// Chance on either side of the limit from which a depth is no longer borderline (`DP-01`, `DP-03`, `PX-02`,
    /// `RK-01`).
    borderline_chance: i32, "%", [1.0, 49.0];
    /// LOCS III opalescence or color, in tenths, from which a nucleus counts as hard.
    hard_locs_tenths: i32, "tenths", [1.0, 69.0];
    /// WHO simplified grade from which a nucleus counts as hard.
    hard_who_grade: i32, "WHO grade", [1.0, 3.0];
    /// Emery-Little grade from which a nucleus counts as hard.
    hard_emery_little_grade: i32, "Emery-Little grade", [1.0, 5.0];
    /// 95 % tolerance of a LOCS III grade, in tenths (`NG-01`).
    locs_tolerance_tenths: i32, "tenths", [0.0, 30.0];
    /// How much shorter contact ultrasound reads a chamber depth than light does (`DP-04`).
    contact_depth_shorter: Micrometers, "mm", [0.0, 2.0];
    /// Depth under which cell loss was higher in a published comparison (`DP-03`).
    depth_of_cell_loss: Micrometers, "mm", [1.0, 6.0];
    /// Endothelial cell density under which decompensation was frequent (`EN-01`).
    endothelial_density: i32, "cells/mm²", [1.0, 5000.0];
    /// Corneal thickness over which Fuchs eyes later needed a graft (`FU-01`).
    fuchs_thickness: Micrometers, "mm", [0.3, 1.2];
    /// The older limit of corneal thickness in Fuchs eyes (`FU-02`).
    fuchs_thickness_older: Micrometers, "mm", [0.3, 1.2];
    /// Pupil under which pseudoexfoliation marks zonular risk (`PX-01`).
    pseudoexfoliation_pupil: Micrometers, "mm", [1.0, 10.0];
    /// Depth under which pseudoexfoliation marks zonular risk (`PX-02`).
    pseudoexfoliation_depth: Micrometers, "mm", [1.0, 6.0];
    /// Decentration over which pseudoexfoliation marks zonular risk (`PX-03`).
    pseudoexfoliation_decentration: Micrometers, "mm", [0.01, 3.0];
    /// Narrowest incision of manual small-incision surgery (SICS) (`IN-01`).
    small_incision_narrowest: Micrometers, "mm", [3.0, 12.0];
    /// Widest incision of manual small-incision surgery (SICS) (`IN-01`).
    small_incision_widest: Micrometers, "mm", [3.0, 12.0];
    /// Narrowest incision of phacoemulsification (`IN-01`).
    phaco_incision_narrowest: Micrometers, "mm", [1.0, 6.0];
    /// Widest incision of phacoemulsification (`IN-01`).
    phaco_incision_widest: Micrometers, "mm", [1.0, 6.0];
    /// Least mean margin over a turning piece, or off (`CL-01`).
    piece_margin: Option<Micrometers>, "mm", [0.0, 5.0];
    /// Farthest that iris and capsule fall back for a whole nucleus in the chamber (`CL-02`).
    nucleus_retreat: Micrometers, "mm", [0.0, 3.0];
    /// Half the way around what passes the tunnel, at most this share of its lips (`CL-03`).
    tunnel_demand: i32, "%", [50.0, 500.0];
    /// Largest stretch of a capsulorhexis around a nucleus on edge (`CL-04`).
    capsulorhexis_stretch: i32, "%", [0.0, 200.0];
    /// Stretch at which a capsulorhexis tears (`CL-04`, `CL-05`).
    capsulorhexis_tear: i32, "%", [1.0, 300.0];
    /// Least margin of the optic over the capsulorhexis, on the diameter (`CC-01`).
    capsulorhexis_margin: Micrometers, "mm", [0.0, 3.0];
    /// Risk points from which the operation counts as complicated (`RK-01`).
    risk_points: i32, "points", [1.0, 100.0];
    /// Pupil under which a risk point is given (`RK-01`).
    risk_pupil: Micrometers, "mm", [1.0, 10.0];
    /// Depth under which a risk point is given (`RK-01`).
    risk_depth: Micrometers, "mm", [1.0, 6.0];
    /// Age over which a risk point is given (`RK-01`).
    risk_age: i32, "years", [1.0, 130.0];
    /// Ametropia over which a risk point is given (`RK-01`).
    risk_ametropia: HundredthDiopters, "D", [0.1, 30.0];
    /// How far forward of the bag a lens in the sulcus is taken to sit.
    sulcus_shift: Micrometers, "mm", [0.0, 2.0];
    /// Farthest from the target that a chosen power may leave the eye (`PW-05`, `PW-07`).
    target_band: HundredthDiopters, "D", [0.1, 10.0];
    /// Farthest from the target that a chosen power may leave the eye and the plan be signed (`PW-06`).
    target_band_widest: HundredthDiopters, "D", [0.1, 20.0];
    /// Least depth of the chamber, from the epithelium, for an anterior chamber IOL (`AC-02`).
    chamber_lens_depth: Micrometers, "mm", [1.0, 6.0];
    /// Least endothelial cell density for an anterior chamber IOL (`AC-05`).
    chamber_lens_endothelium: i32, "cells/mm²", [1.0, 5000.0];
    /// Farthest that the constants of a lens may put formulas apart in the mean eye (`CT-05`).
    constants_apart: HundredthDiopters, "D", [0.05, 10.0];
    /// The same, beyond which nothing is signed (`CT-06`).
    constants_apart_widest: HundredthDiopters, "D", [0.1, 20.0];
    /// Farthest that two records of one model may be apart in the mean eye (`CT-07`).
    constants_of_model: HundredthDiopters, "D", [0.05, 10.0];
    /// Most myopic customary target (`TG-02`).
    target_most_myopic: HundredthDiopters, "D", [-20.0, 20.0];
    /// Most hyperopic customary target (`TG-02`).
    target_most_hyperopic: HundredthDiopters, "D", [-20.0, 20.0];
    /// Most hyperopic target that needs no reason (`TG-03`).
    target_hyperopic_review: HundredthDiopters, "D", [-20.0, 20.0];
    /// Largest planned difference of refraction between the eyes (`AN-01`).
    anisometropia: HundredthDiopters, "D", [0.25, 20.0];
    /// Spread (1 SD) of an axial length by optical biometry.
    spread_length_optical: Micrometers, "mm", [0.001, 1.0];
    /// Spread of an axial length by immersion ultrasound.
    spread_length_immersion: Micrometers, "mm", [0.001, 1.0];
    /// Spread of an axial length by contact ultrasound.
    spread_length_contact: Micrometers, "mm", [0.001, 1.0];
    /// Spread of the mean corneal power, by any keratometry.
    spread_mean_k: Diopters, "D", [0.001, 5.0];
    /// Spread of an optical anterior chamber depth.
    spread_chamber_depth: Micrometers, "mm", [0.001, 1.0];
    /// Spread of an optical lens thickness.
    spread_lens_thickness: Micrometers, "mm", [0.001, 1.0];
    /// Spread of a corneal thickness.
    spread_corneal_thickness: Micrometers, "mm", [0.001, 0.2];
    /// Spread of a measured mean posterior corneal radius.
    spread_posterior_radius: Micrometers, "mm", [0.001, 1.0];
    /// Spread of the refraction measured after surgery.
    spread_refraction: Diopters, "D", [0.001, 5.0];
    /// Tolerance of a labeled power up to 15 D.
    lens_tolerance_to_15: Diopters, "D", [0.001, 5.0];
    /// Tolerance of a labeled power over 15 to 25 D.
    lens_tolerance_to_25: Diopters, "D", [0.001, 5.0];
    /// Tolerance of a labeled power over 25 to 30 D.
    lens_tolerance_to_30: Diopters, "D", [0.001, 5.0];
    /// Tolerance of a labeled power over 30 D.
    lens_tolerance_over_30: Diopters, "D", [0.001, 5.0];
    /// How many standard deviations of the labeled power make its tolerance.
    lens_tolerance_deviations: i32, "SD", [1.0, 6.0];
    /// Scatter of the prediction error of SRK/T.
    scatter_srk_t: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error of T2.
    scatter_t2: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error of Holladay 1.
    scatter_holladay_1: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error of Hoffer Q.
    scatter_hoffer_q: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error of Haigis.
    scatter_haigis: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error after myopic corneal surgery by the modified corneal radius.
    scatter_modified_radius: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error after myopic corneal surgery by the no-history K.
    scatter_no_history_k: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error after hyperopic corneal surgery by the no-history K.
    scatter_hyperopic_k: Diopters, "D", [0.01, 5.0];
    /// Scatter of the prediction error after corneal surgery by a known correction.
    scatter_after_surgery: Diopters, "D", [0.01, 5.0];
    /// How many eyes the published scatter counts for beside the clinic's own.
    scatter_prior_eyes: i32, "eyes", [1.0, 100_000.0];
    /// Axial length of the average eye, in which the scatter was found.
    average_length: Micrometers, "mm", [18.0, 32.0];
    /// Mean corneal power of the average eye.
    average_k: HundredthDiopters, "D", [35.0, 55.0];
    /// Anterior chamber depth of the average eye.
    average_depth: Micrometers, "mm", [1.5, 6.0];
    /// Spread (1 SD) of each double-angle component of keratometric astigmatism (`TO-01`).
    toric_keratometry_spread: HundredthDiopters, "D", [0.01, 5.0];
    /// Spread (1 SD) of each double-angle component of the posterior cornea's part (`TO-01`).
    toric_posterior_spread: HundredthDiopters, "D", [0.01, 5.0];
    /// Spread (1 SD) of the rotation of a toric lens after the operation.
    toric_rotation_spread: i32, "degrees", [1.0, 45.0];
    /// Chance of leaving less than no cylinder, from which a toric step is worth it (`TO-01`).
    toric_chance: i32, "%", [1.0, 99.0];
    /// Largest difference of the steep meridian between two methods (`TO-02`).
    toric_axis_difference: i32, "degrees", [1.0, 90.0];
    /// Smallest cylinder that has a meridian worth comparing (`TO-02`).
    toric_axis_cylinder: HundredthDiopters, "D", [0.05, 10.0];
    /// Largest vector difference of astigmatism between two methods (`TO-02`).
    toric_vector_difference: HundredthDiopters, "D", [0.05, 10.0];
    /// Largest difference of the chosen axis from the suggested one (`TO-06`).
    toric_axis_off: i32, "degrees", [1.0, 90.0];
    /// Corneal astigmatism over which a lens without a cylinder may be reconsidered (`TO-09`).
    considerable_astigmatism: HundredthDiopters, "D", [0.25, 15.0];
}

/// The shipped file.
pub const SHIPPED_TEXT: &str = include_str!("../../../assets/limits.ron");

static SHIPPED: LazyLock<Limits> = LazyLock::new(|| {
    #[expect(
        clippy::expect_used,
        reason = "the text is compiled in; a test reads it"
    )]
    Limits::parse(SHIPPED_TEXT).expect("the shipped limits read")
});

impl Limits {
    /// The shipped limits.
    pub fn shipped() -> &'static Self {
        &SHIPPED
    }

    /// Reads a clinic's limits.
    pub fn parse(text: &str) -> Result<Self, LimitError> {
        let limits = Self::from_file(&ron::from_str(text)?)?;
        limits.check_order()?;
        Ok(limits)
    }

    /// The same limits with one of them set, read as from a file.
    pub fn with(&self, name: &str, text: &str) -> Result<Self, LimitError> {
        let mut next = self.clone();
        next.put(name, text)?;
        next.check_order()?;
        Ok(next)
    }

    /// Refuses pairs that stand the wrong way round, which would make every eye a finding or none.
    fn check_order(&self) -> Result<(), LimitError> {
        macro_rules! in_order {
            ($($lower:ident <= $upper:ident;)*) => {
                $(if self.$upper < self.$lower {
                    let (lower, upper) = (stringify!($lower), stringify!($upper));
                    return Err(LimitError::Order { lower, upper });
                })*
            };
        }
        in_order! {
            axial_length_shortest <= axial_length_longest;
            axial_difference_short <= axial_difference_long;
            axial_difference_short_end <= axial_difference_long_end;
            mean_k_flattest <= mean_k_steepest;
            corneal_diameter_smallest <= corneal_diameter_largest;
            guidance_short <= guidance_long;
            strict_axial_shortest <= strict_axial_longest;
            strict_k_flattest <= strict_k_steepest;
            small_incision_narrowest <= small_incision_widest;
            phaco_incision_narrowest <= phaco_incision_widest;
            constants_apart <= constants_apart_widest;
            target_band <= target_band_widest;
            capsulorhexis_stretch <= capsulorhexis_tear;
            target_most_myopic <= target_most_hyperopic;
        }
        Ok(())
    }

    /// The limits that differ from the shipped ones.
    pub fn changed(&self) -> Vec<ChangedLimit> {
        let shipped = Self::shipped().entries();
        let pairs = self.entries().into_iter().zip(shipped);
        pairs
            .filter(|((_, in_use), (_, shipped))| in_use != shipped)
            .map(|((name, in_use), (_, shipped))| ChangedLimit {
                name,
                shipped,
                in_use,
            })
            .collect()
    }
}

#[cfg(test)]
mod tests;
