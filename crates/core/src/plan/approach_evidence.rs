//! What the trials say of the two approaches, whatever the eye.

use crate::evidence::{
    ARAVIND_TRIALS, KJO_2020, RAM_2010, SICS_TRIALS, Source, Standing, VENKATESH_2010,
};
use crate::rules::Bearing;

/// A published result that speaks for one approach, or for neither.
#[derive(Clone, Copy, Debug)]
pub struct Argument {
    /// The approach it speaks for; `None` if it shows no difference.
    pub favors: Option<Bearing>,
    /// The rule whose finding makes this eye one of those it is about; `None` if it is about any.
    pub only_when: Option<&'static str>,
    pub trial: Trial,
    pub source: Source,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Trial {
    /// Endothelial cell loss after either.
    CellLoss,
    /// The same with nuclei of grade 4.
    CellLossGrade4,
    /// The same, several trials together.
    CellLossTogether,
    EdemaInWhiteCataract,
    /// Sight without spectacles in white cataract.
    SightInWhiteCataract,
    /// Minutes and ruptures in white cataract.
    TimeAndRuptureInWhiteCataract,
    /// Ruptures in posterior polar cataract, by the size of the opacity.
    RuptureInPosteriorPolar,
    TraineesComplications,
    /// More cell loss after small-incision surgery.
    MoreCellLossAfterSics,
    NoMinimumDensity,
}

const fn trial(locator: &'static str) -> Source {
    Standing::Printed.of(SICS_TRIALS, locator)
}

const WHITE: Source = Standing::Printed.of(VENKATESH_2010, "abstract: white cataract");

/// Both sides, as printed.
pub const TRIALS: [Argument; 10] = [
    Argument {
        favors: None,
        only_when: None,
        trial: Trial::CellLoss,
        source: trial("n = 200"),
    },
    Argument {
        favors: None,
        only_when: None,
        trial: Trial::CellLossGrade4,
        source: trial("grade 4, n = 90"),
    },
    Argument {
        favors: None,
        only_when: None,
        trial: Trial::CellLossTogether,
        source: trial("meta-analyses"),
    },
    Argument {
        favors: Some(Bearing::SmallIncision),
        only_when: Some("WC-01"),
        trial: Trial::EdemaInWhiteCataract,
        source: trial("white cataract, day 1"),
    },
    Argument {
        favors: Some(Bearing::Phacoemulsification),
        only_when: Some("WC-01"),
        trial: Trial::SightInWhiteCataract,
        source: WHITE,
    },
    Argument {
        favors: Some(Bearing::SmallIncision),
        only_when: Some("WC-01"),
        trial: Trial::TimeAndRuptureInWhiteCataract,
        source: WHITE,
    },
    Argument {
        favors: None,
        only_when: Some("PP-01"),
        trial: Trial::RuptureInPosteriorPolar,
        source: Standing::Printed.of(RAM_2010, "abstract"),
    },
    Argument {
        favors: Some(Bearing::SmallIncision),
        only_when: Some("TR-01"),
        trial: Trial::TraineesComplications,
        source: Standing::Printed.of(ARAVIND_TRIALS, ""),
    },
    Argument {
        favors: Some(Bearing::Phacoemulsification),
        only_when: None,
        trial: Trial::MoreCellLossAfterSics,
        source: trial("one abstract"),
    },
    Argument {
        favors: None,
        only_when: None,
        trial: Trial::NoMinimumDensity,
        source: Standing::Printed.of(KJO_2020, ""),
    },
];
