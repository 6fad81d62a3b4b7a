//! The desk as a whole: what stands where, and what becomes of what a person did.

use chrono::NaiveDate;
use egui::{Frame, Margin, Panel, ScrollArea, Ui};
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_core::rules::Severity;

use crate::exchange::{Answer, Request};
use crate::frame::file_panel::FilePanel;
use crate::frame::status::StatusView;
use crate::frame::theatre_list::ListState;
use crate::frame::{
    Action, Side, banner, conflict, file_panel, findings, first_run, shortcuts, status, tabs,
    theatre_list,
};
use crate::front::Front;
use crate::open_case::{OpenCase, ground, view};
use crate::pages::settings::SettingsState;
use crate::pages::{self, Page};
use crate::session::Session;
use crate::settings::Settings;
use crate::theme::{self, Palette, measures};
use crate::widgets::waiting;
use crate::widgets::{follow_focus, minor_button, notice, said};

/// What the desk is told of the world around it.
#[derive(Clone, Debug)]
pub struct Surroundings {
    /// Today.
    pub today: NaiveDate,
    /// The limits in use.
    pub limits: Limits,
    /// The clinic's lens records.
    pub lenses: Vec<LensRecord>,
}

/// The desk.
pub struct Desk {
    pub(crate) around: Surroundings,
    pub(crate) settings: Settings,
    pub(crate) open: Option<OpenCase>,
    pub(crate) list: ListState,
    pub(crate) page: Page,
    pub(crate) side: Side,
    pub(crate) front: Front,
    pub(crate) settings_state: SettingsState,
    pub(crate) shows_shortcuts: bool,
    pub(crate) message: Option<(Severity, String)>,
    pub(crate) file_panel: Option<FilePanel>,
    /// Asked for from outside, not yet seen by a pass.
    pub(crate) asked: Vec<Action>,
    pub(crate) deferred: Vec<Action>,
    pub(crate) requests: Vec<Request>,
    pub(crate) is_quitting: bool,
    /// A case that was asked for takes the focus to its page once it is there.
    pub(crate) goes_to_page: bool,
}

impl Desk {
    /// A desk with no case open.
    #[must_use]
    pub fn new(around: Surroundings, settings: Settings) -> Self {
        Self {
            around,
            settings,
            open: None,
            list: ListState::default(),
            page: Page::default(),
            side: Side::Page,
            front: Front::Page,
            settings_state: SettingsState::default(),
            shows_shortcuts: false,
            message: None,
            file_panel: None,
            asked: Vec::new(),
            deferred: Vec::new(),
            requests: Vec::new(),
            is_quitting: false,
            goes_to_page: false,
        }
    }

    /// Tells the desk what day it is.
    pub fn set_today(&mut self, today: NaiveDate) {
        self.around.today = today;
    }

    /// The settings in use.
    #[must_use]
    pub const fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The open case.
    #[must_use]
    pub fn session(&self) -> Option<&Session> {
        self.open.as_ref().map(|open| &open.session)
    }

    /// The page in front.
    #[must_use]
    pub const fn page(&self) -> Page {
        self.page
    }

    /// Brings a page to the front.
    pub fn show_page(&mut self, page: Page) {
        self.page = page;
        self.front = Front::Page;
        self.side = Side::Page;
    }

    /// What is to be done outside, in order; each is told once.
    pub fn take_requests(&mut self) -> Vec<Request> {
        core::mem::take(&mut self.requests)
    }

    /// Takes an answer in.
    pub fn accept(&mut self, answer: Answer) {
        crate::answers::accept(self, answer);
    }

    /// Asks to close: what is being typed is taken and stored first, then comes
    /// [`Request::Quit`].
    pub fn ask_to_quit(&mut self) {
        let is_asked = self.asked.contains(&Action::Quit) || self.deferred.contains(&Action::Quit);
        if !is_asked && !self.is_quitting {
            self.asked.push(Action::Quit);
        }
    }

