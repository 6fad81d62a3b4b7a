//! How near pieces and whole nucleus come: the words of the estimate, for text, desk and sheet.

use millrace_core::chamber::{
    Division, DivisionProximity, NucleusSize, Passage, Proximity, UNMEASURED_LENS, WholeProximity,
};

use crate::Words;

messages! {
    heading = "How near the pieces come (an estimate of geometry at rest)";
    plane_heading(plane, middle) = "Pieces {plane}, their middle {middle} under the endothelium";
    plane_chosen(heading) = "{heading} (chosen)";
    no_plane = "No working plane is chosen.";
    column_margin = "margin, mm";
    column_range = "80 % range, mm";
    column_worst = "worst, mm";
    column_nine_in_ten = "nine in ten, mm";
    column_touching = "touching";
    column_off_axis = "2 mm off axis, mm";
    no_range = "not known";
    range(low, high) = "{low} to {high}";
    percent(percent) = "{percent} %";
    under_one_percent = "under 1 %";

    // How the nucleus is divided.
    quarters = "4 quarters";
    sectors(count) = "{count} sectors";
    in_rings(sectors, rings) = "{sectors} in {rings} rings";
    in_layers(sectors, layers) = "{sectors} in {layers} layers";
    in_rings_and_layers(sectors, rings, layers) = "{sectors} in {rings} rings and {layers} layers";
    pieces_as(count, division) = "{count} pieces ({division})";
    pieces_of_no_division(count) = "{count} pieces";

    // One division.
    margin_left(margin) = "on average {margin} margin";
    margin_lacking(lacking) = "on average {lacking} more depth would be needed";
    margin_with_range(margin, low, high) = "{margin} (80 % range of the margin {low} to {high})";
    touching(touching, worst, at_least) = "touches in {touching} of directions · worst {worst} · nine in ten at least {at_least}";

    // What it rests on.
    legend = "Margin: mean clearance over all directions of the piece with the least, turning freely about its middle [assumption: all directions equally likely]; a negative one is the depth that would be needed. Worst: on end, in the most unfavorable direction. Left out: viscoelastic, irrigation unless entered, tilt, instruments, shrinking of the piece. No published distance against cell loss was found.";
    size_measured(diameter, thickness) = "size taken as measured (1 SD {diameter} and {thickness}) [assumption]";
    size_guessed(diameter, thickness) = "size taken as a guess (1 SD {diameter} and {thickness}) [printed]";
    depth_spread(deviation) = "1 SD of the aqueous depth {deviation}";
    depth_spread_unknown = "the spread of the depth is not known, so no range is given";
    deepened(by) = "{by} deepening by irrigation entered";
    not_deepened = "no deepening by irrigation entered";
    lens_measured(thickness) = "lens {thickness}, as measured";
    lens_unmeasured(thickness) = "lens thickness not measured: {thickness} taken for the bag [assumption]";

    // The undivided nucleus.
    whole_heading = "Whole nucleus in small-incision surgery (an estimate at rest)";
    whole_flat_clear(clearance) = "Lying flat in the pupil plane it clears the endothelium by {clearance}";
    whole_flat_lacking(lacking) = "Lying flat in the pupil plane it would need {lacking} more depth";
    whole_retreat(retreat) = "on the recorded pupil iris and capsule must fall back {retreat} before it lies free";
    whole_retreat_between(least, most) = "before it lies free iris and capsule must fall back {least} (pupil as wide as the nucleus) to {most} (wholly in front of the iris)";
    whole_reading = "By distance alone the whole nucleus is the nearer body, most in the eyes small-incision surgery is chosen for; what that has instead is one slow passage with viscoelastic between. Trials found the two equal.";
    retreat_available = "Known to be gained: {=0.74} mm once the lens is out [printed], more with viscoelastic by an amount nobody printed.";
    half_perimeters(whole, half, third) = "Half the way around what passes the tunnel: whole {whole}, a half {half}, the middle of three {third}";
    demands(whole, half, third, lips) = "that is {whole}, {half}, {third} of the lips' {lips}";
    practice = "daily practice stretches and molds: average nuclei ask 119 to 139 % of 6 to 7 mm";
    stretches(on_edge, flat) = "The capsulorhexis stretches by {on_edge} as the nucleus passes on edge, by {flat} flat; it tears at 62 % [printed]";
    unstretched(diameter) = "The nucleus passes a capsulorhexis of {diameter} on edge without stretching it";
    delivered(delivery) = "delivered {delivery}";
}

