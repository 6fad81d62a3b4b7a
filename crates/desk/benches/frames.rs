//! CPU of one pass of the desk, with its shapes made into triangles: every page at rest, and a theatre
//! list of 100,000 cases while it scrolls.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a bench fails loudly"
)]

use core::ops::Range;

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{
    Context, Event, Key, Modifiers, MouseWheelUnit, RawInput, Rect, TouchPhase, pos2, vec2,
};
use millrace_core::biometry::Side;
use millrace_core::case::State;
use millrace_core::case_file;
use millrace_core::limits::Limits;
use millrace_desk::desk::Desk;
use millrace_desk::exchange::{
    Answer, CaseId, CaseRow, Keeps, Listed, Listing, OnDay, Request, Revision, Surroundings,
};
use millrace_desk::settings::Settings;
use millrace_desk::theme;

const CASES: usize = 100_000;
const HARD: &str = include_str!("../../../demo-data/cases/hard-and-shallow.ron");
const TORIC: &str = include_str!("../../../demo-data/cases/astigmatic-eye.ron");
const LENSES: &str = include_str!("../../../demo-data/lenses.ron");

/// A desk, a context to show it in, and a store that answers at once.
struct Bench {
    context: Context,
    desk: Desk,
    events: Vec<Event>,
}

impl Bench {
    fn of(case: &str) -> Self {
        let around = Surroundings {
            today: "2026-11-24".parse().unwrap(),
            limits: Limits::shipped().clone(),
            lenses: case_file::read_lenses(LENSES).unwrap(),
            keeps: Keeps::Everything,
            computer: "room-2".to_owned(),
        };
        let context = Context::default();
        theme::install(&context);
        let mut desk = Desk::new(around, Settings::default());
        desk.accept(Answer::Opened {
            case: CaseId("0".to_owned()),
            revision: Revision("1".to_owned()),
            draft: Box::new(case_file::read(case).unwrap()),
            sheets: Some(Vec::new()),
            other_cases: Vec::new(),
        });
        let mut bench = Self {
            context,
            desk,
            events: Vec::new(),
        };
        for _ in 0..10 {
            bench.frame();
        }
        bench
    }

    /// One pass with what was typed or turned, and its shapes made into triangles.
    fn frame(&mut self) -> usize {
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1280.0, 820.0))),
            events: core::mem::take(&mut self.events),
            focused: true,
            ..RawInput::default()
        };
        let desk = &mut self.desk;
        let output = self.context.run_ui(input, |ui| desk.show(ui));
        for request in self.desk.take_requests() {
            self.answer(request);
        }
        let triangles = self
            .context
            .tessellate(output.shapes, output.pixels_per_point);
        triangles.len()
    }

    fn answer(&mut self, request: Request) {
        match request {
            Request::List { search, rows, .. } => {
                let answer = listed(search, rows);
                self.desk.accept(answer);
            }
            Request::Save(save) => {
                let case = save.case;
                let revision = Revision("2".to_owned());
                self.desk.accept(Answer::Saved {
                    case,
                    revision,
                    at: chrono::NaiveTime::MIN,
                    other_cases: Vec::new(),
                });
            }
            _ => {}
        }
    }

    fn press(&mut self, key: Key, modifiers: Modifiers) {
        for pressed in [true, false] {
            self.events.push(Event::Key {
                key,
                physical_key: None,
                pressed,
                repeat: false,
                modifiers,
            });
        }
        for _ in 0..10 {
            self.frame();
        }
    }
}

fn listed(search: String, rows: Range<usize>) -> Answer {
    let rows = rows.start..rows.end.min(CASES);
    Answer::Listed(Listed {
        search,
        listing: Listing::Planned,
        set_aside: 0,
        total: CASES,
        start: rows.start,
        rows: rows.map(row).collect(),
        days: days(),
        open: None,
    })
}

/// Eight operations a day, from the third of December on.
const A_DAY: usize = 8;

fn day(index: usize) -> chrono::NaiveDate {
    let first: chrono::NaiveDate = "2026-12-03".parse().unwrap();
    first + chrono::Days::new(index as u64)
}

fn days() -> Vec<OnDay> {
    let days = 0..CASES / A_DAY;
    days.map(|index| OnDay {
        day: Some(day(index)),
        count: A_DAY,
    })
    .collect()
}

fn row(index: usize) -> CaseRow {
    CaseRow {
        case: CaseId(index.to_string()),
        name: Some(format!("Weir, Annika {index}")),
        number: Some(format!("40-{index:05}")),
        eye: Some(if index.is_multiple_of(2) {
            Side::Right
        } else {
            Side::Left
        }),
        date: Some(day(index / A_DAY)),
        list_number: None,
        sheet: None,
        state: State::Planned,
    }
}

fn pages(criterion: &mut Criterion) {
    for (case, text) in [("hard and shallow", HARD), ("astigmatic", TORIC)] {
        for (page, key) in [
            ("Biometry", Key::Num1),
            ("Lens", Key::Num2),
            ("Approach", Key::Num3),
            ("Sheet", Key::Num4),
            ("Outcome", Key::Num5),
        ] {
            let mut bench = Bench::of(text);
            bench.press(key, Modifiers::COMMAND);
            let name = format!("frame, {page} of the {case} eye");
            criterion.bench_function(&name, |bencher| bencher.iter(|| bench.frame()));
        }
    }
}

fn list(criterion: &mut Criterion) {
    let mut bench = Bench::of(HARD);
    let over_the_list = pos2(100.0, 500.0);
    criterion.bench_function(
        "frame, theatre list of 100,000 while it scrolls",
        |bencher| {
            bencher.iter(|| {
                bench.events.push(Event::PointerMoved(over_the_list));
                bench.events.push(Event::MouseWheel {
                    unit: MouseWheelUnit::Point,
                    delta: vec2(0.0, -90.0),
                    phase: TouchPhase::Move,
                    modifiers: Modifiers::NONE,
                    source: egui::MouseWheelSource::Wheel,
                });
                bench.frame()
            });
        },
    );
}

criterion_group!(benches, pages, list);
criterion_main!(benches);
