//! The entries of the clinic's table that say how far a number may be off, each with the source of
//! the shipped value. The values stand in `assets/limits.ron`.

use crate::evidence::{
    BMC_2017_44, HOUSE, LENS_POWER_TOLERANCE, MELLES_2018, NORRBY_2008, POPULATION_PORTUGAL,
    REPEATABILITY_2022, Source, Standing, ULTRASOUND_COMPARISON, Work,
};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    pub limit: &'static str,
    /// What it is the spread of, or otherwise means.
    pub meaning: &'static str,
    pub source: Source,
}

/// A constant for each entry, and the table of all.
macro_rules! entries {
    ($($name:ident: $limit:literal, $meaning:literal, $source:expr;)*) => {
        $(pub(super) const $name: Entry = Entry { limit: $limit, meaning: $meaning, source: $source };)*

        /// Every entry, in the order of the file.
        pub const TABLE: [Entry; [$($limit),*].len()] = [$($name),*];
    };
}

const fn printed(work: Work, locator: &'static str) -> Source {
    Standing::Printed.of(work, locator)
}

const fn assumed(locator: &'static str) -> Source {
    Standing::Assumption.of(HOUSE, locator)
}

const DEPTH_RANGE: Source = printed(REPEATABILITY_2022, "0.13 mm / 2.77, upper end of its range");
/// SRK/T 0.463, Holladay 1 0.453, Hoffer Q 0.473, Haigis 0.437 D.
const MELLES: Source = printed(MELLES_2018, "18,501 eyes, first lens");
const NO_PRINTED: Source = assumed("no printed value was found");
const TOLERANCE: Source = Standing::Secondary.of(
    LENS_POWER_TOLERANCE,
    "±0.30 D to 15, ±0.40 to 25, ±0.50 to 30, ±1.0 above",
);

entries! {
    LENGTH_OPTICAL: "spread_length_optical", "axial length, optical", printed(ULTRASOUND_COMPARISON, "optical length, repeatability");
    LENGTH_IMMERSION: "spread_length_immersion", "axial length, immersion ultrasound", printed(ULTRASOUND_COMPARISON, "immersion");
    LENGTH_CONTACT: "spread_length_contact", "axial length, contact ultrasound", printed(ULTRASOUND_COMPARISON, "contact, within one eye");
    MEAN_K: "spread_mean_k", "mean corneal power", printed(REPEATABILITY_2022, "0.42 D / 2.77, upper end of its range");
    DEPTH: "spread_chamber_depth", "anterior chamber depth, optical", DEPTH_RANGE;
    LENS_THICKNESS: "spread_lens_thickness", "lens thickness, optical", DEPTH_RANGE;
    CORNEAL_THICKNESS: "spread_corneal_thickness", "corneal thickness", NO_PRINTED;
    POSTERIOR_RADIUS: "spread_posterior_radius", "posterior corneal radius", NO_PRINTED;
    REFRACTION: "spread_refraction", "refraction measured after surgery", Standing::Derived.of(NORRBY_2008, "27 % of the variance, of the mean variance of four printed scatters");
    TOLERANCE_TO_15: "lens_tolerance_to_15", "tolerance of a label to 15 D", TOLERANCE;
    TOLERANCE_TO_25: "lens_tolerance_to_25", "tolerance of a label to 25 D", TOLERANCE;
    TOLERANCE_TO_30: "lens_tolerance_to_30", "tolerance of a label to 30 D", TOLERANCE;
    TOLERANCE_OVER_30: "lens_tolerance_over_30", "tolerance of a label over 30 D", TOLERANCE;
    TOLERANCE_DEVIATIONS: "lens_tolerance_deviations", "standard deviations of the label in its tolerance", assumed("a tolerance of three standard deviations");
    SCATTER_SRK_T: "scatter_srk_t", "scatter of SRK/T", MELLES;
    SCATTER_T2: "scatter_t2", "scatter of T2", assumed("as SRK/T, from which T2 differs in one step");
    SCATTER_HOLLADAY_1: "scatter_holladay_1", "scatter of Holladay 1", MELLES;
    SCATTER_HOFFER_Q: "scatter_hoffer_q", "scatter of Hoffer Q", MELLES;
    SCATTER_HAIGIS: "scatter_haigis", "scatter of Haigis", MELLES;
    SCATTER_MODIFIED_RADIUS: "scatter_modified_radius", "scatter after myopic corneal surgery, modified corneal radius", printed(BMC_2017_44, "0.721 D for the modified radius (abstract)");
    SCATTER_NO_HISTORY_K: "scatter_no_history_k", "scatter after myopic corneal surgery, no-history K", assumed("as printed for no-history K by other formulas, 0.695-0.698 D (BMC Ophthalmol 2017;17:44, abstract), upper end; none was read for double-K SRK/T");
    SCATTER_HYPEROPIC_K: "scatter_hyperopic_k", "scatter after hyperopic corneal surgery, no-history K", assumed("as printed for such corneas, 0.72 and 0.58 D (J Cataract Refract Surg 2013;39:739, abstract), the larger; none was read for double-K SRK/T");
    SCATTER_AFTER_SURGERY: "scatter_after_surgery", "scatter after corneal surgery, known correction", assumed("about that of the other methods; none was read for double-K SRK/T");
    SCATTER_PRIOR_EYES: "scatter_prior_eyes", "eyes that the published scatter counts for beside the clinic's own", assumed("weight of the published scatter");
    AVERAGE_LENGTH: "average_length", "axial length of the average eye", AVERAGE;
    AVERAGE_K: "average_k", "mean corneal power of the average eye", AVERAGE;
    AVERAGE_DEPTH: "average_depth", "chamber depth of the average eye", AVERAGE;
    TORIC_KERATOMETRY_SPREAD: "toric_keratometry_spread", "corneal cylinder, per double-angle component", Standing::Derived.of(REPEATABILITY_2022, "twice the spread of the mean power: two meridians of equal, independent spread");
    TORIC_POSTERIOR_SPREAD: "toric_posterior_spread", "posterior cylinder, per double-angle component", NO_PRINTED;
    TORIC_ROTATION_SPREAD: "toric_rotation_spread", "angle at which a toric lens rests", NO_PRINTED;
}

/// Where the average eye comes from.
pub const AVERAGE: Source = printed(
    POPULATION_PORTUGAL,
    "mean; that the published scatter is of such eyes is an assumption",
);
