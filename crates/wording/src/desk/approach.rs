//! The page of the approach: how the nucleus comes out.

messages! {
    nucleus_diameter = "diameter of the nucleus";
    nucleus_thickness = "thickness of the nucleus";
    flattening_by = "flattening by the incision";
    scatter_of = "scatter of the incision's effect";
    or_more(least) = "{least} or more";
    too_few_eyes(text, least) = "number of eyes {text} is under {least}; one eye has no scatter";
}
