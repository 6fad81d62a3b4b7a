//! What was found.

use std::borrow::Cow;

use millrace_core::biometry::Sign;
use millrace_core::case::Critical;
use millrace_core::finding::{Asks, ConstantValue, Doubt, LensConstant, OtherCase, Outcome};
use millrace_core::iol_power::Formula;
use millrace_core::quantity::{HundredthDiopters, Micrometers};
use millrace_core::rules::risk::OddsFactor;
use millrace_core::rules::{
    Contradiction, Drift, Fact, Identifier, NoAnswer, Quantity, TwoLooks, WeakZonules,
};

use super::second_eye::prediction_error;
use crate::measurements::axial_length;
use crate::quantity::unsigned;
use crate::{Show, Words};

messages! {
    no(what) = "no {what}";
    from_to(from, to) = "{from} → {to}";
    of_day(what, day) = "{what} of {day}";
    factor_and_ratio(factor, ratio) = "{factor} {ratio}";
    apart(apart) = "{apart} apart";
    a_constant(value) = "A {value}";
    personalized_acd(value) = "pACD {value} mm";
    surgeon_factor(value) = "surgeon factor {value} mm";
    haigis_a0(value) = "a0 {value} mm";
    haigis_a1(value) = "a1 {value}";
    haigis_a2(value) = "a2 {value}";
    haigis_position(value) = "Haigis in the mean eye {value} mm";
    no_formula_chosen = "no formula chosen";
    thick_lens_without_back = "thick lens without a measured back surface";
    length_by(length, method) = "{length} by {method}";
    used_as_measured(measured) = "{measured}, used as measured";
    used_with_added(measured, added, used) = "{measured}, {added} added, {used} used";
    as_vector(vector) = "{vector} as a vector";
    as_vector_apart(vector, degrees) = "{vector} as a vector, {degrees}° apart";
    of_formula(formula, why) = "{formula}: {why}";
    power_predicted(power, refraction) = "{power}, predicted {refraction}";
    power_predicted_by(power, refraction, formula) = "{power}, predicted {refraction} by {formula}";
    power_not_predicted(power) = "{power}, no prediction";
    irregular_and_operated = "irregular and operated on";
    irregular = "irregular";
    operated = "operated on";
    off_axis(off) = "lens center {off} off the axis";
    no_cylinder = "no cylinder";
    cylinder_leaves(cylinder, left) = "{cylinder}, leaves {left}";
    cylinder_leaves_unknown(cylinder) = "{cylinder}, what it leaves is not computed";
    two_looks(what, first, second) = "{what} {first} (second look {second})";
    none_entered = "none";
    at_least(count, others) = "{count} cases or more: {others}";
    same_number(case) = "case {case} has this hospital number and another name or birth date";
    same_person(case) = "case {case} has this name and birth date and another hospital number";
    met(asked, found) = "met: {asked} ({found})";
    not_met(asked, found) = "not met: {asked} ({found})";
    cannot_be_told(asked, lacking) = "could not be evaluated: {asked} ({lacking} is missing)";
}