/// How the nucleus is divided, in the words of the field and no more than is counted: "4 quarters",
/// "8 sectors", "8 sectors in 2 rings and 2 layers".
pub fn division(words: Words, division: Division) -> String {
    let of_axis = match division.sectors {
        4 => quarters(words).to_owned(),
        count => sectors(words, count),
    };
    match (division.rings, division.layers) {
        (1, 1) => of_axis,
        (rings, 1) => in_rings(words, of_axis, rings),
        (1, layers) => in_layers(words, of_axis, layers),
        (rings, layers) => in_rings_and_layers(words, of_axis, rings, layers),
    }
}

/// So many pieces with how they come about: "8 sectors", "12 pieces (6 sectors in 2 rings)". A number the
/// model divides the nucleus into in no way stays a number.
pub fn pieces(words: Words, count: u8) -> String {
    match Division::with_pieces(count) {
        None => pieces_of_no_division(words, count),
        Some(whole) if whole.rings == 1 && whole.layers == 1 => division(words, whole),
        Some(cut) => pieces_as(words, count, division(words, cut)),
    }
}

/// A share in whole percent; one that is not none is not shown as none.
pub fn share(words: Words, share: f64) -> String {
    if 0.0 < share && share < 0.005 {
        return under_one_percent(words).to_owned();
    }
    percent(words, words.fixed(share * 100.0, 0))
}

/// "on average 0.27 mm margin", or how much more depth would be needed; with its range.
pub fn margin(words: Words, near: &DivisionProximity) -> String {
    let mean = if near.margin.mm() < 0.0 {
        margin_lacking(words, -near.margin)
    } else {
        margin_left(words, near.margin)
    };
    match near.interval() {
        Some([low, high]) => margin_with_range(words, mean, low, high),
        None => mean,
    }
}

/// "touches in 9 % of directions · worst −0.14 mm · nine in ten at least …".
pub fn directions(words: Words, near: &DivisionProximity) -> String {
    let touching_share = share(words, near.touch_share);
    touching(words, touching_share, near.worst, near.nine_in_ten)
}

/// The middle 80 % of the margin without its unit.
pub fn margin_range(words: Words, near: &DivisionProximity) -> String {
    match near.interval() {
        Some([low, high]) => range(words, words.fixed(low.mm(), 2), words.fixed(high.mm(), 2)),
        None => no_range(words).to_owned(),
    }
}

/// What the numbers rest on.
pub fn rests_on(words: Words, proximity: &Proximity) -> String {
    let [diameter, thickness] = proximity.nucleus_size.spread();
    words.clauses([
        match proximity.nucleus_size {
            NucleusSize::Measured => size_measured(words, diameter, thickness),
            NucleusSize::Guessed => size_guessed(words, diameter, thickness),
        },
        match proximity.depth_spread {
            Some(deviation) => depth_spread(words, deviation),
            None => depth_spread_unknown(words).to_owned(),
        },
        if proximity.deepening.mm() > 0.0 {
            deepened(words, proximity.deepening)
        } else {
            not_deepened(words).to_owned()
        },
        if proximity.lens_thickness_measured {
            lens_measured(words, proximity.lens_thickness)
        } else {
            lens_unmeasured(words, UNMEASURED_LENS)
        },
    ])
}

/// The undivided nucleus in the chamber.
pub fn whole(words: Words, whole: &WholeProximity) -> String {
    let flat = whole.in_pupil_plane.map(|clearance| {
        if clearance.mm() < 0.0 {
            whole_flat_lacking(words, -clearance)
        } else {
            whole_flat_clear(words, clearance)
        }
    });
    let [least, most] = whole.retreat_between;
    let retreat = whole.retreat_on_pupil.map_or_else(
        || whole_retreat_between(words, least, most),
        |retreat| whole_retreat(words, retreat),
    );
    words.clauses([flat, Some(retreat)].into_iter().flatten())
}

