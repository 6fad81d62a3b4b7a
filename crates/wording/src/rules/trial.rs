//! What the trials say of the two approaches.

use millrace_core::plan::Trial;

shown! { Trial, words {
    CellLoss = "Endothelial cell loss {=18.4} % after phacoemulsification, {=17.7} % after SICS (n = 200)";
    CellLossGrade4 = "Grade 4 nuclei: cell loss {=13.6} % after phacoemulsification, {=13.0} % after SICS (n = 90)";
    CellLossTogether = "Meta-analyses: no difference in cell loss";
    EdemaInWhiteCataract = "White cataract: corneal edema on day 1 in {=18.7} % after phacoemulsification, {=10.2} % after SICS";
    TraineesComplications = "Trainees: complications in {=4.8} % of phacoemulsifications, {=1.46} % of SICS";
    MoreCellLossAfterSics = "One abstract found more endothelial cell loss after SICS";
    NoMinimumDensity = "No minimum endothelial cell density for either approach is accepted";
}}
