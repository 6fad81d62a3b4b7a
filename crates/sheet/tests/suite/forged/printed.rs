//! Numbers, names of the eye and letters in the arrangement's own room that are not of the plan.

use millrace_sheet::Template;

use super::covers::{bare, beside_shipped};
use super::dice::Dice;
use super::{Scene, Way};

pub(super) const WAYS: [Way; 25] = [
    ("a large power of its own", large),
    ("a small power of its own", small),
    ("a power of many runs", pieces),
    ("digits of another script", scripts),
    ("letters that look like digits", look_alikes),
    ("a reserve named as the lens", reserve),
    ("a formula's power named as the lens", proposed),
    ("the signed power once more", once_more),
    ("a value without its sign", without_sign),
    ("a value cut out of the data", cut_out),
    ("a number of the data twice", twice),
    ("numbers of the data put together", put_together),
    ("a rule that replaces digits", replaced),
    ("another patient's number", other_number),
    ("the other eye", other_eye),
    ("the other eye in pieces", other_eye_in_pieces),
    ("white letters", white),
    ("letters that let through", transparent),
    ("tiny letters", tiny),
    ("outlined letters", outlined),
    ("letters written into each other", tracked),
    ("marks over digits", marks),
    ("a number only in the file", unseen),
    ("another direction", direction),
    ("glyphs that are not of their letters", features),
];

fn line_of(dice: &mut Dice, text: &str) -> String {
    let label = dice.one(&["Lens power", "POWER TO IMPLANT", "Implant", "Corrected:"]);
    let size = dice.between(7.0, 12.0);
    bare(
        dice,
        &format!("text(size: {size:.1}pt, weight: \"bold\")[{label} {text}]"),
    )
}

fn large(_: &Scene, dice: &mut Dice) -> String {
    let size = dice.between(12.2, 90.0);
    let power = dice.one(&["words", "LENS", "+12.00 D"]);
    bare(dice, &format!("text(size: {size:.1}pt)[{power}]"))
}

fn small(_: &Scene, dice: &mut Dice) -> String {
    let power = dice.power();
    let power = match dice.below(5) {
        0 => power.replace(' ', ""),
        1 => power.replace('.', ","),
        2 => power.trim_end_matches(" D").to_owned(),
        3 => power[power.find(|it: char| it.is_ascii_digit()).unwrap()..].to_owned(),
        _ => power,
    };
    line_of(dice, &power)
}

fn pieces(_: &Scene, dice: &mut Dice) -> String {
    let power = dice.power();
    let run = dice.one(&[
        "box[IT]",
        "text(fill: rgb(\"#000001\"))[IT]",
        "strong[IT]",
        "h(0pt) + [IT]",
        "sub[IT]",
    ]);
    let runs: Vec<_> = power
        .chars()
        .map(|it| format!("#{{{}}}", run.replace("IT", &format!("#\"{it}\""))))
        .collect();
    line_of(dice, &runs.concat())
}

fn scripts(_: &Scene, dice: &mut Dice) -> String {
    let script = dice.one(&[
        "٠١٢٣٤٥٦٧٨٩",
        "०१२३४५६७८९",
        "০১২৩৪৫৬৭৮৯",
        "⁰¹²³⁴⁵⁶⁷⁸⁹",
        "₀₁₂₃₄₅₆₇₈₉",
        "۰۱۲۳۴۵۶۷۸۹",
    ]);
    let digits: Vec<char> = script.chars().collect();
    let power = dice.power();
    let power: String = power
        .chars()
        .map(|it| it.to_digit(10).map_or(it, |digit| digits[digit as usize]))
        .collect();
    line_of(dice, &power)
}

fn look_alikes(_: &Scene, dice: &mut Dice) -> String {
    let like = [
        &["O", "o", "О"][..],
        &["l", "I", "|"],
        &["Z", "z"],
        &["З", "з"],
        &["Ч"],
        &["S", "s"],
        &["б", "G"],
        &["I"],
        &["B", "В"],
        &["g", "q"],
    ];
    let power = dice.power();
    let power: String = power
        .chars()
        .map(|it| match it.to_digit(10) {
            Some(digit) => dice.one(like[digit as usize]).to_owned(),
            None => it.to_string(),
        })
        .collect();
    line_of(dice, &format!("#\"{power}\""))
}

