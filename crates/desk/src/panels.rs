//! What stands where in the window: banner, theatre list, page, findings, foot.

use egui::{CentralPanel, Frame, Margin, Panel, RichText, ScrollArea, Stroke, Ui};
use millrace_core::rules::Severity;
use millrace_wording::desk::{frame as say, list as list_say};

use crate::exchange::{Keeps, Request, Surroundings};
use crate::frame::reference::Reading;
use crate::frame::status::StatusView;
use crate::frame::theatre_list::{Aside, OpenRow};
use crate::frame::{
    aside_band, banner, conflict, day, file_panel, findings, first_run, left_behind, lock_band,
    shortcuts, status, tabs, theatre_list,
};
use crate::message::Message;
use crate::pages::settings::{SettingsView, settings_page};
use crate::pages::sheet::{SheetView, sheet_page};
use crate::pages::{self, CaseView, second_look};
use crate::session::Session;
use crate::settings::Settings;
use crate::state::{OpenCase, State, who};
use crate::theme::{Palette, measures, strong_style};
use crate::whereabouts::{Front, Page, Side};
use crate::widgets::{Fields, follow_focus, hold, minor_button, notice, reading, sought, waiting};
use crate::words::in_use;

/// Shows everything; returns what the person did.
pub(crate) fn show(state: &mut State, ui: &mut Ui) -> Vec<Message> {
    let mut messages = Vec::new();
    let palette = Palette::current(ui);
    let (width, height) = (ui.available_width(), ui.available_height());
    let is_low = height < measures::LOW;
    let is_narrow = width < measures::NARROW;
    let band = |x, y| {
        Frame::new()
            .fill(palette.ground)
            .inner_margin(Margin::symmetric(x, y))
    };
    if state.around.keeps == Keeps::Nothing {
        messages.extend(demo_band(ui));
    }
    let is_blind = state.is_blind();
    let in_settings = state.front == Front::Settings;
    if let Some(open) = &state.open {
        let session = &open.session;
        let frame = band(16, if is_low { 4 } else { 10 });
        let panel = Panel::top("banner").resizable(false).frame(frame);
        panel.show(ui, |ui| {
            if is_blind {
                banner::without_what_is_entered(ui, session.draft());
            } else {
                banner::show(ui, session.draft(), open.signed(), height);
            }
        });
    }
    let foot = Panel::bottom("status").resizable(false).frame(band(16, 4));
    let view = StatusView {
        session: state.session(),
        waiting: &state.waiting(ui.ctx()),
        is_typing: state.is_typing(ui.ctx()),
        author: &state.settings.author,
        keeps: state.around.keeps,
        narrow: (is_narrow && !is_blind && !in_settings).then_some(state.side),
    };
    messages.extend(foot.show(ui, |ui| status::show(ui, &view)).inner);
    let is_first_run = state.list.is_empty_register() && state.open.is_none();
    if !is_narrow && !is_first_run && !is_blind {
        let panel = Panel::left("theatre list")
            .resizable(false)
            .exact_size(measures::LIST_WIDTH)
            .frame(band(12, 12));
        messages.extend(panel.show(ui, |ui| list(state, ui)).inner);
    }
    if !is_narrow && state.open.is_some() && state.front != Front::Day && !in_settings && !is_blind
    {
        let panel = Panel::right("findings")
            .resizable(false)
            .exact_size(measures::FINDINGS_WIDTH)
            .frame(band(12, 12));
        messages.extend(panel.show(ui, |ui| shown_findings(state, ui)).inner);
    }
    let middle = CentralPanel::default().frame(Frame::new().fill(palette.surface));
    let narrow = is_narrow.then_some(state.side);
    middle.show(ui, |ui| center(state, ui, narrow, &mut messages));
    if state.shows_shortcuts && shortcuts::sheet(ui) {
        messages.push(Message::ShowShortcuts);
    }
    if let Some(topic) = reading::take(ui.ctx()) {
        state.reading = Some(Reading::of(topic));
    }
    if state.reading.as_ref().is_some_and(|it| it.show(ui)) {
        state.reading = None;
    }
    messages
}

/// On every page: the invented cases look like any others.
fn demo_band(ui: &mut Ui) -> Option<Message> {
    let palette = Palette::current(ui);
    let frame = Frame::new()
        .fill(palette.review_wash)
        .inner_margin(Margin::symmetric(16, 4));
    let words = in_use(ui);
    let panel = Panel::top("demo").resizable(false).frame(frame);
    panel
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                let text = RichText::new(say::demo(words)).text_style(strong_style());
                ui.label(text.color(palette.review));
                minor_button(ui, say::own_register(words))
                    .clicked()
                    .then_some(Message::Ask(Request::OpenOwn))
            })
            .inner
        })
        .inner
}

