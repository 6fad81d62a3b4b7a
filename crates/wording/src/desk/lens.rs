//! The page of the lens: target, power and axis, how sure they are, and what that rests on.

pub use crate::measurements::as_measured;
pub use crate::rules::fact::no_cylinder;
pub use crate::text::certainty::{
    formulas_disagree, over, power_chosen, what_makes_it_unsure, within,
};
pub use crate::text::lens::{no_power_near, proposed};
pub use crate::text::plan::{lens, not_chosen, source};
pub use crate::text::second_eye::{column_refined, column_unrefined};
pub use crate::text::toric::{
    after_operation, anterior_cornea, at_meridian, column_helps, cylinder_at,
    cylinder_not_computed, incision, incision_adds, left_out as posterior_left_out, posterior_adds,
    posterior_cornea, scatter,
};

messages! {
    no_eye = "The operative eye is not chosen: nothing is computed before it is.";
    no_ladder(why) = "No lens power table yet: {why}.";
    no_formula_answers = "No lens power table: no formula has a result. Why stands below.";
    no_power = "No power is chosen yet";
    chosen(power) = "Chosen {power}";
    chosen_predicted(power, refraction, formula) = "Chosen {power}, predicted {refraction} by {formula}";
    chosen_not_predicted(power, formula) = "Chosen {power}, no result by {formula}";
    target_consented(target) = "Target {target}, consented";
    target_differs(target, consented) = "Target {target}, consented {consented}";
    target_not_consented(target) = "Target {target}, consent not recorded";
    consented_without_target(consented) = "Consented {consented}, no target";
    no_target = "No target yet";

    // Target and lens.
    target_and_lens = "Target and lens";
    planned_by = "Formula";
    proposes_power = "Proposed power";
    target = "Target";
    consented_target = "Consented target";
    refused_formula(formula) = "{formula} (no result)";
    about_lens = "About this lens";
    about(material, haptic, diameter, length, site) = "{material}, {haptic}, optic {diameter}, length {length}, for the {site}";
    constants(biometry, constants) = "Constants for {biometry}: {constants}";
    as_recorded(lens) = "{lens} (as recorded in this case)";
    none = "none";

    // Which length the formulas are given.
    ultrasound_length = "Ultrasound length";
    thick_eye_length = "Length of the thick-lens eye";
    thick_length = "Thick-lens length";
    sum_of_segments = "sum of segments";
    contact_added = "with the mean difference of contact ultrasound added";
    immersion_added = "with the mean difference of immersion ultrasound added";
    difference_added = "with the published mean difference added";

    // The ladder.
    power = "Power";
    ladder = "Lens power table";
    legend(target, proposes, source) = "Refractions are spherical equivalents at the spectacle plane. Bold and diamond: chosen formula; strokes: the others; small triangle over a line: mean of all formulas together; bars: 50, 80 and 95 % of eyes like this one under this model; triangle at an end: beyond the axis; dashed: target {target}; *: {proposes}. {source}";
    left_out(formulas) = "Left out of this table by your own preferences, counted in the bars and chances: {formulas}";
    proposes_none = "no convention is chosen, so no power is proposed";
    proposes_first_myopic = "proposed, the weakest power predicted at the target or on its myopic side";
    proposes_nearest = "proposed, the power predicted nearest to the target";
    proposes_first_hyperopic = "proposed, the strongest power predicted at the target or on its hyperopic side";
    head_planned(formula) = "Predicted by {formula}, the chosen formula";
    head_other(formula) = "Predicted by {formula}";
    head_chart(target) = "Refraction with its ranges, all formulas together; target {target}";
    head_within(band) = "Chance to end within ±{band} of the target";
    head_over(refraction) = "Chance to end over {refraction}";
    target_here(target) = "target {target}";
    no_formula_chosen = "no formula chosen";
    no_result = "no result";
    withheld_here = "withheld";
    chances_withheld = "chances withheld";
    by_formula_none(formula) = "{formula} no result";
    other_formulas(power, predictions) = "{power} by the other formulas: {predictions}";
    how_sure(power, shares) = "How sure at {power}: {shares}.";
    and_worth(shares, worth) = "{shares} {worth}";
    chosen_proposed = "chosen, proposed";
    by_formula(formula, refraction) = "{formula} {refraction}";
    together(mean, deviation) = "mean {mean}, SD {deviation}";
    chances(band, within, refraction, over) = "chance {within} within ±{band} of the target, {over} over {refraction} as hyperopic";
    chances_of_others(band, within, refraction, over) = "by the other formulas together: chance {within} within ±{band} of the target, {over} over {refraction} as hyperopic";

    // What it rests on.
    spread_of_chosen(power, spread) = "Power {power} (chosen): spread of the refraction {spread} (SD), shared by";
    spread_of_proposed(power, spread) = "Power {power} (proposed; none is chosen): spread of the refraction {spread} (SD), shared by";
    between_them(spread) = "{spread} between them (SD)";
    share(name, share) = "{name} {share}";
    shares = "Chart of what the spread is shared by";
    what_repeating_is = "Repeat: measured once more in the same way, and the mean of both taken; the chance is of ending within ±{=0.50} D of the target. Errors taken as independent.";
    repeat(before, after) = "repeat: {before} → {after}";
    spread_between(low, high) = "{low} to {high} (SD)";
    withheld(reasons) = "No range and no chance is stated: {reasons}";

    // Refused and dubious.
    refused_and_dubious = "No result, and cautions";
    refused(why) = "no result: {why}";
    no_distribution(why) = "no distribution: {why}";
    of_formulas(formulas, reason) = "{formulas}: {reason}";

    // Second eye.
    second_eye = "Second eye";
    first_eye(eye, error) = "{eye}, operated on before: {error}";
    refinement(convention, share) = "{convention}. The refinement adds {share} % of it to the prediction, where every condition is met.";
    not_offered_not_met = "Not offered, since a condition is not met";
    not_offered_not_told = "Not offered, since a condition could not be evaluated";
    second_eye_prediction = "Prediction of the second eye";
    met(asks, found, standing) = "met: {asks}: {found} [{standing}]";
    not_met(asks, found, standing) = "NOT MET: {asks}: {found} [{standing}]";
    cannot_be_told(asks, lacking, standing) = "could not be evaluated: {asks}: {lacking} is missing [{standing}]";
    both(power, unrefined, refined) = "Power {power}: {unrefined} unrefined, {refined} refined";
    keeps_unrefined = "Lens power table, proposal and rules keep the unrefined prediction whatever is decided; no distribution is given for the refined one.";

    // Astigmatism.
    astigmatism = "Astigmatism";
    regression = "regression";
    multiplier = "multiplier";
    not_measured = "left out, not measured";
    by_choice = "left out by choice";
    incision_term(size, place, direction) = "{size}; {place} at {direction}";
    without_cylinder(left) = "The chosen power without a cylinder leaves {left}";
    marks_at = "Axis";
    suggested(axis) = "suggested {axis}";
    turn(degrees, one, other, adds) = "by {degrees}: leaves {one} or {other}, adds {adds}";
    if_it_turns(turns) = "If the lens rotates {turns}";
    no_better_from(degrees) = "from {degrees} off the suggested axis no better than without a cylinder";
    at_no_axis = "at no axis better than without a cylinder";

    // The cylinders of a toric lens.
    cylinder = "Cylinder of the lens";
    what_the_marks_are = "Two proposals at the suggested axis: * leaves least, ‡ leaves least without overcorrecting; † overcorrects. Within: chance that the cylinder left is at most {=0.50} D; helps: chance that it is smaller than without a cylinder.";
    step_not_computed(why) = "not computed: {why}";
    column_cylinder = "Cylinder";
    column_leaves = "leaves";
    column_within = "within {=0.50} D";
    leaves_least = "proposed, leaves least";
    leaves_least_and_not_over = "proposed, leaves least without overcorrecting";
    overcorrects = "overcorrects";
    step(cylinder, leaves, within, helps) = "{cylinder}, leaves {leaves}, chance within {=0.50} D {within}, helps {helps}";

    // What lies ready.
    lies_ready = "Backup lenses";
    for_bag = "For the bag";
    for_sulcus = "For the sulcus";
    no_formula = "No formula is chosen to plan by, so no power is given.";
    not_on_ladder(formula) = "{formula} is not in its lens power table";
    formula_refused(formula, why) = "{formula}: no result: {why}";
    formula_proposes(formula, proposal, exact) = "{formula} {proposal}; exact power {exact}";
    proposes_no_power = "proposes no power";
    proposes_this(power) = "proposes {power}";
    proposes_predicted(power, refraction) = "proposes {power}, predicted {refraction}";
    says_nothing = "gives no result here";
    in_the_sulcus(stepwise, percent, vergence) = "In the sulcus: stepwise rule {stepwise}; minus 5 % {percent}; by vergence {vergence}";
    rules_disagree(shift) = "Two published rules beside the vergence result with the lens {shift} forward [assumption]. They disagree; none is chosen for you.";
}
