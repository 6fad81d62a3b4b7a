//! What the trials say of the two approaches.

use millrace_core::plan::Trial;

shown! { Trial, words {
    CellLoss = "Endothelial cell loss {=18.4} % after phacoemulsification, {=17.7} % after SICS (n = 200)";
    CellLossGrade4 = "Grade 4 nuclei: cell loss {=13.6} % after phacoemulsification, {=13.0} % after SICS (n = 90)";
    CellLossTogether = "Meta-analyses: no difference in cell loss";
    EdemaInWhiteCataract = "White cataract: corneal edema on day 1 in {=18.7} % after phacoemulsification, {=10.2} % after SICS";
    SightInWhiteCataract = "White cataract: 20/60 or better without spectacles in {=87.6} % after phacoemulsification, {=82.0} % after SICS";
    TimeAndRuptureInWhiteCataract = "White cataract: {=12.2} minutes and capsule rupture in {=2.2} % with phacoemulsification, {=8.8} minutes and {=1.4} % with SICS";
    RuptureInPosteriorPolar = "Posterior polar cataract: capsule rupture in {=15.5} %; {=30.4} % with an opacity of 4 mm or more, {=5.7} % with a smaller one";
    TraineesComplications = "Trainees: complications in {=4.8} % of phacoemulsifications, {=1.46} % of SICS";
    MoreCellLossAfterSics = "One abstract found more endothelial cell loss after SICS";
    NoMinimumDensity = "No minimum endothelial cell density for either approach is accepted";
}}