fn reserve(_: &Scene, dice: &mut Dice) -> String {
    let from = dice.one(&[
        "data.lens.others.at(0).power",
        "data.lens.others.at(1).power",
        "data.lens.cylinder",
    ]);
    line_of(dice, &format!("#{from}"))
}

fn proposed(_: &Scene, dice: &mut Dice) -> String {
    let from = dice.one(&["proposed", "predicted"]);
    let value = format!("data.formulas.rows.at({}).{from}", dice.below(3));
    match dice.below(3) {
        0 => line_of(dice, &format!("\\ #{value}")),
        1 => bare(
            dice,
            &format!("grid(columns: (160pt, 1fr))[LENS TO IMPLANT][#{value}]"),
        ),
        _ => line_of(dice, &format!("#{value}")),
    }
}

fn once_more(_: &Scene, dice: &mut Dice) -> String {
    let from = dice.one(&[
        "data.lens.power",
        "data.identity.number",
        "data.lens.axis",
        "data.identity.born",
    ]);
    line_of(dice, &format!("#{from}"))
}

fn without_sign(_: &Scene, dice: &mut Dice) -> String {
    let end = dice.one(&[
        "slice(3)",
        "replace(\"−\", \"\").slice(1)",
        "replace(regex(\"^.\"), \"\")",
        "replace(regex(\"^.\"), \"+1\")",
    ]);
    line_of(
        dice,
        &format!("#data.formulas.rows.first().predicted.{end}"),
    )
}

fn cut_out(_: &Scene, dice: &mut Dice) -> String {
    let (row, letter) = (dice.below(4), dice.below(2));
    let value = format!("data.measurements.rows.at({row}).value");
    line_of(
        dice,
        &format!("#{value}.clusters().slice({letter}, {letter} + 4).rev().join()D"),
    )
}

fn twice(_: &Scene, dice: &mut Dice) -> String {
    let row = dice.below(3);
    let power = format!("data.formulas.rows.at({row}).proposed");
    let again = vec![format!("#{power}"); 6].join(" or ");
    line_of(dice, &again)
}

fn put_together(_: &Scene, dice: &mut Dice) -> String {
    let gap = dice.between(0.0, 3.0);
    let (one, other) = (dice.below(4), dice.below(4));
    let number =
        |row: usize| format!("#data.measurements.rows.at({row}).value.split(\" \").first()");
    line_of(
        dice,
        &format!("{}#h({gap:.1}pt){}", number(one), number(other)),
    )
}

fn replaced(_: &Scene, dice: &mut Dice) -> String {
    let (from, to) = (dice.below(10), dice.below(9) + 1);
    let rule = match dice.below(4) {
        0 => format!("show \"{from}\": \"{}\"", (from + to) % 10),
        1 => format!("show regex(\"[{from}2]\"): [{}]", (from + to) % 10),
        2 => "show regex(\"[0-9]+\"): it => it.text.rev()".to_owned(),
        _ => "show \"−\": \"+\"".to_owned(),
    };
    let shipped = Template::shipped_arrangement().replacen("#let end(data)", "#let own(data)", 1);
    format!("{shipped}\n#let end(data) = {{ {rule}\nown(data) }}")
}

fn other_number(_: &Scene, dice: &mut Dice) -> String {
    let number = format!("{}-{}", 10 + dice.below(90), 1000 + dice.below(9000));
    let name = dice.one(&["Mbeki-Lindqvist, Sunniva", "Okonjo, Adaeze"]);
    bare(
        dice,
        &format!("text(size: 12pt, weight: \"bold\")[{name} No. {number}]"),
    )
}

fn other_eye(_: &Scene, dice: &mut Dice) -> String {
    let eye = dice.one(&[
        "LEFT EYE",
        "Left eye",
        "left  eye",
        "L E F T #h(0pt)EYE",
        "LEFT \\ EYE",
        "operate the left eye",
    ]);
    line_of(dice, eye)
}

