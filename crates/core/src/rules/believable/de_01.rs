//! `DE-01`: the anterior chamber depth was given from the endothelium.

use crate::biometry::DepthStart;
use crate::evidence::{OPTICS, POPULATION_14, Standing};
use crate::rules::{
    Because, Detail, Facts, Finding, Group, Limit, Look, Missing, Quantity, Rule, Severity,
};

pub const RULE: Rule = Rule {
    id: "DE-01",
    title: "Anterior chamber depth is from the endothelium",
    group: Group::Believable,
    severity: Severity::Note,
    bearing: None,
    checks: "Whether the anterior chamber depth of the operative eye was given from the endothelium; it is shown with the depth from the epithelium that follows from the corneal thickness. A depth from the epithelium does not concern this rule.",
    why: "The two depths differ by the corneal thickness, about 0.54 mm. The formulas take the depth from the epithelium, which is what most biometers print; one taken for the other moves the predicted lens.",
    options: "Consider comparing the definition with the manual of the instrument, and measuring the corneal thickness where it is missing.",
    sources: &[
        Standing::Derived.of(OPTICS, "the depths differ by the corneal thickness"),
        Standing::Printed.of(
            POPULATION_14,
            "corneal thickness 468 to 620 µm, its middle about 0.54 mm",
        ),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let eye = facts.operated.0;
    let given = facts.chamber_depth()?;
    let from = DepthStart::Epithelium;
    if given.start == from {
        return Err(Because::FromEpithelium.into());
    }
    let (Some(thickness), Some(depth)) = (eye.thickness(), eye.depth_from_epithelium()) else {
        return Err(Missing::ThicknessForDepth { from }.into());
    };
    let detail = Detail::DepthFromEpithelium {
        thickness: thickness.get(),
        depth,
    };
    Finding::new(Quantity::from(given), Limit::FromEpithelium)
        .with([detail])
        .found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::rules::testing::{
        assert_found, assert_not_applicable, assert_not_evaluated, micrometers, quantity,
    };
    use crate::rules::{Detail, Limit};

    /// By hand: 2.66 mm and 540 µm are 3.20 mm.
    #[test]
    fn the_depth_from_the_epithelium_is_shown() {
        let finding = assert_found(
            &RULE,
            |draft| draft.set_aqueous_depth("2.66 mm"),
            quantity("2.66 mm from the endothelium").into(),
            Limit::FromEpithelium,
        );
        let [thickness, depth] = [540, 3_200].map(micrometers);
        let detail = Detail::DepthFromEpithelium { thickness, depth };
        assert_eq!(finding.details, [detail]);
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