fn list(state: &mut State, ui: &mut Ui) -> Vec<Message> {
    let open = state.open.as_ref().map(|open| OpenRow {
        case: open.session.case(),
        day: open.session.draft().operation.date,
        aside: match open.session.draft() {
            _ if open.is_locked() => None,
            draft if draft.is_empty() => Some(Aside::Discard),
            _ => Some(Aside::WithReason),
        },
    });
    theatre_list::show(ui, &mut state.list, (state.around.today, open))
}

fn shown_findings(state: &mut State, ui: &mut Ui) -> Vec<Message> {
    let Some(open) = &mut state.open else {
        return Vec::new();
    };
    let view = CaseView::of(&open.session, &state.around, &state.settings);
    hold(ui, fields(open));
    let messages = ScrollArea::vertical()
        .id_salt("findings")
        .auto_shrink(false)
        .show(ui, |ui| {
            let messages = findings::show(ui, &view, &mut open.findings);
            follow_focus(ui);
            messages
        })
        .inner;
    hold(ui, Fields::Open);
    messages
}

fn center(state: &mut State, ui: &mut Ui, narrow: Option<Side>, messages: &mut Vec<Message>) {
    if let Some(panel) = &mut state.file_panel {
        messages.extend(file_panel::show(ui, panel));
    }
    if let Some((severity, words)) = &state.notice {
        let put_away = notice(ui, *severity, |ui| {
            ui.label(words);
            minor_button(ui, say::dismiss(in_use(ui))).clicked()
        });
        if put_away {
            messages.push(Message::Dismiss);
        }
    }
    let padding = Margin::symmetric(if narrow.is_some() { 12 } else { 20 }, 0);
    if state.is_blind() {
        return page_area(state, ui, Frame::new().inner_margin(padding), messages);
    }
    messages.extend(left_behind(state, ui));
    if let Some(open) = &state.open {
        let page = (state.front == Front::Page).then_some(state.page);
        let row = Frame::new().inner_margin(Margin {
            left: 8,
            top: 4,
            bottom: 0,
            ..padding
        });
        let asked = row.show(ui, |ui| tabs::show(ui, page, &open.session, narrow));
        messages.extend(asked.inner);
        hairline(ui);
    } else if narrow.is_some() && state.front == Front::Page && !state.list.is_empty_register() {
        let frame = Frame::new().inner_margin(Margin::same(12));
        messages.extend(frame.show(ui, |ui| list(state, ui)).inner);
        return;
    }
    let frame = Frame::new().inner_margin(padding);
    match narrow {
        Some(Side::List) => messages.extend(frame.show(ui, |ui| list(state, ui)).inner),
        Some(Side::Findings) => {
            messages.extend(frame.show(ui, |ui| shown_findings(state, ui)).inner);
        }
        _ => page_area(state, ui, frame, messages),
    }
}

/// What a window left behind that ended otherwise than by being closed.
fn left_behind(state: &State, ui: &mut Ui) -> Vec<Message> {
    let view = left_behind::LeftView {
        left: state.typing.left(),
        open: state.session().map(Session::case),
        fields: state.open.as_ref().map(fields).unwrap_or_default(),
    };
    left_behind::show(ui, &view)
}

/// What is planned stays in sight over the page that it is planned on.
fn pinned(state: &State, ui: &mut Ui, frame: Frame) {
    let Some(open) = &state.open else { return };
    if state.front != Front::Page || state.page != Page::Lens {
        return;
    }
    let view = CaseView::of(&open.session, &state.around, &state.settings);
    let row = Frame::new().inner_margin(Margin {
        top: 6,
        bottom: 6,
        ..frame.inner_margin
    });
    row.show(ui, |ui| pages::lens::pinned(ui, &view));
    hairline(ui);
}

fn page_area(state: &mut State, ui: &mut Ui, frame: Frame, messages: &mut Vec<Message>) {
    pinned(state, ui, frame);
    let salt = (state.page as u8, state.front as u8);
    ScrollArea::vertical()
        .id_salt(salt)
        .auto_shrink(false)
        .show(ui, |ui| {
            frame.show(ui, |ui| {
                ui.add_space(measures::NEAR);
                messages.extend(in_front(state, ui));
                ui.add_space(measures::FAR);
            });
            follow_focus(ui);
        });
}

