//! Values of the data that are turned, mirrored, stretched, cut, crossed out or covered.

use super::covers::{bare, beside_shipped};
use super::dice::Dice;
use super::{Scene, Way};

pub(super) const WAYS: [Way; 9] = [
    ("turned", turned),
    ("mirrored", mirrored),
    ("stretched", stretched),
    ("cut off", cut),
    ("crossed out", crossed),
    ("covered in the room", covered),
    ("under other letters", under_letters),
    ("larger by a scale", scaled),
    ("shapes of letters moved", raised),
];

const VALUES: [&str; 3] = [
    "data.measurements.rows.first().value",
    "data.formulas.rows.first().predicted",
    "data.formulas.rows.first().proposed",
];

fn turned(_: &Scene, dice: &mut Dice) -> String {
    let (value, angle) = (dice.one(&VALUES), dice.between(1.0, 359.0));
    bare(dice, &format!("rotate({angle:.0}deg, box({value}))"))
}

fn mirrored(_: &Scene, dice: &mut Dice) -> String {
    let value = dice.one(&VALUES);
    let axis = dice.one(&["x: -100%", "y: -100%"]);
    bare(dice, &format!("scale({axis}, box({value}))"))
}

fn stretched(_: &Scene, dice: &mut Dice) -> String {
    let value = dice.one(&VALUES);
    let (x, y) = (dice.between(20.0, 90.0), dice.between(110.0, 300.0));
    match dice.below(2) {
        0 => bare(
            dice,
            &format!("scale(x: {x:.0}%, y: {y:.0}%, box({value}))"),
        ),
        _ => bare(dice, &format!("skew(ax: {x:.0}deg, box({value}))")),
    }
}

/// The sign or a digit is outside of the box.
fn cut(_: &Scene, dice: &mut Dice) -> String {
    let (value, shift) = (dice.one(&VALUES), dice.between(2.0, 9.0));
    bare(
        dice,
        &format!("box(clip: true, width: 20pt, height: 9pt, move(dx: -{shift:.1}pt, {value}))"),
    )
}

fn crossed(_: &Scene, dice: &mut Dice) -> String {
    let value = dice.one(&VALUES);
    let how = dice.one(&[
        "strike(IT)",
        "strike(stroke: 4pt, IT)",
        "highlight(fill: black, IT)",
        "overline(offset: -0.3em, IT)",
        "strike(background: true, stroke: 3pt, IT)",
    ]);
    bare(dice, &how.replace("IT", value))
}

fn covered(_: &Scene, dice: &mut Dice) -> String {
    let (value, dx) = (dice.one(&VALUES), dice.between(0.0, 12.0));
    let (w, h) = (dice.between(2.0, 20.0), dice.between(3.0, 9.0));
    let content = format!(
        "box({value}) + place(top + left, dx: {dx:.1}pt, rect(width: {w:.1}pt, height: {h:.1}pt, fill: white))"
    );
    bare(dice, &content)
}

fn under_letters(_: &Scene, dice: &mut Dice) -> String {
    let (value, dx) = (dice.one(&VALUES), dice.between(0.0, 8.0));
    let letters = dice.one(&["XX", "word", "—", "I", "HH"]);
    let content = format!("box({value}) + place(top + left, dx: {dx:.1}pt, [{letters}])");
    match dice.below(3) {
        0 => beside_shipped(&format!("block({{ {content} }})")),
        _ => bare(dice, &content),
    }
}

fn scaled(_: &Scene, dice: &mut Dice) -> String {
    let (value, by) = (dice.one(&VALUES), dice.between(160.0, 700.0));
    bare(
        dice,
        &format!("scale({by:.0}%, origin: top + left, reflow: true, box({value}))"),
    )
}

/// A digit of the data raised or lowered until it is of another number.
fn raised(_: &Scene, dice: &mut Dice) -> String {
    let value = dice.one(&VALUES);
    let by = dice.between(0.6, 1.4);
    let content =
        format!("{{ show regex(\"[0-9]\"): it => text(baseline: -{by:.2}em, it)\n{value} }}");
    bare(dice, &content)
}
