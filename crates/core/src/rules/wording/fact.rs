//! What was found.

use super::limit::tenths;
use super::quantity::{length_by, magnitude};
use super::{asks, both, found, lacking, list, odds_factor, prediction_error, quantity, which};
use crate::astigmatism::PosteriorBasis;
use crate::biometry::CornealSurgeryKind;
use crate::case::{Critical, SurgeonGrade};
use crate::finding::{Asks, Outcome};
use crate::iol_power::Formula;
use crate::quantity::HundredthDiopters;
use crate::rules::{
    Contradiction, Drift, Fact, Identifier, NoAnswer, Quantity, TwoLooks, WeakZonules,
};

/// What was found, without a full stop.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one arm for each fact")]
pub fn fact(fact: &Fact) -> String {
    match fact {
        Fact::Quantity(it) => quantity(*it),
        Fact::Quantities(several) => list(several, |it| quantity(*it), ", "),
        Fact::Without(identifiers) => {
            list(identifiers, |it| format!("no {}", identifier(*it)), ", ")
        }
        Fact::Target(target) => format!("target {target}"),
        Fact::EyeChanges(changes) => list(changes, |[from, to]| format!("{from} → {to}"), ", "),
        Fact::LensInEye { eye, power } => format!("{eye} has a lens of {power}"),
        Fact::SameInBothEyes {
            length,
            readings: [flat, steep],
        } => format!(
            "{length}, {}, {} in both eyes",
            quantity(*flat),
            quantity(*steep)
        ),
        Fact::BornLater => "born after the planned day".to_owned(),
        Fact::TwoLooks(differences) => list(differences, |it| two_looks(*it), ", "),
        Fact::MeasuredBySame(what) => format!(
            "measured by the same person: {}",
            list(what, |it| which(*it).to_owned(), ", ")
        ),
        Fact::MeasuredOn(days) => list(
            days,
            |(it, day)| format!("{} of {}", which(*it), day.0),
            ", ",
        ),
        Fact::NotRecorded => "not recorded".to_owned(),
        Fact::NotMeasured => "not measured".to_owned(),
        Fact::Present => "present".to_owned(),
        Fact::Taken => "taken now or before".to_owned(),
        Fact::Surgeon(grade) => surgeon(*grade).to_owned(),
        Fact::LocsOpalescence(grade) => format!("LOCS III NO {}", tenths(i32::from(*grade))),
        Fact::WeakZonules(signs) => weak_zonules(*signs).to_owned(),
        Fact::Factors(factors) => list(
            factors,
            |it| format!("{} {:.2}", odds_factor(*it), it.ratio()),
            ", ",
        ),
        Fact::FirstEye { eye, error } => format!("{eye}: {}", prediction_error(*error)),
        Fact::NoEarlierOperation => "no earlier operation on the fellow eye is recorded".to_owned(),
        Fact::Conditions(failing) => list(failing, |it| condition(*it), "; "),
        Fact::Undecided => "nobody decided".to_owned(),
        Fact::Repeats { readings, apart } => both(
            readings.map(|it| quantity(Quantity::Readings(it))),
            apart.map(|it| format!("{} apart", magnitude(it))),
        ),
        Fact::Meridians { flat, steep, apart } => {
            format!("flat {flat}, steep {steep}: {apart}° apart")
        }
        Fact::FormulaAt { formula, length } => format!("{} at {length}", formula.name()),
        Fact::FormulaAfter { formula, surgery } => {
            let planned_by = match formula {
                None => "no formula chosen",
                Some(Formula::ThickLens) => "thick lens without a measured back surface",
                Some(formula) => formula.name(),
            };
            format!("{planned_by} after {}", surgery_name(*surgery))
        }
        Fact::Surgery(kind) => surgery_name(*kind).to_owned(),
        Fact::Contradictions(several) => list(several, |it| contradiction(*it), "; "),
        Fact::UncorrectedForOil(length) => {
            let length = length.map_or_else(|| "axial length".to_owned(), |it| it.to_string());
            format!("{length} through silicone oil, uncorrected")
        }
        Fact::CorrectedForOil => "silicone oil, length corrected for it".to_owned(),
        Fact::LengthBy { length, method } => length_by(*length, *method),
        Fact::LengthUsed {
            length,
            method,
            added,
        } => {
            let measured = length_by(*length, *method);
            match added {
                None => format!("{measured}, used as measured"),
                Some(added) => format!("{measured}, {added} added, {} used", *length + *added),
            }
        }
        Fact::VectorApart { vector, degrees } => {
            let apart = degrees.map_or_else(String::new, |it| format!(", {it}° apart"));
            format!("{} as a vector{apart}", magnitude(*vector))
        }
        Fact::NoFormula => "no formula".to_owned(),
        Fact::NoAnswer { formula, why } => {
            let name = formula.name();
            match why {
                NoAnswer::NotOnLadder => format!("{name}: not on the ladder of this eye"),
                NoAnswer::Eye(refusal) => format!("{name}: {refusal}"),
                NoAnswer::Astigmatism(refusal) => format!("{name}: {refusal}"),
            }
        }
        Fact::Predicted { power, refraction } => predicted(*power, *refraction),
        Fact::Constant(obtained) => obtained.to_string(),
        Fact::Material(material) => material.to_string(),
        Fact::NotForSulcus(name) => format!("{name} is not allowed in the sulcus"),
        Fact::Drifts(drifts) => list(drifts, |it| drift(*it), "; "),
        Fact::Posterior(basis) => posterior(*basis),
        Fact::Axis {
            chosen,
            suggested,
            apart,
        } => format!("{chosen}, suggested {suggested}: {apart}° apart"),
        Fact::Cornea {
            irregular,
            operated,
        } => match (irregular, operated) {
            (true, true) => "irregular and operated on",
            (true, false) => "irregular",
            (false, _) => "operated on",
        }
        .to_owned(),
        Fact::Leaves { cylinder, left } => leaves(*cylinder, *left),
        Fact::EquivalentWithCylinder(equivalent) => {
            format!("spherical equivalent {equivalent} predicted with the cylinder")
        }
    }
}

