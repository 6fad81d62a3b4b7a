//! State of the eye: what was found, what was looked for and not found, what nobody recorded.

messages! {
    dense_cataract = "dense or total cataract";
    white_cataract = "white cataract";
    brunescent = "brunescent cataract";
    posterior_polar = "posterior polar cataract";
    capsule_plaque = "posterior capsule plaque";
    pseudoexfoliation = "pseudoexfoliation";
    phacodonesis = "phacodonesis";
    guttata = "guttata";
    corneal_scarring = "corneal scarring";
    keratoplasty_likely = "corneal graft likely";
    previous_vitrectomy = "previous vitrectomy";
    iris_defect = "iris defect or adhesion";
    narrow_angle = "narrow chamber angle";
    silicone_oil = "silicone oil";
    corneal_surgery = "corneal refractive surgery";
    myopic_laser = "corneal laser surgery for myopia";
    hyperopic_laser = "corneal laser surgery for hyperopia";
    other_corneal_surgery = "other corneal refractive surgery";
    other_difficulty = "other difficulty";
    alpha_blocker = "alpha-blocker now or before";

    found(signs) = "Found: {signs}.";
    not_found(signs) = "Not found: {signs}.";
    not_recorded(signs) = "Not recorded: {signs}.";
    refraction(refraction) = "Refraction today {refraction}.";
    refraction_with_equivalent(refraction, equivalent) = "Refraction today {refraction}; spherical equivalent {equivalent}.";
}
