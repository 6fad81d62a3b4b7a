//! The page of patient and measurements.

pub use crate::measurements::{depth_from, nucleus};
pub use crate::text::banner::{female, male};
pub use crate::text::state::silicone_oil as silicone_oil_within;

messages! {
    // Patient and operation.
    patient_and_operation = "Patient and operation";
    name = "Name";
    number = "Hospital number";
    birth_date = "Birth date";
    sex = "Sex";
    alpha_blocker = "Alpha-blocker, ever";
    anticoagulant = "Anticoagulant now";
    diabetes = "Diabetes";
    operation_day = "Operation day";
    day_has_passed = "This day has passed";
    day_is_far = "This day is more than two years ahead";
    surgeon = "Surgeon";
    not_said = "not recorded";
    independent = "independent";
    experienced_trainee = "experienced trainee";
    trainee = "trainee";
    not_recorded = "not recorded";
    of_the_other(eye, name, value) = "{eye}, {name}: {value}";
    no = "no";
    yes = "yes";
    other = "other";

    // Which eye.
    operated_eye = "Operative eye";
    eye_first = "Measurements are entered once the operative eye is chosen";
    changed(from, to, by, day, reason) = "Changed from the {from} to the {to} by {by} on {day}: {reason}";
    fixed(eye) = "The {eye} is the operative eye; fixed, since measurements exist";
    change_eye = "Change the operative eye…";
    change_from(from, to) = "Change the operative eye from the {from} to the {to}";
    what_a_change_clears = "Target, consent, power, axis, approach and every recorded reason are cleared; measurements stay with their eyes; the change and its reason are kept for good";
    keep_eye(eye) = "Keep the {eye}";
    name_first = "Set your name in the settings first; the change is signed";
    reason_for_change = "Reason for the change";
    recorded_as(name, day) = "recorded under {name}, {day}";
    change_to(eye) = "Change to the {eye}";

    // Both eyes.
    of_eye(what, eye) = "{what}, {eye}";
    of_other(eye, text) = "{eye} {text}";
    not_operated = "fellow eye, for comparison only";
    edit = "Edit…";
    edit_eye(eye) = "Edit the {eye}…";
    operated_compared = "Operative eye, shown for comparison";
    only_compared = "Shown for comparison; no formula uses its numbers";
    editing_fellow(eye) = "You are editing the {eye}, which is not the operative eye";
    back_to(eye) = "Back to the {eye}";

    // Who measures.
    measured_on_by = "Measured on, by";
    day_of_measurement = "Day of measurement";
    person = "Person who measures";
    measured_with = "Measured with";
    method_of_measurement = "Method of measurement";
    today(name) = "Today, {name}";
    written_beside(eye) = "Written beside each number entered from now on for the {eye}";
    as_other(eye) = "As for the {eye}";
    in_diopters_at(index) = "in D at {index}";
    nuclei_by(scale) = "nucleus graded by {scale}";
    measured_by(name, method) = "{name} by {method}";
    lead_on(eye) = "On to the {eye}, measured the same way";
    most_recorded(what) = "Recorded so far: {what}; what differs stands beside its value";
    with_and_by(method, who) = "{method}, {who}";
    by_person(day, person) = "{day}, {person}";
    by_nobody(day) = "{day}, by whom not recorded";
    no_day(person) = "{person}, day not recorded";
    neither = "day and person not recorded";

    // A row.
    method_first = "choose the method first";
    row_method(name) = "{name}, method";
    row_circumstances(name) = "{name}, details…";
    row_spread(name) = "{name}, SD";
    row_day(name) = "{name}, day";
    row_person(name) = "{name}, person";
    deviation = "SD";
    on = "on";
    by = "by";

    // Chamber depth and posterior cornea.
    surface_first = "choose first from which surface it was measured";
    epithelium = "Epithelium";
    endothelium = "Endothelium";
    from_epithelium = "from the epithelium";
    from_endothelium = "from the endothelium";
    short_epithelium = "epith.";
    short_endothelium = "endoth.";
    from_the = "from the";
    depth_from_the = "Anterior chamber depth from the";
    aqueous(depth) = "aqueous depth {depth}, less the corneal thickness";
    steep_first = "enter the steep meridian below";
    steep_at = "steep @";
    posterior_meridian = "Posterior astigmatism, steep meridian";

    // Keratometry.
    readings = "as \"{=43.25} D at {=1.3375}\" or \"{=7.80} mm\"";
    second_keratometry = "Second keratometry…";
    posterior_cornea = "Posterior cornea…";
    pupil = "Dilated pupil…";
    second_name(keratometry, what) = "{keratometry}, {what}";
    index = "index";
    index_head = "Keratometric index";
    in_unit = "in";
    in_unit_head = "Keratometry in";
    in_millimeters = "in mm";
    in_diopters = "in D";
    k1 = "K1, flat";
    k2 = "K2, steep";
    exchange_head = "Exchange K1 and K2";
    exchange = "exchange K1 and K2";
    flat_meridian_head = "Flat meridian";
    steep_meridian_head = "Steep meridian";
    flat_reading_head = "Flat reading";
    steep_reading_head = "Steep reading";
    flat_meridian = "flat meridian";
    steep_meridian = "steep meridian";
    flat_reading = "flat reading";
    steep_reading = "steep reading";
    at_index(index) = "at {index}";
    circumstances = "details…";
    circumstances_head = "Keratometry, details…";
    cylinder(size) = "cylinder {size}";
    readings_taken = "readings";
    number_of_readings = "number of readings";
    number_of_readings_head = "Keratometry, number of readings";
    furthest_apart = "furthest apart";
    largest_difference = "largest difference";
    largest_difference_head = "Keratometry, largest difference";
    mean_deviation = "SD of the mean";
    mean_deviation_head = "Keratometry, SD of the mean";
    unit_first = "choose first whether readings are in mm or in D";
    index_first = "enter the index of the instrument first";
    recorded_once_whole(missing) = "not saved yet; still missing: {missing}";
    missing_flat_reading = "the flat reading";
    missing_flat_meridian = "the flat meridian";
    missing_steep_reading = "the steep reading";
    missing_steep_meridian = "the steep meridian";
    missing_method = "the method";

    // State of the eye.
    state_of(eye) = "State of the {eye}";
    no_scale = "none";
    nucleus_scale = "Nucleus, scale";
    grade = "Grade";
    nucleus_grade = "Nucleus, grade";
    opalescence = "Nuclear opalescence";
    color = "Nuclear color";
    color_with_opalescence = "a color is graded together with the opalescence";
    short_locs(opalescence) = "LOCS {opalescence} (NO)";
    short_locs_with_color(opalescence, color) = "LOCS {opalescence} (NO), {color} (NC)";
    short_who(grade) = "WHO {grade}";
    short_emery_little(numeral) = "E-L {numeral}";
    all_others = "All others looked for, none found";
    answers_no(signs) = "Answers \"no\" to: {signs}";
    silicone_oil = "Silicone oil";
    yes_in_oil_mode = "yes, in oil mode";
    decentration = "Lens decentration";
    contact_lenses = "Contact lenses";
    not_worn = "not worn";
    soft = "soft";
    hard = "hard";
    last_worn = "Last worn on";
    polar_opacity = "Opacity, diameter";
    refraction_today = "Refraction today";

    // Corneal refractive surgery.
    refractive_surgery = "Refractive surgery";
    corneal_surgery = "Corneal refractive surgery";
    myopic_laser = "laser, myopia";
    hyperopic_laser = "laser, hyperopia";
    k_before = "K before it";
    reading_before(number) = "Corneal reading {number} before surgery";
    recorded_once_both = "Not saved yet: enter both readings";
    myopia_removed = "Myopia removed";
    myopia_removed_at = "Myopia removed at the corneal plane";
    at_the_cornea = "D at the cornea";

    // An earlier operation.
    earlier_operation = "Earlier cataract operation";
    implanted_power = "Implanted power";
    implanted_model = "Implanted model";
    predicted_refraction = "Predicted refraction";
    achieved_refraction = "Achieved refraction";
    complicated = "Complicated";
    remove_earlier = "Remove the earlier operation";
    recorded_once_refractions = "Not saved yet: enter power and both refractions; a refraction without cylinder has 0";
    predicted_by = "Predicted by";
    sphere_of(name) = "{name}, sphere";
    cylinder_of(name) = "{name}, cylinder";
    axis_of(name) = "{name}, axis";
}