pub(super) const fn identifier(identifier: Identifier) -> &'static str {
    match identifier {
        Identifier::Name => "name",
        Identifier::Number => "hospital number",
    }
}

/// "axial length 23.50 mm (second look 25.30 mm)".
fn two_looks(both: TwoLooks) -> String {
    let texts = |what: Critical, first: Option<String>, second: Option<String>| {
        let [first, second] = [first, second].map(|it| it.unwrap_or_else(|| "none".to_owned()));
        format!("{} {first} (second look {second})", what.name())
    };
    match both {
        TwoLooks::Number => Critical::Number.name().to_owned(),
        TwoLooks::Eye { first, second } => texts(
            Critical::Eye,
            first.map(|it| it.to_string()),
            Some(second.to_string()),
        ),
        TwoLooks::Meridian {
            what,
            first,
            second,
        } => texts(
            what,
            first.map(|it| it.to_string()),
            Some(second.to_string()),
        ),
        TwoLooks::Quantity {
            what,
            first,
            second,
        } => texts(what, first.map(quantity), second.map(quantity)),
    }
}

const fn surgeon(grade: SurgeonGrade) -> &'static str {
    match grade {
        SurgeonGrade::Independent => "independent surgeon",
        SurgeonGrade::ExperiencedTrainee => "trainee of more experience",
        SurgeonGrade::Trainee => "trainee of less experience",
    }
}

const fn weak_zonules(signs: WeakZonules) -> &'static str {
    match signs {
        WeakZonules::Pseudoexfoliation => "pseudoexfoliation",
        WeakZonules::Phacodonesis => "phacodonesis",
        WeakZonules::Both => "pseudoexfoliation and phacodonesis",
    }
}

/// Corneal surgery in words.
pub(super) const fn surgery_name(kind: CornealSurgeryKind) -> &'static str {
    match kind {
        CornealSurgeryKind::MyopicLaser => "laser for myopia",
        CornealSurgeryKind::HyperopicLaser => "laser for hyperopia",
        CornealSurgeryKind::Other => "other corneal surgery",
    }
}

fn contradiction(contradiction: Contradiction) -> String {
    match contradiction {
        Contradiction::Direction { before, now } => {
            format!("K before {}, now {}", magnitude(before), magnitude(now))
        }
        Contradiction::Correction { change, correction } => {
            format!("change of K {change}, correction {correction}")
        }
    }
}

pub(super) fn predicted(power: HundredthDiopters, refraction: Option<HundredthDiopters>) -> String {
    match refraction {
        Some(refraction) => format!("{power}, predicted {refraction}"),
        None => format!("{power}, no prediction"),
    }
}

/// "+2.40 D, leaves 0.47 D".
pub(super) fn leaves(
    cylinder: Option<HundredthDiopters>,
    left: Option<HundredthDiopters>,
) -> String {
    let name = cylinder.map_or_else(|| "no cylinder".to_owned(), |it| it.to_string());
    match left {
        Some(left) => format!("{name}, leaves {}", magnitude(left)),
        None => format!("{name}, what it leaves is not computed"),
    }
}

fn drift(drift: Drift) -> String {
    let (what, cylinder, steep) = match drift {
        Drift::FrontWithTheRule { cylinder, steep } => ("front with the rule", cylinder, steep),
        Drift::LeftAgainstTheRule { cylinder, steep } => ("left against the rule", cylinder, steep),
    };
    format!("{what}, {} steep at {steep}", magnitude(cylinder))
}

fn posterior(basis: PosteriorBasis) -> String {
    match basis {
        PosteriorBasis::Measured => "measured".to_owned(),
        PosteriorBasis::NotMeasured => "left out, since it was not measured".to_owned(),
        PosteriorBasis::LeftOut => "left out by choice".to_owned(),
        PosteriorBasis::Regression(orientation) => {
            format!("estimated by the regression, {orientation}")
        }
        PosteriorBasis::Multiplier(orientation) => {
            format!("estimated by the multiplier, {orientation}")
        }
    }
}

fn condition((asked, outcome): (Asks, Outcome)) -> String {
    let asked = asks(asked);
    match outcome {
        Outcome::Met(it) => format!("met: {asked} ({})", found(it)),
        Outcome::NotMet(it) => format!("not met: {asked} ({})", found(it)),
        Outcome::CannotBeTold(it) => format!("cannot be told: {asked} (needs {})", lacking(it)),
    }
}
