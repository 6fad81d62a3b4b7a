//! Text that a person typed and a plan will show: names, numbers, reasons.

/// A text that could make a plan say something else than it says.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{what} holds an invisible or a control character (U+{code:04X})")]
pub struct HiddenCharacter {
    /// What the text is.
    pub what: &'static str,
    /// The character.
    pub code: u32,
}

/// Refuses line breaks, other control characters, and characters that hide or turn around what
/// stands beside them: a name must not be able to forge a line of the plan. The two joiners, which
/// some scripts need, are allowed.
///
/// # Errors
///
/// [`HiddenCharacter`], with the first one.
pub fn check(what: &'static str, text: &str) -> Result<(), HiddenCharacter> {
    let hides = |c: char| {
        c.is_control()
            || matches!(
                c,
                '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
                    | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{00ad}'
            )
    };
    match text.chars().find(|c| hides(*c)) {
        None => Ok(()),
        Some(found) => Err(HiddenCharacter {
            what,
            code: u32::from(found),
        }),
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
}
