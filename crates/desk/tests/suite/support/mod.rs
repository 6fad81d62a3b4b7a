//! A desk in front of a pretended store, driven through the accessibility tree.

mod lists;
mod order;

use chrono::{DateTime, NaiveDate, NaiveTime};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Theme};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use millrace_core::case::{Draft, State};
use millrace_core::case_file;
use millrace_core::finding::OtherCase;
use millrace_core::lens::LensRecord;
use millrace_core::limits::Limits;
use millrace_core::signing::{SheetNumber, Signature, ToSign, sign};
use millrace_cpu_render::CpuRenderer;
use millrace_desk::desk::Desk;
use millrace_desk::exchange::{
    Answer, CaseId, Keeps, PagePicture, PagesOf, Planned, Request, Revision, SheetRow, SheetUse,
    SignRequest, Standing, Surroundings, Who,
};
use millrace_desk::settings::{Settings, TextSize, ThemeChoice};
use millrace_desk::theme;
use millrace_wording::{Show as _, Words};

/// The smallest window the desk is made for.
pub(crate) const SMALLEST: [f32; 2] = [1100.0, 720.0];

pub(crate) const HARD_AND_SHALLOW: &str =
    include_str!("../../../../../demo-data/cases/hard-and-shallow.ron");

pub(crate) fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("a day of the calendar")
}

pub(crate) fn demo(text: &str) -> Draft {
    case_file::read(text).expect("a demo case reads")
}

/// The invented lens records of the demo.
pub(crate) fn demo_lenses() -> Vec<LensRecord> {
    let text = include_str!("../../../../../demo-data/lenses.ron");
    case_file::read_lenses(text).expect("the demo records read")
}

/// A desk with a store that answers at once and forgets nothing.
pub(crate) struct Bench {
    pub(crate) desk: Desk,
    pub(crate) cases: Vec<(CaseId, Revision, Draft)>,
    pub(crate) told: Vec<Request>,
    pub(crate) sheets: Vec<SheetRow>,
    /// What the list says of signed cases: which, its state now, its newest sheet.
    pub(crate) marks: Vec<(usize, State, SheetNumber)>,
    /// Whether it gives no pages by itself.
    pub(crate) holds_pages_back: bool,
    /// What the register finds of other cases with the patient's number or name.
    pub(crate) others: Vec<OtherCase>,
    /// Whether the drive takes its time: then what it says of each save is held here.
    pub(crate) holds_saves_back: bool,
    pub(crate) saved_late: Vec<Answer>,
}

impl Bench {
    pub(crate) fn new(cases: Vec<Draft>, settings: Settings) -> Self {
        Self::that_keeps(Keeps::Everything, cases, settings)
    }

    /// The invented cases.
    pub(crate) fn demo(cases: Vec<Draft>) -> Self {
        Self::that_keeps(Keeps::Nothing, cases, light())
    }

    fn that_keeps(keeps: Keeps, cases: Vec<Draft>, settings: Settings) -> Self {
        let around = Surroundings {
            today: date(2026, 11, 24),
            limits: Limits::shipped().clone(),
            lenses: demo_lenses(),
            keeps,
            computer: "room-2".to_owned(),
        };
        let cases = cases
            .into_iter()
            .enumerate()
            .map(|(index, draft)| (CaseId(index.to_string()), Revision("1".to_owned()), draft))
            .collect();
        Self {
            desk: Desk::new(around, settings),
            cases,
            told: Vec::new(),
            sheets: Vec::new(),
            marks: Vec::new(),
            holds_pages_back: false,
            others: Vec::new(),
            holds_saves_back: false,
            saved_late: Vec::new(),
        }
    }

    pub(crate) fn open(&mut self, index: usize) {
        let (case, revision, draft) = self.cases[index].clone();
        self.desk.accept(Answer::Opened {
            case,
            revision,
            draft: Box::new(draft),
            sheets: Some(self.sheets.clone()),
            other_cases: self.others.clone(),
        });
    }

    pub(crate) fn draft(&self) -> &Draft {
        self.desk.session().expect("a case is open").draft()
    }

    fn show(&mut self, ui: &mut egui::Ui) {
        self.desk.show(ui);
        for request in self.desk.take_requests() {
            self.answer(&request);
            self.told.push(request);
            ui.request_repaint();
        }
    }

    fn answer(&mut self, request: &Request) {
        match request {
            Request::Save(save) => {
                let stored = self.cases.iter_mut().find(|(id, _, _)| *id == save.case);
                let (_, revision, kept) = stored.expect("a known case");
                *revision = Revision(format!("{}+", revision.0));
                *kept = (*save.draft).clone();
                for sheet in &mut self.sheets {
                    if sheet.is_current() {
                        sheet.standing = Standing::ChangedSince;
                    }
                }
                let (case, revision) = (save.case.clone(), revision.clone());
                let saved = Answer::Saved {
                    case,
                    revision,
                    at: NaiveTime::from_hms_opt(10, 42, 59).expect("a time of the day"),
                    other_cases: self.others.clone(),
                };
                if self.holds_saves_back {
                    self.saved_late.push(saved);
                } else {
                    self.desk.accept(saved);
                }
            }
            Request::NewCase => {
                let case = CaseId(self.cases.len().to_string());
                self.cases
                    .push((case, Revision("0".to_owned()), Draft::default()));
                self.open(self.cases.len() - 1);
            }
            Request::OpenCase(case) => {
                let index = self.cases.iter().position(|(id, _, _)| id == case);
                self.open(index.expect("a known case"));
            }
            Request::List {
                search,
                listing,
                rows,
                open,
            } => self.list((search, *listing), rows, open.as_ref()),
            Request::Day { day, limits } => self.tell_day(*day, limits),
            Request::Order(order) => self.order(order),
            Request::ListSheets(case) => {
                let (case, sheets) = (case.clone(), self.sheets.clone());
                self.desk.accept(Answer::Sheets { case, sheets });
            }
            Request::Sign(request) => self.sign(request),
            Request::Sheet(SheetUse::Show(of), _) if !self.holds_pages_back => {
                self.give_pages(of.clone());
            }
            _ => {}
        }
    }

