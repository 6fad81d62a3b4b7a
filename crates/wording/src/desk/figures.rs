//! Pictures: their names, what is written in them, and the same as text.

messages! {
    // The anterior chamber.
    section(cornea, depth, aqueous, limit, start) = "Section of the anterior chamber to scale. Cornea {cornea} thick; anterior chamber depth {depth} from the epithelium, aqueous depth {aqueous}; limit {limit} {start}.";
    pupil_sentence(pupil) = "Dilated pupil {pupil}.";
    lens_sentence(thickness) = "Lens {thickness} thick.";
    nucleus_sentence(across, along) = "Nucleus {across} × {along}, as stated.";
    pieces_sentence(pieces, plane, margin, reach, radius) = "{pieces} {plane}: {margin}; a dashed circle of {reach} around the middle of a piece leaves that margin, a thin one of {radius} is what it sweeps.";
    whole_sentence(pupil, clearance, retreat) = "Whole nucleus lying on a pupil of {pupil}: clearance {clearance}, iris and capsule must fall back {retreat} before it lies free.";
    margin(margin) = "margin {margin}";
    margin_with_range(margin, low, high) = "margin {margin} ({low} to {high})";
    clearance(clearance) = "clearance {clearance}";
    retreat(retreat) = "retreat {retreat}";

    // Pieces against margin.
    curve = "Margin against number of pieces, an estimate at rest";
    curve_of(plane, points) = "Pieces {plane}: {points}.";
    curve_point(pieces, margin) = "{pieces} pieces {margin}";
    curve_point_with_range(pieces, margin, low, high) = "{pieces} pieces {margin} ({low} to {high})";
    curve_chosen(pieces, plane) = "This plan: {pieces} pieces {plane}.";
    curve_zero = "The line at zero is the endothelium; bands are 80 % ranges.";
    depth(depth) = "depth {depth}";
    limit(limit) = "limit {limit}";
    aqueous(depth) = "aqueous {depth}";
    lens(thickness) = "lens {thickness}";
    cornea(thickness) = "cornea {thickness}";
    nucleus = "nucleus";
    nucleus_size(across, along) = "nucleus\n{across} × {along}";
    one_millimeter = "1 mm";
    pupil(diameter) = "pupil {diameter}";

    // The dial of axes.
    dial(eye, steep, suggested, chosen, incision) = "{eye} facing the patient, angles by ISO 8429. Steep meridian of the cornea after the operation: {steep}. Suggested axis of the lens: {suggested}. Chosen axis: {chosen}. Incision: {incision}.";
    none = "none";
    place_at(place, direction) = "{place} at {direction}";
    marks_chosen = "chosen axis";
    marks_suggested = "suggested axis";
    steep_meridian = "steep meridian after the operation";
    incision = "incision";
    with_angle(what, angle) = "{what} {angle}";
    nasal = "nasal";
    temporal = "temporal";
    superior = "superior";
    inferior = "inferior";

    // Refraction to expect.
    chart = "Chart of the predicted refraction by power";
    beyond_myopic = "beyond the axis on its myopic side";
    beyond_hyperopic = "beyond the axis on its hyperopic side";
    target(target) = "Target {target}.";
    mean(power, mean) = "{power}: mean {mean}";
    interval(percent, low, high) = "{percent} % from {low} to {high}";
}
