//! `AC-02`: the chamber is too shallow for an anterior chamber IOL.

use crate::biometry::DepthStart;
use crate::evidence::{HOUSE, NO_SOURCE, Standing};
use crate::lens::Place;
use crate::quantity::Micrometers;
use crate::rules::check::at_least;
use crate::rules::{Because, Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "AC-02",
    title: "Chamber is shallow for the anterior chamber IOL",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Anterior chamber depth from the epithelium, as measured before the operation, against 2.50 mm, where an anterior chamber IOL lies ready. The limit itself passes. A depth from the endothelium needs the corneal thickness.",
    why: "The lens lies between iris and cornea, and in a shallow chamber near to the endothelium. Without the natural lens the chamber is deeper than it was measured; by how much is not known. The limit is our own value.",
    options: "Consider a lens fixed behind the iris, or none in the first session.",
    sources: &[
        Standing::Assumption.of(
            HOUSE,
            "2.50 mm, as for the risk point; the clinic's to change",
        ),
        Standing::CommonPractice.of(NO_SOURCE, "no anterior chamber IOL in a shallow chamber"),
    ],
    limits: &["chamber_lens_depth"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lens = facts.draft.lens.lenses.backup(Place::AnteriorChamber);
    lens.ok_or(Because::NoAnteriorChamberIol)?;
    let from = DepthStart::Epithelium;
    let missing = Missing::ThicknessForDepth { from };
    let depth = facts.chamber_depth()?;
    let depth = depth.from_epithelium(facts.operated.0.thickness());
    let unit = |depth: Micrometers| Quantity::Depth {
        depth,
        from: DepthStart::Epithelium,
    };
    Ok(at_least(
        unit,
        depth.ok_or(missing)?,
        facts.limits.chamber_lens_depth,
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::biometry::Method;
    use crate::lens::Place;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied,
    };
    use crate::rules::testing_lens::chamber_record;

    fn deep(depth: &str) -> impl FnOnce(&mut DraftUnderTest) {
        let depth = depth.to_owned();
        move |draft| {
            draft.lay_ready(Place::AnteriorChamber, chamber_record());
            draft.set_depth(&depth, Method::Optical);
        }
    }

    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, deep("2.50 mm"));
        for depth in ["2.00 mm", "2.499 mm"] {
            let measured = format!("{depth} from the epithelium");
            let texts = [measured.as_str(), "at least 2.50 mm from the epithelium"];
            assert_finding(&RULE, deep(depth), texts);
        }
    }

    /// 1.95 mm under a cornea of 540 µm is 2.49 mm.
    #[test]
    fn a_depth_from_the_endothelium_needs_the_thickness() {
        let aqueous = |thickness: bool| {
            move |draft: &mut DraftUnderTest| {
                draft.lay_ready(Place::AnteriorChamber, chamber_record());
                draft.set_aqueous_depth("1.95 mm");
                if !thickness {
                    draft.operated().corneal_thickness = None;
                }
            }
        };
        let texts = [
            "2.49 mm from the epithelium",
            "at least 2.50 mm from the epithelium",
        ];
        assert_finding(&RULE, aqueous(true), texts);
        assert_not_evaluated(&RULE, aqueous(false));
    }

    #[test]
    fn only_for_such_a_lens_and_a_measured_depth() {
        assert_not_applicable(&RULE, |draft| draft.set_depth("2.00 mm", Method::Optical));
        assert_not_evaluated(&RULE, |draft| {
            deep("2.00 mm")(draft);
            draft.operated().chamber_depth = None;
        });
    }
}
