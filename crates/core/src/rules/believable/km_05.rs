//! `KM-05`: keratometry was given as a power at an index other than 1.3375.

use crate::biometry::CornealReading;
use crate::evidence::{OPTICS, Source, Standing};
use crate::optics::KeratometricIndex;
use crate::rules::check::Unsigned;
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "KM-05",
    title: "Keratometry is at another index",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether a corneal power of the operated eye was given at an index other than 1.3375; only that index passes. Radii have no index and do not concern this rule.",
    why: "An instrument measures a radius and shows a power by an index of its own. The same cornea of 7.5 mm is 45.00 D at 1.3375, 44.80 at 1.336, 44.27 at 1.332 and 44.20 at 1.3315. The formulas are given the radius or the power at 1.3375; the powers on the printout are other numbers.",
    options: "Consider comparing the index with the settings of the instrument, and entering radii where it shows them.",
    sources: &[Source {
        work: OPTICS,
        locator: "7.5 mm is 45.00 D at 1.3375, 44.20 D at 1.3315",
        standing: Standing::Derived,
    }],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let Some(measured) = &facts.operated.0.keratometry else {
        return not_evaluated("keratometry of the operated eye");
    };
    let readings = [measured.value.flat.reading, measured.value.steep.reading];
    if readings.iter().all(|reading| index_of(*reading).is_none()) {
        return not_applicable("keratometry was given as radii");
    }
    let (mut given, mut standard) = (Vec::new(), Vec::new());
    for reading in readings {
        if index_of(reading).is_none_or(|index| index == KeratometricIndex::STANDARD) {
            continue;
        }
        let Some(power) = Unsigned::nearest(reading.standard_power()) else {
            return not_evaluated("a corneal power that can be converted");
        };
        given.push(reading.to_string());
        standard.push(power.to_string());
    }
    if given.is_empty() {
        return Verdict::Satisfied;
    }
    let index = KeratometricIndex::STANDARD;
    Finding::new(given.join(", "), format!("index {index}"))
        .with_detail(format!(
            "the same cornea at {index} is {}",
            standard.join(", ")
        ))
        .into()
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
    use crate::rules::testing::{
        assert_finding, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };

    /// By hand: 44.20·337.5/331.5 = 45.00 D, 44.00·337.5/331.5 = 44.80 D.
    #[test]
    fn another_index_is_shown_with_the_power_at_the_standard_one() {
        let finding = assert_finding(
            &RULE,
            |draft| draft.set_keratometry("44.00 D at 1.3315", "44.20 D at 1.3315"),
            ["44.00 D at 1.3315, 44.20 D at 1.3315", "index 1.3375"],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("the same cornea at 1.3375 is 44.80 D, 45.00 D")
        );
    }

    /// By hand: 44.00·337.5/337.4 = 44.01 D.
    #[test]
    fn one_step_of_the_index_and_one_of_two_meridians_are_enough() {
        let finding = assert_finding(
            &RULE,
            |draft| draft.set_keratometry("43.50 D at 1.3375", "44.00 D at 1.3374"),
            ["44.00 D at 1.3374", "index 1.3375"],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("the same cornea at 1.3375 is 44.01 D")
        );
        assert_finding(
            &RULE,
            |draft| draft.set_keratometry("7.80 mm", "44.00 D at 1.336"),
            ["44.00 D at 1.336", "index 1.3375"],
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
