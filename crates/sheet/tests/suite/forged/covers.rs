//! Something lies over what was signed, or the fixed part is moved, left out or counted otherwise.

use millrace_sheet::Template;

use super::dice::Dice;
use super::{Scene, Way};

pub(super) const WAYS: [Way; 18] = [
    ("a white area over a value", white_area),
    ("an area of many shapes over a value", any_shape),
    ("a picture over a value", picture),
    ("a thick line through a value", thick_line),
    ("a drawn glyph over a value", glyph),
    ("a gradient over a value", gradient),
    ("large text over a value", large_text),
    ("a block with an outset", outset),
    ("another sign over the sign", sign),
    ("what stands above is pulled up", pulled_up),
    ("a footnote at the foot", footnote),
    ("numbers of lines in the margin", line_numbers),
    ("pages counted otherwise", page_counter),
    ("moved over the fixed part", moved),
    ("a grid that reaches up", grid),
    ("a sharp corner that reaches far", miter),
    ("half a point beside a value", beside),
    ("off the page", off_the_page),
];

/// Nothing but this in one of the rooms.
pub(super) fn bare(dice: &mut Dice, content: &str) -> String {
    if dice.below(3) == 0 {
        return beside_shipped(content);
    }
    format!("#let middle(data) = {{ {content} }}\n#let end(data) = []")
}

/// The shipped arrangement, and this behind its first half.
pub(super) fn beside_shipped(content: &str) -> String {
    let shipped =
        Template::shipped_arrangement().replacen("#let middle(data)", "#let own(data)", 1);
    format!("{shipped}\n#let middle(data) = {{ own(data)\n{content} }}")
}

fn somewhere(scene: &Scene, dice: &mut Dice) -> [f64; 4] {
    let [left, top, right, bottom] = scene.values[dice.below(scene.values.len())];
    let grown = dice.between(0.0, 6.0);
    [
        left - grown,
        top - grown,
        right - left + 2.0 * grown,
        bottom - top + 2.0 * grown,
    ]
}

/// At a value, whatever stands in the room before it.
fn placed(scene: &Scene, dice: &mut Dice, what: impl Fn(f64, f64, &mut Dice) -> String) -> String {
    let [x, y, width, height] = somewhere(scene, dice);
    let content = what(width, height, dice);
    let placed = format!("place(top + left, dx: {x:.2}pt, dy: {y:.2}pt, {content})");
    bare(dice, &placed)
}

fn white_area(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |w, h, dice| {
        let fill = dice.one(&[
            "white",
            "luma(100%)",
            "rgb(255, 255, 255, 250)",
            "cmyk(0%, 0%, 0%, 0%)",
        ]);
        format!("rect(width: {w:.1}pt, height: {h:.1}pt, fill: {fill})")
    })
}

fn any_shape(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |w, h, dice| match dice.below(4) {
        0 => format!("ellipse(width: {w:.1}pt, height: {h:.1}pt, fill: white)"),
        1 => format!(
            "polygon(fill: white, (0pt, 0pt), ({w:.1}pt, 0pt), ({w:.1}pt, {h:.1}pt), (0pt, {h:.1}pt))"
        ),
        2 => format!(
            "curve(fill: white, curve.line(({w:.1}pt, 0pt)), curve.line(({w:.1}pt, {h:.1}pt)), curve.line((0pt, {h:.1}pt)), curve.close())"
        ),
        _ => format!("box(width: {w:.1}pt, height: {h:.1}pt, fill: white, radius: 2pt)"),
    })
}

/// An SVG of the arrangement's own, with another power in it.
pub(super) fn svg(dice: &mut Dice) -> String {
    let power = dice.power();
    let drawn = dice.one(&[
        "<path d='M2 2 L20 2 L4 38 L22 38' stroke='black' stroke-width='5' fill='none'/>",
        "<rect width='100' height='40' fill='white'/>",
        "<circle cx='20' cy='20' r='18' stroke='black' fill='none'/>",
    ]);
    format!(
        "image(bytes(\"<svg xmlns='http://www.w3.org/2000/svg' width='100' height='40'>{drawn}<text x='0' y='30'>{power}</text></svg>\"), format: \"svg\", alt: \"power\", width: 100pt, height: 40pt)"
    )
}

fn picture(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |_, _, dice| {
        match dice.below(2) {
        0 => svg(dice),
        _ => "image(bytes((255, 255, 255, 255)), format: (encoding: \"luma8\", width: 2, height: 2), alt: \"\", width: 100pt, height: 40pt)".to_owned(),
    }
    })
}

fn thick_line(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |w, h, dice| {
        let paint = dice.one(&["white", "black", "luma(60%)"]);
        let across = h / 2.0;
        let thick = dice.between(0.8, h);
        format!(
            "line(start: (0pt, {across:.1}pt), length: {w:.1}pt, stroke: {thick:.1}pt + {paint})"
        )
    })
}

/// "7" or "4" of strokes alone.
fn glyph(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |_, h, dice| {
        let thick = dice.between(2.0, 6.0);
        let end = h * dice.between(0.4, 0.8);
        format!(
            "curve(stroke: {thick:.1}pt, curve.line(({end:.1}pt, 0pt)), curve.line((4pt, {h:.1}pt)))"
        )
    })
}

fn gradient(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |w, h, dice| {
        let paint = dice.one(&[
            "gradient.linear(white, white)",
            "gradient.radial(white, luma(99%))",
            "tiling(size: (5pt, 5pt), rect(width: 5pt, height: 5pt, fill: white))",
        ]);
        format!("rect(width: {w:.1}pt, height: {h:.1}pt, fill: {paint})")
    })
}

