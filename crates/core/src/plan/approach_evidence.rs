//! What the trials say of the two approaches, whatever the eye.

use crate::evidence::{ARAVIND_TRIALS, KJO_2020, SICS_TRIALS, Source, Standing};
use crate::rules::Bearing;

/// A published result that speaks for one approach, or for neither.
#[derive(Clone, Copy, Debug)]
pub struct Argument {
    /// The approach it speaks for; `None` if it shows no difference.
    pub favors: Option<Bearing>,
    /// The rule whose finding makes this eye one of those it is about; `None` if it is about any.
    pub only_when: Option<&'static str>,
    /// What was found.
    pub text: &'static str,
    /// Where.
    pub source: Source,
}

const fn trial(locator: &'static str) -> Source {
    Source {
        work: SICS_TRIALS,
        locator,
        standing: Standing::Printed,
    }
}

/// Both sides, as printed.
pub const TRIALS: [Argument; 7] = [
    Argument {
        favors: None,
        only_when: None,
        text: "Endothelial cell loss 18.4 % after phacoemulsification, 17.7 % after SICS (n = 200)",
        source: trial("n = 200"),
    },
    Argument {
        favors: None,
        only_when: None,
        text: "Grade 4 nuclei: cell loss 13.6 % after phacoemulsification, 13.0 % after SICS (n = 90)",
        source: trial("grade 4, n = 90"),
    },
    Argument {
        favors: None,
        only_when: None,
        text: "Meta-analyses: no difference in cell loss",
        source: trial("meta-analyses"),
    },
    Argument {
        favors: Some(Bearing::SmallIncision),
        only_when: Some("WC-01"),
        text: "White cataract: corneal edema on day 1 in 18.7 % after phacoemulsification, 10.2 % after SICS",
        source: trial("white cataract, day 1"),
    },
    Argument {
        favors: Some(Bearing::SmallIncision),
        only_when: Some("TR-01"),
        text: "Trainees: complications in 4.8 % of phacoemulsifications, 1.46 % of SICS",
        source: Source {
            work: ARAVIND_TRIALS,
            locator: "",
            standing: Standing::Printed,
        },
    },
    Argument {
        favors: Some(Bearing::Phacoemulsification),
        only_when: None,
        text: "One abstract found more endothelial cell loss after SICS",
        source: trial("one abstract"),
    },
    Argument {
        favors: None,
        only_when: None,
        text: "No minimum endothelial density for either approach is accepted",
        source: Source {
            work: KJO_2020,
            locator: "",
            standing: Standing::Printed,
        },
    },
];
