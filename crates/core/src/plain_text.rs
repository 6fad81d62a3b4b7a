//! Text that a person typed and a plan will show: names, numbers, reasons.

mod letters;
mod printable;

use icu_properties::props::{
    CanonicalCombiningClass, DefaultIgnorableCodePoint, GeneralCategory, JoiningType,
};
use icu_properties::{CodePointMapData, CodePointSetData};

pub use printable::is_printable;

/// Why a typed text is not kept.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TextRefused {
    /// It could make a plan say something else than it says.
    #[error("{what} holds an invisible or a control character (U+{code:04X})")]
    Hidden { what: &'static str, code: u32 },
    /// It is written in a script that no shipped typeface has: no sheet could show it.
    #[error("{what} has {script} letters (U+{code:04X}), which no sheet could be printed with")]
    ScriptNotCarried {
        what: &'static str,
        /// Name of the script, as the Unicode standard has it.
        script: &'static str,
        code: u32,
    },
    /// One character of it is in no shipped typeface, though others of its kind are.
    #[error("{what} has a character (U+{code:04X}) that no sheet could be printed with")]
    LetterNotCarried { what: &'static str, code: u32 },
    /// It is longer than any such text.
    #[error("{what} has {length} characters; at most {longest} are kept")]
    TooLong {
        what: &'static str,
        /// How many characters it has.
        length: usize,
        longest: usize,
    },
    /// There are more of them than any case has.
    #[error("{what}: there are {count}; at most {most} are kept")]
    TooMany {
        what: &'static str,
        count: usize,
        most: usize,
    },
}

/// How many entries a list has at most (house values: several times what a case has; what is longer was not
/// meant).
fn most(what: &str) -> usize {
    match what {
        "technique" | "things to have in the room" | "allergies" | "medications" => 40,
        "changes of the eye" | "other records of a lens" => 100,
        "other cases" => 20,
        "imports" | "values of an import" => 200,
        "lens records" => 2_000,
        _ => 500,
    }
}

/// Refuses a list that is longer than any of its kind.
pub fn check_count(what: &'static str, count: usize) -> Result<(), TextRefused> {
    let most = most(what);
    if count > most {
        return Err(TextRefused::TooMany { what, count, most });
    }
    Ok(())
}

/// How many characters a text has at most; nothing for what nobody types (house values: names as long
/// as people have them, a paragraph for a reason, a line for everything else).
fn longest(what: &str) -> Option<usize> {
    match what {
        "patient name" | "name of the person" | "name" | "role" | "lens name" | "lens model" => {
            Some(120)
        }
        "hospital number" => Some(40),
        "reason" => Some(1_000),
        "viscoelastic"
        | "technique"
        | "things to have in the room"
        | "allergies"
        | "medications"
        | "identifier of the instance"
        | "identifier of the class"
        | "value as it was read"
        | "value as it was taken" => Some(200),
        _ => None,
    }
}

/// Refuses line breaks, other control characters, and characters that nobody sees or that turn around
/// what stands beside them: a name must not be able to forge a line of the plan, nor two patients look
/// alike. A joiner passes where its script needs it. Refuses what no shipped typeface has: it could be
/// kept, and its sheet never printed. Refuses a text that is longer than any of its kind.
pub fn check(what: &'static str, text: &str) -> Result<(), TextRefused> {
    let hidden = text
        .char_indices()
        .find(|&(at, letter)| hides(text, at, letter));
    if let Some((_, found)) = hidden {
        let code = u32::from(found);
        return Err(TextRefused::Hidden { what, code });
    }
    printable::check(what, text)?;
    let length = text.chars().count();
    match longest(what) {
        Some(longest) if length > longest => Err(TextRefused::TooLong {
            what,
            length,
            longest,
        }),
        _ => Ok(()),
    }
}

/// Whether a letter is told apart from nothing, or from a space, by no reader. By the properties of the
/// Unicode standard, so that no list of ours grows old.
fn hides(text: &str, at: usize, letter: char) -> bool {
    use GeneralCategory as Is;
    match letter {
        // The wide space of Chinese and Japanese is seen to be one.
        ' ' | '\u{3000}' => return false,
        ZERO_WIDTH_NON_JOINER | ZERO_WIDTH_JOINER => return !is_needed(text, at, letter),
        // A pattern of no dots at all, which the standard counts among the symbols.
        '\u{2800}' => return true,
        _ => {}
    }
    let is_without_a_look = matches!(
        CodePointMapData::<GeneralCategory>::new().get(letter),
        Is::Control
            | Is::Format
            | Is::LineSeparator
            | Is::ParagraphSeparator
            | Is::SpaceSeparator
            | Is::PrivateUse
            | Is::Surrogate
            | Is::Unassigned
    );
    is_without_a_look || CodePointSetData::new::<DefaultIgnorableCodePoint>().contains(letter)
}

/// Whether a letter is obeyed where a text is shown, instead of being shown: it ends a line, turns the reading
/// direction around, or is a command to a terminal. Joiners are not: names need them.
pub fn is_obeyed(letter: char) -> bool {
    use GeneralCategory as Is;
    !matches!(letter, ZERO_WIDTH_NON_JOINER | ZERO_WIDTH_JOINER)
        && matches!(
            CodePointMapData::<GeneralCategory>::new().get(letter),
            Is::Control | Is::Format | Is::LineSeparator | Is::ParagraphSeparator
        )
}

const ZERO_WIDTH_NON_JOINER: char = '\u{200c}';
const ZERO_WIDTH_JOINER: char = '\u{200d}';

/// Whether a joiner changes how the letters beside it are written. Source: RFC 5892, appendices A.1 and
/// A.2 (from memory): either after a virama, the non-joiner also between two letters that would join.
fn is_needed(text: &str, at: usize, joiner: char) -> bool {
    let joining = CodePointMapData::<JoiningType>::new();
    let is_seen = |letter: &char| joining.get(*letter) != JoiningType::Transparent;
    let (before, from) = text.split_at(at);
    let after = from.get(joiner.len_utf8()..).unwrap_or_default();
    let classes = CodePointMapData::<CanonicalCombiningClass>::new();
    let last = before.chars().next_back();
    if last.is_some_and(|last| classes.get(last) == CanonicalCombiningClass::Virama) {
        return true;
    }
    let joins = |letter: Option<char>, side: JoiningType| {
        let of = letter.map(|letter| joining.get(letter));
        of.is_some_and(|of| of == JoiningType::DualJoining || of == side)
    };
    joiner == ZERO_WIDTH_NON_JOINER
        && joins(before.chars().rfind(is_seen), JoiningType::LeftJoining)
        && joins(after.chars().find(is_seen), JoiningType::RightJoining)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_any_script_pass_and_forgeries_do_not() {
        for name in [
            "Okonjo, Adaeze",
            "Élise Ångström",
            "राजेश्वरी शर्मा",
            "王小明",
            "مريم",
            "O’Neill-Sørensen",
            "",
        ] {
            assert_eq!(check("name", name), Ok(()), "{name}");
        }
        for (name, code) in [
            ("Smith\nLEFT EYE", "000A"),
            ("Smith\u{202e}", "202E"),
            ("\u{200b}", "200B"),
            ("a\u{1b}[2J", "001B"),
        ] {
            let message = check("patient name", name).unwrap_err().to_string();
            let expected =
                format!("patient name holds an invisible or a control character (U+{code})");
            assert_eq!(message, expected);
        }
    }

    /// Each is drawn as nothing, as a space, or turns its line around; each passed once.
    #[test]
    fn what_nobody_sees_is_refused_by_its_property() {
        let hidden = [
            '\u{61c}',
            '\u{34f}',
            '\u{ad}',
            '\u{180e}',
            '\u{fe00}',
            '\u{fe0f}',
            '\u{e0100}',
            '\u{3164}',
            '\u{ffa0}',
            '\u{115f}',
            '\u{1160}',
            '\u{2800}',
            '\u{e0041}',
            '\u{e007f}',
            '\u{206a}',
            '\u{2066}',
            '\u{2028}',
            '\u{feff}',
            '\u{a0}',
            '\u{2007}',
            '\u{202f}',
            '\u{e000}',
            '\u{378}',
            '\u{7f}',
        ];
        for letter in hidden {
            for text in [
                format!("Vale{letter}"),
                format!("Va{letter}le"),
                format!("{letter}Vale"),
            ] {
                let code = u32::from(letter);
                let what = "patient name";
                let refused = Err(TextRefused::Hidden { what, code });
                assert_eq!(check(what, &text), refused, "U+{code:04X}");
            }
        }
    }

    /// Persian "mi-khaham" and Sinhala "sri" need theirs; between Latin letters, at an end and twice they
    /// are seen by nobody.
    #[test]
    fn a_joiner_passes_where_its_script_needs_it() {
        for name in ["می\u{200c}خواهم", "ශ්\u{200d}රී", "क्\u{200d}ष", "क्\u{200c}ष"]
        {
            assert_eq!(check("name", name), Ok(()), "{name}");
        }
        for name in [
            "Va\u{200d}le",
            "Va\u{200c}le",
            "مریم\u{200c}",
            "\u{200d}مریم",
            "می\u{200c}\u{200c}خواهم",
            "مر\u{200d}یم",
        ] {
            assert!(check("name", name).is_err(), "{name}");
        }
    }

    #[test]
    fn a_text_of_its_greatest_length_passes_and_one_more_does_not() {
        for (what, longest) in [
            ("patient name", 120),
            ("hospital number", 40),
            ("name of the person", 120),
            ("reason", 1_000),
            ("technique", 200),
        ] {
            // Characters are counted, not bytes.
            assert_eq!(check(what, &"é".repeat(longest)), Ok(()), "{what}");
            let more = longest + 1;
            assert_eq!(
                check(what, &"é".repeat(more)).unwrap_err().to_string(),
                format!("{what} has {more} characters; at most {longest} are kept")
            );
        }
        for (what, most) in [
            ("allergies", 40),
            ("changes of the eye", 100),
            ("reasons", 500),
        ] {
            assert_eq!(check_count(what, most), Ok(()));
            let count = most + 1;
            assert_eq!(
                check_count(what, count),
                Err(TextRefused::TooMany { what, count, most })
            );
        }
        // What nobody types is as long as it is.
        assert_eq!(check("a composed text", &"é".repeat(5_000)), Ok(()));
    }
}