    /// Shows the desk and takes what the person did.
    pub fn show(&mut self, ui: &mut Ui) {
        theme::follow(ui.ctx(), &self.settings);
        // Asked for in the last pass; fields that lost the focus over it end in this one.
        let due = core::mem::take(&mut self.deferred);
        let mut actions = core::mem::take(&mut self.asked);
        let ground = self.session().map(|session| ground(session.case()));
        waiting::belong_to(ui.ctx(), ground);
        actions.extend(shortcuts::pressed(ui, &self.settings));
        self.panels(ui, &mut actions);
        self.only_for_the_front(&mut actions);
        if self.shows_shortcuts && shortcuts::sheet(ui) {
            self.shows_shortcuts = false;
        }
        for action in due {
            crate::actions::act(self, ui, action);
        }
        if self.open.is_some() && core::mem::take(&mut self.goes_to_page) {
            crate::actions::focus(ui, tabs::tab_id(self.page));
        }
        self.defer(ui, actions);
        self.autosave();
    }

    /// Ends what is being typed now and does the rest in the next pass, so that nothing typed is
    /// lost to a page that goes away.
    fn defer(&mut self, ui: &Ui, actions: Vec<Action>) {
        if actions.is_empty() {
            return;
        }
        if let Some(focused) = ui.memory(egui::Memory::focused)
            && actions.iter().any(leaves_the_field)
        {
            ui.memory_mut(|memory| memory.surrender_focus(focused));
        }
        self.deferred.extend(actions);
        ui.request_repaint();
    }

    fn autosave(&mut self) {
        let Some(open) = &mut self.open else {
            return;
        };
        if open.conflict.is_some() || !open.session.wants_saving() {
            return;
        }
        let seen = open.session.begin_saving();
        self.requests.push(Request::Save {
            case: open.session.case().clone(),
            seen,
            draft: Box::new(open.session.draft().clone()),
            author: self.settings.author.clone(),
        });
    }

    fn panels(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let palette = Palette::current(ui);
        let (width, height) = (ui.available_width(), ui.available_height());
        let is_low = height < measures::LOW;
        let is_narrow = width < measures::NARROW;
        let band = |x, y| {
            Frame::new()
                .fill(palette.ground)
                .inner_margin(Margin::symmetric(x, y))
        };
        let is_blind = self.is_blind();
        if let Some(open) = &self.open {
            let draft = open.session.draft();
            let frame = band(16, if is_low { 4 } else { 10 });
            let panel = Panel::top("banner").resizable(false).frame(frame);
            panel.show(ui, |ui| {
                if is_blind {
                    banner::without_what_is_entered(ui, draft);
                } else {
                    banner::show(ui, draft, height);
                }
            });
        }
        let session = self.open.as_ref().map(|open| &open.session);
        let author = self.settings.author.as_str();
        let foot = Panel::bottom("status").resizable(false).frame(band(16, 4));
        let narrow = (is_narrow && !is_blind && self.front != Front::Settings).then_some(self.side);
        let waiting = self.waiting(ui.ctx());
        let view = StatusView {
            session,
            waiting: &waiting,
            author,
            narrow,
        };
        let asked = foot.show(ui, |ui| status::show(ui, &view));
        let asked = asked.inner;
        actions.extend(asked);
        let is_first_run = self.list.is_empty_register() && self.open.is_none();
        if !is_narrow && !is_first_run && !is_blind {
            let panel = Panel::left("theatre list")
                .resizable(false)
                .exact_size(measures::LIST_WIDTH)
                .frame(band(12, 12));
            panel.show(ui, |ui| self.list_panel(ui, actions));
        }
        if !is_narrow && self.open.is_some() && self.front != Front::Settings && !is_blind {
            let panel = Panel::right("findings")
                .resizable(false)
                .exact_size(measures::FINDINGS_WIDTH)
                .frame(band(12, 12));
            panel.show(ui, |ui| self.findings_panel(ui));
        }
        let center = Frame::new().fill(palette.surface);
        egui::CentralPanel::default().frame(center).show(ui, |ui| {
            self.center(ui, is_narrow.then_some(self.side), actions);
        });
    }

    fn list_panel(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let session = self.open.as_ref().map(|open| &open.session);
        let day = session.and_then(|session| session.draft().operation.date);
        let open = session.map(|session| session.case().clone());
        let (asked, request) = theatre_list::show(ui, &mut self.list, (open.as_ref(), day));
        actions.extend(asked);
        self.requests.extend(request);
    }

