//! The clinic's lens records: their list and the form of one.

pub use crate::desk::biometry::{deviation, on};
pub use crate::desk::frame::undo;
pub use crate::desk::second_look::still_missing;

messages! {
    // The list.
    offered = "Offered for every case; a case keeps its own copy, so that a change here changes no case";
    add = "Add a record…";
    undo_tip = "Undo the last change of the records (Ctrl+Z)";
    bring = "Import lens records…";
    write = "Export lens records…";
    none_yet = "No lens record yet";

    // Records from a file.
    brought(count) = "One lens record from a file" | "{count} lens records from a file";
    not_taken_yet = "Nothing is changed yet. No case changes with them";
    new_ones(count) = "New, one record" | "New, {count} records";
    other_ones(count) = "Another content, one record" | "Another content, {count} records";
    same_ones(count) = "The same as here, one record" | "The same as here, {count} records";
    becomes(entry, before, after) = "{entry}: {before} → {after}";
    nothing_there = "nothing";
    take(new, other) = "Take them: {new} new, {other} replaced";
    nothing_to_take = "There is nothing to take: every record is the same as here";
    leave_as_it_is = "Leave the records as they are";
    not_together(problem) = "They cannot be taken: {problem}";
    for_bag = "For the capsular bag";
    for_chamber = "For the anterior chamber";
    change = "Change…";
    copy = "Copy…";
    remove = "Remove";
    of_record(what, lens) = "{what} {lens}";
    no_powers = "no powers";
    material_and_haptic(material, haptic) = "{material}, {haptic}";
    toric_with(cylinders) = "toric, {cylinders} cylinders";
    may_sit_in_sulcus = "may sit in the sulcus";
    constants_for(biometry) = "constants for {biometry}";
    own_results_with(formulas) = "own results with {formulas}";

    // The form.
    lens = "Lens";
    name = "Name in this clinic";
    model = "Model on the box";
    site = "Made for the";
    material = "Material";
    haptic = "Haptic";
    optic_diameter = "Optic diameter";
    overall_length = "Overall length";
    sulcus = "May sit in the sulcus";
    no = "No";
    yes = "Yes";
    powers = "Powers";
    average_power = "Average power";
    optic = "Optic";
    index_and_thickness = "Index and thickness";
    index = "Index of the optic";
    thickness = "Thickness of the optic";
    may_stay_empty = "May stay empty: only the thick-lens eye asks for them";
    constants = "Constants";
    found_with = "Found with";
    own_results = "Own results";
    same_name = "another record has this name";
    keep = "Save the record";
    leave = "Cancel";

    // Powers.
    range_from(number) = "Range {number}, from";
    range_to(number) = "Range {number}, to";
    range_step(number) = "Range {number}, step";
    remove_range(number) = "Remove range {number}";
    to = "to";
    by = "D by";
    add_range = "Add a range";
    toric = "Toric";
    labeled_power = "Labeled power is";
    cylinders = "Cylinders";
    what_cylinders_are = "Cylinders at the lens plane, rising, with a semicolon between";
    about_cylinders = "cylinders at the lens plane in D";

    // Constants.
    a_constant = "A (SRK/T, T2)";
    pacd = "pACD (Hoffer Q)";
    surgeon_factor = "Surgeon factor (Holladay 1)";
    haigis = "Haigis a0 in mm, a1, a2";
    given = "Given by the maker";
    optimized = "Optimized";
    converted = "Converted from A";
    how_obtained(constant) = "{constant}, how obtained";
    number_of_eyes(constant) = "{constant}, number of eyes";
    eyes = "eyes";

    // Results.
    result(number) = "Result {number}";
    result_formula(result) = "{result}, formula";
    result_deviation(result) = "{result}, SD";
    result_eyes(result) = "{result}, eyes";
    result_day(result) = "{result}, day";
    remove_result(result) = "Remove, {result}";
    add_result = "Add a result";
    eyes_day = "eyes, day";
    what_deviation_is = "SD of the prediction error in the clinic's own hands, its mean zeroed; at most one for each formula";

    // What is missing.
    missing_name = "name";
    missing_model = "model";
    missing_site = "whether it is made for the capsular bag or the anterior chamber";
    missing_material = "material";
    missing_haptic = "haptic";
    missing_optic_diameter = "optic diameter";
    missing_overall_length = "overall length";
    missing_sulcus = "whether it may sit in the sulcus";
    missing_index = "index of the optic";
    missing_thickness = "thickness of the optic";
    missing_biometry = "which biometry its constants are for";
    missing_range = "a range of powers";
    missing_part_of_range = "first, last or step of a range of powers";
    missing_labeled_power = "what the labeled power of a toric lens means";
    missing_a_constant = "how the A constant was obtained";
    missing_pacd = "how the pACD was obtained";
    missing_surgeon_factor = "how the surgeon factor was obtained";
    missing_of_haigis = "all three of Haigis";
    missing_haigis = "how the Haigis constants were obtained";
    missing_of_result = "formula, SD, eyes or day of an own result";
}
