//! Numbers drawn in the arrangement's own room, and figures of the plan that are not what they were.

use std::fmt::Write as _;

use super::covers::{bare, svg};
use super::dice::Dice;
use super::{Scene, Way};

pub(super) const WAYS: [Way; 14] = [
    ("digits of strokes", strokes),
    ("digits of lines", seven_segments),
    ("digits of boxes", dots),
    ("a circle for a zero", circles),
    ("digits of dashes", dashes),
    ("digits of dark cells", cells),
    ("a picture of a number", pictured),
    ("a figure that is turned", turned_figure),
    ("a figure of its own", own_figure),
    ("a part of a figure", part_of_a_figure),
    ("figures under each other's titles", other_titles),
    ("a line in a figure", line_in_a_figure),
    ("words in a figure", words_in_a_figure),
    ("digits of upright lines", upright_lines),
];

/// Segments of each digit: top, upper right, lower right, bottom, lower left, upper left, middle.
const SEGMENTS: [u8; 10] = [0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7d, 0x07, 0x7f, 0x6f];

/// A number as lines, each from one point to another.
fn segments(number: usize, (width, height): (f64, f64)) -> Vec<[f64; 4]> {
    let half = height / 2.0;
    let of_a_digit = [
        [0.0, 0.0, width, 0.0],
        [width, 0.0, width, half],
        [width, half, width, height],
        [0.0, height, width, height],
        [0.0, half, 0.0, height],
        [0.0, 0.0, 0.0, half],
        [0.0, half, width, half],
    ];
    let digits = number.to_string();
    let mut lines = Vec::new();
    for (place, digit) in digits.chars().enumerate() {
        let lit = SEGMENTS[digit.to_digit(10).unwrap() as usize];
        let x = f64::from(u32::try_from(place).unwrap()) * width * 1.5;
        for (bit, [x1, y1, x2, y2]) in of_a_digit.into_iter().enumerate() {
            if lit & (1 << bit) != 0 {
                lines.push([x + x1, y1, x + x2, y2]);
            }
        }
    }
    lines
}

fn drawn_lines(number: usize, size: (f64, f64), stroke: &str) -> String {
    let mut content = "block(height: 150pt, width: 100%, {".to_owned();
    for [x1, y1, x2, y2] in segments(number, size) {
        writeln!(
            content,
            "place(top + left, line(start: ({x1:.1}pt, {y1:.1}pt), end: ({x2:.1}pt, {y2:.1}pt), stroke: {stroke}))"
        )
        .unwrap();
    }
    content + "})"
}

fn number(dice: &mut Dice) -> usize {
    1000 + dice.below(2500)
}

fn strokes(_: &Scene, dice: &mut Dice) -> String {
    let (width, height) = (dice.between(4.0, 30.0), dice.between(10.0, 80.0));
    let content = format!(
        "curve(stroke: 2pt, curve.line(({width:.1}pt, 0pt)), curve.line((2pt, {height:.1}pt)), curve.move((40pt, 0pt)), curve.quad((60pt, 20pt), (40pt, {height:.1}pt)))"
    );
    bare(dice, &content)
}

fn seven_segments(_: &Scene, dice: &mut Dice) -> String {
    let size = (dice.between(5.0, 60.0), dice.between(20.0, 140.0));
    let stroke = dice.one(&["2pt", "0.4pt + luma(70%)", "3pt + blue"]);
    let content = drawn_lines(number(dice), size, stroke);
    bare(dice, &content)
}

/// Upright lines that stand between rails as of a table, and lines of other lengths between them.
fn upright_lines(_: &Scene, dice: &mut Dice) -> String {
    let (width, height) = (dice.between(24.0, 60.0), dice.between(60.0, 140.0));
    let digits = drawn_lines(number(dice), (width, height), "1pt");
    let rails = format!(
        "place(top + left, line(length: 300pt)); place(top + left, dy: {height:.1}pt, line(length: {:.0}pt))",
        dice.between(200.0, 260.0)
    );
    bare(dice, &format!("block({{ {rails}; {digits} }})"))
}

fn dots(_: &Scene, dice: &mut Dice) -> String {
    let side = dice.between(1.0, 7.0);
    let mut content = "block(height: 150pt, width: 100%, {".to_owned();
    for [x1, y1, x2, y2] in segments(number(dice), (side * 5.0, side * 10.0)) {
        for step in 0..5 {
            let share = f64::from(step) / 5.0;
            let (x, y) = (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share);
            writeln!(content, "place(top + left, dx: {x:.1}pt, dy: {y:.1}pt, square(size: {side:.1}pt, stroke: 0.5pt))").unwrap();
        }
    }
    bare(dice, &(content + "})"))
}

