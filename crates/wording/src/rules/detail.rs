//! What else there is to know of a finding.

use std::borrow::Cow;

use millrace_core::iol_power::Formula;
use millrace_core::quantity::{HundredthDiopters, Meridian};
use millrace_core::rules::risk::BASE_RATE_PERCENT;
use millrace_core::rules::{Astigmatism, Detail, Place, SpreadOf};

use super::risk::{borderline_depth, risk_items};
use super::second_eye::error_convention;
use crate::quantity::{self, unsigned};
use crate::text::toric::cylinder_at;
use crate::{Show, Words};

messages! {
    steep_at(cylinder, steep) = "{cylinder} steep at {steep}";
    spread(of, deviation) = "1 SD of {of} {deviation}";
    spread_instead_of_zero(of, deviation) = "1 SD of {of} {deviation}, the table's, since the measurement gives zero";
    estimate(pieces, longest) = "estimate for {pieces} pieces, the longest {longest}";
    off_the_axis(room) = "room 2 mm off the axis {room}";
    rounded_up = "just under the clearance, rounded up to it here";
    band(band, given) = "band {band}: {given}";
    not_recorded(what) = "not recorded: {what}";
    was_complicated = "it was complicated, so its error is no guide";
    was_not_complicated = "it was not complicated";
    course_not_recorded = "whether it was complicated is not recorded";
    not_multiplied(rate) = "not multiplied, and no percentage is given for this eye, since no intercept is printed; {rate} % of all operations";
    factor_not_applied(factor, ratio) = "{factor} {ratio} not applied: the age limit is not printed";
    formula_power(formula, power) = "{formula} {power}";
    polar_rupture_wide = "the capsule ruptured in {=30.4} % of such eyes with an opacity of 4 mm or more";
    polar_rupture_small = "the capsule ruptured in {=5.7} % of such eyes with an opacity under 4 mm";
    polar_rupture_either = "the capsule ruptured in {=15.5} % of such eyes: in {=30.4} % with an opacity of 4 mm or more, in {=5.7} % with a smaller one; its diameter is not recorded";
    leaves(step, left) = "{step} is expected to leave a cylinder of {left}";
    leaves_instead_of(step, left, without) = "{step} is expected to leave a cylinder of {left}, instead of {without}";
}

