//! Who sits here, and how the desk looks.

use egui::{Id, Ui};

use crate::settings::{Settings, TextSize, ThemeChoice};
use crate::theme::measures;
use crate::widgets::{Named, Segments, heading, muted, problem, section, small, text_field};

/// Shows the settings; returns new ones when something was changed.
pub fn settings_page(ui: &mut Ui, settings: &Settings) -> Option<Settings> {
    let mut next = settings.clone();
    heading(ui, "Settings");
    section(ui, "At the desk");
    let label = muted(ui, "Your name");
    let field = (Id::unique("settings author"), Named::By(label.id));
    let author = Some(settings.author.as_str()).filter(|name| !name.is_empty());
    let entered = text_field(ui, field, (author, "name of the person"), 260.0);
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

    section(ui, "Looks");
    muted(ui, "Theme");
    let themes = [
        (ThemeChoice::System, "As the system"),
        (ThemeChoice::Light, "Light"),
        (ThemeChoice::Dark, "Dark"),
    ];
    let id = Id::unique("settings theme");
    if let Some(theme) = Segments::new(id, "Theme", &themes, Some(settings.theme)).show(ui) {
        next.theme = theme;
    }
    ui.add_space(measures::NEAR);
    muted(ui, "Text size");
    let texts = TextSize::OFFERED.map(|size| (size, format!("{} %", size.percent())));
    let sizes = texts.each_ref().map(|(size, text)| (*size, text.as_str()));
    let id = Id::unique("settings text size");
    if let Some(size) = Segments::new(id, "Text size", &sizes, Some(settings.text_size)).show(ui) {
        next.text_size = size;
    }
    (next != *settings).then_some(next)
}
