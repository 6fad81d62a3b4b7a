//! `DE-01`: the anterior chamber depth was given from the endothelium.

use crate::biometry::DepthStart;
use crate::evidence::{OPTICS, POPULATION_14, Source, Standing};
use crate::rules::verdict::{not_applicable, not_evaluated};
use crate::rules::{Facts, Finding, Group, Rule, Severity, Verdict};

/// Identity, texts and sources of the rule.
pub const RULE: Rule = Rule {
    id: "DE-01",
    title: "Chamber depth is from the endothelium",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the anterior chamber depth of the operated eye was given from the endothelium; it is shown with the depth from the epithelium that follows from the corneal thickness. A depth from the epithelium does not concern this rule.",
    why: "The two depths differ by the corneal thickness, about 0.54 mm. The formulas take the depth from the epithelium, which is what most biometers print; one taken for the other moves the predicted lens.",
    options: "Consider comparing the definition with the manual of the instrument, and measuring the corneal thickness where it is missing.",
    sources: &[
        Source {
            work: OPTICS,
            locator: "the depths differ by the corneal thickness",
            standing: Standing::Derived,
        },
        Source {
            work: POPULATION_14,
            locator: "corneal thickness 468 to 620 µm, its middle about 0.54 mm",
            standing: Standing::Printed,
        },
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Verdict {
    let eye = facts.operated.0;
    let Some(measured) = &eye.chamber_depth else {
        return not_evaluated("anterior chamber depth of the operated eye");
    };
    let given = measured.value;
    if given.start == DepthStart::Epithelium {
        return not_applicable("the depth was given from the epithelium");
    }
    let (Some(thickness), Some(depth)) = (eye.thickness(), eye.depth_from_epithelium()) else {
        return not_evaluated("corneal thickness, to tell the depth from the epithelium");
    };
    Finding::new(
        format!("{} {}", given.depth, given.start),
        DepthStart::Epithelium,
    )
    .with_detail(format!(
        "with a cornea of {thickness} the depth from the epithelium is {depth}"
    ))
    .into()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::testing::{assert_finding, assert_not_applicable, assert_not_evaluated};

    /// By hand: 2.66 mm and 540 µm are 3.20 mm.
    #[test]
    fn the_depth_from_the_epithelium_is_shown() {
        let finding = assert_finding(
            &RULE,
            |draft| draft.set_aqueous_depth("2.66 mm"),
            ["2.66 mm from the endothelium", "from the epithelium"],
        );
        assert_eq!(
            finding.detail.as_deref(),
            Some("with a cornea of 540 µm the depth from the epithelium is 3.20 mm")
        );
    }

    #[test]
    fn depth_and_thickness_are_needed() {
        assert_not_evaluated(&RULE, |draft| draft.operated().chamber_depth = None);
        assert_not_evaluated(&RULE, |draft| {
            draft.set_aqueous_depth("2.66 mm");
            draft.operated().corneal_thickness = None;
        });
    }

    #[test]
    fn a_depth_from_the_epithelium_does_not_concern_it() {
        assert_not_applicable(&RULE, |draft| {
            draft.set_depth("3.20 mm", Method::Optical);
            draft.operated().corneal_thickness = None;
        });
    }
}
