//! Person, look, and how numbers are written.

use egui::{Id, Ui};

use crate::settings::{Decimals, Settings, TextSize, ThemeChoice};
use crate::theme::measures;
use crate::widgets::{Field, Segments, muted, problem, section, small, text_field};

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(ui: &mut Ui, settings: &Settings) -> Option<Settings> {
    let mut next = settings.clone();
    section(ui, "Person");
    let label = muted(ui, "Your name");
    let field = Field::by(Id::unique("settings author"), label.id, "Your name");
    let author = Some(settings.author.as_str()).filter(|name| !name.is_empty());
    let entered = text_field(ui, field, author, "name of the person", 260.0);
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    if let Some(commit) = entered.commit {
        next.author = commit.value().unwrap_or_default();
    }
    small(
        ui,
        "Written beside reasons, changes of eye and stored revisions",
    );
    look(ui, &mut next);
    reading(ui, &mut next);
    (next != *settings).then_some(next)
}

fn look(ui: &mut Ui, next: &mut Settings) {
    section(ui, "Look");
    muted(ui, "Theme");
    let themes = [
        (ThemeChoice::System, "As the system"),
        (ThemeChoice::Light, "Light"),
        (ThemeChoice::Dark, "Dark"),
    ];
    let id = Id::unique("settings theme");
    if let Some(theme) = Segments::new(id, "Theme", &themes, Some(next.theme)).show(ui) {
        next.theme = theme;
    }
    ui.add_space(measures::NEAR);
    muted(ui, "Text size");
    let texts = TextSize::OFFERED.map(|size| (size, format!("{} %", size.percent())));
    let sizes = texts.each_ref().map(|(size, text)| (*size, text.as_str()));
    let id = Id::unique("settings text size");
    if let Some(size) = Segments::new(id, "Text size", &sizes, Some(next.text_size)).show(ui) {
        next.text_size = size;
    }
}

fn reading(ui: &mut Ui, next: &mut Settings) {
    section(ui, "Reading");
    muted(ui, "Decimal sign");
    let signs = [
        (Decimals::Point, "Point, 23.45"),
        (Decimals::Comma, "Comma, 23,45"),
    ];
    let id = Id::unique("settings decimals");
    let chosen = Segments::new(id, "Decimal sign", &signs, Some(next.decimals)).show(ui);
    if let Some(decimals) = chosen {
        next.decimals = decimals;
    }
    small(
        ui,
        "How numbers are written on the desk. Every field reads both; files and sheets keep the point",
    );
}
