//! The page of the approach: how the nucleus comes out.

pub use crate::text::plan::{
    approach, column_pieces, for_phacoemulsification, for_small_incision, no_difference,
    risk_heading,
};

messages! {
    // Approach, incision, capsulorhexis.
    phacoemulsification = "Phacoemulsification";
    not_decided = "Not decided";
    small_incision = "Small incision (SICS)";
    incision_width = "Incision width";
    direction = "Direction";
    place_missing = "Place not recorded";
    at_of_no_eye(direction) = "At {direction}; choose the eye for the place in words";
    place_at(place, direction) = "{place} at {direction}, ISO 8429 facing the patient";
    usual_width(narrowest, widest) = "Usual width {narrowest} to {widest} (limits of IN-01)";
    capsulorhexis = "Capsulorhexis";
    not_recorded = "Not recorded";

    // Effect of the incision.
    own_figures = "Your own surgically induced astigmatism (SIA)";
    flattening = "Flattening";
    scatter = "Scatter (SD)";
    eyes = "Number of eyes";
    worked_out_on = "Worked out on";
    what_figures_are = "Mean flattening of the incision's own meridian and the SD of each double-angle component, from your own results with such incisions. All three or none; they are cleared when the approach changes";
    not_yet_taken(why) = "Not saved yet: {why}";
    needs(what) = "enter {what}";
    day_missing = "Day of your SIA not recorded";
    effect_unknown(why) = "SIA not known: {why}";
    effect(scatter) = "SIA, scatter {scatter} (SD)";
    by_own_figures = "From your own SIA";
    flattening_by = "flattening by the incision";
    scatter_of = "scatter of the SIA";
    or_more(least) = "{least} or more";
    too_few_eyes(text, least) = "number of eyes {text} is under {least}; one eye has no scatter";

    // Nucleus.
    nucleus_diameter_head = "Nucleus diameter";
    nucleus_thickness_head = "Thickness";
    nucleus_diameter = "diameter of the nucleus";
    nucleus_thickness = "thickness of the nucleus";
    needs_thickness = "enter the thickness";
    needs_diameter = "enter the diameter";
    as_you_judge(source) = "As you judge it; published sizes disagree, so nothing is assumed. {source}";

    // Whether it is hard.
    hard_nucleus(judgment) = "nucleus {judgment}";
    judge_hard = "Judge it hard…";
    judge_not_hard = "Judge it not hard…";
    withdraw_judgment = "Withdraw the judgment";
    judged(by, day, reason) = "Judged by {by} on {day}: {reason}";
    what_a_judgment_does = "Every rule takes it instead of grade and appearance; it is printed with its reason, and cleared when grade or appearance changes";
    keep_derived = "Keep grade and appearance";
    record_judgment = "Record the judgment";
    reason_for_judgment = "Reason for the judgment";

    // The chamber.
    to_scale = "Anterior chamber, to scale";
    no_picture(why) = "No picture: {why}";
    choose_eye = "choose the operative eye on the Biometry page";
    whole_no_piece = "SICS delivers the nucleus undivided through the bag: the whole nucleus is drawn where it rests on the pupil";
    whole_unknown_pupil = "Pupil not recorded: the whole nucleus is not drawn";
    none_chosen_no_piece = "No number of pieces is chosen: none is drawn";
    piece_chosen(pieces, plane, margin) = "{pieces}, chosen, {plane}: {margin}";
    piece_looked_at(pieces, plane, margin) = "{pieces}, only looked at, {plane}: {margin}";
    back_measured(radius) = "Posterior corneal radius {radius} (measured)";
    back_assumed(radius) = "Posterior corneal radius {radius} (assumed, {=0.81} of the anterior one)";
    nucleus_volume(volume) = "Nucleus {volume} mm³";
    no_iris = "Pupil not recorded: no iris drawn";
    no_lens = "Lens thickness not recorded: neither lens nor nucleus drawn";
    outline(width) = "Outline of the lens {width} wide [printed], for the drawing only";
    cuts_drawn = "Thin lines in the nucleus: its cuts, beside it all of them from the front, not to scale";
    as_far_as_angle = "Corneal diameter not recorded: drawn as far as the angle";

    // Pieces.
    room_for_pieces = "How near the pieces come, an estimate at rest";
    delivered_whole = "Small-incision surgery divides nothing in the chamber; rows can be looked at";
    none_chosen = "No number of pieces is chosen";
    are_chosen(pieces) = "{pieces} are chosen";
    table_at(plane) = "Numbers of the table: pieces {plane}";
    table_at_no_plane(plane) = "No working plane is chosen; numbers of the table: pieces {plane}";
    size_not_stated = "the size of the nucleus was not stated";
    no_such_plane = "this plane lies behind the middle of the corneal sphere";
    clear_pieces = "Clear the number of pieces";
    row_division(pieces, division) = "{pieces} pieces, {division}";
    row(division, margin, directions) = "{division}, {margin}, {directions}";
    row_unknown(pieces, why) = "{pieces} pieces, margin not known: {why}";
    number_of_pieces = "Number of pieces";
    number_to_look_at = "Number of pieces, to look at only";
    cannot_be_estimated(why) = "Cannot be estimated: {why}";
    column_margin = "Margin, mm";
    column_range = "80 % range, mm";
    column_worst = "Worst";
    column_nine_in_ten = "Nine in ten";
    column_touching = "Touching";
    column_divided = "Divided as";
    columns = "Columns: pieces; how the nucleus is divided into them; mean margin; its 80 % range; clearance in the worst direction; at least this in nine of ten directions; share of directions that touch";

    // What the margin rests on.
    working_plane = "Working plane";
    in_the_bag = "In the bag";
    pupil_plane = "Pupil plane";
    mid_chamber = "Mid-chamber";
    plane_not_chosen = "Not chosen";
    deepening = "Deepening";
    deepening_entry = "deepening by irrigation";
    what_deepening_is = "What irrigation adds to the depth; none entered counts as none. Usual range 0 to {=1.0} mm [assumption]; {=0.33} mm follows from 15 to 60 mmHg [derived]";
    size_known = "Size is";
    size_measured = "Measured";
    size_guessed = "A guess";
    size_not_said = "Not said";
    size_not_said_counts = "Not said whether measured: the spread of a guess is taken";
    delivery = "Delivered";
    delivery_whole = "Whole";
    delivery_halves = "In 2 parts";
    delivery_thirds = "In 3 parts";
    delivery_not_chosen = "Not chosen";
    tunnel_lips = "Length of lips";
    what_lips_are = "Along the cut: a frown or chevron has more than its width. Without it the incision width counts";
    small_incision_geometry = "Nucleus through capsulorhexis and tunnel, an estimate at rest";

    // What speaks for either.
    for_either = "In favor of either approach";
    no_finding = "No finding of this eye";
    not_evaluated(title, missing, rule) = "{title}: could not be evaluated: {missing} is missing ({rule})";
    this_eye = "This eye";
    published = "Published";
    of_other_eyes = "Published, of other eyes";
    source_of_rule(source, rule) = "{source}, {rule}";

    // Risk.
    points(total) = "Risk points {total}";
    points_between(total, at_most) = "Risk points {total} to {at_most}, as not all is recorded";
    given(items) = "Given: {items}";
    none_given = "none";
    unknown(items) = "Not recorded: {items}";
    bands = "Bands 0, 1 to 2, 3 to 5, 6 and more";
    odds_ratios(rate) = "Odds ratios of posterior capsule rupture (rate over all {rate} %)";
    not_multiplied = "Not multiplied, and no absolute percentage: no intercept is printed";
}
