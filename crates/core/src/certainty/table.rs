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

impl Entry {
    const fn of(limit: &'static str, meaning: &'static str, source: Source) -> Self {
        Self {
            limit,
            meaning,
            source,
        }
    }
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

pub(super) const LENGTH_OPTICAL: Entry = Entry::of(
    "spread_length_optical",
    "axial length, optical",
    printed(ULTRASOUND_COMPARISON, "optical length, repeatability"),
);
pub(super) const LENGTH_IMMERSION: Entry = Entry::of(
    "spread_length_immersion",
    "axial length, immersion ultrasound",
    printed(ULTRASOUND_COMPARISON, "immersion"),
);
pub(super) const LENGTH_CONTACT: Entry = Entry::of(
    "spread_length_contact",
    "axial length, contact ultrasound",
    printed(ULTRASOUND_COMPARISON, "contact, within one eye"),
);
pub(super) const MEAN_K: Entry = Entry::of(
    "spread_mean_k",
    "mean corneal power",
    printed(REPEATABILITY_2022, "0.42 D / 2.77, upper end of its range"),
);
pub(super) const DEPTH: Entry = Entry::of(
    "spread_chamber_depth",
    "anterior chamber depth, optical",
    DEPTH_RANGE,
);
pub(super) const LENS_THICKNESS: Entry = Entry::of(
    "spread_lens_thickness",
    "lens thickness, optical",
    DEPTH_RANGE,
);
pub(super) const CORNEAL_THICKNESS: Entry =
    Entry::of("spread_corneal_thickness", "corneal thickness", NO_PRINTED);
pub(super) const POSTERIOR_RADIUS: Entry = Entry::of(
    "spread_posterior_radius",
    "posterior corneal radius",
    NO_PRINTED,
);
pub(super) const REFRACTION: Entry = Entry::of(
    "spread_refraction",
    "refraction measured after surgery",
    Standing::Derived.of(
        NORRBY_2008,
        "27 % of the variance, of the mean variance of four printed scatters",
    ),
);
pub(super) const TOLERANCE_TO_15: Entry = Entry::of(
    "lens_tolerance_to_15",
    "tolerance of a label to 15 D",
    TOLERANCE,
);
pub(super) const TOLERANCE_TO_25: Entry = Entry::of(
    "lens_tolerance_to_25",
    "tolerance of a label to 25 D",
    TOLERANCE,
);
pub(super) const TOLERANCE_TO_30: Entry = Entry::of(
    "lens_tolerance_to_30",
    "tolerance of a label to 30 D",
    TOLERANCE,
);
pub(super) const TOLERANCE_OVER_30: Entry = Entry::of(
    "lens_tolerance_over_30",
    "tolerance of a label over 30 D",
    TOLERANCE,
);
pub(super) const SCATTER_SRK_T: Entry = Entry::of("scatter_srk_t", "scatter of SRK/T", MELLES);
pub(super) const SCATTER_T2: Entry = Entry::of(
    "scatter_t2",
    "scatter of T2",
    assumed("as SRK/T, from which T2 differs in one step"),
);
pub(super) const SCATTER_HOLLADAY_1: Entry =
    Entry::of("scatter_holladay_1", "scatter of Holladay 1", MELLES);
pub(super) const SCATTER_HOFFER_Q: Entry =
    Entry::of("scatter_hoffer_q", "scatter of Hoffer Q", MELLES);
pub(super) const SCATTER_HAIGIS: Entry = Entry::of("scatter_haigis", "scatter of Haigis", MELLES);
pub(super) const SCATTER_AFTER_SURGERY: Entry = Entry::of(
    "scatter_after_surgery",
    "scatter after corneal refractive surgery",
    printed(BMC_2017_44, "about 0.70 D"),
);

/// Every entry, in the order of the file.
pub const TABLE: [Entry; 27] = [
    LENGTH_OPTICAL,
    LENGTH_IMMERSION,
    LENGTH_CONTACT,
    MEAN_K,
    DEPTH,
    LENS_THICKNESS,
    CORNEAL_THICKNESS,
    POSTERIOR_RADIUS,
    REFRACTION,
    TOLERANCE_TO_15,
    TOLERANCE_TO_25,
    TOLERANCE_TO_30,
    TOLERANCE_OVER_30,
    Entry::of(
        "lens_tolerance_deviations",
        "standard deviations of the label in its tolerance",
        assumed("a tolerance of three standard deviations"),
    ),
    SCATTER_SRK_T,
    SCATTER_T2,
    SCATTER_HOLLADAY_1,
    SCATTER_HOFFER_Q,
    SCATTER_HAIGIS,
    SCATTER_AFTER_SURGERY,
    Entry::of(
        "scatter_prior_eyes",
        "eyes that the published scatter counts for beside the clinic's own",
        assumed("weight of the published scatter"),
    ),
    Entry::of("average_length", "axial length of the average eye", AVERAGE),
    Entry::of(
        "average_k",
        "mean corneal power of the average eye",
        AVERAGE,
    ),
    Entry::of("average_depth", "chamber depth of the average eye", AVERAGE),
    Entry::of(
        "toric_keratometry_spread",
        "corneal cylinder, per double-angle component",
        Standing::Derived.of(
            REPEATABILITY_2022,
            "twice the spread of the mean power: two meridians of equal, independent spread",
        ),
    ),
    Entry::of(
        "toric_posterior_spread",
        "posterior cylinder, per double-angle component",
        NO_PRINTED,
    ),
    Entry::of(
        "toric_rotation_spread",
        "angle at which a toric lens rests",
        NO_PRINTED,
    ),
];

/// Where the average eye comes from.
pub const AVERAGE: Source = printed(
    POPULATION_PORTUGAL,
    "mean; that the published scatter holds in this eye is an assumption",
);
