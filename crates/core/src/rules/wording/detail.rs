//! What else there is to know of a finding.

use super::quantity::{magnitude, thickness_um};
use super::{
    ERROR_CONVENTION, borderline_depth, list, odds_factor, risk_item_names, risk_items, which,
};
use crate::quantity::{HundredthDiopters, Meridian};
use crate::rules::risk::{BASE_RATE_PERCENT, Band};
use crate::rules::{Astigmatism, Detail, SpreadOf};

/// One thing more to know, without a full stop.
#[expect(clippy::too_many_lines, reason = "one arm for each detail")]
pub(super) fn detail(detail: &Detail) -> String {
    match detail {
        Detail::BirthDateMissing => "the birth date is missing too".to_owned(),
        Detail::ReasonsGiven(reasons) => format!("reason given: {}", reasons.join("; ")),
        Detail::DepthFromEpithelium { thickness, depth } => format!(
            "with a cornea of {} the depth from the epithelium is {depth}",
            thickness_um(*thickness)
        ),
        Detail::EmmetropicPower { power, average } => {
            format!("power for emmetropia {power}, average of the lens {average}")
        }
        Detail::EmmetropicPowers { operated, fellow } => {
            format!("power for emmetropia {operated} in the operated eye, {fellow} in the other")
        }
        Detail::AtStandardIndex(powers) => format!(
            "the same cornea at 1.3375 is {}",
            list(powers, |it| magnitude(*it), ", ")
        ),
        Detail::DatedAfter(what) => format!(
            "dated after the planned day: {}",
            list(what, |it| which(*it).to_owned(), ", ")
        ),
        Detail::ScatterAfterSurgery => {
            "published predictions scatter by about 0.70 D (1 SD)".to_owned()
        }
        Detail::UltrasoundMeans => {
            "published means: contact reads 0.20 mm shorter than immersion (0 to 0.94), \
             optical 0.18 mm longer than immersion and 0.47 mm longer than contact"
                .to_owned()
        }
        Detail::FilledEye => {
            "a filled eye needs +3 to +5 D; only a third came within ±1 D".to_owned()
        }
        Detail::ByTwoMethods { first, second } => format!(
            "{}; by the other method {}",
            astigmatism(*first),
            astigmatism(*second)
        ),
        Detail::Repeat => "consider repeating the measurement".to_owned(),
        Detail::SpreadUnknown => "the spread of this measurement is not known, so whether it is \
             borderline cannot be judged"
            .to_owned(),
        Detail::Spread {
            of,
            deviation,
            instead_of_zero,
        } => {
            let instead = if *instead_of_zero {
                ", the table's, since the measurement gives zero"
            } else {
                ""
            };
            format!("1 SD of {} {deviation}{instead}", spread_of(*of))
        }
        Detail::AqueousDepth(depth) => format!("aqueous depth {depth}"),
        Detail::RoomToDivide => {
            "there is room to divide the nucleus into many small pieces".to_owned()
        }
        Detail::CapsulorhexisAndOptic {
            capsulorhexis,
            optic,
        } => format!("capsulorhexis {capsulorhexis}, optic {optic}"),
        Detail::Estimate {
            pieces,
            longest,
            off_axis,
            rounded_up,
        } => {
            let off_axis = off_axis.map_or_else(String::new, |room| {
                format!("; room 2 mm off the axis {room}")
            });
            let rounded = if *rounded_up {
                "; just under the clearance, rounded up to it here"
            } else {
                ""
            };
            format!("estimate for {pieces} pieces, the longest {longest}{off_axis}{rounded}")
        }
        Detail::RiskPoints {
            band,
            given,
            unknown,
        } => {
            let unknown = if unknown.is_empty() {
                String::new()
            } else {
                format!("; not recorded: {}", risk_item_names(unknown))
            };
            format!("band {}: {}{unknown}", band_name(*band), risk_items(given))
        }
        Detail::BorderlineDepth(depth) => borderline_depth(*depth),
        Detail::NotMultiplied => format!(
            "not multiplied, and no percentage is given for this eye, since no intercept is \
             printed; {BASE_RATE_PERCENT:.2} % of all operations"
        ),
        Detail::FactorNotRecorded(factor) => format!("not recorded: {}", odds_factor(*factor)),
        Detail::FactorNotApplied(factor) => format!(
            "{} {:.2} not applied: the age limit is not printed",
            odds_factor(*factor),
            factor.ratio()
        ),
        Detail::FirstOperation { complicated } => match complicated {
            Some(true) => "it was complicated, so its error is no guide",
            Some(false) => "it was not complicated",
            None => "whether it was complicated is not recorded",
        }
        .to_owned(),
        Detail::ErrorConvention => ERROR_CONVENTION.to_owned(),
        Detail::NoneProposed => "the convention proposes none of these powers".to_owned(),
        Detail::Extremes {
            lowest: (low, lowest),
            highest: (high, highest),
        } => format!("{} {lowest} to {} {highest}", low.name(), high.name()),
        Detail::NothingForSulcus => "nothing lies ready for the sulcus".to_owned(),
        Detail::SuggestedLength {
            diameter,
            suggested,
        } => format!("corneal diameter {diameter} suggests a length of {suggested}"),
        Detail::ExpectedToLeave {
            cylinder,
            axis,
            left,
            without,
        } => expected_to_leave((*cylinder, *axis), *left, *without),
        Detail::SteepIncision { eye, at } => format!(
            "an incision on the steep meridian would lie at {at}, {}",
            eye.place(*at)
        ),
    }
}

const fn spread_of(of: SpreadOf) -> &'static str {
    match of {
        SpreadOf::Depth => "the depth",
        SpreadOf::DepthAndThickness => "depth and corneal thickness together",
    }
}

fn astigmatism(Astigmatism { cylinder, steep }: Astigmatism) -> String {
    let cylinder = magnitude(cylinder);
    match steep {
        Some(steep) => format!("{cylinder} steep at {steep}"),
        None => cylinder,
    }
}

fn expected_to_leave(
    (cylinder, axis): (Option<HundredthDiopters>, Option<Meridian>),
    left: HundredthDiopters,
    without: Option<HundredthDiopters>,
) -> String {
    let cylinder = cylinder.map_or_else(String::new, |it| it.to_string());
    let axis = axis.map_or_else(String::new, |axis| format!(" at {axis}"));
    let instead = without.map_or_else(String::new, |without| {
        format!(", instead of {}", magnitude(without))
    });
    let left = magnitude(left);
    format!("{cylinder}{axis} is expected to leave a cylinder of {left}{instead}")
}

const fn band_name(band: Band) -> &'static str {
    match band {
        Band::None => "0",
        Band::OneToTwo => "1 to 2",
        Band::ThreeToFive => "3 to 5",
        Band::SixOrMore => "6 or more",
    }
}
