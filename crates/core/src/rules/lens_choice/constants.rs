//! Rules that hold the constants of a lens against what a lens can have, and against each other.

use crate::case::Lenses;
use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::finding::{ConstantValue, LensConstant};
use crate::iol_power::mean_eye;
use crate::iol_power::{
    AConstant, Formula, FormulaConstants, HaigisConstants, PersonalizedAcd, SurgeonFactor,
    conversions,
};
use crate::lens::{BiometryKind, LensRecord, LensSite, Obtained, RecordConstants};
use crate::quantity::{Diopters, HundredthDiopters};
use crate::rules::look::NoLook;
use crate::rules::{
    Because, Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity,
};

use super::chosen_record;

/// How far a constant may be from what its conversion gives: half a unit of the first decimal, to which
/// some write it (house value).
const ROUNDING_MM: f64 = 0.05;

/// How far a1 and a2 may be from those of the conversion (house value).
const ROUNDING_FACTOR: f64 = 0.0005;

pub const CONVERTED: Rule = Rule {
    id: "CT-03",
    title: "A constant called converted is not what the conversion gives",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Every constant of the lens record that is called converted, computed again from its A constant; the same of each lens that lies ready. A difference of 0.05 mm passes, and of 0.0005 in a1 and a2 of Haigis (0.4 and 0.1). An A constant is converted from nothing. Without an A constant nothing can be computed again.",
    why: "The A constant was changed since, or one of the two was mistyped; both cannot be right.",
    options: "The record may be corrected: the constant entered as converted, or called given or optimized if it is. Until then the plan cannot be signed.",
    sources: &[
        Standing::Memory.of(NO_SOURCE, "the conversions (see the formulas)"),
        Standing::Assumption.of(HOUSE, "0.05 mm and 0.0005"),
    ],
    limits: &[],
    evaluate: converted,
};

pub const RANGE: Rule = Rule {
    id: "CT-04",
    title: "No lens has such a constant",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "Every constant of the lens record against the range of such lenses; the same of each lens that lies ready. Lenses for the bag: A 115 to 121, pACD 3.2 to 6.8 mm, surgeon factor −0.5 to 3.0 mm, and with Haigis a position of 2.5 to 6.75 mm in the mean eye (axial length 23.5 mm, chamber depth 3.11 mm). Anterior chamber IOLs: A 112 to 117, pACD 1.4 to 4.4 mm, surgeon factor −2.2 to 0.7 mm, position 0.5 to 4.25 mm. The ends pass.",
    why: "A digit was mistyped, a sign lost or gained, or a constant of another formula entered: a surgeon factor where the pACD belongs, a1 where a0 belongs. A millimeter of lens position is about 1.4 D.",
    options: "The record may be corrected. Until then the plan cannot be signed.",
    sources: &[
        Standing::Assumption.of(
            HOUSE,
            "the range of A; the others by conversion, wider below for Haigis",
        ),
        mean_eye::DEPTH_SOURCE,
    ],
    limits: &[],
    evaluate: in_range,
};

pub const APART: Rule = Rule {
    id: "CT-05",
    title: "Constants of the lens do not belong together",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Highest less lowest power for emmetropia of the mean eye (axial length 23.5 mm, K 43.5 D, for Haigis chamber depth 3.11 mm) by SRK/T, Holladay 1, Hoffer Q and Haigis, each with its constant of the lens record, to the nearest 0.01 D, against 1.00 D; the same of each lens that lies ready. The limit itself passes; over 2.00 D it is for CT-06. Constants called converted are left out, since CT-03 computes them again.",
    why: "In an ordinary eye the formulas agree on a lens, if its constants are right: in the mean eye only the constants make them part. One of them may be mistyped, or belong to another lens or to the other kind of biometry.",
    options: "Consider comparing the record with the maker's or the clinic's own constants, one by one.",
    sources: &[
        Standing::Assumption.of(HOUSE, "1.00 D, the clinic's to change"),
        mean_eye::SOURCE,
        mean_eye::DEPTH_SOURCE,
    ],
    limits: &["constants_apart", "constants_apart_widest"],
    evaluate: apart,
};

pub const FAR_APART: Rule = Rule {
    id: "CT-06",
    title: "Constants of the lens contradict each other",
    group: Group::LensChoice,
    severity: Severity::Stop,
    bearing: None,
    checks: "As CT-05, against 2.00 D. The limit itself passes.",
    why: "Such constants are not of one lens; by which of them the power was chosen, chance decided.",
    options: "The record may be corrected, or a constant that cannot be confirmed removed from it. Until then the plan cannot be signed.",
    sources: &[
        Standing::Assumption.of(HOUSE, "2.00 D, the clinic's to change"),
        mean_eye::SOURCE,
        mean_eye::DEPTH_SOURCE,
    ],
    limits: &["constants_apart_widest"],
    evaluate: far_apart,
};

