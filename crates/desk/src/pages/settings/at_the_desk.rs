//! Person, look, and how numbers are written.

use egui::{Id, Ui};
use millrace_wording::DecimalSign;
use millrace_wording::desk::settings as say;

use crate::settings::{Settings, TextSize, ThemeChoice};
use crate::theme::measures;
use crate::widgets::{Field, Segments, muted, problem, section, small, text_field};
use crate::words::in_use;

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(ui: &mut Ui, settings: &Settings) -> Option<Settings> {
    let mut next = settings.clone();
    let words = in_use(ui);
    section(ui, say::person(words));
    let name = say::your_name(words);
    let label = muted(ui, name);
    let field = Field::by(Id::unique("settings author"), label.id, name);
    let author = Some(settings.author.as_str()).filter(|name| !name.is_empty());
    let entered = text_field(ui, field, author, "name of the person", 260.0);
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    if let Some(commit) = entered.commit {
        next.author = commit.value().unwrap_or_default();
    }
    small(ui, say::what_the_name_is_for(words));
    look(ui, &mut next);
    reading(ui, &mut next);
    (next != *settings).then_some(next)
}

fn look(ui: &mut Ui, next: &mut Settings) {
    let words = in_use(ui);
    section(ui, say::look(words));
    let name = say::theme(words);
    muted(ui, name);
    let themes = [
        (ThemeChoice::System, say::as_system(words)),
        (ThemeChoice::Light, say::light(words)),
        (ThemeChoice::Dark, say::dark(words)),
    ];
    let id = Id::unique("settings theme");
    if let Some(theme) = Segments::new(id, name, &themes, Some(next.theme)).show(ui) {
        next.theme = theme;
    }
    ui.add_space(measures::NEAR);
    let name = say::text_size(words);
    muted(ui, name);
    let texts = TextSize::OFFERED.map(|size| (size, say::percent(words, size.percent())));
    let sizes = texts.each_ref().map(|(size, text)| (*size, text.as_str()));
    let id = Id::unique("settings text size");
    if let Some(size) = Segments::new(id, name, &sizes, Some(next.text_size)).show(ui) {
        next.text_size = size;
    }
}

fn reading(ui: &mut Ui, next: &mut Settings) {
    let words = in_use(ui);
    section(ui, say::reading(words));
    let name = say::decimal_sign(words);
    muted(ui, name);
    let texts = [
        say::point(words, DecimalSign::Point.write("23.45")),
        say::comma(words, DecimalSign::Comma.write("23.45")),
    ];
    let signs = [
        (DecimalSign::Point, texts[0].as_str()),
        (DecimalSign::Comma, texts[1].as_str()),
    ];
    let id = Id::unique("settings decimals");
    let chosen = Segments::new(id, name, &signs, Some(next.words.decimals)).show(ui);
    if let Some(decimals) = chosen {
        next.words.decimals = decimals;
    }
    small(ui, say::how_numbers_are_written(words));
}