    /// White pages of this sheet.
    pub(crate) fn give_pages(&mut self, of: PagesOf) {
        let page = PagePicture {
            width: 60,
            height: 85,
            rgba: vec![255; 4 * 60 * 85],
        };
        let pages = Ok(vec![page]);
        self.desk.accept(Answer::Pages { of, pages });
    }

    /// Signs as the core does: with every obstacle of the plan and of the signature.
    fn sign(&mut self, request: &SignRequest) {
        let earlier = self.sheets.last().map(|sheet| sheet.number);
        let number = earlier.map_or(Some(SheetNumber::FIRST), SheetNumber::next);
        let to_sign = ToSign {
            number: number.expect("a number is left"),
            supersedes: earlier,
            draft: &self.draft().clone(),
            limits: Limits::shipped(),
            program: "test",
        };
        let signature = Signature {
            name: request.name.clone(),
            role: "surgeon".to_owned(),
            at: DateTime::UNIX_EPOCH,
            consented_target: request.target,
        };
        let sheets = match sign(to_sign, signature) {
            Ok(plan) => {
                for sheet in &mut self.sheets {
                    sheet.standing = Standing::Superseded(plan.number());
                }
                self.sheets.push(SheetRow {
                    number: plan.number(),
                    plans: Planned::of(plan.draft()),
                    by: request.name.clone(),
                    at: "2026-11-24T10:00:00".parse().expect("a moment"),
                    standing: Standing::Current,
                });
                Ok(self.sheets.clone())
            }
            Err(obstacles) => Err(obstacles
                .iter()
                .map(|it| it.show(Words::ENGLISH).into_owned())
                .collect()),
        };
        let case = request.case.clone();
        self.desk.accept(Answer::Signed { case, sheets });
    }
}

/// Every text on the desk, as a screen reader finds it: names, and what stands in fields.
pub(crate) fn texts<T>(harness: &Harness<'_, T>) -> Vec<String> {
    let nodes = harness.root().children_recursive();
    nodes
        .map(|node| node.accesskit_node())
        // A line of a text that wraps is part of its text.
        .filter(|node| node.role() != Role::TextRun)
        .flat_map(|node| [node.label(), node.value(), node.description()])
        .flatten()
        .collect()
}

/// Somebody at another desk.
pub(crate) fn measuring_room(person: &str) -> Who {
    Who {
        person: person.to_owned(),
        desk: Some("measuring room".to_owned()),
    }
}

/// Settings of somebody called A. Okafor.
pub(crate) fn settings(theme: ThemeChoice, percent: u16) -> Settings {
    Settings {
        author: "A. Okafor".to_owned(),
        theme,
        text_size: TextSize::new(percent).expect("an offered size"),
        ..Settings::default()
    }
}

pub(crate) fn light() -> Settings {
    settings(ThemeChoice::Light, 100)
}

/// A harness around the desk, in a window of `size` points at 100 %.
pub(crate) fn harness(bench: Bench, size: [f32; 2]) -> Harness<'static, Bench> {
    let theme = match bench.desk.settings().theme {
        ThemeChoice::Dark => Theme::Dark,
        _ => Theme::Light,
    };
    let mut harness = Harness::builder()
        .with_size(size)
        .with_theme(theme)
        .with_max_steps(24)
        .with_render_cursor(false)
        .with_context_setup(theme::install)
        .renderer(CpuRenderer::default())
        .build_ui_state(|ui, bench: &mut Bench| show_whole(ui, bench), bench);
    harness.run();
    harness
}

/// kittest leaves a margin around what it shows; a window does not.
fn show_whole(ui: &mut egui::Ui, bench: &mut Bench) {
    let rect = ui.content_rect();
    let mut whole = ui.new_child(egui::UiBuilder::new().max_rect(rect));
    whole.set_clip_rect(rect);
    bench.show(&mut whole);
}

/// A click on the only thing of this name.
pub(crate) fn click(harness: &mut Harness<'_, Bench>, name: &str) {
    harness.get_by_label(name).click();
    harness.run();
}

/// Goes to the only thing of this name, types, and leaves by the Tab key.
pub(crate) fn fill(harness: &mut Harness<'_, Bench>, name: &str, text: &str) {
    click(harness, name);
    harness.get_by_label(name).type_text(text);
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
}

/// Writes over the text of a field and commits it by the Enter key.
pub(crate) fn enter(harness: &mut Harness<'_, Bench>, field: &str, text: &str) {
    harness
        .get_by_role_and_label(Role::TextInput, field)
        .click();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness
        .get_by_role_and_label(Role::TextInput, field)
        .type_text(text);
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}