shown! { Fact, words {
    SameInBothEyes { length, readings: words.list(readings) } = "{length}, {readings} in both eyes";
    Target(target) = "target {target}";
    LensInEye { eye, power } = "{eye} has a lens of {power}";
    BornLater = "born after the planned day";
    MeasuredBySame(what: words.list(what)) = "measured by the same person: {what}";
    Meridians { flat, steep, apart } = "flat {flat}, steep {steep}: {apart}° apart";
    FormulaAt { formula, length } = "{formula} at {length}";
    FormulaAfter { formula: planned_by(words, *formula), surgery } = "{formula} after {surgery}";
    NotRecorded = "not recorded";
    NotMeasured = "not measured";
    CorrectedForOil = "silicone oil, length corrected for it";
    UncorrectedForOil(length: any_length(words, *length)) = "{length} through silicone oil, uncorrected";
    Present = "present";
    SetAside = "set aside";
    SharpNeedleBlock = "a block by a sharp needle, and anticoagulants or antiplatelet drugs taken";
    Taken = "taken now or before";
    LocsColor(tenths: words.exact(i32::from(*tenths), 1, 1)) = "LOCS III color (NC) {tenths}";
    WideSpreads(what: words.list(what)) = "wide spread of readings: {what}";
    PolarOpacity(diameter) = "opacity of {diameter}";
    LocsOpalescence(tenths: words.exact(i32::from(*tenths), 1, 1)) = "LOCS III opalescence (NO) {tenths}";
    NoFormula = "no formula";
    Design { lens, haptic, material } = "{lens}: {haptic}, {material}";
    NotForSulcus(name) = "{name} is not allowed in the sulcus";
    Axis { chosen, suggested, apart } = "{chosen}, suggested {suggested}: {apart}° apart";
    EquivalentWithCylinder(equivalent) = "spherical equivalent {equivalent} predicted with the cylinder";
    FirstEye { eye, error: prediction_error(words, *error) } = "{eye}: {error}";
    NoEarlierOperation = "no earlier operation on the fellow eye is recorded";
    Undecided = "not decided";
} else {
    Self::Quantity(it) => it.show(words),
    Self::Quantities(several) => words.list(several).into(),
    Self::EyeChanges(changes) => {
        words.list(changes.iter().map(|[from, to]| from_to(words, from, to))).into()
    }
    Self::OtherCases(others) if others.len() < OtherCase::NAMED => words.clauses(others).into(),
    Self::OtherCases(others) => at_least(words, others.len(), words.clauses(others)).into(),
    Self::Without(identifiers) => words.list(identifiers.iter().map(|it| no(words, it))).into(),
    Self::TwoLooks(differences) => words.list(differences).into(),
    Self::Repeats { readings: few, apart: far } => words.list([
        few.map(|it| Quantity::Readings(it).show(words).into_owned()),
        far.map(|it| apart(words, unsigned(words, it))),
    ].into_iter().flatten()).into(),
    Self::MeasuredOn(days) => {
        words.list(days.iter().map(|(it, day)| of_day(words, it, day.0))).into()
    }
    Self::Surgery(kind) => kind.show(words),
    Self::Surgeon(grade) => grade.show(words),
    Self::WeakZonules(signs) => signs.show(words),
    Self::Nucleus(judgment) => judgment.show(words),
    Self::Signs(signs) => words.list(signs).into(),
    Self::LooseLens { trembles, off } => words.list([
        trembles.then(|| Sign::Phacodonesis.show(words).into_owned()),
        off.map(|off| off_axis(words, off)),
    ].into_iter().flatten()).into(),
    Self::Contradictions(several) => words.clauses(several).into(),
    Self::LengthBy { length, method } => length_by(words, length, method).into(),
    Self::LengthUsed { length, method, added } => {
        let measured = length_by(words, length, method);
        match added {
            None => used_as_measured(words, measured),
            Some(added) => used_with_added(words, measured, added, *length + *added),
        }.into()
    }
    Self::VectorApart { vector, degrees: None } => as_vector(words, unsigned(words, *vector)).into(),
    Self::VectorApart { vector, degrees: Some(degrees) } => {
        as_vector_apart(words, unsigned(words, *vector), degrees).into()
    }
    Self::Factors(factors) => {
        let factor = |it: &OddsFactor| factor_and_ratio(words, it, words.fixed(it.ratio(), 2));
        words.list(factors.iter().map(factor)).into()
    }
    Self::NoAnswer { formula, why } => of_formula(words, formula, why).into(),
    Self::Predicted { power, refraction } => predicted(words, *power, *refraction).into(),
    Self::PredictedBy { formula, power, refraction } => {
        power_predicted_by(words, power, refraction, formula).into()
    }
    Self::Constant(obtained) => obtained.show(words),
    Self::Constants(several) => words.list(several).into(),
    Self::Material(material) => material.show(words),
    Self::Drifts(drifts) => words.clauses(drifts).into(),
    Self::Posterior(basis) => basis.show(words),
    Self::Cornea { irregular: true, operated: true } => irregular_and_operated(words).into(),
    Self::Cornea { irregular: true, operated: false } => irregular(words).into(),
    Self::Cornea { irregular: false, .. } => operated(words).into(),
    Self::Leaves { cylinder, left } => leaves(words, *cylinder, *left).into(),
    Self::Conditions(failing) => words.clauses(failing.iter().map(|it| condition(words, *it))).into(),
}}

