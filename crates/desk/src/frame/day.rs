//! The operations of a day: who, which eye, which lens, how far it has come, and what is missing.

mod move_acts;
mod row;

use chrono::NaiveDate;
use egui::{Key, Ui};
use millrace_core::case::{ListNumber, State};
use millrace_core::limits::Limits;
use millrace_wording::desk::day as say;

use crate::exchange::{CaseId, DayCase, DayList, Lacks, Request};
use crate::message::{FileUse, Message};
use crate::theme::measures;
use crate::whereabouts::Front;
use crate::widgets::{heading, keep_up_and_down, muted, small};
use crate::words::in_use;
use move_acts::Ways;
use row::{Columns, Shown};

/// The day at hand and what was asked for.
#[derive(Debug, Default)]
pub struct DayState {
    told: Told,
    /// The day that was turned to; nothing for today or the next.
    turned_to: Option<NaiveDate>,
    is_asked: bool,
    /// What is at hand may be old; it stays in sight until the answer comes.
    is_stale: bool,
}

/// What the register said.
#[derive(Debug, Default)]
enum Told {
    #[default]
    NothingYet,
    /// No case has a day.
    NoDay,
    Day(DayList),
}

/// Which day is turned to.
#[derive(Clone, Copy)]
enum Turn {
    To(NaiveDate),
    /// Today, or the next.
    Back,
}

impl DayState {
    /// Nothing if no case has a day.
    pub fn take(&mut self, list: Option<DayList>) {
        self.told = list.map_or(Told::NoDay, Told::Day);
        self.is_asked = false;
    }

    /// What is at hand may be old.
    pub fn renew(&mut self) {
        self.is_stale = true;
    }

    fn request(&mut self, around: Around<'_>) -> Option<Request> {
        let is_known = !matches!(self.told, Told::NothingYet) && !self.is_stale;
        if self.is_asked || is_known {
            return None;
        }
        self.is_asked = true;
        self.is_stale = false;
        Some(Request::Day {
            day: self.turned_to.unwrap_or(around.today),
            limits: Box::new(around.limits.clone()),
        })
    }

    /// The day that is shown, while it is known to be as it stands.
    pub fn list(&self) -> Option<&DayList> {
        match &self.told {
            Told::Day(list) if !self.is_asked && !self.is_stale => Some(list),
            _ => None,
        }
    }

    fn turn(&mut self, turn: Turn) {
        self.turned_to = match turn {
            Turn::To(day) => Some(day),
            Turn::Back => None,
        };
        self.is_stale = true;
    }
}

/// What the view is told of the desk.
#[derive(Clone, Copy)]
pub struct Around<'a> {
    pub today: NaiveDate,
    /// Its findings are told by them.
    pub limits: &'a Limits,
    /// The case that is open.
    pub open: Option<&'a CaseId>,
    /// What the way back to what the day stands in front of is called.
    pub way_back: Option<&'a str>,
}

/// Shows the day; returns what the person wants, and what the view needs.
pub fn show(ui: &mut Ui, state: &mut DayState, around: Around<'_>) -> Vec<Message> {
    let mut messages: Vec<Message> = state
        .request(around)
        .map(Message::Ask)
        .into_iter()
        .collect();
    let words = in_use(ui);
    let list = match &state.told {
        Told::NothingYet => {
            small(ui, say::loading(words));
            return messages;
        }
        Told::NoDay => {
            ui.add_space(measures::FAR);
            muted(ui, say::none(words));
            if ui.button(say::new_case(words)).clicked() {
                messages.push(Message::Ask(Request::NewCase));
            }
            return messages;
        }
        Told::Day(list) => list,
    };
    let title = words.weekday(list.day);
    if list.day == around.today {
        heading(ui, &say::is_today(words, title));
    } else {
        heading(ui, &title);
    }
    small(ui, summary(ui, &list.cases));
    if usize::from(ListNumber::LAST.get()) < list.cases.len() {
        small(ui, say::too_many_to_order(words, list.cases.len()));
    }
    ui.add_space(measures::TIGHT);
    let turned = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.y = measures::TIGHT;
        if around
            .way_back
            .is_some_and(|text| ui.button(text).clicked())
        {
            messages.push(Message::Turn(Front::Day));
        }
        let turned = other_days(ui, list, state.turned_to);
        acts(ui, list, &mut messages);
        turned
    });
    let turned = turned.inner;
    ui.add_space(measures::NEAR);
    messages.extend(rows(ui, list, around.open));
    if let Some(turn) = turned {
        state.turn(turn);
        ui.request_repaint();
    }
    messages
}