/// Somebody else's draft beside one's own, until it is settled.
fn side_by_side(
    ui: &mut Ui,
    open: &mut OpenCase,
    at: (&Settings, &Surroundings),
) -> Option<Message> {
    let conflict = open.conflict.as_ref()?;
    let here = who(at.0, at.1);
    let view = conflict::ConflictView {
        conflict,
        mine: open.session.draft(),
        version: open.session.version(),
        here: &here,
    };
    conflict::show(ui, &view, &mut open.choices)
}

/// The settings, the second look, or a page.
fn in_front(state: &mut State, ui: &mut Ui) -> Vec<Message> {
    if state.front == Front::Settings {
        let view = SettingsView {
            settings: &state.settings,
            around: &state.around,
        };
        // Their fields belong to no case.
        waiting::belong_to(ui.ctx(), None);
        let asked = settings_page(ui, &view, &mut state.settings_page);
        return asked.into_iter().collect();
    }
    let is_empty = state.list.is_empty_register() && state.open.is_none();
    if is_empty {
        return first_run::show(ui);
    }
    if state.front == Front::Day || state.open.is_none() {
        return day_view(state, ui);
    }
    let is_blind = state.is_blind();
    let waiting = state.waiting(ui.ctx());
    let Some(open) = &mut state.open else {
        return Vec::new();
    };
    let mut messages = Vec::new();
    // Both values of every difference stand in it: nothing for who enters them without seeing.
    if !is_blind {
        messages.extend(side_by_side(ui, open, (&state.settings, &state.around)));
    }
    if let Some(refused) = open.session.refused() {
        notice(ui, Severity::Stop, |ui| {
            let words = in_use(ui);
            ui.label(say::not_done(words, refused));
        });
    }
    let case = CaseView::of(&open.session, &state.around, &state.settings);
    if let (Ok(plan), Front::Page) = (case.plan, state.front) {
        sought::mark(ui, findings::marks(in_use(ui), plan, state.page));
    }
    if let Some(said) = &case.draft.set_aside {
        messages.extend(aside_band::show(ui, said));
    } else {
        messages.extend(lock_band::show(ui, open.signed(), open.lock));
    }
    if open.asks_why_aside {
        hold(ui, Fields::Open);
        messages.extend(aside_band::ask(ui, &case));
    }
    if state.front == Front::SecondLook {
        hold(ui, fields(open));
        let asked = second_look::second_look_page(ui, &case, &mut open.pages.second_look);
        if asked.leaves {
            messages.push(Message::Turn(Front::SecondLook));
        }
        messages.extend(asked.command.map(Message::Change));
    } else if state.page == Page::Sheet {
        let view = SheetView {
            case,
            session: &open.session,
            settings: &state.settings,
            waiting: &waiting,
            fields: fields(open),
        };
        messages.extend(sheet_page(ui, &view, &mut open.pages.sheet));
    } else {
        hold(ui, fields(open));
        let commands = pages::show(ui, state.page, &case, &mut open.pages);
        messages.extend(commands.into_iter().map(Message::Change));
    }
    hold(ui, Fields::Open);
    sought::mark(ui, sought::Marks::new());
    sought::grow_impatient(ui);
    messages
}

fn day_view(state: &mut State, ui: &mut Ui) -> Vec<Message> {
    let words = in_use(ui);
    let is_narrow = ui.ctx().content_rect().width() < measures::NARROW;
    let way_back = match &state.open {
        _ if state.front != Front::Day => None,
        Some(_) => Some(say::back_to_page(words)),
        None => is_narrow.then(|| list_say::title(words)),
    };
    // Nothing on it belongs to the open case.
    waiting::belong_to(ui.ctx(), None);
    let around = day::Around {
        today: state.around.today,
        limits: &state.around.limits,
        open: state.open.as_ref().map(|open| open.session.case()),
        way_back,
    };
    day::show(ui, &mut state.day, around)
}

/// Whether the fields of the case take anything.
fn fields(open: &OpenCase) -> Fields {
    if open.is_locked() {
        Fields::Locked
    } else {
        Fields::Open
    }
}

/// Under the tabs, right below them.
fn hairline(ui: &Ui) {
    let stroke = Stroke::new(measures::OUTLINE, Palette::current(ui).line);
    let rect = ui.max_rect();
    ui.painter()
        .hline(rect.x_range(), ui.min_rect().bottom(), stroke);
}