fn circles(_: &Scene, dice: &mut Dice) -> String {
    let radius = dice.between(2.0, 40.0);
    let shape = dice.one(&[
        "circle(radius: Rpt)",
        "ellipse(width: Rpt, height: 50pt)",
        "rect(width: 12pt, height: 40pt)",
        "rect(width: Rpt, height: 50pt, radius: 5pt)",
        "square(size: 40pt)",
    ]);
    bare(dice, &shape.replace('R', &format!("{radius:.0}")))
}

fn dashes(_: &Scene, dice: &mut Dice) -> String {
    let mut content = "block(height: 80pt, width: 100%, {".to_owned();
    for row in 0..12 {
        let dash: Vec<_> = (0..6)
            .map(|_| format!("{:.1}pt", dice.between(1.0, 40.0)))
            .collect();
        writeln!(
            content,
            "place(top + left, dy: {}pt, line(length: 300pt, stroke: (thickness: 3pt, dash: ({},))))",
            row * 3,
            dash.join(", ")
        )
        .unwrap();
    }
    bare(dice, &(content + "})"))
}

fn cells(_: &Scene, dice: &mut Dice) -> String {
    let fill = dice.one(&["black", "luma(80%)", "blue"]);
    let (columns, lit) = (5 + dice.below(9), dice.below(4));
    let content = format!(
        "table(columns: ({columns}pt,) * {columns}, stroke: none, fill: (x, y) => if calc.rem(x * y + {lit}, 3) == 0 {{ {fill} }}, ..range({columns} * 5).map(it => []))"
    );
    bare(dice, &content)
}

fn pictured(_: &Scene, dice: &mut Dice) -> String {
    let content = svg(dice);
    bare(dice, &content)
}

fn of_a_figure(dice: &mut Dice, change: &str) -> String {
    let which = dice.one(&["0", "1"]);
    let content = format!(
        "import \"/shapes.typ\": drawing, shape, word, title\nlet figure = data.figures.at({which})\nblock(width: figure.width * 1pt, {{ {change} }})"
    );
    bare(dice, &content)
}

fn turned_figure(_: &Scene, dice: &mut Dice) -> String {
    let angle = dice.between(3.0, 357.0);
    let change = match dice.below(4) {
        0 => format!("rotate({angle:.0}deg, drawing(figure))"),
        1 => "scale(x: -100%, drawing(figure))".to_owned(),
        2 => "scale(y: -100%, drawing(figure))".to_owned(),
        _ => "scale(x: 60%, drawing(figure))".to_owned(),
    };
    of_a_figure(dice, &change)
}

fn own_figure(_: &Scene, dice: &mut Dice) -> String {
    let by = dice.between(1.0, 30.0);
    let change = match dice.below(4) {
        0 => format!(
            "drawing(figure + (shapes: figure.shapes.map(it => it + (points: it.points.map(point => (point.at(1), point.at(0) + {by:.1}))))))"
        ),
        1 => "drawing(figure + (words: figure.words.rev()))".to_owned(),
        2 => format!(
            "drawing(figure + (words: figure.words.map(it => it + (at: (it.at.at(0) + {:.1}, it.at.at(1))))))",
            by + 3.0
        ),
        _ => "drawing(figure + (words: figure.words.map(it => it + (text: \"N\"))))".to_owned(),
    };
    of_a_figure(dice, &change)
}

fn part_of_a_figure(_: &Scene, dice: &mut Dice) -> String {
    let (from, to) = (dice.below(2), 1 + dice.below(2));
    let change = match dice.below(3) {
        0 => format!(
            "drawing(figure + (shapes: figure.shapes.slice({from}, figure.shapes.len() - {to})))"
        ),
        1 => "drawing(figure + (words: figure.words.slice(1)))".to_owned(),
        _ => {
            "for each in figure.shapes { box(width: 100pt, height: 100pt, shape(each)) }".to_owned()
        }
    };
    of_a_figure(dice, &change)
}

fn other_titles(_: &Scene, dice: &mut Dice) -> String {
    let title = dice.one(&[
        "data.figures.at(1 - data.figures.position(it => it == figure)).title",
        "\"Seen from the feet\"",
        "\"\"",
    ]);
    of_a_figure(dice, &format!("drawing(figure + (title: {title}))"))
}

fn line_in_a_figure(_: &Scene, dice: &mut Dice) -> String {
    let (down, angle) = (dice.between(-90.0, -30.0), dice.below(2) * 90);
    of_a_figure(
        dice,
        &format!(
            "drawing(figure)\nplace(dx: (figure.width - 100) * 0.5pt, dy: {down:.0}pt, line(length: 90pt, angle: {angle}deg, stroke: 2pt))"
        ),
    )
}

fn words_in_a_figure(_: &Scene, dice: &mut Dice) -> String {
    let down = dice.between(-90.0, -40.0);
    let word = dice.one(&["incision", "marks", "temporal", "nose"]);
    of_a_figure(
        dice,
        &format!(
            "drawing(figure)\nplace(dx: figure.width * 0.4pt, dy: {down:.0}pt, text(size: 7pt)[{word}])"
        ),
    )
}
