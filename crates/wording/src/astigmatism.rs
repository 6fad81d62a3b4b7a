//! Astigmatism: what is dubious about a toric answer, why there is none, from where an eye is seen.

use millrace_core::astigmatism::{PosteriorBasis, Seat, ToricCaution, ToricNeeds, ToricRefusal};

shown! { Seat, words {
    Superior = "at the head";
    Temporal = "at the temple";
}}

shown! { ToricCaution, words {
    IrregularityNotRecorded = "whether the cornea is irregular was not recorded: computed as regular";
    CornealSurgeryNotRecorded = "whether the cornea had refractive surgery was not recorded: computed as untouched";
    MeridiansNotExact = "measured meridians are not exactly at right angles: the steep one is taken midway";
    PosteriorLeftOut = "posterior cornea not measured and left out: with the rule less astigmatism is to be expected, against the rule more";
    PosteriorLeftOutByChoice = "posterior cornea left out by choice";
    PosteriorEstimated = "posterior cornea estimated from the anterior one, not measured";
    IncisionPublished = "incision: published mean SIA of {=2.8} mm temporal incisions [printed], applied as flattening of its own meridian [assumption]; the surgeon's own SIA is not recorded";
    IncisionElsewhere = "incision not temporal; the published SIA is of temporal incisions";
    IncisionScatterInKeratometry = "two keratometries explain the whole observed scatter of the SIA: none is counted beside that of this eye's keratometry [derived]";
}}

shown! { ToricRefusal, words {
    Missing { what } = "{what} is missing";
    NotAtRightAngles { apart } = "principal meridians are {apart}° apart: not a regular cornea, or a slip in copying";
    IrregularCornea = "the cornea is recorded as irregular: no cylinder describes it";
    OperatedCornea = "the cornea had refractive surgery: keratometry does not give its astigmatism";
    NotByMeridian = "not computed meridian by meridian for this formula";
    PosteriorNotMeasured = "measured posterior cornea was chosen, and it was not measured";
    NoSteepMeridian = "the anterior cornea has no steep meridian to estimate the posterior one by";
    MultiplierOblique = "the multiplier is published with and against the rule only; this cornea is oblique";
    MultiplierAbove { cylinder } = "the multiplier is published for lens cylinders up to {=+2.00} D, not for {cylinder}";
    SmallIncisionUnknown = "surgically induced astigmatism (SIA) of a small-incision (SICS) wound is not known: the surgeon's own SIA may be recorded";
    WideIncisionUnknown { width } = "surgically induced astigmatism (SIA) of an incision of {width} is not known (published up to {=2.80} mm): the surgeon's own SIA may be recorded";
} else {
    Self::Formula(refusal) => refusal.show(words),
}}

shown! { ToricNeeds, words {
    Keratometry = "keratometry";
    IncisionDirection = "direction of the incision";
    Approach = "chosen approach, since each has its own incision,";
    IncisionWidth = "width of the incision";
    Power = "chosen power";
    Lens = "chosen lens";
    Formula = "chosen formula";
    FormulaOnLadder = "a formula in the lens power table of this eye";
    LensTargetAndFormula = "chosen lens, target or a formula in the lens power table of this eye";
}}

shown! { PosteriorBasis, words {
    Measured = "measured";
    NotMeasured = "left out, since it was not measured";
    LeftOut = "left out by choice";
    Regression(orientation) = "estimated by the regression, {orientation}";
    Multiplier(orientation) = "estimated by the multiplier, {orientation}";
}}
