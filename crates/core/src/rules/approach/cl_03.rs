//! `CL-03`: a tunnel that is narrow for what passes it.

use super::{delivery, nearest_hundredth, percent};
use crate::chamber::Delivery;
use crate::evidence::{HOUSE, INCISION_WIDTHS, NUCLEUS_1995, Standing};
use crate::quantity::Millimeters;
use crate::rules::check::at_most;
use crate::rules::{Detail, Facts, Group, Look, Missing, Quantity, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "CL-03",
    title: "Tunnel is narrow for the nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: None,
    checks: "Half the way around the smallest section of what passes the tunnel (the whole nucleus, a half, or the middle of three parts), in percent of the length of the tunnel's lips, or of the width of the incision where that length is not recorded, against 155 %. Compared in whole percent; the limit itself passes.",
    why: "Lips that do not stretch pass at most 100 %. Daily practice does: a nucleus of average printed size asks 119 to 139 % of the printed 6 to 7 mm, so tunnels stretch, nuclei are molded, or the tunnel is wider inside. 155 % is what a nucleus larger than the average by one standard deviation asks of 6.0 mm. The elasticity of the sclera was not found printed.",
    options: "Consider a wider tunnel, one with longer lips (a frown or chevron), or delivery in two or three parts; a third asks little less than a half, since thickness governs.",
    sources: &[
        Standing::Derived.of(
            NUCLEUS_1995,
            "7.89 × 3.53 mm, mean and 1 SD of 130 nuclei, in 6.0 mm",
        ),
        Standing::Printed.of(INCISION_WIDTHS, "small-incision surgery 6-7 mm"),
        Standing::Assumption.of(HOUSE, "that share as a limit"),
    ],
    limits: &["tunnel_demand"],
    evaluate,
};

fn evaluate(facts: &Facts<'_>) -> Look {
    let delivery = delivery(facts)?;
    let passage = facts.passage().ok_or(Missing::NucleusSize)?;
    let lips = passage.lips.ok_or(Missing::TunnelLips)?;
    let demand = passage.demand(delivery).ok_or(Missing::TunnelLips)?;
    let demand = percent(demand).ok_or(Missing::UsableRoom)?;
    let [whole, half, third] = passage.half_perimeters;
    let passes = match delivery {
        Delivery::Whole => whole,
        Delivery::Halves => half,
        Delivery::Thirds => third,
    };
    let exact = |length: Millimeters| nearest_hundredth(length).ok_or(Missing::UsableRoom);
    let detail = Detail::Passage {
        half_perimeter: exact(passes)?,
        lips: exact(lips)?,
    };
    let limit = facts.limits.tunnel_demand;
    Ok(at_most(Quantity::Percent, demand, limit).map(|finding| finding.with([detail])))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::case::Approach;
    use crate::chamber::{Delivery, Nucleus};
    use crate::quantity::Micrometers;
    use crate::rules::Detail;
    use crate::rules::testing::{
        DraftUnderTest, assert_finding, assert_not_applicable, assert_not_evaluated,
        assert_satisfied, micrometers,
    };

    /// 8.5 × 4.0 mm: half the way around is 10.138 mm whole, 7.069 halved, 6.617 the middle of three, by
    /// the model's own notes.
    fn plan(delivery: Delivery, width_um: i32) -> impl FnOnce(&mut DraftUnderTest) {
        move |draft| {
            let plan = &mut draft.0.approach;
            let um = Micrometers::new;
            plan.nucleus = Some(Nucleus::new(um(8_500), um(4_000)).unwrap());
            plan.approach = Some(Approach::SmallIncision);
            plan.delivery = Some(delivery);
            plan.incision_width = Some(um(width_um));
        }
    }

    /// 10.1382 / 6.54 = 1.5502 and / 6.51 = 1.5573.
    #[test]
    fn at_the_limit_and_one_step_beyond() {
        assert_satisfied(&RULE, plan(Delivery::Whole, 6_540));
        let finding = assert_finding(
            &RULE,
            plan(Delivery::Whole, 6_510),
            ["156 %", "at most 155 %"],
        );
        let detail = Detail::Passage {
            half_perimeter: micrometers(10_140),
            lips: micrometers(6_510),
        };
        assert_eq!(finding.details, [detail]);
        assert_finding(
            &RULE,
            plan(Delivery::Whole, 6_000),
            ["169 %", "at most 155 %"],
        );
    }

    /// 7.069 / 4.5 = 1.571; 6.617 / 4.5 = 1.470; 7.069 / 6.0 = 1.178.
    #[test]
    fn parts_ask_less() {
        assert_satisfied(&RULE, plan(Delivery::Halves, 6_000));
        assert_finding(
            &RULE,
            plan(Delivery::Halves, 4_500),
            ["157 %", "at most 155 %"],
        );
        assert_satisfied(&RULE, plan(Delivery::Thirds, 4_500));
    }

    /// A frown has longer lips than it is wide.
    #[test]
    fn longer_lips_count_instead_of_the_width() {
        assert_satisfied(&RULE, |draft| {
            plan(Delivery::Whole, 6_000)(draft);
            draft.0.approach.tunnel_lips = Some(micrometers(8_000));
        });
    }

    #[test]
    fn nucleus_lips_and_delivery_are_needed() {
        let without: [fn(&mut DraftUnderTest); 4] = [
            |draft| draft.0.approach.nucleus = None,
            |draft| draft.0.approach.incision_width = None,
            |draft| draft.0.approach.delivery = None,
            |draft| draft.0.approach.approach = None,
        ];
        for without in without {
            assert_not_evaluated(&RULE, |draft| {
                plan(Delivery::Whole, 6_000)(draft);
                without(draft);
            });
        }
        assert_not_applicable(&RULE, |draft| {
            plan(Delivery::Whole, 2_400)(draft);
            draft.0.approach.approach = Some(Approach::Phacoemulsification);
        });
    }
}
