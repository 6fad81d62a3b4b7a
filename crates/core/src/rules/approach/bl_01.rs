//! `BL-01`: a sharp-needle block in a patient whose blood clots badly.

use crate::case::Anesthesia;
use crate::evidence::{NO_SOURCE, Standing};
use crate::rules::{Fact, Facts, Finding, Group, Limit, Look, Missing, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "BL-01",
    title: "Sharp-needle block under anticoagulants",
    group: Group::Approach,
    severity: Severity::Review,
    bearing: None,
    checks: "Whether a peribulbar or retrobulbar block is planned for a patient who takes anticoagulants or antiplatelet drugs.",
    why: "A needle can open a vessel behind the eye, and bleeding there under pressure takes sight and ends the operation. Other kinds of anesthesia need no needle.",
    options: "Consider drops, with or without an injection into the chamber, a block under Tenon's capsule by a blunt cannula, or general anesthesia; the drugs are stopped, if at all, by who prescribed them, and the last clotting test may be looked at.",
    sources: &[Standing::CommonPractice.of(
        NO_SOURCE,
        "no sharp needle under anticoagulants where it can be avoided",
    )],
    limits: &[],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let taken = facts.draft.patient.anticoagulant;
    if !taken.ok_or(Missing::Anticoagulant)? {
        return Ok(None);
    }
    match facts.draft.theatre.anesthesia.ok_or(Missing::Anesthesia)? {
        Anesthesia::Peribulbar | Anesthesia::Retrobulbar => {
            Finding::new(Fact::SharpNeedleBlock, Limit::NoSharpNeedle).found()
        }
        Anesthesia::Topical
        | Anesthesia::TopicalIntracameral
        | Anesthesia::SubTenon
        | Anesthesia::General => Ok(None),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::Anesthesia;
    use crate::rules::testing::{
        DraftUnderTest, assert_found, assert_not_evaluated, assert_satisfied,
    };
    use crate::rules::{Fact, Limit};

    fn block(
        taken: Option<bool>,
        anesthesia: Option<Anesthesia>,
    ) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            draft.0.patient.anticoagulant = taken;
            draft.0.theatre.anesthesia = anesthesia;
        }
    }

    #[test]
    fn a_needle_is_found_a_blunt_way_passes_and_silence_does_not() {
        for kind in Anesthesia::ALL {
            let sharp = matches!(kind, Anesthesia::Peribulbar | Anesthesia::Retrobulbar);
            if sharp {
                let fact = Fact::SharpNeedleBlock;
                assert_found(
                    &RULE,
                    block(Some(true), Some(kind)),
                    fact,
                    Limit::NoSharpNeedle,
                );
            } else {
                assert_satisfied(&RULE, block(Some(true), Some(kind)));
            }
            assert_satisfied(&RULE, block(Some(false), Some(kind)));
            assert_not_evaluated(&RULE, block(None, Some(kind)));
        }
        assert_not_evaluated(&RULE, block(Some(true), None));
        assert_satisfied(&RULE, block(Some(false), None));
    }
}
