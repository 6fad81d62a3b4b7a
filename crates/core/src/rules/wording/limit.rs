//! What a finding stands against.

use super::fact::{leaves, predicted, surgery_name};
use super::quantity::{magnitude, quantity};
use super::{both, list};
use crate::biometry::CornealSurgeryKind;
use crate::case::SecondEyeChoice;
use crate::quantity::decimal;
use crate::rules::believable::rs_04::CORRECTION_TOLERANCE;
use crate::rules::{Contradiction, Limit, NamedFor, PowerSpan, Quantity};

/// What a finding stands against, without a full stop.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one arm for each limit")]
pub fn limit(limit: &Limit) -> String {
    match limit {
        Limit::AtLeast(it) => format!("at least {}", quantity(*it)),
        Limit::AtMost(it) => format!("at most {}", quantity(*it)),
        Limit::Under(it) => format!("under {}", quantity(*it)),
        Limit::OrMore(it) => format!("{} or more", quantity(*it)),
        Limit::Within(Quantity::Years(low), high) => format!("{low} to {}", quantity(*high)),
        Limit::Within(low, high) => format!("{} to {}", quantity(*low), quantity(*high)),
        Limit::ConsentedTarget(target) => format!("consented target {target}"),
        Limit::Repeats { readings, apart } => both(
            readings.map(|it| format!("at least {}", quantity(Quantity::Readings(it)))),
            apart.map(|it| format!("at most {} apart", magnitude(it))),
        ),
        Limit::Index(index) => format!("index {index}"),
        Limit::AtLeastApart(degrees) => format!("at least {degrees}° apart"),
        Limit::AtMostApart(degrees) => format!("at most {degrees}° apart"),
        Limit::MonthsBefore { months, day } => format!("at most {months} months before {}", day.0),
        Limit::NamedFormulas { formulas, lengths } => {
            let names = list(formulas, |it| it.name().to_owned(), " or ");
            match lengths {
                NamedFor::Under(length) => format!("{names} under {length}"),
                NamedFor::Between(from, to) => format!("{names} from {from} to {to}"),
                NamedFor::Over(length) => format!("{names} over {length}"),
            }
        }
        Limit::Changes(several, surgery) => list(several, |it| change(*it, *surgery), "; "),
        Limit::ConstantsFor(kind) => format!("constants for {kind}"),
        Limit::AtMostVector { vector, degrees } => {
            format!(
                "at most {} as a vector, {degrees}° apart",
                magnitude(*vector)
            )
        }
        Limit::FartherFrom { tolerance, grade } => {
            format!("more than {} from {}", tenths(*tolerance), tenths(*grade))
        }
        Limit::MadeIn(spans) if spans.is_empty() => "no power is recorded".to_owned(),
        Limit::MadeIn(spans) => list(spans, |it| span(*it), ", "),
        Limit::CylindersMade(cylinders) => list(cylinders, ToString::to_string, ", "),
        Limit::ProposedPower { power, refraction } => predicted(*power, *refraction),
        Limit::ProposedCylinder { cylinder, left } => leaves(*cylinder, *left),
        Limit::ExactCylinder(exact) => format!("at most {exact} at the lens plane"),
        Limit::OnLadder(refraction) => format!("{refraction} on the ladder"),
        Limit::Refinement { offered, choice } => match (choice, offered) {
            (None, true) => "refinement offered, nothing applied until somebody decides",
            (None, false) => "refinement not offered, nothing applied",
            (Some(SecondEyeChoice::Unrefined), _) => "refinement declined, nothing applied",
            (Some(SecondEyeChoice::Refined), true) => {
                "refinement chosen, shown beside the unrefined prediction"
            }
            (Some(SecondEyeChoice::Refined), false) => {
                "refinement chosen but not offered, nothing applied"
            }
        }
        .to_owned(),
        Limit::NameAndNumber => "name and hospital number".to_owned(),
        Limit::RecordedConsent => "a recorded consented target".to_owned(),
        Limit::OneEye => "one eye throughout the case".to_owned(),
        Limit::NotOperatedBefore => "no earlier cataract operation on this eye".to_owned(),
        Limit::NotAllTheSame => "not all three the same".to_owned(),
        Limit::TwoLooksAgree => "both are to be the same".to_owned(),
        Limit::AnotherPerson => "another person is to look".to_owned(),
        Limit::FittingFormula => "a formula that fits this surgery".to_owned(),
        Limit::Recorded => "recorded, also when there was none".to_owned(),
        Limit::NoCornealSurgery => "no corneal surgery".to_owned(),
        Limit::CorrectedLength => "a length corrected for the oil".to_owned(),
        Limit::NoSiliconeOil => "no silicone oil".to_owned(),
        Limit::ChosenUse => "a chosen way to use it with constants for optical biometry".to_owned(),
        Limit::NoProbe => "no probe on the cornea".to_owned(),
        Limit::FromEpithelium => "from the epithelium".to_owned(),
        Limit::Absent => "absent".to_owned(),
        Limit::NeverTaken => "never taken".to_owned(),
        Limit::CellsCounted => "endothelial cell density measured".to_owned(),
        Limit::NoWeakZonules => "neither pseudoexfoliation nor phacodonesis".to_owned(),
        Limit::IndependentSurgeon => "independent surgeon".to_owned(),
        Limit::NoRaisedOdds => "no raised odds".to_owned(),
        Limit::WithoutCylinder => "a lens without a cylinder".to_owned(),
        Limit::Answer => "an answer".to_owned(),
        Limit::GivenOrOptimized => "given by the maker or optimized".to_owned(),
        Limit::Optimized => "optimized on own results".to_owned(),
        Limit::AnotherMaterial => "another material".to_owned(),
        Limit::AllowedInSulcus => "allowed in the sulcus".to_owned(),
        Limit::NoDrift => "no drift is allowed for".to_owned(),
        Limit::Measured => "measured".to_owned(),
        Limit::RegularCornea => "regular and untouched".to_owned(),
        Limit::EveryCondition => "every condition met".to_owned(),
        Limit::MayDecide => "it may be chosen or declined".to_owned(),
    }
}

/// A grade in tenths.
pub(super) fn tenths(tenths: i32) -> String {
    decimal::write(tenths, 1, 1)
}

fn span(PowerSpan { from, to, step }: PowerSpan) -> String {
    format!("{from} to {to} by {}", magnitude(step))
}

fn change(contradiction: Contradiction, surgery: CornealSurgeryKind) -> String {
    match contradiction {
        Contradiction::Direction { now, .. } => {
            let before_is = match surgery {
                CornealSurgeryKind::HyperopicLaser => "less",
                CornealSurgeryKind::MyopicLaser | CornealSurgeryKind::Other => "more",
            };
            let surgery = surgery_name(surgery);
            format!("{before_is} than {} before {surgery}", magnitude(now))
        }
        Contradiction::Correction { .. } => format!(
            "K lower by the correction, within {}",
            magnitude(CORRECTION_TOLERANCE)
        ),
    }
}
