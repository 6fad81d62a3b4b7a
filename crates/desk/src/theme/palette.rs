//! The only place with colors: what each is for, in both themes.

use egui::{Color32, Theme};

/// Colors by what they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    /// Behind everything: banner, list, findings.
    pub ground: Color32,
    pub surface: Color32,
    /// Buttons at rest.
    pub raised: Color32,
    /// Buttons under the pointer.
    pub hovered: Color32,
    /// Fields to type in.
    pub field: Color32,
    /// The fellow eye's strip: told apart from the page.
    pub quiet: Color32,
    pub selected: Color32,
    pub ink: Color32,
    /// Text that explains other text.
    pub muted: Color32,
    /// Hairlines between parts.
    pub line: Color32,
    /// Outlines of controls.
    pub outline: Color32,
    /// The focus, the chosen page, what can be pressed next.
    pub accent: Color32,
    pub on_accent: Color32,
    /// Stop findings, refused text.
    pub stop: Color32,
    /// Review findings.
    pub review: Color32,
    pub note: Color32,
    /// Behind a Stop message.
    pub stop_wash: Color32,
    /// Behind a Review message.
    pub review_wash: Color32,
    /// Behind a note.
    pub note_wash: Color32,
}

#[expect(clippy::disallowed_methods, reason = "the place where colors are made")]
const fn rgb(hex: u32) -> Color32 {
    let [_, red, green, blue] = hex.to_be_bytes();
    Color32::from_rgb(red, green, blue)
}

impl Palette {
    /// Ink on paper.
    pub const LIGHT: Self = Self {
        ground: rgb(0x00e8_edec),
        surface: rgb(0x00fb_fcfc),
        raised: rgb(0x00f0_f4f3),
        hovered: rgb(0x00e2_eae8),
        field: rgb(0x00ff_ffff),
        quiet: rgb(0x00f0_f0ea),
        selected: rgb(0x00cd_e3e2),
        ink: rgb(0x0014_201f),
        muted: rgb(0x004a_5a57),
        line: rgb(0x00c8_d1cf),
        outline: rgb(0x006a_7b78),
        accent: rgb(0x000b_5a64),
        on_accent: rgb(0x00ff_ffff),
        stop: rgb(0x009a_1b1b),
        review: rgb(0x0076_4800),
        note: rgb(0x0024_4d85),
        stop_wash: rgb(0x00fb_e9e7),
        review_wash: rgb(0x00fa_f0db),
        note_wash: rgb(0x00e7_eff8),
    };

    /// Light on slate.
    pub const DARK: Self = Self {
        ground: rgb(0x0010_1719),
        surface: rgb(0x0017_2023),
        raised: rgb(0x0023_2f33),
        hovered: rgb(0x002e_3c41),
        field: rgb(0x000d_1416),
        quiet: rgb(0x0020_2422),
        selected: rgb(0x0020_464c),
        ink: rgb(0x00e6_ecea),
        muted: rgb(0x00a8_b6b3),
        line: rgb(0x0033_4145),
        outline: rgb(0x007f_918d),
        accent: rgb(0x007d_c6cb),
        on_accent: rgb(0x0006_262a),
        stop: rgb(0x00ff_9d92),
        review: rgb(0x00f0_ba5e),
        note: rgb(0x009d_c1f1),
        stop_wash: rgb(0x003a_201f),
        review_wash: rgb(0x0034_2a14),
        note_wash: rgb(0x001c_2a3c),
    };

    pub const fn of(theme: Theme) -> &'static Self {
        match theme {
            Theme::Light => &Self::LIGHT,
            Theme::Dark => &Self::DARK,
        }
    }

    pub fn current(ui: &egui::Ui) -> &'static Self {
        Self::of(ui.theme())
    }
}

#[cfg(test)]
mod tests {
    use egui::Rgba;

    use super::*;

    /// Relative luminance after WCAG 2: linear light weighted 0.2126, 0.7152, 0.0722.
    fn luminance(color: Color32) -> f32 {
        let linear = Rgba::from(color);
        0.2126 * linear.r() + 0.7152 * linear.g() + 0.0722 * linear.b()
    }

    fn contrast(one: Color32, other: Color32) -> f32 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// Black on white is 21:1, a color on itself 1:1 (WCAG 2, definition of contrast ratio).
    #[test]
    fn the_contrast_is_measured_as_wcag_does() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 0.01);
        assert!((contrast(Color32::RED, Color32::RED) - 1.0).abs() < 0.001);
    }

    /// WCAG 2 AA: 4.5:1 for text.
    #[test]
    fn every_text_reads_on_every_background_it_stands_on() {
        for palette in [Palette::LIGHT, Palette::DARK] {
            let p = palette;
            let everywhere = [p.ground, p.surface, p.raised, p.field, p.quiet];
            for text in [p.ink, p.muted, p.accent, p.stop, p.review, p.note] {
                for background in everywhere {
                    let found = contrast(text, background);
                    assert!(4.5 <= found, "{text:?} on {background:?}: {found}");
                }
            }
            for (text, background) in [
                (p.ink, p.hovered),
                (p.ink, p.selected),
                (p.muted, p.selected),
                (p.accent, p.selected),
                (p.on_accent, p.accent),
                (p.ink, p.stop_wash),
                (p.ink, p.review_wash),
                (p.ink, p.note_wash),
                (p.muted, p.stop_wash),
                (p.muted, p.review_wash),
                (p.muted, p.note_wash),
                (p.stop, p.stop_wash),
                (p.review, p.review_wash),
                (p.note, p.note_wash),
            ] {
                let found = contrast(text, background);
                assert!(4.5 <= found, "{text:?} on {background:?}: {found}");
            }
        }
    }

    /// WCAG 2 AA: 3:1 for the outline of a control and for the focus.
    #[test]
    fn every_control_stands_out() {
        for p in [Palette::LIGHT, Palette::DARK] {
            for background in [p.ground, p.surface, p.quiet, p.field, p.raised] {
                for outline in [p.outline, p.accent, p.stop] {
                    let found = contrast(outline, background);
                    assert!(3.0 <= found, "{outline:?} on {background:?}: {found}");
                }
            }
        }
    }
}