pub const OTHER_RECORD: Rule = Rule {
    id: "CT-07",
    title: "Another record of the same model has other constants",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Lenses of the case, planned or lying ready, of one model and for one kind of biometry, and the clinic's other records of that model as they were when the lens was chosen: how far the power for emmetropia of the mean eye by one formula differs between the records, to the nearest 0.01 D, against 0.50 D. The limit itself passes.",
    why: "One of the records is older, or was mistyped: an A constant of 117.8 for 118.7 is 1 D.",
    options: "Consider which record is right, and choosing both lenses from it.",
    sources: &[
        Standing::Assumption.of(HOUSE, "0.50 D, the clinic's to change"),
        mean_eye::SOURCE,
    ],
    limits: &["constants_of_model"],
    evaluate: other_record,
};

fn thousandths(which: LensConstant, value: f64) -> Result<ConstantValue, NoLook> {
    ConstantValue::of(which, value).ok_or_else(|| Missing::LensConstant.into())
}

fn converted(facts: &Facts<'_>) -> Look {
    let constants = chosen_record(facts)?.constants;
    let named = called_converted(&constants);
    if named.is_empty() {
        return Err(Because::NothingConverted.into());
    }
    let a = constants.a_constant.ok_or(Missing::AConstant)?;
    let (mut recorded, mut given) = (Vec::new(), Vec::new());
    for (which, value) in named {
        let again = match which {
            LensConstant::A | LensConstant::HaigisPosition => None,
            LensConstant::PersonalizedAcd => conversions::personalized_acd(a.value)
                .ok()
                .map(PersonalizedAcd::value),
            LensConstant::SurgeonFactor => conversions::surgeon_factor(a.value)
                .ok()
                .map(SurgeonFactor::value),
            LensConstant::A0 => conversions::haigis(a.value)
                .ok()
                .map(HaigisConstants::a0_mm),
            LensConstant::A1 => Some(0.4),
            LensConstant::A2 => Some(0.1),
        };
        let tolerance = match which {
            LensConstant::A1 | LensConstant::A2 => ROUNDING_FACTOR,
            _ => ROUNDING_MM,
        };
        // Nothing binary: 0.4 + 0.0005 less 0.4 may come out a little over.
        if again.is_some_and(|again| (again - value).abs() <= tolerance + 1e-9) {
            continue;
        }
        recorded.push(thousandths(which, value)?);
        if let Some(again) = again {
            given.push(thousandths(which, again)?);
        }
    }
    if recorded.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::Constants(recorded), Limit::Converted(given)).found()
}

fn called_converted(constants: &RecordConstants) -> Vec<(LensConstant, f64)> {
    let is_converted = |obtained| obtained == Obtained::ConvertedFromA;
    let a = constants.a_constant.filter(|it| is_converted(it.obtained));
    let acd = constants
        .personalized_acd
        .filter(|it| is_converted(it.obtained));
    let factor = constants
        .surgeon_factor
        .filter(|it| is_converted(it.obtained));
    let haigis = constants.haigis.filter(|it| is_converted(it.obtained));
    let mut named = Vec::new();
    named.extend(a.map(|it| (LensConstant::A, it.value.value())));
    named.extend(acd.map(|it| (LensConstant::PersonalizedAcd, it.value.value())));
    named.extend(factor.map(|it| (LensConstant::SurgeonFactor, it.value.value())));
    if let Some(haigis) = haigis.map(|it| it.value) {
        named.extend([
            (LensConstant::A0, haigis.a0_mm()),
            (LensConstant::A1, haigis.a1()),
            (LensConstant::A2, haigis.a2()),
        ]);
    }
    named
}

/// Constants that lenses for a place have (house values): from, to.
const fn usual(site: LensSite, which: LensConstant) -> [f64; 2] {
    match (site, which) {
        (LensSite::Bag, LensConstant::A) => [115.0, 121.0],
        (LensSite::Bag, LensConstant::PersonalizedAcd) => [3.2, 6.8],
        (LensSite::Bag, LensConstant::SurgeonFactor) => [-0.5, 3.0],
        (LensSite::Bag, _) => [2.5, 6.75],
        (LensSite::AnteriorChamber, LensConstant::A) => [112.0, 117.0],
        (LensSite::AnteriorChamber, LensConstant::PersonalizedAcd) => [1.4, 4.4],
        (LensSite::AnteriorChamber, LensConstant::SurgeonFactor) => [-2.2, 0.7],
        (LensSite::AnteriorChamber, _) => [0.5, 4.25],
    }
}

fn in_range(facts: &Facts<'_>) -> Look {
    let record = chosen_record(facts)?;
    let constants = record.constants.values();
    let position = constants.haigis.map(|haigis| {
        haigis.a0_mm() + haigis.a1() * mean_eye::DEPTH.mm() + haigis.a2() * mean_eye::LENGTH.mm()
    });
    let all = [
        (LensConstant::A, constants.a_constant.map(AConstant::value)),
        (
            LensConstant::PersonalizedAcd,
            constants.personalized_acd.map(PersonalizedAcd::value),
        ),
        (
            LensConstant::SurgeonFactor,
            constants.surgeon_factor.map(SurgeonFactor::value),
        ),
        (LensConstant::HaigisPosition, position),
    ];
    let (mut beyond, mut ranges) = (Vec::new(), Vec::new());
    for (which, value) in all {
        let Some(value) = value else { continue };
        let [least, most] = usual(record.site, which);
        if !(least <= value && value <= most) {
            beyond.push(thousandths(which, value)?);
            ranges.push([thousandths(which, least)?, thousandths(which, most)?]);
        }
    }
    if beyond.is_empty() {
        return Ok(None);
    }
    Finding::new(Fact::Constants(beyond), Limit::UsualConstants(ranges)).found()
}

