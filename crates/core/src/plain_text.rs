//! Text that a person typed and a plan will show: names, numbers, reasons.

/// Why a typed text is not kept.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TextRefused {
    /// It could make a plan say something else than it says.
    #[error("{what} holds an invisible or a control character (U+{code:04X})")]
    Hidden { what: &'static str, code: u32 },
    /// It is longer than any such text.
    #[error("{what} has {length} characters; at most {longest} are kept")]
    TooLong {
        what: &'static str,
        /// How many characters it has.
        length: usize,
        longest: usize,
    },
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

/// Refuses line breaks, other control characters, and characters that hide or turn around what
/// stands beside them: a name must not be able to forge a line of the plan. The two joiners, which
/// some scripts need, are allowed. Refuses a text that is longer than any of its kind.
pub fn check(what: &'static str, text: &str) -> Result<(), TextRefused> {
    let hides = |c: char| {
        c.is_control()
            || matches!(
                c,
                '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
                    | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{00ad}'
            )
    };
    if let Some(found) = text.chars().find(|c| hides(*c)) {
        let code = u32::from(found);
        return Err(TextRefused::Hidden { what, code });
    }
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
        // What nobody types is as long as it is.
        assert_eq!(check("a composed text", &"é".repeat(5_000)), Ok(()));
    }
}
