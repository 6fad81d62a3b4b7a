//! Person, look, and how numbers are written.

use egui::{Id, Ui};
use millrace_wording::DecimalSign;
use millrace_wording::desk::settings as say;

use crate::settings::{Settings, TextSize, ThemeChoice};
use crate::theme::measures;
use crate::widgets::{Field, Segments, muted, problem, section, small, text_field};
use crate::words::in_use;

/// Width of a name.
const OWN_TEXT: f32 = 260.0;

/// Shows the part; returns new settings when something was changed.
pub(super) fn show(ui: &mut Ui, settings: &Settings, computer: &str) -> Option<Settings> {
    let mut next = settings.clone();
    let words = in_use(ui);
    section(ui, say::person(words));
    let author = (say::your_name(words), "name of the person");
    own_text(ui, "author", author, &mut next.author);
    small(ui, say::what_the_name_is_for(words));
    let role = (say::your_role(words), "role");
    own_text(ui, "role", role, &mut next.role);
    small(ui, say::what_the_role_is_for(words));
    section(ui, say::this_desk(words));
    let desk = (say::desk_name(words), "name of the desk");
    own_text(ui, "desk", desk, &mut next.desk);
    small(ui, say::what_the_desk_is_for(words));
    if !computer.trim().is_empty() {
        small(ui, say::named_as_computer(words, computer));
    }
    look(ui, &mut next);
    reading(ui, &mut next);
    (next != *settings).then_some(next)
}

/// A text of one's own behind its name; `what` is what a refusal calls it.
fn own_text(ui: &mut Ui, id: &str, (name, what): (&str, &'static str), text: &mut String) {
    let label = muted(ui, name);
    let field = Field::by(Id::unique(("settings", id)), label.id, name);
    let stands = Some(text.as_str()).filter(|text| !text.is_empty());
    let entered = text_field(ui, field, stands, what, OWN_TEXT);
    if let Some(why) = entered.problem {
        problem(ui, &why);
    }
    if let Some(commit) = entered.commit {
        *text = commit.value().unwrap_or_default();
    }
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