    fn findings_panel(&mut self, ui: &mut Ui) {
        let Some(open) = &mut self.open else {
            return;
        };
        let view = view(&open.session, &self.around, &self.settings);
        let commands = ScrollArea::vertical()
            .id_salt("findings")
            .auto_shrink(false)
            .show(ui, |ui| {
                let commands = findings::show(ui, &view, &mut open.findings);
                follow_focus(ui);
                commands
            })
            .inner;
        for command in commands {
            open.session.apply(command, &self.around.limits);
        }
    }

    fn center(&mut self, ui: &mut Ui, narrow: Option<Side>, actions: &mut Vec<Action>) {
        if let Some(panel) = &mut self.file_panel {
            actions.extend(file_panel::show(ui, panel));
        }
        if let Some((severity, message)) = &self.message {
            let put_away = notice(ui, *severity, |ui| {
                said(ui, message);
                minor_button(ui, "Put away").clicked()
            });
            if put_away {
                actions.push(Action::Dismiss);
            }
        }
        let padding = Margin::symmetric(if narrow.is_some() { 12 } else { 20 }, 0);
        if self.is_blind() {
            return self.page_area(ui, Frame::new().inner_margin(padding), actions);
        }
        if let Some(open) = &self.open {
            let page = (self.front == Front::Page).then_some(self.page);
            let row = Frame::new().inner_margin(Margin {
                left: 8,
                top: 4,
                bottom: 0,
                ..padding
            });
            let asked = row.show(ui, |ui| tabs::show(ui, page, &open.session, narrow));
            actions.extend(asked.inner);
            hairline(ui);
        } else if narrow.is_some()
            && self.front != Front::Settings
            && !self.list.is_empty_register()
        {
            let frame = Frame::new().inner_margin(Margin::same(12));
            frame.show(ui, |ui| self.list_panel(ui, actions));
            return;
        }
        let frame = Frame::new().inner_margin(padding);
        match narrow {
            Some(Side::List) => {
                frame.show(ui, |ui| self.list_panel(ui, actions));
            }
            Some(Side::Findings) => {
                frame.show(ui, |ui| self.findings_panel(ui));
            }
            _ => self.page_area(ui, frame, actions),
        }
    }

    fn page_area(&mut self, ui: &mut Ui, frame: Frame, actions: &mut Vec<Action>) {
        let salt = (self.page.name(), self.front as u8);
        ScrollArea::vertical()
            .id_salt(salt)
            .auto_shrink(false)
            .show(ui, |ui| {
                frame.show(ui, |ui| {
                    ui.add_space(measures::NEAR);
                    self.in_front(ui, actions);
                    ui.add_space(measures::FAR);
                });
                follow_focus(ui);
            });
    }

    fn in_front(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        if self.front == Front::Settings {
            return self.settings_in_front(ui, actions);
        }
        let is_blind = self.is_blind();
        let Some(open) = &mut self.open else {
            let asked = if self.list.is_empty_register() {
                first_run::show(ui)
            } else {
                first_run::none_open(ui)
            };
            actions.extend(asked);
            return;
        };
        // Both values of every difference stand in it: nothing for who enters them without seeing.
        if let Some(conflict) = open.conflict.as_ref().filter(|_| !is_blind) {
            actions.extend(conflict::show(ui, conflict, open.session.draft()));
        }
        if let Some(refused) = open.session.refused() {
            notice(ui, Severity::Stop, |ui| {
                said(ui, format!("Not done: {refused}"));
            });
        }
        if self.front == Front::SecondLook {
            return self.second_look_in_front(ui, actions);
        }
        if self.page == Page::Sheet {
            return self.sheet_in_front(ui, actions);
        }
        let view = view(&open.session, &self.around, &self.settings);
        let commands = pages::show(ui, self.page, &view, &mut open.pages);
        for command in commands {
            open.session.apply(command, &self.around.limits);
        }
    }
}

/// Under the tabs, right below them.
fn hairline(ui: &Ui) {
    let stroke = egui::Stroke::new(measures::OUTLINE, Palette::current(ui).line);
    let rect = ui.max_rect();
    ui.painter()
        .hline(rect.x_range(), ui.min_rect().bottom(), stroke);
}

fn leaves_the_field(action: &Action) -> bool {
    use Action::{Dismiss, Follow, KeepLenses, KeepLimits};
    !matches!(action, Follow(_) | KeepLimits(_) | KeepLenses(_) | Dismiss)
}