fn other_eye_in_pieces(_: &Scene, dice: &mut Dice) -> String {
    let content = match dice.below(3) {
        0 => "box[LE]; box[FT]; h(2pt); box[EYE]".to_owned(),
        1 => "grid(columns: (auto, auto), column-gutter: 2pt)[LEFT][EYE]".to_owned(),
        _ => "block({ place(dx: 30pt)[EYE]; [LEFT] })".to_owned(),
    };
    bare(dice, &content)
}

fn white(_: &Scene, dice: &mut Dice) -> String {
    let fill = dice.one(&["white", "luma(99%)", "yellow", "luma(55%)"]);
    let content = format!("[words] + text(fill: {fill}, data.measurements.rows.first().value)");
    bare(dice, &content)
}

fn transparent(_: &Scene, dice: &mut Dice) -> String {
    let fill = dice.one(&[
        "rgb(0, 0, 0, 0)",
        "black.transparentize(90%)",
        "gradient.linear(black, white)",
        "tiling(size: (3pt, 3pt), line())",
    ]);
    bare(
        dice,
        &format!("text(fill: {fill}, data.approach.first().text + \" word\")"),
    )
}

fn tiny(_: &Scene, dice: &mut Dice) -> String {
    let size = dice.between(0.01, 4.9);
    let content = dice.one(&[
        "data.measurements.rows.first().value",
        "[word]",
        "data.approach.first().name",
    ]);
    bare(dice, &format!("text(size: {size:.2}pt, {content})"))
}

fn outlined(_: &Scene, dice: &mut Dice) -> String {
    let stroke = dice.one(&["1pt + white", "0.4pt + black", "3pt + white"]);
    bare(
        dice,
        &format!("text(stroke: {stroke}, data.measurements.rows.first().value)"),
    )
}

fn tracked(_: &Scene, dice: &mut Dice) -> String {
    let tracking = dice.between(0.15, 0.7);
    bare(
        dice,
        &format!("text(tracking: -{tracking:.2}em, data.measurements.rows.first().value)"),
    )
}

fn marks(_: &Scene, dice: &mut Dice) -> String {
    let mark = dice.one(&["\\u{338}", "\\u{336}", "\\u{20dd}", "\\u{307}", "\\u{332}"]);
    line_of(
        dice,
        &format!("#data.measurements.rows.first().value.replace(\".\", \"{mark}.\")"),
    )
}

/// Read aloud, listed beside the page, attached, or a place to click.
fn unseen(_: &Scene, dice: &mut Dice) -> String {
    let power = dice.power();
    let content = match dice.below(4) {
        0 => format!("figure(alt: \"Lens power {power}\", kind: \"x\", supplement: none)[words]"),
        1 => format!("{{ show heading: it => none; heading(level: 2)[Lens power {power}] }}"),
        2 => format!(
            "link(\"https://example.org\")[{}]",
            dice.one(&["words", "the plan"])
        ),
        _ => format!(
            "pdf.attach(\"plan.txt\", bytes(\"{power}\"), description: \"{power}\", relationship: \"data\", mime-type: \"text/plain\")"
        ),
    };
    bare(dice, &content)
}

fn direction(_: &Scene, dice: &mut Dice) -> String {
    let row = dice.below(3);
    let value = format!("data.measurements.rows.at({row}).value");
    let content = match dice.below(3) {
        0 => format!("\"\\u{{202e}}\" + {value} + \"\\u{{202c}}\""),
        1 => format!("\"\\u{{202e}}\" + {value}.rev()"),
        _ => "text(dir: rtl, \"\\u{202e}\" + data.formulas.rows.first().proposed)".to_owned(),
    };
    beside_or_bare(dice, &content)
}

fn features(_: &Scene, dice: &mut Dice) -> String {
    let feature = dice.one(&[
        "\"frac\"", "\"sups\"", "\"subs\"", "\"sinf\"", "\"numr\"", "\"dnom\"", "\"zero\"",
    ]);
    let number = match dice.below(3) {
        0 => "number-type: \"old-style\"".to_owned(),
        _ => format!("features: ({feature},)"),
    };
    let content = format!(
        "text({number}, {})",
        "data.measurements.rows.map(it => it.value).join(\" word \")"
    );
    bare(dice, &content)
}

fn beside_or_bare(dice: &mut Dice, content: &str) -> String {
    if dice.below(4) == 0 {
        return beside_shipped(content);
    }
    bare(dice, content)
}