fn large_text(scene: &Scene, dice: &mut Dice) -> String {
    placed(scene, dice, |_, h, dice| {
        let power = dice.power();
        let fill = dice.one(&["black", "white", "red"]);
        format!("text(size: {h:.1}pt, fill: {fill}, weight: \"black\", \"{power}\")")
    })
}

fn outset(scene: &Scene, dice: &mut Dice) -> String {
    let [_, y, ..] = somewhere(scene, dice);
    let up = -y;
    let fill = dice.one(&["fill: white", "stroke: 30pt + white", "fill: luma(98%)"]);
    bare(
        dice,
        &format!("block(width: 100%, outset: (top: {up:.1}pt), {fill})[words]"),
    )
}

/// Minus over plus: its upright stroke goes under white.
fn sign(scene: &Scene, dice: &mut Dice) -> String {
    let [x, y, _, b] = scene.values[0];
    let (width, height) = (dice.between(1.0, 3.0), (b - y) / 4.0);
    let dx = x + dice.between(4.0, 12.0);
    let place = |dy: f64| {
        format!(
            "place(top + left, dx: {dx:.2}pt, dy: {dy:.2}pt, rect(width: {width:.2}pt, height: {height:.2}pt, fill: white))"
        )
    };
    let content = format!("{}\n{}", place(y), place(b - height));
    bare(dice, &content)
}

fn pulled_up(scene: &Scene, dice: &mut Dice) -> String {
    let [_, y, ..] = somewhere(scene, dice);
    let power = dice.power();
    match dice.below(3) {
        0 => format!("#let middle(data) = {{ v({y:.1}pt); [words] }}\n#let end(data) = [{power}]"),
        1 => format!(
            "#let middle(data) = {{ [words]; v({y:.1}pt) }}\n#let end(data) = block(fill: white)[words]"
        ),
        _ => format!(
            "#let middle(data) = block(above: 0pt, height: {y:.1}pt)[words]\n#let end(data) = [words]"
        ),
    }
}

fn footnote(_: &Scene, dice: &mut Dice) -> String {
    let (power, up) = (dice.power(), dice.between(0.0, 700.0));
    let note = dice.one(&["words", "rect(width: 200pt, height: 40pt, fill: white)"]);
    let note = if note == "words" {
        format!("[{power}]")
    } else {
        note.to_owned()
    };
    bare(
        dice,
        &format!(
            "[words]\nfootnote(numbering: it => [], place(top + left, dy: -{up:.0}pt, {note}))"
        ),
    )
}

fn line_numbers(_: &Scene, dice: &mut Dice) -> String {
    let (power, up) = (dice.power(), dice.between(0.0, 300.0));
    bare(
        dice,
        &format!(
            "set par.line(numbering: it => place(dx: 60pt, dy: -{up:.0}pt, text(size: 30pt)[{power}]))\n[words of a line]"
        ),
    )
}

fn page_counter(_: &Scene, dice: &mut Dice) -> String {
    let to = 2 + dice.below(9);
    let update = dice.one(&[
        "counter(page).update(TO)",
        "counter(page).update(it => it + TO)",
        "counter(page).step()",
    ]);
    bare(
        dice,
        &format!("[words]\n{}", update.replace("TO", &to.to_string())),
    )
}

fn moved(scene: &Scene, dice: &mut Dice) -> String {
    let [x, y, ..] = somewhere(scene, dice);
    let power = dice.power();
    let what = dice.one(&[
        "[POWER]",
        "data.measurements.rows.first().value",
        "drawing(data.figures.first())",
    ]);
    let what = what.replace("POWER", &power);
    let content =
        format!("import \"/shapes.typ\": drawing\nmove(dx: {x:.1}pt, dy: {y:.1}pt, box({what}))");
    bare(dice, &content)
}

fn grid(scene: &Scene, dice: &mut Dice) -> String {
    let [_, y, ..] = somewhere(scene, dice);
    let up = -y;
    bare(
        dice,
        &format!(
            "place(top, dy: {y:.1}pt, table(rows: ({up:.1}pt,), columns: (1fr, 1fr), fill: white, stroke: none)[words][words])"
        ),
    )
}

fn miter(scene: &Scene, dice: &mut Dice) -> String {
    let up = -scene.values[dice.below(scene.values.len())][1];
    let limit = up / 2.0;
    bare(
        dice,
        &format!(
            "curve(stroke: (paint: black, thickness: 4pt, join: \"miter\", miter-limit: {limit:.0}), curve.move((60pt, 20pt)), curve.line((61pt, 5pt)), curve.line((62pt, 20pt)))"
        ),
    )
}

/// A stroke that makes another digit of one.
fn beside(scene: &Scene, dice: &mut Dice) -> String {
    let [left, top, right, bottom] = scene.values[dice.below(scene.values.len())];
    let x = dice.between(left, right);
    let y = dice.between(top, bottom);
    let (w, h) = (dice.between(1.0, 8.0), dice.between(1.0, 8.0));
    bare(
        dice,
        &format!(
            "place(top + left, dx: {x:.2}pt, dy: {y:.2}pt, rect(width: {w:.2}pt, height: {h:.2}pt, fill: black))"
        ),
    )
}

fn off_the_page(_: &Scene, dice: &mut Dice) -> String {
    let (x, y) = (dice.between(560.0, 900.0), dice.between(-900.0, 900.0));
    let power = dice.power();
    bare(
        dice,
        &format!("place(top + left, dx: {x:.0}pt, dy: {y:.0}pt, [{power}])"),
    )
}
