//! The plan: what was decided, findings, both sides of the approach, risk, theatre, and what gave no
//! answer.

messages! {
    // At a glance.
    lens = "Lens";
    power = "Power";
    cylinder = "Cylinder";
    how_sure = "Chances";
    approach = "Approach";
    not_chosen = "not chosen";
    not_set = "not set";
    lens_and_site(lens, site) = "{lens}, for the {site}";
    special = "Special";
    more_findings(count, ids) = "and one more: {ids}" | "and {count} more: {ids}";
    not_evaluated_by_id(count, ids) = "{count} not evaluated, which is no pass: {ids}";
    and_more(ids, count) = "{ids} and {count} more";
    full_hint = "--full prints everything that was computed, with its sources.";
    target_consented(target, consented) = "target {target}, consented {consented}";
    predicted_by(refraction, formula) = "predicted {refraction} by {formula}";
    no_prediction = "no prediction";
    marks_at(cylinder, axis) = "{cylinder}, axis {axis}";
    leaves(left) = "leaves {left}";
    leaves_not_computed = "what it leaves is not computed";
    chances(power, band, within, limit, over, who) = "with {power}, chance to end within ±{band} D of the target {within}, over {limit} {over} ({who})";
    formulas_together(count) = "one formula" | "{count} formulas together";
    incision_of(width, place) = "incision {width}, {place}";
    width_not_set = "width not set";
    place_not_set = "place not set";

    // Findings.
    right_patient = "Patient, eye and target";
    believable = "Plausibility of measurements";
    lens_fits = "Choice of lens";
    approach_and_risk = "Approach and risk: findings";
    no_finding = "No finding among the rules that could be evaluated.";
    options(options) = "Options: {options}";
    source(source) = "Source: {source}";
    no_reason = "No reason recorded.";
    reason(name, day, reason) = "Reason, {name} on {day}: {reason}";
    reason_outdated(measured, limit, reason) = "A reason was recorded for {measured} ({limit}); the finding has changed since, so the reason no longer counts: {reason}";

    // Approach.
    approach_heading = "Approach: phacoemulsification or manual small-incision surgery (SICS)";
    chosen(approach) = "Chosen: {approach}";
    none_yet = "none yet";
    incision_facing(width, place) = ", incision {width}, {place} (ISO 8429, facing the patient)";
    for_phacoemulsification = "In favor of phacoemulsification";
    for_small_incision = "In favor of manual small-incision surgery (SICS)";
    no_difference = "In favor of neither";
    this_eye = "this eye";
    published = "published";
    other_eyes = "other eyes";
    trial(trial, standing) = "{trial} [{standing}]";
    argument(title, finding, standing, id) = "{title}: {finding} [{standing}, {id}]";

    // How near the pieces come.
    no_room(why) = "Cannot be estimated: {why}.";
    hard_nucleus(judgment) = "Nucleus {judgment}.";
    judged_nucleus(by, day, reason) = "Judged by {by} on {day}: {reason}";
    no_nucleus = "Cannot be estimated: the size of the nucleus was not stated.";
    back_measured = "measured";
    back_assumed = "assumed, {=0.81} of the anterior one";
    section(depth, diameter, thickness, volume, radius, posterior) = "Aqueous depth {depth}; nucleus {diameter} × {thickness}, as stated ({volume} mm³); posterior corneal radius {radius} ({posterior}).";
    column_pieces = "Pieces";
    column_divided = "divided as";
    beyond_cornea = "beyond the cornea";

    // Risk.
    risk_heading = "Risk of a complicated operation";
    risk_points(points) = "Risk points {points}";
    risk_points_range(points, at_most) = "Risk points {points} to {at_most}";
    bands = "(bands 0, 1 to 2, 3 to 5, 6 and more)";
    given = "given";
    not_recorded = "not recorded";
    odds_ratios = "Odds ratios of posterior capsule rupture";
    overall_rate(rate) = "(rate over all {rate} %)";
    not_multiplied = "Not multiplied, and no absolute percentage: no intercept is printed.";
    odds_ratio(factor, applies) = "{factor}: {applies}";

    // Where it comes from.
    sources_heading = "Sources";

    // Theatre.
    theatre_heading = "For theatre";
    anesthesia = "Anesthesia";
    technique = "Technique";
    viscoelastic = "Viscoelastic";
    in_room = "Have in the room";
    allergies = "Allergies";
    medicines = "Medications";
    not_asked = "not asked";
    none_known = "none known";
    not_stated = "not stated";
    power_not_chosen = "power not chosen";

    // What gave no answer.
    refused_heading = "No result, and why";
    none_refused = "No formula was left without a result.";
    all_evaluated = "Every rule was evaluated or does not apply to this case.";
    not_evaluated(count) = "{count} rule could not be evaluated, which does not mean that it passed." | "{count} rules could not be evaluated, which does not mean that they passed.";
    needs(title, missing) = "{title}: could not be evaluated: {missing} is missing";
    of_lens(lens) = "{lens}: ";
    of_formulas(formulas, said) = "{formulas}: {said}";
}
