//! `KM-05`: keratometry was given as a power at an index other than 1.3375.

use crate::biometry::CornealReading;
use crate::evidence::{OPTICS, Standing};
use crate::quantity::KeratometricIndex;
use crate::rules::{
    Because, Detail, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "KM-05",
    title: "Keratometry is at another index",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a corneal power of the operative eye was given at an index other than 1.3375; only that index passes. Radii have no index and do not concern this rule.",
    why: "An instrument measures a radius and shows a power by an index of its own. The same cornea of 7.5 mm is 45.00 D at 1.3375, 44.80 at 1.336, 44.27 at 1.332 and 44.20 at 1.3315. The formulas are given the radius or the power at 1.3375; the powers on the printout are other numbers.",
    options: "Consider comparing the index with the settings of the instrument, and entering radii where it shows them.",
    sources: &[Standing::Derived.of(OPTICS, "7.5 mm is 45.00 D at 1.3375, 44.20 D at 1.3315")],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let keratometry = facts.keratometry()?;
    let readings = [keratometry.flat.reading, keratometry.steep.reading];
    if readings.iter().all(|reading| index_of(*reading).is_none()) {
        return Err(Because::GivenAsRadii.into());
    }
    let (mut given, mut standard) = (Vec::new(), Vec::new());
    for reading in readings {
        if index_of(reading).is_none_or(|index| index == KeratometricIndex::STANDARD) {
            continue;
        }
        let power = reading.standard_power().nearest_hundredth();
        given.push(reading.into());
        standard.push(power.ok_or(Missing::ConvertiblePower)?);
    }
    if given.is_empty() {
        return Ok(None);
    }
    let limit = Limit::Index(KeratometricIndex::STANDARD);
    Finding::new(Fact::Quantities(given), limit)
        .with([Detail::AtStandardIndex(standard)])
        .found()
}

fn index_of(reading: CornealReading) -> Option<KeratometricIndex> {
    match reading {
        CornealReading::Radius(_) => None,
        CornealReading::Power { index, .. } => Some(index),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::quantity::KeratometricIndex;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied, diopters,
        quantity,
    };
    use crate::rules::{Detail, Fact, Limit};

    /// The readings of the operated eye that the rule names, and the powers at 1.3375.
    #[track_caller]
    fn assert_named([flat, steep]: [&str; 2], named: &[&str], hundredths: &[i32]) {
        let named = named.iter().map(|text| quantity(text)).collect();
        let finding = assert_found(
            &RULE,
            |draft| draft.set_keratometry(flat, steep),
            Fact::Quantities(named),
            Limit::Index(KeratometricIndex::STANDARD),
        );
        let powers = hundredths.iter().copied().map(diopters).collect();
        assert_eq!(finding.details, [Detail::AtStandardIndex(powers)]);
    }

    /// By hand: 44.20·337.5/331.5 = 45.00 D, 44.00·337.5/331.5 = 44.80 D.
    #[test]
    fn another_index_is_shown_with_the_power_at_the_standard_one() {
        let given = ["44.00 D at 1.3315", "44.20 D at 1.3315"];
        assert_named(given, &given, &[4_480, 4_500]);
    }

    /// By hand: 44.00·337.5/337.4 = 44.01 D, 44.00·337.5/336.0 = 44.20 D.
    #[test]
    fn one_step_of_the_index_and_one_of_two_meridians_are_enough() {
        assert_named(
            ["43.50 D at 1.3375", "44.00 D at 1.3374"],
            &["44.00 D at 1.3374"],
            &[4_401],
        );
        assert_named(
            ["7.80 mm", "44.00 D at 1.336"],
            &["44.00 D at 1.336"],
            &[4_420],
        );
    }

    #[test]
    fn the_standard_index_passes() {
        assert_satisfied(&RULE, |draft| {
            draft.set_keratometry("43.50 D at 1.3375", "44.00 D at 1.3375");
        });
        assert_satisfied(&RULE, |draft| {
            draft.set_keratometry("7.80 mm", "44.00 D at 1.3375");
        });
    }

    #[test]
    fn radii_do_not_concern_it_and_nothing_cannot_be_looked_at() {
        assert_not_applicable(&RULE, |draft| draft.set_keratometry("7.80 mm", "7.60 mm"));
        assert_not_evaluated(&RULE, |draft| draft.operated().keratometry = None);
    }
}