/// How far formulas part in the mean eye by the constants that are not converted, and which.
fn parted(record: &LensRecord) -> Result<(HundredthDiopters, Detail), NoLook> {
    let mut powers: Vec<(Formula, Diopters)> = mean_eye::FORMULAS
        .into_iter()
        .filter_map(|formula| {
            let power = mean_eye::power(formula, own_constants(&record.constants))?;
            Some((formula, power))
        })
        .collect();
    powers.sort_by(|(_, power), (_, other)| power.d().total_cmp(&other.d()));
    let [lowest, .., highest] = powers.as_slice() else {
        return Err(Because::OneConstant.into());
    };
    let usable = |power: Diopters| power.nearest_hundredth().ok_or(Missing::UsableAnswers);
    let extremes = Detail::Extremes {
        lowest: (lowest.0, usable(lowest.1)?),
        highest: (highest.0, usable(highest.1)?),
    };
    Ok((usable(highest.1 - lowest.1)?, extremes))
}

/// The constants of a record that were not converted.
fn own_constants(constants: &RecordConstants) -> FormulaConstants {
    let is_own = |obtained| obtained != Obtained::ConvertedFromA;
    RecordConstants {
        a_constant: constants.a_constant.filter(|it| is_own(it.obtained)),
        personalized_acd: constants.personalized_acd.filter(|it| is_own(it.obtained)),
        surgeon_factor: constants.surgeon_factor.filter(|it| is_own(it.obtained)),
        haigis: constants.haigis.filter(|it| is_own(it.obtained)),
    }
    .values()
}

fn apart(facts: &Facts<'_>) -> Look {
    let (spread, extremes) = parted(chosen_record(facts)?)?;
    let limits = facts.limits;
    if limits.constants_apart_widest < spread {
        return Err(Because::FartherApart.into());
    }
    Ok(beyond(spread, limits.constants_apart).map(|finding| finding.with([extremes])))
}

fn far_apart(facts: &Facts<'_>) -> Look {
    let (spread, extremes) = parted(chosen_record(facts)?)?;
    let limit = facts.limits.constants_apart_widest;
    Ok(beyond(spread, limit).map(|finding| finding.with([extremes])))
}

fn beyond(spread: HundredthDiopters, limit: HundredthDiopters) -> Option<Finding> {
    crate::rules::check::at_most(Quantity::Magnitude, spread, limit)
}

/// Two records of one model, as far as they may contradict each other.
type Compared<'a> = (&'a str, [(BiometryKind, &'a RecordConstants); 2]);

/// Every lens of the case beside the others of its model, and beside the clinic's other records of it.
fn same_model(lenses: &Lenses) -> Vec<Compared<'_>> {
    let chosen: Vec<_> = lenses.iter().map(|(_, lens)| lens).collect();
    let mut pairs = Vec::new();
    for (index, one) in chosen.iter().enumerate() {
        let (model, record) = (one.record.model.trim(), &one.record);
        let this = (record.constants_for, &record.constants);
        let in_case = chosen.iter().skip(index + 1).map(|other| &other.record);
        let in_case = in_case.filter(|other| other.model.trim() == model);
        pairs.extend(in_case.map(|it| (model, [this, (it.constants_for, &it.constants)])));
        let of_clinic = one.others.iter();
        pairs.extend(of_clinic.map(|it| (model, [this, (it.constants_for, &it.constants)])));
    }
    pairs
}

fn other_record(facts: &Facts<'_>) -> Look {
    let mut farthest: Option<(HundredthDiopters, Detail)> = None;
    let mut compared = false;
    for (model, [(kind, one), (other_kind, other)]) in same_model(&facts.draft.lens.lenses) {
        if kind != other_kind {
            continue;
        }
        compared = true;
        for formula in mean_eye::FORMULAS {
            let power = |constants: &RecordConstants| mean_eye::power(formula, constants.values());
            let (Some(first), Some(second)) = (power(one), power(other)) else {
                continue;
            };
            let apart = (first - second).nearest_hundredth();
            let apart = apart.ok_or(Missing::UsableAnswers)?.abs();
            if farthest.as_ref().is_none_or(|(far, _)| *far < apart) {
                let model = model.to_owned();
                farthest = Some((apart, Detail::SameModel { model, formula }));
            }
        }
    }
    if !compared {
        return Err(Because::NoOtherRecord.into());
    }
    Ok(farthest.and_then(|(apart, detail)| {
        let finding = beyond(apart, facts.limits.constants_of_model);
        finding.map(|finding| finding.with([detail]))
    }))
}

#[cfg(test)]
mod tests;