impl Show for OtherCase {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self.doubt {
            Doubt::NumberOfAnother => same_number(words, self.name()),
            Doubt::AnotherNumber => same_person(words, self.name()),
        }
        .into()
    }
}

impl Show for ConstantValue {
    /// "pACD 5.23 mm".
    fn show(&self, words: Words) -> Cow<'_, str> {
        let value = words.exact(self.thousandths, 3, 2);
        match self.which {
            LensConstant::A => a_constant(words, value),
            LensConstant::PersonalizedAcd => personalized_acd(words, value),
            LensConstant::SurgeonFactor => surgeon_factor(words, value),
            LensConstant::A0 => haigis_a0(words, value),
            LensConstant::A1 => haigis_a1(words, value),
            LensConstant::A2 => haigis_a2(words, value),
            LensConstant::HaigisPosition => haigis_position(words, value),
        }
        .into()
    }
}

shown! { Identifier, words {
    Name = "name";
    Number = "hospital number";
}}

shown! { WeakZonules, words {
    Pseudoexfoliation = "pseudoexfoliation";
    Phacodonesis = "phacodonesis";
    Both = "pseudoexfoliation and phacodonesis";
}}

shown! { NoAnswer, words {
    NotOnLadder = "not in the lens power table of this eye";
} else {
    Self::Eye(refusal) => refusal.show(words),
    Self::Astigmatism(refusal) => refusal.show(words),
}}

shown! { Contradiction, words {
    Direction { before: unsigned(words, *before), now: unsigned(words, *now) } = "K before {before}, now {now}";
    Correction { change, correction } = "change of K {change}, correction {correction}";
}}

shown! { Drift, words {
    FrontWithTheRule { cylinder: unsigned(words, *cylinder), steep } = "anterior cornea with the rule, {cylinder} steep at {steep}";
    LeftAgainstTheRule { cylinder: unsigned(words, *cylinder), steep } = "left against the rule, {cylinder} steep at {steep}";
}}

impl Show for TwoLooks {
    /// "axial length 23.50 mm (second look 25.30 mm)".
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number => Critical::Number.show(words).into_owned(),
            Self::Eye { first, second } => {
                two_looks(words, Critical::Eye, entered(words, *first), second)
            }
            Self::Meridian {
                what,
                first,
                second,
            } => two_looks(words, what, entered(words, *first), second),
            Self::Quantity {
                what,
                first,
                second,
            } => two_looks(words, what, entered(words, *first), entered(words, *second)),
        }
        .into()
    }
}

fn entered(words: Words, entry: Option<impl Show>) -> String {
    entry.map_or_else(
        || none_entered(words).to_owned(),
        |it| it.show(words).into_owned(),
    )
}

fn planned_by(words: Words, formula: Option<Formula>) -> Cow<'static, str> {
    match formula {
        None => no_formula_chosen(words).into(),
        Some(Formula::ThickLens) => thick_lens_without_back(words).into(),
        Some(formula) => formula.show(words).into_owned().into(),
    }
}

fn any_length(words: Words, length: Option<Micrometers>) -> String {
    length.map_or_else(
        || axial_length(words).to_owned(),
        |it| it.show(words).into_owned(),
    )
}

/// "+21.50 D, predicted −0.32 D".
pub(super) fn predicted(
    words: Words,
    power: HundredthDiopters,
    refraction: Option<HundredthDiopters>,
) -> String {
    match refraction {
        Some(refraction) => power_predicted(words, power, refraction),
        None => power_not_predicted(words, power),
    }
}

/// "+2.40 D, leaves 0.47 D".
pub(super) fn leaves(
    words: Words,
    cylinder: Option<HundredthDiopters>,
    left: Option<HundredthDiopters>,
) -> String {
    let cylinder = cylinder.map_or_else(
        || no_cylinder(words).to_owned(),
        |it| it.show(words).into_owned(),
    );
    match left {
        Some(left) => cylinder_leaves(words, cylinder, unsigned(words, left)),
        None => cylinder_leaves_unknown(words, cylinder),
    }
}

fn condition(words: Words, (asked, outcome): (Asks, Outcome)) -> String {
    match outcome {
        Outcome::Met(found) => met(words, asked, found),
        Outcome::NotMet(found) => not_met(words, asked, found),
        Outcome::CannotBeTold(lacking) => cannot_be_told(words, asked, lacking),
    }
}
