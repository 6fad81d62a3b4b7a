//! Simulated eyes: how often a stated range holds the truth.

messages! {
    heading(eyes, seed) = "Simulated eyes: {eyes}, seed {seed}";
    what_is_shown = "How often the stated range holds the simulated truth. Each eye is drawn as measured and planned by all formulas for untouched corneas; one of them is taken for the truth, off by what published series say of it: its mean error in steep and flat corneas and its scatter. SD: as stated, and as drawn about the stated mean.";
    column_pooled = "Pooled";
    column_truth_by = "Truth by";
    column_eyes = "eyes";
    column_stated = "SD stated";
    column_drawn = "SD drawn";
    own_in_band(from, to) = "  {from} to {to} mm";
    errors(source) = "Errors: {source}";
    all_eyes = "all eyes";
    axial_length(from, to) = "axial length {from} to {to} mm";
    own_range(formula) = "{formula}, its own range";
    pooled_range(formula) = "{formula}, pooled range";
    no_eye = "no eye";
    standard_error = "± is one standard error of sampling if the range holds exactly what it promises.";
    without_answer(count) = "Without any answer, in no count: {count}.";
    drawn_again(count) = "Drawn again, as no instrument could report them: {count}.";
    lens(a, depth, factor, a0, a1, a2) = "Lens of every eye, invented: A {a}, pACD {depth} mm, surgeon factor {factor} mm, Haigis a0 {a0} mm, a1 {a1}, a2 {a2}; powers by {=0.5} D, the one nearest to emmetropia by the first formula that answers.";
    population(source) = "Population: {source}";
    correlations(source) = "Correlations: {source}";
    own_limit(name, in_use, shipped) = "Limit of your own: {name}: {in_use}, shipped {shipped}";

    // Why nothing is simulated.
    number_of_eyes(eyes, most) = "{eyes} eyes are outside 1 to {most}";
    formula_refused(formula, why) = "{formula}: {why}";
    not_positive_definite = "the matrix of correlations is not positive definite";
    no_gamma = "mean and SD of the cylinder make no gamma distribution";
}