shown! { Detail, words {
    BirthDateMissing = "the birth date is missing too";
    ReasonsGiven(reasons: reasons.join("; ")) = "reason given: {reasons}";
    DepthFromEpithelium { thickness: quantity::thickness(words, *thickness), depth } = "with a cornea of {thickness} the depth from the epithelium is {depth}";
    EmmetropicPower { power, average } = "power for emmetropia {power}, average of the lens {average}";
    EmmetropicPowers { operated, fellow } = "power for emmetropia {operated} in the operative eye, {fellow} in the fellow eye";
    AtStandardIndex(powers: words.list(powers.iter().map(|it| unsigned(words, *it)))) = "the same cornea at {=1.3375} is {powers}";
    DatedAfter(what: words.list(what)) = "dated after the planned day: {what}";
    ScatterAfterSurgery = "published predictions scatter by about {=0.70} D (1 SD)";
    UltrasoundMeans = "published means: contact reads {=0.20} mm shorter than immersion (0 to {=0.94}), optical {=0.18} mm longer than immersion and {=0.47} mm longer than contact";
    FilledEye = "a filled eye needs +3 to +5 D; only a third came within ±1 D";
    ByTwoMethods { first, second } = "{first}; by the other method {second}";
    Repeat = "consider repeating the measurement";
    SpreadUnknown = "the spread of this measurement is not known, so whether it is borderline cannot be judged";
    Interval { percent, low, high, place } = "{percent} % interval {low} to {high}: {place}";
    RatiosLeftOut = "ratios that the abstract does not print are left out: whatever else raises the odds is not counted";
    AqueousDepth(depth) = "aqueous depth {depth}";
    TakenAsHard(why) = "the nucleus is taken as hard: {why}";
    RoomToDivide = "a deeper chamber leaves more margin over small pieces, at every working plane";
    Margin { plane, pieces, low, high, worst, touch_percent } = "estimate at rest for {pieces} pieces {plane}: 80 % range {low} to {high}, worst {worst}, touching in {touch_percent} % of directions";
    OnPupil(pupil) = "the whole nucleus lying on a pupil of {pupil}; an estimate at rest";
    Passage { half_perimeter, lips } = "half the way around what passes is {half_perimeter}, the lips are {lips}";
    StretchFlat(percent) = "passing flat it would stretch by {percent} %";
    OpticalDepth(depth) = "optically perhaps {depth}, deeper than the limit";
    CapsulorhexisAndOptic { capsulorhexis, optic } = "capsulorhexis {capsulorhexis}, optic {optic}";
    FactorNotRecorded(factor) = "not recorded: {factor}";
    Extremes { lowest: named(words, *lowest), highest: named(words, *highest) } = "{lowest} to {highest}";
    RefractionsApart { found, expected } = "this eye's refraction less the other's is {found}, biometry expects {expected}";
    SameModel { model, formula } = "two records of {model}, by {formula}";
    NoneProposed = "the convention proposes none of these powers";
    NothingForSulcus = "nothing lies ready for the sulcus";
    TakenForward(shift) = "taken to sit {shift} forward of the bag";
    NeededPower(needed) = "the eye needs {needed} there";
    SuggestedLength { diameter, suggested } = "corneal diameter {diameter} suggests a length of {suggested}";
    SteepIncision { eye: eye.sector(*at), at } = "an incision on the steep meridian would lie at {at}, {eye}";
} else {
    Self::Spread { of, deviation, instead_of_zero } => if *instead_of_zero {
        spread_instead_of_zero(words, of, deviation)
    } else {
        spread(words, of, deviation)
    }.into(),
    Self::Estimate { pieces, longest, off_axis, rounded_up: is_rounded } => words.clauses([
        Some(estimate(words, pieces, longest)),
        off_axis.map(|room| off_the_axis(words, room)),
        is_rounded.then(|| rounded_up(words).to_owned()),
    ].into_iter().flatten()).into(),
    Self::RiskPoints { band: it, given, unknown } => words.clauses([
        Some(band(words, it, risk_items(words, given))),
        (!unknown.is_empty()).then(|| not_recorded(words, words.list(unknown))),
    ].into_iter().flatten()).into(),
    Self::BorderlineDepth(depth) => borderline_depth(words, *depth).into(),
    Self::NotMultiplied => not_multiplied(words, words.fixed(BASE_RATE_PERCENT, 2)).into(),
    Self::FactorNotApplied(factor) => factor_not_applied(words, factor, words.fixed(factor.ratio(), 2)).into(),
    Self::PolarRupture { wide: Some(true) } => polar_rupture_wide(words).into(),
    Self::PolarRupture { wide: Some(false) } => polar_rupture_small(words).into(),
    Self::PolarRupture { wide: None } => polar_rupture_either(words).into(),
    Self::FirstOperation { complicated: Some(true) } => was_complicated(words).into(),
    Self::FirstOperation { complicated: Some(false) } => was_not_complicated(words).into(),
    Self::FirstOperation { complicated: None } => course_not_recorded(words).into(),
    Self::ErrorConvention => error_convention(words).into(),
    Self::ExpectedToLeave { cylinder, axis, left, without } => {
        expected_to_leave(words, (*cylinder, *axis), *left, *without).into()
    }
}}

shown! { Place, words {
    Under = "under the limit";
    Undecided = "undecided, the limit lies inside";
    Over = "over the limit";
}}

shown! { SpreadOf, words {
    Depth = "the depth";
    DepthAndThickness = "depth and corneal thickness together";
}}

impl Show for Astigmatism {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let cylinder = unsigned(words, self.cylinder);
        match self.steep {
            Some(steep) => steep_at(words, cylinder, steep),
            None => cylinder,
        }
        .into()
    }
}

fn named(words: Words, (formula, power): (Formula, HundredthDiopters)) -> String {
    formula_power(words, formula, power)
}

fn expected_to_leave(
    words: Words,
    (cylinder, axis): (Option<HundredthDiopters>, Option<Meridian>),
    left: HundredthDiopters,
    without: Option<HundredthDiopters>,
) -> String {
    let cylinder = cylinder.map_or_else(String::new, |it| it.show(words).into_owned());
    let step = axis.map_or(cylinder.clone(), |axis| cylinder_at(words, &cylinder, axis));
    let left = unsigned(words, left);
    match without {
        Some(without) => leaves_instead_of(words, step, left, unsigned(words, without)),
        None => leaves(words, step, left),
    }
}
