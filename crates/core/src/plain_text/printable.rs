//! What the shipped typefaces can print.
//!
//! Core has no typeface; it has the table of their letters (`letters.rs`), which a test of the evidence
//! holds against the files.

use icu_properties::props::Script;
use icu_properties::{CodePointMapData, PropertyNamesLong};

use super::TextRefused;
use super::letters::EDGES;

/// Whether some shipped typeface has the letter. The two joiners only shape what stands beside them.
pub fn is_printable(letter: char) -> bool {
    matches!(letter, '\u{200c}' | '\u{200d}') || is_carried(u32::from(letter))
}

/// Begins and ends stand by turns: behind an odd number of them, a letter is inside a run.
fn is_carried(code: u32) -> bool {
    EDGES.partition_point(|edge| *edge <= code) % 2 == 1
}

/// Refuses the first letter that no shipped typeface has, by the name of its script if none of that
/// script is there.
pub(super) fn check(what: &'static str, text: &str) -> Result<(), TextRefused> {
    let Some(letter) = text.chars().find(|letter| !is_printable(*letter)) else {
        return Ok(());
    };
    let code = u32::from(letter);
    Err(match script_not_carried(letter) {
        Some(script) => TextRefused::ScriptNotCarried { what, script, code },
        None => TextRefused::LetterNotCarried { what, code },
    })
}

/// The script of a letter, by its name in the Unicode standard, if no letter of it is carried. What many
/// scripts have in common belongs to none.
fn script_not_carried(letter: char) -> Option<&'static str> {
    let scripts = CodePointMapData::<Script>::new();
    let script = scripts.get(letter);
    if matches!(script, Script::Common | Script::Inherited | Script::Unknown) {
        return None;
    }
    let mut its_letters = scripts.iter_ranges_for_value(script).flatten();
    if its_letters.any(is_carried) {
        return None;
    }
    PropertyNamesLong::<Script>::new().get(script)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One name of each script that is carried, invented.
    const NAMES: [&str; 24] = [
        "Nguyễn Thị Hương",
        "Ελένη",
        "Мария Ковальчук",
        "مريم الخطيب",
        "שרה",
        "राजेश्वरी शर्मा",
        "রহিমা",
        "முத்து",
        "王小明",
        "山﨑さくら",
        "カタリナ",
        "김민수",
        "สมชาย ใจดี",
        "Անահիտ",
        "ნინო ბერიძე",
        "አበበ",
        "សុខា",
        "ສົມພອນ",
        "အောင်မြင့်",
        "ශ්\u{200d}රීමතී",
        "గోపాల్",
        "ಕಮಲ",
        "മീര",
        "ગીતા",
    ];

    #[test]
    fn a_name_of_each_carried_script_is_printable() {
        for name in NAMES {
            assert_eq!(check("name", name), Ok(()), "{name}");
        }
    }

    #[test]
    fn a_script_without_a_typeface_is_refused_by_its_name() {
        for (name, script, code) in [
            ("བསྟན་འཛིན", "Tibetan", 0xF56),
            ("ᠪᠠᠲᠤ", "Mongolian", 0x182A),
            ("Vale ᏣᎳᎩ", "Cherokee", 0x13E3),
            ("ܡܪܝܡ", "Syriac", 0x721),
            ("ᬯᬬᬦ᭄", "Balinese", 0x1B2F),
            ("ދިވެހި", "Thaana", 0x78B),
            ("ⴰⵎⵉⵏⴰ", "Tifinagh", 0x2D30),
            ("ᓄᓇ", "Canadian_Aboriginal", 0x14C4),
        ] {
            let what = "patient name";
            let refused = TextRefused::ScriptNotCarried { what, script, code };
            assert_eq!(check(what, name), Err(refused), "{name}");
        }
    }

    #[test]
    fn a_single_character_without_a_typeface_is_refused_by_its_number() {
        for (name, code) in [("Vale 😀", 0x1F600), ("\u{20000}", 0x20000), ("☎", 0x260E)] {
            let what = "patient name";
            let refused = TextRefused::LetterNotCarried { what, code };
            assert_eq!(check(what, name), Err(refused), "{name}");
        }
    }

    /// At the edges of the first letters of Latin, and of all syllables of Korean.
    #[test]
    fn runs_begin_and_end_where_the_table_says() {
        for (code, carried) in [
            (0x1F, false),
            (0x20, true),
            (0x7E, true),
            (0x7F, false),
            (0xABFF, false),
            (0xAC00, true),
            (0xD7A3, true),
            (0xD7A4, false),
            (0x0010_FFFF, false),
        ] {
            assert_eq!(is_carried(code), carried, "U+{code:04X}");
        }
    }
}
