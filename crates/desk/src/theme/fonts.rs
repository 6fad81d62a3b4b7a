//! The typeface: Noto Sans, shipped with the program and shared with the sheet.
//!
//! Its figures are of one width, plus and minus nearly so, so that numbers stand under each other, and
//! it covers Latin, Greek, Cyrillic and Devanagari names. Arrows and operators come from its
//! mathematical sister, every other script from a typeface of its own, which is read when the first letter
//! of it is to be drawn. Shapes that carry a meaning are drawn, never typed.

use std::sync::Arc;

use egui::epaint::text::{
    FallbackRequest, FontInsert, FontPriority, FontProvider, InsertFontFamily, VariationCoords,
};
use egui::{FontData, FontDefinitions, FontFamily, FontTweak};
use millrace_typefaces::{OPERATORS, TEXT, with_letter};

const REGULAR_WEIGHT: f32 = 400.0;
const BOLD_WEIGHT: f32 = 680.0;

/// The bold cut, as a family of its own.
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

pub(super) fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    let weighing = |weight: f32| FontTweak {
        coords: VariationCoords::new([(b"wght", weight)]),
        ..FontTweak::default()
    };
    for (name, bytes, tweak) in [
        ("regular", TEXT.cuts.regular(), weighing(REGULAR_WEIGHT)),
        ("bold", TEXT.cuts.bold(), weighing(BOLD_WEIGHT)),
        ("operators", OPERATORS.cuts.regular(), FontTweak::default()),
    ] {
        let data = FontData::from_static(bytes).tweak(tweak);
        fonts.font_data.insert(name.to_owned(), Arc::new(data));
    }
    for (family, first) in [
        (FontFamily::Proportional, "regular"),
        (FontFamily::Monospace, "regular"),
        (bold(), "bold"),
    ] {
        let names = [first, "operators"].map(str::to_owned).to_vec();
        fonts.families.insert(family, names);
    }
    fonts
}

/// Finds the typeface of a letter that the two above do not have.
pub(super) fn provider() -> Arc<dyn FontProvider> {
    Arc::new(|request: &FallbackRequest<'_>| {
        let typeface = with_letter(request.cluster.chars().next()?)?;
        let (cut, file) = if *request.family == bold() {
            ("bold", typeface.cuts.bold())
        } else {
            ("regular", typeface.cuts.regular())
        };
        let family = InsertFontFamily {
            family: request.family.clone(),
            priority: FontPriority::Lowest,
        };
        Some(FontInsert::new(
            &format!("{} {cut}", typeface.name),
            FontData::from_static(file),
            vec![family],
        ))
    })
}

#[cfg(test)]
mod tests {
    use millrace_core::rules;

    use super::*;

    /// Every character of every rule's texts and of what pages write themselves.
    #[test]
    fn no_character_of_ours_is_missing() {
        let ctx = egui::Context::default();
        ctx.set_fonts(definitions());
        let mut texts = vec!["−+±×°µ²…–·→←↑↓≤≥√ÅÉøशЖΩ".to_owned()];
        for rule in rules::ALL {
            texts.extend([rule.title, rule.checks, rule.why, rule.options].map(str::to_owned));
            texts.extend(rule.sources.iter().map(ToString::to_string));
        }
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            for family in [FontFamily::Proportional, bold()] {
                let font = egui::FontId::new(13.0, family);
                for letter in texts.iter().flat_map(|text| text.chars()) {
                    let has = ui.fonts_mut(|fonts| fonts.has_glyph(&font, letter));
                    assert!(has, "{letter:?} U+{:04X}", u32::from(letter));
                }
            }
        });
        output.textures_delta.clear();
    }

    /// What can be entered can be seen: one letter of each typeface, in both weights.
    #[test]
    fn a_letter_of_every_script_is_drawn() {
        let ctx = egui::Context::default();
        ctx.set_fonts(definitions());
        let letters = "شשशরম王さカ김سԱნአไលລမශతಕമગਗଓ";
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            let regular = egui::FontId::new(13.0, FontFamily::Proportional);
            let has = ui.fonts_mut(|fonts| fonts.has_glyph(&regular, '김'));
            assert!(!has, "without the provider it is a box");
        });
        output.textures_delta.clear();
        ctx.set_font_providers(vec![provider()]);
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            for family in [FontFamily::Proportional, bold()] {
                let font = egui::FontId::new(13.0, family);
                for letter in letters.chars() {
                    let has = ui.fonts_mut(|fonts| fonts.has_glyph(&font, letter));
                    assert!(has, "{letter:?} U+{:04X}", u32::from(letter));
                }
            }
        });
        output.textures_delta.clear();
    }

    /// Columns of signed numbers stand under each other.
    #[test]
    fn figures_and_signs_are_of_one_width() {
        let ctx = egui::Context::default();
        ctx.set_fonts(definitions());
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            for family in [FontFamily::Proportional, bold()] {
                let font = egui::FontId::new(13.0, family);
                let width = |letter| ui.fonts_mut(|fonts| fonts.glyph_width(&font, letter));
                let zero = width('0');
                for letter in "123456789".chars() {
                    assert!((width(letter) - zero).abs() < 0.01, "{letter}");
                }
                let (plus, minus) = (width('+'), width('\u{2212}'));
                // The bold minus is a hundredth of the size wider than the plus.
                assert!((plus - minus).abs() < 0.15, "{plus} {minus}");
            }
        });
        output.textures_delta.clear();
    }
}