/// What tunnel and capsulorhexis are asked.
pub fn passage(words: Words, passage: &Passage) -> String {
    let [whole, half, third] = passage.half_perimeters;
    let around = half_perimeters(words, whole, half, third);
    let asked = passage.lips.map(|lips| {
        let [whole, half, third] = passage
            .half_perimeters
            .map(|around| share(words, around.mm() / lips.mm()));
        demands(words, whole, half, third, lips)
    });
    let tunnel = words.clauses(
        [Some(around), asked, Some(practice(words).to_owned())]
            .into_iter()
            .flatten(),
    );
    let capsulorhexis = match passage.stretch {
        Some(stretch) => {
            // One that is wide enough does not stretch.
            let [on_edge, flat] = stretch.map(|stretch| share(words, stretch.max(0.0)));
            stretches(words, on_edge, flat)
        }
        None => unstretched(words, passage.unstretched),
    };
    format!("{tunnel}. {capsulorhexis}.")
}

#[cfg(test)]
mod tests {
    use millrace_core::chamber::{Division, DivisionProximity};
    use millrace_core::quantity::Millimeters;

    use super::*;

    /// Sectors, rings and layers of the model's divisions (4×1×1, 6×1×1, 8×1×1, 6×2×1, 8×2×1, 8×3×1, 8×2×2).
    #[test]
    fn pieces_are_said_as_they_are_counted() {
        for (count, expected) in [
            (4, "4 quarters"),
            (6, "6 sectors"),
            (8, "8 sectors"),
            (12, "12 pieces (6 sectors in 2 rings)"),
            (16, "16 pieces (8 sectors in 2 rings)"),
            (24, "24 pieces (8 sectors in 3 rings)"),
            (32, "32 pieces (8 sectors in 2 rings and 2 layers)"),
            // The model knows no such division: nothing is said of how.
            (5, "5 pieces"),
        ] {
            assert_eq!(pieces(Words::ENGLISH, count), expected);
        }
        let halved = Division {
            sectors: 4,
            rings: 1,
            layers: 2,
        };
        assert_eq!(division(Words::ENGLISH, halved), "4 quarters in 2 layers");
    }

    /// A margin of a hard nucleus in four and in twelve pieces, pupil plane, by the model's own notes.
    fn near(margin: f64, deviation: Option<f64>) -> DivisionProximity {
        let mm = Millimeters::new;
        DivisionProximity {
            division: Division::with_pieces(4).unwrap(),
            margin: mm(margin),
            deviation: deviation.map(mm),
            off_axis: None,
            worst: mm(-0.84),
            nine_in_ten: mm(-0.78),
            touch_share: 0.002,
            lying_flat: mm(-0.4),
            reach: mm(2.59),
            turning_radius: mm(3.1),
            extents: [mm(4.25), mm(6.01), mm(4.0)],
        }
    }

    #[test]
    fn a_negative_margin_is_depth_that_would_be_needed() {
        let words = Words::ENGLISH;
        assert_eq!(
            margin(words, &near(-0.33, None)),
            "on average 0.33 mm more depth would be needed"
        );
        assert_eq!(
            margin(words, &near(0.27, Some(0.1))),
            "on average 0.27 mm margin (80 % range of the margin 0.14 mm to 0.40 mm)"
        );
    }

    /// A mean that is negative is not a touch, and a margin is not safety.
    #[test]
    fn no_mean_touches_and_nothing_is_safe() {
        for message in MESSAGES {
            for form in message.english {
                assert!(!form.to_lowercase().contains("safe"), "{form}");
            }
        }
        assert!(!margin(Words::ENGLISH, &near(-0.33, Some(0.2))).contains("touch"));
    }

    #[test]
    fn a_small_share_is_not_none() {
        let words = Words::ENGLISH;
        for (of, text) in [
            (0.0, "0 %"),
            (0.002, "under 1 %"),
            (0.0917, "9 %"),
            (1.0, "100 %"),
        ] {
            assert_eq!(share(words, of), text);
        }
        assert_eq!(
            directions(words, &near(0.1, None)),
            "touches in under 1 % of directions · worst \u{2212}0.84 mm · nine in ten at least \u{2212}0.78 mm"
        );
    }
}
