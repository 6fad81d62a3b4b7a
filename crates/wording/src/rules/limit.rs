//! What a finding stands against.

use std::borrow::Cow;

use millrace_core::biometry::CornealSurgeryKind;
use millrace_core::case::SecondEyeChoice;
use millrace_core::iol_power::Formula;
use millrace_core::rules::believable::rs_04::CORRECTION_TOLERANCE;
use millrace_core::rules::{Contradiction, Limit, NamedFor, PowerSpan, Quantity};

use super::fact::{leaves, predicted};
use crate::quantity::unsigned;
use crate::{Show, Words};

messages! {
    between(low, high) = "{low} to {high}";
    at_least(least) = "at least {least}";
    at_most_apart(apart) = "at most {apart} apart";
    or(one, other) = "{one} or {other}";
    named_under(formulas, length) = "{formulas} under {length}";
    named_between(formulas, from, to) = "{formulas} from {from} to {to}";
    named_over(formulas, length) = "{formulas} over {length}";
    span(from, to, step) = "{from} to {to} by {step}";
    by_conversion(given) = "by conversion {given}";
    not_converted = "an A constant is converted from nothing";
    no_power = "no power is recorded";
    refinement_offered = "refinement offered, nothing applied until it is decided";
    refinement_not_offered = "refinement not offered, nothing applied";
    refinement_declined = "refinement declined, nothing applied";
    refinement_chosen = "refinement chosen, shown beside the unrefined prediction";
    refinement_chosen_not_offered = "refinement chosen but not offered, nothing applied";
    less_before(now, surgery) = "less than {now} before {surgery}";
    more_before(now, surgery) = "more than {now} before {surgery}";
    lower_by_correction(tolerance) = "K lower by the correction, within {tolerance}";
}

