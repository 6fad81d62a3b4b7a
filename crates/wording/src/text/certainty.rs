//! How sure the predicted refraction is, what makes it unsure, and what that rests on.

messages! {
    heading = "Uncertainty of the predicted refraction";
    withheld(reasons) = "No range and no chance is stated for this eye: {reasons}.";
    no_distribution = "No formula gives a distribution; see \"No result, and why\".";
    one_formula(target, hyperopic) = "One formula: its prediction, the range that holds 80 % of eyes like this one under this model, the chance to end within so much of the target {target}, and the chance to end over {hyperopic}, hyperopic whatever the target.";
    formulas_together(count, target, hyperopic) = "{count} formulas together, each with equal weight: the mean of their predictions, the range that holds 80 % of eyes like this one under this model, the chance to end within so much of the target {target}, and the chance to end over {hyperopic}, hyperopic whatever the target.";
    predicted = "predicted";
    mean_of(count) = "mean of {count}";
    column_power = "Power";
    range_50 = "50 % range";
    range_80 = "80 % range";
    range_95 = "95 % range";
    within(band) = "within\n±{band}";
    over(limit) = "over\n{limit}";
    range(low, high) = "{low} to {high}";
    bands(source) = "Bands: {source}";

    power_chosen = "chosen";
    power_proposed = "proposed by the chosen formula; no power is chosen";
    power(power) = "Power {power}";
    column_formula = "Formula";
    column_deviation = "SD";
    differ(formula, own, pooled, apart, limit) = "{formula}, the chosen formula, predicts {own}; the mean of all formulas is {pooled}: {apart} apart (shown from {limit} on, our own value).";

    what_makes_it_unsure = "Sources of the uncertainty";
    share_of_variance(deviation) = "(share of the variance; together SD {deviation})";
    column_source = "Source";
    column_share = "share";
    column_again(band) = "within ±{band} if measured again";
    known_tendency = "Such eyes";
    formulas_disagree = "formulas disagree";
    measured_again = "Measured again: once more in the same way, and the mean of both taken.";
    worth_repeating(what, band, gains) = "Worth repeating first: {what}; the chance to end within ±{band} of the target would rise from {gains}.";
    nothing_worth_repeating(band, what, gains) = "No measurement is worth repeating: the most would gain {what}, from {gains} of ending within ±{band} of the target.";
    gain(before, after) = "{before} to {after}";
    steps(step, source) = "Besides: steps of the labeled power alone make {step} where the target may lie anywhere within a step; no part of the budget, since the prediction of each power says how far it lies from the target. {source}";
    from_to(before, after) = "{before} → {after}";

    together = "Together: every formula counts alike, as an equal mixture of their normal distributions; errors taken as independent. What a formula's published scatter leaves after the other sources over an ordinary population is taken alike in every eye: the lens position and all else. The whole model with its assumptions: `millrace formulas uncertainty`.";
    average_eye(length, mean_k, depth, source) = "Middle of that population: axial length {length}, mean K {mean_k}, anterior chamber depth {depth}. {source}";
    spread_of(what, origin) = "Spread of the {what}: {origin}";
    scatter_of(formula, scatter) = "{formula} {scatter}";
    scatter_drawn(formula, scatter, used, own, eyes, day) = "{formula} {scatter} (used {used}: drawn toward the clinic's own {own} in {eyes} eyes, {day})";
    scatter(formulas, source) = "Scatter (SD) of the prediction error: {formulas}. {source}";
    formula_tends(formula, tendency) = "{formula}: {tendency}";
    silent(formula, why) = "{formula}: no distribution; {why}";
}
