//! Pictures: their names, what is written in them, and the same as text.

messages! {
    // The anterior chamber.
    section(cornea, depth, aqueous, limit, start) = "Section of the anterior chamber to scale. Cornea {cornea} thick; anterior chamber depth {depth} from the epithelium, aqueous depth {aqueous}; limit {limit} {start}.";
    pupil_sentence(pupil) = "Dilated pupil {pupil}.";
    lens_sentence(thickness) = "Lens {thickness} thick.";
    nucleus_sentence(across, along) = "Nucleus {across} × {along}, as stated.";
    pieces_sentence(pieces, longest, room) = "In {pieces} pieces the longest is {longest}; on end in the pupil plane: {room}.";
    piece_touches(room) = "turning piece touches, {room}";
    piece_left(room) = "{room} left over the turning piece";
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
    target(target) = "Target {target}.";
    mean(power, mean) = "{power}: mean {mean}";
    interval(percent, low, high) = "{percent} % from {low} to {high}";
}
