//! What the trials say of the two approaches.

use crate::plan::Trial;

/// What a trial found.
#[must_use]
pub const fn trial(trial: Trial) -> &'static str {
    match trial {
        Trial::CellLoss => {
            "Endothelial cell loss 18.4 % after phacoemulsification, 17.7 % after SICS (n = 200)"
        }
        Trial::CellLossGrade4 => {
            "Grade 4 nuclei: cell loss 13.6 % after phacoemulsification, 13.0 % after SICS (n = 90)"
        }
        Trial::CellLossTogether => "Meta-analyses: no difference in cell loss",
        Trial::EdemaInWhiteCataract => {
            "White cataract: corneal edema on day 1 in 18.7 % after phacoemulsification, 10.2 % after SICS"
        }
        Trial::TraineesComplications => {
            "Trainees: complications in 4.8 % of phacoemulsifications, 1.46 % of SICS"
        }
        Trial::MoreCellLossAfterSics => "One abstract found more endothelial cell loss after SICS",
        Trial::NoMinimumDensity => "No minimum endothelial density for either approach is accepted",
    }
}
