//! `DP-01`: the chamber of a hard nucleus is not clearly deep enough.

use super::{nucleus_is_hard, taken_as_hard};
use crate::evidence::{HOUSE, NO_SOURCE, REPEATABILITY_2022, Standing};
use crate::rules::depth::depth_at_least;
use crate::rules::{Bearing, Facts, Group, Look, Rule, Severity};

pub const RULE: Rule = Rule {
    id: "DP-01",
    title: "Chamber depth over a hard nucleus",
    group: Group::Approach,
    severity: Severity::Note,
    bearing: Some(Bearing::SmallIncision),
    checks: "Anterior chamber depth of an eye whose nucleus counts as hard, or may be hard, against the limit (2.80 mm unless the clinic changed it), counted from the surface the clinic chose. As measured, the limit itself passes. With a spread (1 SD), the measurement's own or the table's for its method, one interval decides, the 90 % around the measured depth: the whole of it under the limit is a clear finding, the whole of it over the limit satisfies the rule (DP-02 then speaks), and with the limit inside the depth is undecided, which speaks for neither approach and is said of both in the same words. These are the chances of 95 % and 5 % that the true depth lies under the limit. A spread of zero, which no measurement has, is replaced by the table's, which the finding says; one below zero is refused. Where no spread is known the plain comparison decides. A nucleus that is unclear (the cataract is white or dense and not graded, or looks harder than its grade) is taken as hard, and the finding says why: a chamber looked at for nothing costs a reading. A depth measured from the other surface has the spread of the corneal thickness added, as independent.",
    why: "In a shallow chamber the pieces of a hard nucleus turn close to the endothelium, so many surgeons prefer small-incision surgery under 2.8 mm. This is common practice without a published source, and which depth is meant is not stated: Millrace counts from the epithelium, as most biometers print it, and shows the aqueous depth beside it. Trials found about the same cell loss with both approaches. Geometry at rest shows no step at this depth: the threshold is practice, not a derivation.",
    options: "Consider manual small-incision surgery, or phacoemulsification, for which AP-01 then asks the reason. If undecided, consider repeating the measurement.",
    sources: &[
        Standing::CommonPractice.of(NO_SOURCE, "depth < 2.8 mm with a hard cataract"),
        Standing::Assumption.of(HOUSE, "depth from the epithelium; 5 % on either side; from which grade a nucleus counts as hard"),
        Standing::Printed.of(REPEATABILITY_2022, "spread where the measurement has none of its own: repeatability 0.13 mm / 2.77 = 0.047 mm (1 SD), upper end of its range"),
    ],
    limits: &[
        "chamber_depth",
        "chamber_depth_start",
        "spread_chamber_depth",
        "spread_length_immersion",
        "spread_length_contact",
        "spread_corneal_thickness",
        "borderline_chance",
        "hard_locs_tenths",
        "hard_who_grade",
        "hard_emery_little_grade",
    ],
    evaluate,
};

/// Evaluates the rule; `AP-01` asks it too.
pub(super) fn evaluate(facts: &Facts<'_>) -> Look {
    nucleus_is_hard(facts)?;
    let limits = facts.limits;
    let found = depth_at_least(facts, limits.chamber_depth_start, limits.chamber_depth)?;
    Ok(found.map(|finding| finding.with(taken_as_hard(facts))))
}

#[cfg(test)]
mod tests;
