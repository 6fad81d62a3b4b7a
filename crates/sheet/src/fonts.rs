//! The shipped typefaces, and which letters they have.

use std::sync::LazyLock;

use millrace_typefaces::Cuts;
use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    files()
        .flat_map(|file| Font::iter(Bytes::new(file)))
        .collect()
});

/// Every file, in the order in which a letter is looked for.
fn files() -> impl Iterator<Item = &'static [u8]> {
    millrace_typefaces::all().flat_map(|typeface| {
        let (regular, second) = match &typeface.cuts {
            Cuts::Variable(file) | Cuts::Regular(file) => (file, None),
            Cuts::Two { regular, bold } => (regular, Some(bold)),
        };
        [regular].into_iter().chain(second).copied()
    })
}

static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

/// What the layout engine knows of the typefaces.
pub(crate) fn book() -> &'static LazyHash<FontBook> {
    &BOOK
}

pub(crate) fn font(index: usize) -> Option<Font> {
    FONTS.get(index).cloned()
}

/// Family names, each once, in the order in which a letter is looked for.
pub(crate) fn families() -> Vec<&'static str> {
    let mut names: Vec<&str> = Vec::new();
    for font in FONTS.iter() {
        let name = font.info().family.as_str();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// The first letter that no typeface has. The two joiners only shape what stands beside them.
pub(crate) fn without_glyph(text: &str) -> Option<char> {
    text.chars().find(|&letter| {
        !matches!(letter, '\u{200c}' | '\u{200d}')
            && !FONTS
                .iter()
                .any(|font| font.info().coverage.contains(u32::from(letter)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_a_typeface() {
        assert_eq!(FONTS.len(), files().count());
        assert_eq!(families().len(), millrace_typefaces::all().count());
    }

    #[test]
    fn scripts_that_are_shipped_have_their_letters_and_others_do_not() {
        for text in [
            "Élise Ångström-O’Neill",
            "Željka Đorđević",
            "Nguyễn Thị Hương",
            "Мария Ковальчук",
            "Ελένη",
            "राजेश्वरी शर्मा",
            "مريم الخطيب",
            "שרה",
            "রহিমা",
            "முத்து",
            "王小明",
            "山﨑さくら",
            "김민수",
            "สมชาย ใจดี",
            "Անահիտ",
            "ნინო",
            "አበበ",
            "សុខា",
            "ສົມພອນ",
            "အောင်မြင့်",
            "ශ්රී",
            "గోపాల్ ಕಮಲ മീര ગીતા ਗੁਰਪ੍ਰੀਤ ଗୀତା",
            "−+×°±≥→µ@",
        ] {
            assert_eq!(without_glyph(text), None, "{text}");
        }
        assert_eq!(without_glyph("བསྟན"), Some('བ'));
        assert_eq!(without_glyph("a𠀀"), Some('𠀀'));
        assert_eq!(without_glyph("😀"), Some('😀'));
    }
}
