//! The only place with colors: what each is for, in both themes.

use egui::{Color32, Theme};

/// Colors by what they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    /// Behind everything: banner, list, findings.
    pub ground: Color32,
    /// Page.
    pub surface: Color32,
    /// Buttons at rest.
    pub raised: Color32,
    /// Buttons under the pointer.
    pub hovered: Color32,
    /// Fields to type in.
    pub field: Color32,
    /// The fellow eye's strip: told apart from the page.
    pub quiet: Color32,
    /// What is chosen.
    pub selected: Color32,
    /// Text.
    pub ink: Color32,
    /// Text that explains other text.
    pub muted: Color32,
    /// Hairlines between parts.
    pub line: Color32,
    /// Outlines of controls.
    pub outline: Color32,
    /// The focus, the chosen page, what can be pressed next.
    pub accent: Color32,
    /// Text on the accent.
    pub on_accent: Color32,
    /// Stop findings, refused text.
    pub stop: Color32,
    /// Review findings.
    pub review: Color32,
    /// Notes.
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
        ground: rgb(0xe8_ed_ec),
        surface: rgb(0xfb_fc_fc),
        raised: rgb(0xf0_f4_f3),
        hovered: rgb(0xe2_ea_e8),
        field: rgb(0xff_ff_ff),
        quiet: rgb(0xf0_f0_ea),
        selected: rgb(0xcd_e3_e2),
        ink: rgb(0x14_20_1f),
        muted: rgb(0x4a_5a_57),
        line: rgb(0xc8_d1_cf),
        outline: rgb(0x6a_7b_78),
        accent: rgb(0x0b_5a_64),
        on_accent: rgb(0xff_ff_ff),
        stop: rgb(0x9a_1b_1b),
        review: rgb(0x76_48_00),
        note: rgb(0x24_4d_85),
        stop_wash: rgb(0xfb_e9_e7),
        review_wash: rgb(0xfa_f0_db),
        note_wash: rgb(0xe7_ef_f8),
    };

    /// Light on slate.
    pub const DARK: Self = Self {
        ground: rgb(0x10_17_19),
        surface: rgb(0x17_20_23),
        raised: rgb(0x23_2f_33),
        hovered: rgb(0x2e_3c_41),
        field: rgb(0x0d_14_16),
        quiet: rgb(0x20_24_22),
        selected: rgb(0x20_46_4c),
        ink: rgb(0xe6_ec_ea),
        muted: rgb(0xa8_b6_b3),
        line: rgb(0x33_41_45),
        outline: rgb(0x7f_91_8d),
        accent: rgb(0x7d_c6_cb),
        on_accent: rgb(0x06_26_2a),
        stop: rgb(0xff_9d_92),
        review: rgb(0xf0_ba_5e),
        note: rgb(0x9d_c1_f1),
        stop_wash: rgb(0x3a_20_1f),
        review_wash: rgb(0x34_2a_14),
        note_wash: rgb(0x1c_2a_3c),
    };

    /// The palette of a theme.
    #[must_use]
    pub const fn of(theme: Theme) -> &'static Self {
        match theme {
            Theme::Light => &Self::LIGHT,
            Theme::Dark => &Self::DARK,
        }
    }

    /// The palette in use.
    #[must_use]
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
