//! The second eye: the refinement by the first eye's error, its conditions, both predictions.

pub use crate::text::plan::source;

messages! {
    heading = "Second eye";
    first_eye(eye, error, convention) = "{eye}, operated on before: {error} ({convention}).";
    refinement(percent) = "Refinement: the prediction of this eye plus {percent} % of that error. Offered only while every condition is met; lens power table, proposal and every rule keep the unrefined prediction whatever is decided. No distribution is given for a refined prediction.";
    met = "met";
    not_met = "not met";
    cannot_be_told = "could not be evaluated";
    needs(missing) = "{missing} is missing";
    asks_found(asks, found, standing) = "{asks}: {found} [{standing}]";
    same_model_not_told = "Both eyes get the same lens model: not recorded here, no condition of the offer";

    offered = "Offered, and not decided yet.";
    offered_refined = "Offered, and the refined prediction was chosen.";
    offered_unrefined = "Offered, and declined: the unrefined prediction was chosen.";
    chosen_not_met = "Chosen but not offered, since a condition is not met: no refined prediction is given.";
    chosen_not_told = "Chosen but not offered, since a condition could not be evaluated: no refined prediction is given.";
    not_offered_not_met = "Not offered, since a condition is not met: no refined prediction is given.";
    not_offered_not_told = "Not offered, since a condition could not be evaluated: no refined prediction is given.";

    nothing_to_refine(formula) = "{formula} predicts nothing here to refine.";
    column_power = "Power";
    column_unrefined = "unrefined";
    column_refined = "refined";
    legend(formula, unrefined, refined) = "Refraction predicted by {formula}; refined: half of that error added. ▶ chosen power; * proposed: {unrefined} unrefined, which the plan keeps; {refined} for the refined predictions.";
    of_chosen(power, unrefined, refined) = "Chosen power {power}: {unrefined} unrefined, {refined} refined.";
    none = "none";
}
