//! Astigmatism: what is dubious about a toric answer, why there is none, from where an eye is seen.

use std::borrow::Cow;

use millrace_core::astigmatism::{Seat, ToricCaution, ToricNeeds, ToricRefusal};

use crate::{Show, Words};

messages! {
    at_the_head = "at the head";
    at_the_temple = "at the temple";

    irregularity_not_recorded = "whether the cornea is irregular was not recorded: computed as regular";
    corneal_surgery_not_recorded = "whether the cornea had refractive surgery was not recorded: computed as untouched";
    meridians_not_exact = "measured meridians are not exactly at right angles: the steep one is taken midway";
    posterior_left_out = "posterior cornea not measured and left out: with the rule less astigmatism is to be expected, against the rule more";
    posterior_left_out_by_choice = "posterior cornea left out by choice";
    posterior_estimated = "posterior cornea estimated from the anterior one, not measured";
    incision_published = "incision: published mean of {=2.8} mm temporal incisions [printed], applied as flattening of its own meridian [assumption]; the surgeon's own figures are not recorded";
    incision_elsewhere = "incision not temporal, where the effect was published";

    missing(what) = "needs the {what}";
    not_at_right_angles(apart) = "principal meridians are {apart}° apart: not a regular cornea, or a slip in copying";
    irregular_cornea = "the cornea is recorded as irregular: no cylinder describes it";
    operated_cornea = "the cornea had refractive surgery: keratometry does not give its astigmatism";
    not_by_meridian = "not computed meridian by meridian for this formula";
    posterior_not_measured = "measured posterior cornea was chosen, and it was not measured";
    no_steep_meridian = "the anterior cornea has no steep meridian to estimate the posterior one by";
    multiplier_oblique = "the multiplier is published with and against the rule only; this cornea is oblique";
    multiplier_above(cylinder) = "the multiplier is published for lens cylinders up to {=+2.00} D, not for {cylinder}";
    small_incision_unknown = "effect of a small-incision (SICS) wound on the cornea is not known: the surgeon's own figures may be recorded";
    wide_incision_unknown(width) = "effect of an incision of {width} on the cornea is not known (published up to {=2.80} mm): the surgeon's own figures may be recorded";

    keratometry = "keratometry, which was not measured";
    incision_direction = "direction of the incision";
    approach = "approach, since each has its own incision";
    incision_width = "width of the incision";
    power = "chosen power";
    lens = "chosen lens";
    formula = "formula the power is chosen by";
    formula_on_ladder = "formula on the ladder of this eye";
    lens_target_and_formula = "chosen lens, target and a formula on the ladder of this eye";
}

impl Show for Seat {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Superior => at_the_head(words),
            Self::Temporal => at_the_temple(words),
        }
        .into()
    }
}

impl Show for ToricCaution {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::IrregularityNotRecorded => irregularity_not_recorded(words),
            Self::CornealSurgeryNotRecorded => corneal_surgery_not_recorded(words),
            Self::MeridiansNotExact => meridians_not_exact(words),
            Self::PosteriorLeftOut => posterior_left_out(words),
            Self::PosteriorLeftOutByChoice => posterior_left_out_by_choice(words),
            Self::PosteriorEstimated => posterior_estimated(words),
            Self::IncisionPublished => incision_published(words),
            Self::IncisionElsewhere => incision_elsewhere(words),
        }
        .into()
    }
}

impl Show for ToricRefusal {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Missing { what } => missing(words, what),
            Self::NotAtRightAngles { apart } => not_at_right_angles(words, apart),
            Self::IrregularCornea => return irregular_cornea(words).into(),
            Self::OperatedCornea => return operated_cornea(words).into(),
            Self::Formula(refusal) => return refusal.show(words),
            Self::NotByMeridian => return not_by_meridian(words).into(),
            Self::PosteriorNotMeasured => return posterior_not_measured(words).into(),
            Self::NoSteepMeridian => return no_steep_meridian(words).into(),
            Self::MultiplierOblique => return multiplier_oblique(words).into(),
            Self::MultiplierAbove { cylinder } => multiplier_above(words, cylinder),
            Self::SmallIncisionUnknown => return small_incision_unknown(words).into(),
            Self::WideIncisionUnknown { width } => wide_incision_unknown(words, width),
        }
        .into()
    }
}

impl Show for ToricNeeds {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Keratometry => keratometry(words),
            Self::IncisionDirection => incision_direction(words),
            Self::Approach => approach(words),
            Self::IncisionWidth => incision_width(words),
            Self::Power => power(words),
            Self::Lens => lens(words),
            Self::Formula => formula(words),
            Self::FormulaOnLadder => formula_on_ladder(words),
            Self::LensTargetAndFormula => lens_target_and_formula(words),
        }
        .into()
    }
}
