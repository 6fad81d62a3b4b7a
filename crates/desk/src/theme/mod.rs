//! How the desk looks: colors, typeface, spaces. Everything else takes its looks from here.

mod fonts;
pub mod measures;
mod palette;

use std::collections::BTreeMap;

use egui::style::{ScrollAnimation, ScrollStyle, Selection, WidgetVisuals, Widgets};
use egui::{
    Color32, Context, CornerRadius, FontFamily, FontId, Margin, Stroke, Style, TextStyle, Theme,
    ThemePreference, Vec2, Visuals,
};

pub use fonts::bold;
pub use palette::Palette;

use crate::settings::{Settings, ThemeChoice};
use crate::words;
use measures::{BODY, CONTROL, FOCUS, HEADING, NEAR, OUTLINE, ROUNDING, SECTION, SMALL, TIGHT};

/// Bold text of the size of a body text.
pub fn strong_style() -> TextStyle {
    TextStyle::Name("strong".into())
}

pub fn section_style() -> TextStyle {
    TextStyle::Name("section".into())
}

/// Gives a context the typeface and both themes; before its first pass.
pub fn install(ctx: &Context) {
    ctx.set_fonts(fonts::definitions());
    ctx.set_font_providers(vec![fonts::provider()]);
    ctx.options_mut(|options| {
        // Zoom is a setting with limits, and Ctrl+Q has a case to save first.
        options.zoom_with_keyboard = false;
        options.quit_shortcuts = Vec::new();
    });
    for theme in [Theme::Light, Theme::Dark] {
        ctx.set_style_of(theme, style(theme));
    }
}

/// Follows the person's wishes.
pub fn follow(ctx: &Context, settings: &Settings) {
    let wanted = match settings.theme {
        ThemeChoice::System => ThemePreference::System,
        ThemeChoice::Light => ThemePreference::Light,
        ThemeChoice::Dark => ThemePreference::Dark,
    };
    ctx.set_theme(wanted);
    ctx.set_zoom_factor(settings.text_size.factor());
    words::speak(ctx, settings.words);
}

fn style(theme: Theme) -> Style {
    let mut style = Style {
        text_styles: text_styles(),
        animation_time: 0.0,
        scroll_animation: ScrollAnimation::none(),
        visuals: visuals(theme),
        ..Style::default()
    };
    let spacing = &mut style.spacing;
    spacing.item_spacing = Vec2::new(NEAR, TIGHT);
    spacing.button_padding = Vec2::new(10.0, TIGHT);
    spacing.interact_size = Vec2::new(CONTROL, CONTROL);
    spacing.window_margin = Margin::same(16);
    spacing.menu_margin = Margin::same(6);
    spacing.combo_height = 320.0;
    spacing.icon_spacing = 6.0;
    spacing.scroll = ScrollStyle::solid();
    style.interaction.selectable_labels = false;
    style
}

fn text_styles() -> BTreeMap<TextStyle, FontId> {
    let plain = |size| FontId::new(size, FontFamily::Proportional);
    let heavy = |size| FontId::new(size, bold());
    [
        (TextStyle::Small, plain(SMALL)),
        (TextStyle::Body, plain(BODY)),
        (TextStyle::Button, plain(BODY)),
        (TextStyle::Monospace, plain(BODY)),
        (TextStyle::Heading, heavy(HEADING)),
        (strong_style(), heavy(BODY)),
        (section_style(), heavy(SECTION)),
    ]
    .into()
}

fn visuals(theme: Theme) -> Visuals {
    let palette = Palette::of(theme);
    let mut visuals = match theme {
        Theme::Light => Visuals::light(),
        Theme::Dark => Visuals::dark(),
    };
    visuals.widgets = widgets(palette);
    visuals.selection = Selection {
        bg_fill: palette.selected,
        stroke: Stroke::new(FOCUS, palette.accent),
    };
    visuals.override_text_color = None;
    visuals.weak_text_color = Some(palette.muted);
    visuals.hyperlink_color = palette.accent;
    visuals.faint_bg_color = palette.quiet;
    visuals.extreme_bg_color = palette.field;
    visuals.text_edit_bg_color = Some(palette.field);
    visuals.code_bg_color = palette.raised;
    visuals.warn_fg_color = palette.review;
    visuals.error_fg_color = palette.stop;
    visuals.window_fill = palette.surface;
    visuals.window_stroke = Stroke::new(OUTLINE, palette.outline);
    visuals.window_corner_radius = CornerRadius::same(ROUNDING + 2);
    visuals.menu_corner_radius = CornerRadius::same(ROUNDING);
    visuals.panel_fill = palette.surface;
    visuals.text_cursor.blink = false;
    visuals.text_cursor.stroke = Stroke::new(FOCUS, palette.accent);
    visuals
}

fn widgets(palette: &Palette) -> Widgets {
    let look = |fill: Color32, outline: Stroke, ink: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: outline,
        corner_radius: CornerRadius::same(ROUNDING),
        fg_stroke: Stroke::new(1.0, ink),
        expansion: 0.0,
    };
    let thin = |color| Stroke::new(OUTLINE, color);
    Widgets {
        noninteractive: look(palette.surface, thin(palette.line), palette.ink),
        inactive: WidgetVisuals {
            // Scroll handles: seen against what they slide on.
            bg_fill: palette.outline,
            ..look(palette.raised, thin(palette.outline), palette.ink)
        },
        hovered: look(palette.hovered, thin(palette.ink), palette.ink),
        active: look(
            palette.hovered,
            Stroke::new(FOCUS, palette.accent),
            palette.ink,
        ),
        open: look(palette.hovered, thin(palette.accent), palette.ink),
    }
}
