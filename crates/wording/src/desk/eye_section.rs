//! The section of an eye, to scale.

messages! {
    title(eye) = "{eye}, to scale";
    section(eye) = "{eye}, a section to scale";
    length(length) = "AL, axial length {length}";
    radius(radius) = "Corneal radius {radius}, of the mean K";
    thickness(thickness) = "Cornea {thickness} thick";
    depth(depth, start) = "ACD, chamber depth {depth} {start}";
    lens(thickness) = "LT, lens thickness {thickness}";
    diameter(diameter) = "WTW, corneal diameter {diameter}";
    short_length = "AL";
    short_depth = "ACD";
    short_lens = "LT";
    short_diameter = "WTW";
    five_millimeters = "5 mm";

    not_measured(what) = "Not measured: {what}";
    open_cornea = "How wide the cornea is, is not known: its curve is dashed";
    depth_from_unknown = "The chamber depth counts from the endothelium; it is not drawn without the corneal thickness";
    lens_nowhere = "The lens is not drawn without the place where it begins";
    too_wide = "The corneal diameter is not drawn: no surface of this radius is as wide";
    scheme_of_both(diameter) = "Dashed outlines are a scheme: the eyeball a circle of the axial length, the lens {diameter} wide [printed]";
    scheme_of_globe = "The dashed outline is a scheme: a circle of the axial length";
    scheme_of_lens(diameter) = "The dashed outline of the lens is a scheme, {diameter} wide [printed]";
}