shown! { Limit, words {
    AtLeast(least) = "at least {least}";
    AtMost(most) = "at most {most}";
    Under(limit) = "under {limit}";
    OrMore(limit) = "{limit} or more";
    NameAndNumber = "name and hospital number";
    ConsentedTarget(target) = "consented target {target}";
    RecordedConsent = "a recorded consented target";
    OneEye = "one eye throughout the case";
    OnePatient = "one patient under one number";
    StillPlanned = "a case that is still planned";
    NotOperatedBefore = "no earlier cataract operation on this eye";
    NotAllTheSame = "not all three the same";
    TwoLooksAgree = "both are to be the same";
    AnotherPerson = "another person is to look";
    Index(index) = "index {index}";
    AtLeastApart(degrees) = "at least {degrees}° apart";
    AtMostApart(degrees) = "at most {degrees}° apart";
    MonthsBefore { months, day: day.0 } = "at most {months} months before {day}";
    FittingFormula = "a formula that fits this surgery";
    Recorded = "recorded, also when there was none";
    NoCornealSurgery = "no corneal surgery";
    CorrectedLength = "a length corrected for the oil";
    NoSiliconeOil = "no silicone oil";
    ChosenUse = "a chosen way to use it with constants for optical biometry";
    ConstantsFor(biometry) = "constants for {biometry}";
    NoProbe = "no probe on the cornea";
    AtMostVector { vector: unsigned(words, *vector), degrees } = "at most {vector} as a vector, {degrees}° apart";
    FromEpithelium = "from the epithelium";
    Absent = "absent";
    TimesTheMethods(times) = "at most {times} times the spread of the method";
    NoSharpNeedle = "no sharp needle";
    NeverTaken = "never taken";
    CellsCounted = "endothelial cell density measured";
    NoWeakZonules = "neither pseudoexfoliation nor phacodonesis";
    FirmLens(off) = "no phacodonesis, at most {off} off the axis";
    IndependentSurgeon = "independent surgeon";
    FartherFrom { tolerance: words.exact(*tolerance, 1, 1), grade: words.exact(*grade, 1, 1) } = "more than {tolerance} from {grade}";
    NoRaisedOdds = "no raised odds";
    GradeAsItLooks = "a grade that fits the appearance";
    WithoutCylinder = "a lens without a cylinder";
    Answer = "an answer";
    GivenOrOptimized = "given by the maker or optimized";
    Optimized = "optimized on own results";
    AnotherMaterial = "another material";
    AllowedInSulcus = "allowed in the sulcus";
    NoDrift = "no drift is allowed for";
    Measured = "measured";
    RegularCornea = "regular and untouched";
    ExactCylinder(exact) = "at most {exact} at the lens plane";
    NearTarget { within: unsigned(words, *within), target } = "at most {within} from the target {target}";
    SignOf(needed) = "the sign of {needed}, which the eye needs";
    SulcusDesign = "three pieces, or one of PMMA";
    OnLadder(refraction) = "{refraction} in the lens power table";
    EveryCondition = "every condition met";
    MayDecide = "it may be chosen or declined";
} else {
    // "0 to 120 years": the unit once.
    Self::Within(Quantity::Years(low), high) => between(words, low, high).into(),
    Self::Within(low, high) => between(words, low, high).into(),
    Self::Repeats { readings, apart } => words.list([
        readings.map(|it| at_least(words, Quantity::Readings(it))),
        apart.map(|it| at_most_apart(words, unsigned(words, it))),
    ].into_iter().flatten()).into(),
    Self::NamedFormulas { formulas, lengths } => named(words, formulas, *lengths).into(),
    Self::Changes(several, surgery) => {
        words.clauses(several.iter().map(|it| change(words, *it, *surgery))).into()
    }
    Self::Converted(given) if given.is_empty() => not_converted(words).into(),
    Self::Converted(given) => by_conversion(words, words.list(given)).into(),
    Self::UsualConstants(ranges) => {
        words.list(ranges.iter().map(|[from, to]| between(words, from, to))).into()
    }
    Self::MadeIn(spans) if spans.is_empty() => no_power(words).into(),
    Self::MadeIn(spans) => words.list(spans).into(),
    Self::CylindersMade(cylinders) => words.list(cylinders).into(),
    Self::ProposedPower { power, refraction } => predicted(words, *power, *refraction).into(),
    Self::ProposedCylinder { cylinder, left } => leaves(words, *cylinder, *left).into(),
    Self::Refinement { offered, choice } => match (choice, offered) {
        (None, true) => refinement_offered(words),
        (None, false) => refinement_not_offered(words),
        (Some(SecondEyeChoice::Unrefined), _) => refinement_declined(words),
        (Some(SecondEyeChoice::Refined), true) => refinement_chosen(words),
        (Some(SecondEyeChoice::Refined), false) => refinement_chosen_not_offered(words),
    }.into(),
}}

impl Show for PowerSpan {
    fn show(&self, words: Words) -> Cow<'_, str> {
        span(words, self.from, self.to, unsigned(words, self.step)).into()
    }
}

fn named(words: Words, formulas: &[Formula], lengths: NamedFor) -> String {
    let names = formulas.iter().map(|it| it.show(words).into_owned());
    let names = names
        .reduce(|one, other| or(words, one, other))
        .unwrap_or_default();
    match lengths {
        NamedFor::Under(length) => named_under(words, names, length),
        NamedFor::Between(from, to) => named_between(words, names, from, to),
        NamedFor::Over(length) => named_over(words, names, length),
    }
}

fn change(words: Words, contradiction: Contradiction, surgery: CornealSurgeryKind) -> String {
    match contradiction {
        Contradiction::Direction { now, .. } => {
            let before = match surgery {
                CornealSurgeryKind::HyperopicLaser => less_before,
                CornealSurgeryKind::MyopicLaser | CornealSurgeryKind::Other => more_before,
            };
            before(words, unsigned(words, now), surgery)
        }
        Contradiction::Correction { .. } => {
            lower_by_correction(words, unsigned(words, CORRECTION_TOLERANCE))
        }
    }
}
