//! Astigmatism: its terms, each cylinder of the lens, its rotation, and where that comes from.

messages! {
    heading(eye) = "Astigmatism of the {eye}";
    heading_toric(eye) = "Astigmatism and toric lens for the {eye}";
    cylinder_not_computed(why) = "What a cylinder leaves is not computed: {why}";
    term_not_known = "Astigmatism after the operation, what any cylinder leaves, and the incision on the steep meridian: not computed, since a term is not known.";
    suggested(axis, net, formula, exact) = "Suggested axis of the lens (its marks) {axis}, facing the patient: the steep meridian of the cornea after the operation ({net} at the index of {formula}). Exact cylinder {exact}: would leave none.";
    none_suggested = "No axis is suggested: the cornea after the operation has no astigmatism.";
    beyond_estimate(largest) = "Exact cylinder lies beyond {largest}, up to which the estimate of the posterior cornea is published";
    planned_for(power, lens, label) = "Planned for {power} of {lens}, whose label names the {label}.";
    planned_for_not_toric(power, lens) = "Planned for {power} of {lens}, which has no toric entry.";
    no_cylinder_chosen = "No cylinder chosen";
    chosen(cylinder, axis) = "Chosen cylinder {cylinder}, axis {axis}";
    leaves(left, equivalent) = "leaves {left}, spherical equivalent (mean of both meridians) {equivalent}";
    leaves_not_computed(why) = "✕ what it leaves is not computed: {why}";
    refused(which, why) = "{which}: {why}";

    lens_not_computed(why) = "What the lens leaves is not computed: {why}";
    lens_not_computed_here = "What the lens leaves is not computed for this eye.";
    plain_residual(formula, left, chances) = "Residual refraction without a cylinder in the lens, by {formula}: {left}; {chances}.";
    plain_residual_with(power, formula, left, chances) = "Residual refraction with {power} and no cylinder in the lens, by {formula}: {left}; {chances}.";
    chances(chances) = "chance of a cylinder up to {chances}";
    steep_not_computed(why) = "Incision on the steep meridian: not computed: {why}";
    would_leave(text, left) = "{text}; it would leave {left}.";
    steep_as_planned = "The incision lies on the steep meridian as planned";
    steep_incision(place, cornea) = "The same incision on the steep meridian, {place}: cornea {cornea}";
    or_other_end(place, other) = "{place} or, with the same effect [assumption], {other}";

    reading = "Facing the patient, from the observer's right, counter-clockwise. @ steep meridian of the cornea; × axis of a minus cylinder; meridians to 180°, directions to 360°.";
    not_computed(why) = "Not computed: {why}.";
    anterior_cornea = "Anterior cornea";
    by_at_index(method) = "{method}, index {=1.3375}";
    at_index = "index {=1.3375}";
    posterior_cornea = "Posterior cornea";
    posterior_adds = "Posterior cornea adds";
    incision = "Incision";
    incision_adds = "Incision adds (SIA)";
    after_operation = "After the operation";
    before_operation = "Before the operation";
    not_known = "not known";
    left_out = "left out";
    not_measured = "not measured";
    by_choice = "by choice";
    by_regression(orientation) = "estimated by regression, {orientation}";
    by_multiplier(orientation) = "estimated by multiplier, {orientation}";
    measured_posterior(method, size, steep) = "{method}: {size} @ {steep}, of negative power, so that it adds at right angles";
    incision_basis(place, direction, flattening, rests_on, scatter) = "{place} at {direction}: flattens that meridian by {flattening}, so that it adds at right angles; {rests_on}; scatter {scatter}";
    own_results(eyes) = "the surgeon's own results, {eyes} eyes";
    own_results_on(eyes, day) = "the surgeon's own results, {eyes} eyes, {day}";
    published_mean = "published mean";
    scatter(size) = "{size} (SD)";
    scatter_per_component(size, standing) = "{size} (SD per component, {standing})";
    at_meridian(size, steep) = "{size} @ {steep}";

    column_cylinder = "Cylinder of the lens";
    column_at_cornea = "at cornea";
    column_residual = "residual refraction";
    column_helps = "helps";
    at_most(size) = "≤ {size}";
    cylinder_at(cylinder, axis) = "{cylinder} at {axis}";
    none = "none";
    none_steep_incision = "none, steep incision";
    legend = "Residual refraction at the spectacle plane (12 mm). Proposed at the suggested axis: * smallest residual cylinder, ‡ smallest without overcorrecting. ≤: chance that the residual cylinder is at most that; helps: chance that it is smaller than without a cylinder in the lens.";
    legend_chosen = "▶ chosen.";
    legend_overcorrects = "† overcorrects, so that what is left lies at right angles.";
    also_made(cylinders) = "Also made, overcorrecting by more: {cylinders}.";
    steep_incision_refused(why) = "Incision on the steep meridian: {why}";
    sentence(text) = "{text}.";

    column_by_formula = "By formula";
    column_axis = "axis";
    column_exact = "exact cylinder";
    column_ratio = "ratio";
    column_leaves = "chosen leaves";
    ratio(from, to, standing) = "▸ chosen formula. Ratio: cylinder at the lens plane for {=+1.00} D at the corneal plane, in this eye with this power; published range {from} to {to} [{standing}].";
    ratio_outside(from, to, standing) = "▸ chosen formula. Ratio: cylinder at the lens plane for {=+1.00} D at the corneal plane, in this eye with this power; published range {from} to {to} [{standing}], which this eye lies outside of.";

    column_turned = "Lens rotated by";
    column_counter_clockwise = "counter-clockwise";
    column_clockwise = "clockwise";
    column_error_added = "error added";
    turn_not_computed = "What a rotation of the lens leaves is not computed.";
    no_better_from(degrees) = "From {degrees}° off the suggested axis the eye is no better off than without a cylinder in the lens.";
    at_no_axis = "At no axis is the eye better off than without a cylinder in the lens.";
    turn(cylinder, axis, at_cornea, helps) = "Residual cylinder of {cylinder} after a rotation from {axis}, facing the patient (the sense of a rotation is the same from the surgeon's seat). Error added: what the rotation adds to the refraction, as a vector; the lens corrects {at_cornea} at the cornea. {helps}";

    with_chosen_cylinder(size) = "{size} with the chosen cylinder";
    without_cylinder(size) = "{size} without a cylinder in the lens";
    from_to(shorter, longer) = "{shorter} to {longer}";
    ellipse(sizes) = "In 8 of 10 such eyes the residual cylinder is expected within this distance of the predicted one, as a vector at twice its angle (80 % ellipse): {sizes}. Not counted: the tolerance of the lens's own cylinder, the spread of the lens position, tilt, and the error of the refraction measured afterwards.";
    measured = "measured";
    clinics_limit = "clinic's limit";
    spreads(keratometry, keratometry_by, posterior, posterior_by, incision, rotation) = "Spreads behind that and every chance (1 SD each component): keratometry {keratometry} ({keratometry_by}), posterior cornea {posterior} ({posterior_by}), incision {incision} (its observed scatter less two keratometries); rotation of the lens {rotation}° (clinic's limit).";

    sources(works) = "Sources: {works}.";
}
