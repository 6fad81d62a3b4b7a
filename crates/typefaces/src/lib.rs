//! The typefaces of window and paper, once in the program, and which of them has a letter.
//!
//! All are free under the SIL Open Font License (`assets/fonts/OFL.txt`); `assets/fonts/make.py` makes
//! them. What they can print is what a person can enter: `millrace_core::plain_text` has their letters as
//! a table, which a test of the evidence holds against these files.

/// A typeface of one script, or of the few that a name mixes.
#[derive(Debug)]
pub struct Typeface {
    /// What it is called here; no two have the same.
    pub name: &'static str,
    pub cuts: Cuts,
}

/// In which weights it is there, as the bytes of font files.
#[derive(Debug)]
pub enum Cuts {
    /// Every weight in one file.
    Variable(&'static [u8]),
    Two {
        regular: &'static [u8],
        bold: &'static [u8],
    },
    /// One, which stands for bold too: a second cut of 30,000 ideographs and syllables would make the
    /// program heavier by half of all its typefaces, and a name is told apart by its strokes.
    Regular(&'static [u8]),
}

impl Cuts {
    /// The file to draw ordinary text with.
    pub const fn regular(&self) -> &'static [u8] {
        match self {
            Self::Variable(file) | Self::Regular(file) => file,
            Self::Two { regular, .. } => regular,
        }
    }

    /// The file to draw bold text with.
    pub const fn bold(&self) -> &'static [u8] {
        match self {
            Self::Variable(file) | Self::Regular(file) => file,
            Self::Two { bold, .. } => bold,
        }
    }
}

macro_rules! of_script {
    ($script:literal) => {
        Typeface {
            name: $script,
            cuts: Cuts::Two {
                regular: include_bytes!(concat!(
                    "../../../assets/fonts/NotoSans",
                    $script,
                    "-Regular.ttf"
                )),
                bold: include_bytes!(concat!(
                    "../../../assets/fonts/NotoSans",
                    $script,
                    "-Bold.ttf"
                )),
            },
        }
    };
}

/// Latin, Greek and Cyrillic: what everything of ours is written in.
pub static TEXT: Typeface = Typeface {
    name: "text",
    cuts: Cuts::Variable(include_bytes!(
        "../../../assets/fonts/NotoSans-Variable.ttf"
    )),
};

/// Arrows and operators.
pub static OPERATORS: Typeface = Typeface {
    name: "operators",
    cuts: Cuts::Regular(include_bytes!(
        "../../../assets/fonts/NotoSansMath-Operators.ttf"
    )),
};

/// Every other script that a name can be in, in the order in which a letter is looked for.
pub static SCRIPTS: [Typeface; 20] = [
    of_script!("Arabic"),
    of_script!("Hebrew"),
    of_script!("Devanagari"),
    of_script!("Bengali"),
    of_script!("Tamil"),
    Typeface {
        name: "Names of China, Japan and Korea",
        cuts: Cuts::Regular(include_bytes!(
            "../../../assets/fonts/NotoSansCJKsc-Regular-Names.otf"
        )),
    },
    of_script!("Armenian"),
    of_script!("Ethiopic"),
    of_script!("Georgian"),
    of_script!("Gujarati"),
    of_script!("Gurmukhi"),
    of_script!("Kannada"),
    of_script!("Khmer"),
    of_script!("Lao"),
    of_script!("Malayalam"),
    of_script!("Myanmar"),
    of_script!("Oriya"),
    of_script!("Sinhala"),
    of_script!("Telugu"),
    of_script!("Thai"),
];

/// All of them, in the order in which a letter is looked for.
pub fn all() -> impl Iterator<Item = &'static Typeface> {
    [&TEXT, &OPERATORS].into_iter().chain(&SCRIPTS)
}

/// The first typeface that has the letter.
pub fn with_letter(letter: char) -> Option<&'static Typeface> {
    all().find(|typeface| {
        ttf_parser::Face::parse(typeface.cuts.regular(), 0)
            .is_ok_and(|face| face.glyph_index(letter).is_some())
    })
}

#[cfg(test)]
mod tests {
    use millrace_core::case::plain_text::is_printable;

    use super::*;

    /// As many bytes as issue and package allow for typefaces.
    #[test]
    fn all_files_are_typefaces_and_take_twelve_megabytes_at_most() {
        let mut bytes = 0;
        for typeface in all() {
            let mut files = vec![typeface.cuts.regular(), typeface.cuts.bold()];
            files.dedup_by_key(|file| file.as_ptr());
            for file in files {
                assert!(
                    ttf_parser::Face::parse(file, 0).is_ok(),
                    "{}",
                    typeface.name
                );
                bytes += file.len();
            }
        }
        assert!(bytes <= 12_000_000, "{bytes}");
    }

    #[test]
    fn a_letter_is_found_in_the_typeface_of_its_script() {
        for (letter, name) in [
            ('a', "text"),
            ('Ж', "text"),
            ('≥', "operators"),
            ('ش', "Arabic"),
            ('김', "Names of China, Japan and Korea"),
            ('さ', "Names of China, Japan and Korea"),
            ('王', "Names of China, Japan and Korea"),
            ('ន', "Khmer"),
            ('ශ', "Sinhala"),
        ] {
            assert_eq!(
                with_letter(letter).map(|it| it.name),
                Some(name),
                "{letter}"
            );
        }
        assert!(with_letter('ཀ').is_none());
    }

    /// What one cut has the other has: bold text never has a box where regular text has a letter.
    #[test]
    fn both_cuts_have_the_same_letters() {
        for typeface in all() {
            let [regular, bold] = [typeface.cuts.regular(), typeface.cuts.bold()].map(letters);
            assert_eq!(regular, bold, "{}", typeface.name);
        }
    }

    /// What is refused at entry is what could not be printed, and nothing else.
    #[test]
    fn every_letter_that_is_kept_has_a_typeface_and_no_other() {
        let mut have: Vec<u32> = all().flat_map(|it| letters(it.cuts.regular())).collect();
        have.sort_unstable();
        for letter in '\0'..=char::MAX {
            let joins = matches!(letter, '\u{200c}' | '\u{200d}');
            let has_typeface = joins || have.binary_search(&u32::from(letter)).is_ok();
            let code = u32::from(letter);
            assert_eq!(is_printable(letter), has_typeface, "U+{code:04X}");
        }
    }

    fn letters(file: &[u8]) -> Vec<u32> {
        let face = ttf_parser::Face::parse(file, 0).unwrap();
        let mut found = Vec::new();
        for table in face.tables().cmap.unwrap().subtables {
            if table.is_unicode() {
                table.codepoints(|code| found.push(code));
            }
        }
        found.sort_unstable();
        found.dedup();
        found
    }
}
