//! Lens power table of this eye, its legend, and the lenses that lie ready.

pub use crate::text::plan::not_chosen;

messages! {
    model(name, model) = "{name}, model {model}";
    heading(eye) = "Lens power table for the {eye}";
    no_ladder(why) = "No lens power table: {why}.";
    record(lens, material, haptic, diameter, site) = "{lens}: {material}, {haptic}, optic {diameter}, for the {site}";
    targets(target, consented) = "Target {target}   consented target {consented}";
    no_power = "No power chosen";
    chosen_power(power) = "Chosen power {power}";
    no_formula = "no formula chosen";
    planned_by(formula) = "chosen formula {formula}";
    predicted(refraction) = ", predicted refraction {refraction}";

    thick_eye(power, front_principal, back_principal, front_nodal, back_nodal, front_focus, back_focus) = "Thick-lens eye with the chosen power: equivalent power {power}; behind the corneal vertex: principal points {front_principal} and {back_principal}, nodal points {front_nodal} and {back_nodal}, foci {front_focus} and {back_focus}.";

    no_answer = "No formula gives a power for this eye and lens; see \"No result, and why\" below.";
    all_formulas(caution) = "All formulas: {caution}";
    no_power_near = "The lens is not made in any power near the one this eye needs.";
    power = "Power";
    exact_power = "exact power";
    proposed = "proposed";
    lens_position = "lens position";
    none_near = "none near";
    none = "none";
    legend(convention) = "Predicted refraction at the spectacle plane (12 mm). ▶ chosen power; ▸ chosen formula; {convention}.";
    no_convention = "no convention chosen, so no power is proposed";
    first_myopic = "* proposed: weakest power predicted at the target or on its myopic side";
    first_hyperopic = "* proposed: strongest power predicted at the target or on its hyperopic side";
    nearest = "* proposed: power predicted nearest to the target";
    constants(biometry, constants) = "Constants, for {biometry}: {constants}.";
    not_filled_in = "A constant the record lacks is not filled in by conversion.";

    backup_heading = "Backup lenses";
    no_backup = "No backup lens chosen.";
    backup_without_target(lens) = "{lens}: no target chosen.";
    for_bag(lens) = "{lens}, in the bag:";
    in_anterior_chamber(lens, length) = "{lens}, overall length {length}, in the anterior chamber with its own constants:";
    for_sulcus(lens) = "{lens}, in the ciliary sulcus:";
    no_sulcus_power = "No power for the ciliary sulcus without a power for the bag.";
    sulcus_rules = "Two published rules beside the vergence result. They disagree; none is chosen for you.";
    in_bag = "in the bag";
    stepwise = "stepwise rule";
    five_percent = "minus 5 %";
    by_vergence = "by vergence";
    vergence_shift(shift) = "By vergence with the lens {shift} forward of the bag [assumption].";
    not_for_weak_powers = "not for < 9 D";
    not_for_powers_up_to_zero = "not for ≤ 0 D";
}
