//! `HA-01`: a hydrophilic lens where a graft with gas is likely.

use super::chosen_record;
use crate::evidence::{HYDROPHILIC_2017, NO_SOURCE, Standing};
use crate::lens::Material;
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "HA-01",
    title: "Hydrophilic acrylic where a graft with gas is likely",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether the chosen lens, or one that lies ready, is of hydrophilic acrylic in an eye for which an endothelial graft with gas is to be expected. Other materials are not asked about.",
    why: "Hydrophilic acrylic is avoided where endothelial keratoplasty with gas is likely, since the optic may turn cloudy afterward (recalled).",
    options: "Consider a lens of another material.",
    sources: &[
        Standing::Printed.of(HYDROPHILIC_2017, "hydrophilic acrylic avoided"),
        Standing::Memory.of(NO_SOURCE, "the optic may turn cloudy"),
    ],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let material = chosen_record(facts)?.material;
    if material != Material::HydrophilicAcrylic {
        return Err(Because::NotHydrophilic.into());
    }
    let likely = facts.operated.0.state.keratoplasty_likely;
    if !likely.ok_or(Missing::GraftLikely)? {
        return Ok(None);
    }
    Finding::new(Fact::Material(material), Limit::AnotherMaterial).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::Material;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit};

    fn plan(material: Material, graft: Option<bool>) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.plan_lens();
            draft.chosen().record.material = material;
            draft.operated().state.keratoplasty_likely = graft;
        }
    }

    #[test]
    fn only_this_material_with_a_graft_ahead() {
        let hydrophilic = Material::HydrophilicAcrylic;
        assert_found(
            &RULE,
            plan(hydrophilic, Some(true)),
            Fact::Material(hydrophilic),
            Limit::AnotherMaterial,
        );
        assert_satisfied(&RULE, plan(hydrophilic, Some(false)));
        for other in [
            Material::HydrophobicAcrylic,
            Material::Silicone,
            Material::Pmma,
        ] {
            assert_not_applicable(&RULE, plan(other, Some(true)));
        }
    }

    #[test]
    fn lens_and_outlook_are_needed() {
        assert_not_evaluated(&RULE, plan(Material::HydrophilicAcrylic, None));
        assert_not_evaluated(&RULE, |draft| {
            draft.operated().state.keratoplasty_likely = Some(true);
        });
    }
}