/// "6 operations · 4 signed · 1 changed since its sheet".
fn summary(ui: &Ui, cases: &[DayCase]) -> String {
    let words = in_use(ui);
    let count = |is: &dyn Fn(&DayCase) -> bool| cases.iter().filter(|case| is(case)).count();
    let mut parts = vec![say::operations(words, cases.len())];
    let is = |case: &DayCase, state: State| case.row.state == state && case.row.sheet.is_none();
    for (count, text) in [
        (
            count(&|case| case.row.state == State::Signed),
            say::signed_count as fn(_, usize) -> String,
        ),
        (
            count(&|case| case.row.state != State::Signed && case.row.sheet.is_some()),
            say::changed_count,
        ),
        (count(&|case| is(case, State::Planned)), say::to_sign),
        (count(&|case| is(case, State::Measured)), say::to_plan),
        (count(&|case| is(case, State::Draft)), say::to_measure),
    ] {
        if 0 < count {
            parts.push(text(words, count));
        }
    }
    parts.join(" · ")
}

/// The ways to other days.
fn other_days(ui: &mut Ui, list: &DayList, turned_to: Option<NaiveDate>) -> Option<Turn> {
    let words = in_use(ui);
    let mut turned = None;
    for (day, text) in [
        (list.earlier, say::day_before as fn(_, String) -> String),
        (list.later, say::day_after),
    ] {
        if let Some(day) = day
            && ui.button(text(words, words.day(day))).clicked()
        {
            turned = Some(Turn::To(day));
        }
    }
    if turned_to.is_some() && ui.button(say::go_to_today(words)).clicked() {
        turned = Some(Turn::Back);
    }
    turned
}

/// What is done with this day.
fn acts(ui: &mut Ui, list: &DayList, messages: &mut Vec<Message>) {
    let words = in_use(ui);
    for (text, message) in [
        (
            say::sheets_of(words, list.day),
            Message::AskForFile(FileUse::Day(list.day)),
        ),
        (
            say::new_case(words).to_owned(),
            Message::Ask(Request::NewCase),
        ),
    ] {
        if ui.button(text).clicked() {
            messages.push(message);
        }
    }
}

fn rows(ui: &mut Ui, list: &DayList, open: Option<&CaseId>) -> Option<Message> {
    let columns = Columns::within(ui, list.can_be_ordered().into());
    row::head(ui, &columns);
    ui.spacing_mut().item_spacing.y = 0.0;
    let (mut chosen, mut focused, mut ids) = (None, None, Vec::new());
    let last = list.cases.len().saturating_sub(1);
    for (index, case) in list.cases.iter().enumerate() {
        let is_open = open == Some(&case.row.case);
        let ways = Ways {
            earlier: 0 < index,
            later: index < last,
        };
        let Shown { response, moved } = row::show(ui, &columns, (case, ways), is_open.into());
        if response.clicked() {
            chosen = Some(Message::Ask(Request::OpenCase(case.row.case.clone())));
        }
        if let Some(toward) = moved {
            chosen = Some(Message::Reorder(case.row.case.clone(), toward));
        }
        if response.has_focus() {
            keep_up_and_down(ui, response.id);
            focused = Some(index);
        }
        ids.push(response.id);
    }
    if let Some(index) = focused {
        let (up, down) = ui.input(|input| {
            let pressed = |key| input.key_pressed(key);
            (pressed(Key::ArrowUp), pressed(Key::ArrowDown))
        });
        let next = match (up, down) {
            (true, false) => index.checked_sub(1),
            (false, true) => Some(index + 1),
            _ => None,
        };
        if let Some(id) = next.and_then(|next| ids.get(next)) {
            ui.memory_mut(|memory| memory.request_focus(*id));
        }
    }
    chosen
}

/// "biometry is missing".
fn lacking(ui: &Ui, lacks: Lacks) -> &'static str {
    let words = in_use(ui);
    match lacks {
        Lacks::Eye => say::eye_lacks(words),
        Lacks::Biometry => say::biometry_lacks(words),
        Lacks::Target => say::target_lacks(words),
        Lacks::Lens => say::lens_lacks(words),
        Lacks::Power => say::power_lacks(words),
        Lacks::Cylinder => say::cylinder_lacks(words),
        Lacks::Approach => say::approach_lacks(words),
    }
}
