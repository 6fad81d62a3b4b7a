//! `SU-02`: the lens for the sulcus is not made like one.

use crate::evidence::{NO_SOURCE, Standing};
use crate::lens::{Haptic, LensRecord, Material, Place};
use crate::rules::{Because, Fact, Facts, Finding, Group, Limit, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "SU-02",
    title: "The lens for the sulcus is of one soft piece",
    group: Group::LensChoice,
    severity: Severity::Review,
    bearing: None,
    checks: "Design of the backup lens for the ciliary sulcus or, failing that, of the one for the bag if its record allows it there: a lens of one piece of acrylic or silicone, or a plate, does not pass, whatever its record allows. Three pieces, and one piece of PMMA, pass.",
    why: "Thick square loops of one soft piece rub the iris from behind in the sulcus: pigment, inflammation, bleeding and raised pressure follow; a plate does not hold there (common practice).",
    options: "Consider a lens of three pieces for the sulcus; a wrong record may be corrected.",
    sources: &[Standing::CommonPractice.of(
        NO_SOURCE,
        "no one-piece soft lens and no plate in the sulcus",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let lenses = &facts.draft.lens.lenses;
    let allowed = |lens: &LensRecord| lens.may_sit_in(Place::Sulcus);
    let bag = lenses.backup(Place::Bag);
    let bag = bag.filter(|lens| allowed(&lens.record));
    let lens = lenses.backup(Place::Sulcus).or(bag);
    let record = &lens.ok_or(Because::NoSulcusLens)?.record;
    let (haptic, material) = (record.haptic, record.material);
    let is_stiff = match haptic {
        Haptic::ThreePiece => true,
        Haptic::OnePiece => material == Material::Pmma,
        Haptic::Plate => false,
    };
    if is_stiff {
        return Ok(None);
    }
    let found = Fact::Design {
        lens: record.name.clone(),
        haptic,
        material,
    };
    Finding::new(found, Limit::SulcusDesign).found()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::lens::{Haptic, LensRecord, Material, Place};
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_applicable, assert_satisfied,
    };
    use crate::rules::testing_lens::{lens_record, sulcus_record};
    use crate::rules::{Fact, Limit};

    fn made(haptic: Haptic, material: Material) -> LensRecord {
        LensRecord {
            material,
            haptic,
            ..sulcus_record()
        }
    }

    #[test]
    fn one_soft_piece_and_a_plate_do_not_pass_whatever_the_record_allows() {
        use Haptic::{OnePiece, Plate, ThreePiece};
        use Material::{HydrophilicAcrylic, HydrophobicAcrylic, Pmma, Silicone};
        for material in [HydrophobicAcrylic, HydrophilicAcrylic, Silicone, Pmma] {
            for haptic in [OnePiece, ThreePiece, Plate] {
                let record = made(haptic, material);
                let lay = |draft: &mut DraftUnderTest| draft.lay_ready(Place::Sulcus, record);
                if haptic == ThreePiece || (haptic, material) == (OnePiece, Pmma) {
                    assert_satisfied(&RULE, lay);
                    continue;
                }
                let found = Fact::Design {
                    lens: "Lens under test".to_owned(),
                    haptic,
                    material,
                };
                assert_found(&RULE, lay, found, Limit::SulcusDesign);
            }
        }
    }

    /// SU-01 lets the lens for the bag stand in where its record allows it in the sulcus.
    #[test]
    fn the_lens_for_the_bag_is_looked_at_where_it_is_to_stand_in() {
        let soft = made(Haptic::OnePiece, Material::HydrophobicAcrylic);
        let found = Fact::Design {
            lens: "Lens under test".to_owned(),
            haptic: Haptic::OnePiece,
            material: Material::HydrophobicAcrylic,
        };
        let bag = soft.clone();
        let lay = |draft: &mut DraftUnderTest| draft.lay_ready(Place::Bag, bag);
        assert_found(&RULE, lay, found, Limit::SulcusDesign);
        assert_satisfied(&RULE, |draft| {
            draft.lay_ready(Place::Bag, soft);
            draft.lay_ready(Place::Sulcus, sulcus_record());
        });
        assert_not_applicable(&RULE, |draft| draft.lay_ready(Place::Bag, lens_record()));
        assert_not_applicable(&RULE, |_| {});
    }
}
