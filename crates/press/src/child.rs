//! The process: limits itself, then sets what it is handed until its parent is gone.

use std::ffi::OsString;
use std::io::{self, Read, Write};
use std::panic::{self, AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::sync::{Mutex, mpsc};
use std::thread;

use millrace_core::calendar::{Day, Moment};
use millrace_core::document::PlanDocument;
use millrace_core::signing::{Fingerprint, SignedPlan};
use millrace_sheet::{Setting, Sheet, SheetError, WithoutSheet, pdfs};

use crate::frame::{Frame, MOST_OF_AN_ANSWER};
use crate::message::{Answer, GREETING, Give, Hello, Order, Piece, Ready, Refused, What};
use crate::system;

/// The one argument that makes the program a press. It is for the program itself; no help names it.
pub(crate) const ARGUMENT: &str = "--as-press";
/// Stack of each thread that lays out pages, bytes.
const STACK: usize = 16 << 20;
/// Sheets it sets at a time: each has a stack, and all share one limit of memory.
const MOST_THREADS: usize = 8;
/// Exit status of a press that cannot go on.
const BROKEN: i32 = 3;

/// Where the last panic was.
static PANIC: Mutex<Option<String>> = Mutex::new(None);

/// What was made of a plan, each piece with its bytes.
type Made = Vec<(Piece, Vec<u8>)>;

/// Whether the arguments of this run ask for a press.
pub fn is_asked_for(mut arguments: impl Iterator<Item = OsString>) -> bool {
    arguments.nth(1).is_some_and(|first| first == ARGUMENT) && arguments.next().is_none()
}

/// Is the press, until the other end of standard input is closed.
pub fn serve() -> ExitCode {
    match serve_on(io::stdin(), io::stdout()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(_) => ExitCode::from(2),
    }
}

fn serve_on(mut from: impl Read, mut to: impl Write + Send + 'static) -> io::Result<()> {
    let Some(hello) = Frame::read(&mut from)? else {
        return Ok(());
    };
    let hello: Hello = hello.head()?;
    let limited = system::limit(hello.memory);
    let ready = Ready {
        not_limited: limited.err().map(|error| error.to_string()),
    };
    to.write_all(GREETING)?;
    Frame::new(&ready, Vec::new())?.write(&mut to)?;

    // What a panic says may hold what a person typed; where it was does not.
    panic::set_hook(Box::new(|panic| {
        let place = panic.location().map(ToString::to_string);
        if let Ok(mut known) = PANIC.lock() {
            *known = place;
        }
    }));
    let threads = thread::available_parallelism().map_or(1, usize::from);
    rayon::ThreadPoolBuilder::new()
        .num_threads(threads.min(MOST_THREADS))
        .stack_size(STACK)
        .build_global()
        .map_err(io::Error::other)?;

    let (orders, incoming) = mpsc::channel::<Frame>();
    let work = move || {
        for order in incoming {
            if reply(&order)
                .and_then(|reply| reply.write(&mut to))
                .is_err()
            {
                std::process::exit(BROKEN);
            }
        }
    };
    thread::Builder::new()
        .name("press".to_owned())
        .stack_size(STACK)
        .spawn(move || {
            if catch_unwind(AssertUnwindSafe(work)).is_err() {
                std::process::exit(BROKEN);
            }
        })?;
    // It is read while a sheet is set: when the parent is gone, nobody waits for the sheet.
    while let Some(order) = Frame::read(&mut from)? {
        if orders.send(order).is_err() {
            return Err(io::ErrorKind::BrokenPipe.into());
        }
    }
    Ok(())
}

fn reply(order: &Frame) -> io::Result<Frame> {
    let results = catch_unwind(AssertUnwindSafe(|| set(order))).unwrap_or_else(|_| {
        let place = PANIC.lock().ok().and_then(|mut known| known.take());
        vec![Err(Refused::Panicked(place.unwrap_or_default()))]
    });
    let made = results.iter().flatten().flatten();
    let size: u64 = made.map(|(_, bytes)| bytes.len() as u64).sum();
    if MOST_OF_AN_ANSWER < size {
        let refused: Answer = vec![Err(Refused::TooLarge)];
        return Frame::new(&refused, Vec::new());
    }
    let mut pieces = Vec::new();
    let mut answer: Answer = Vec::with_capacity(results.len());
    for result in results {
        answer.push(result.map(|made| {
            let (kinds, bytes): (Vec<_>, Vec<_>) = made.into_iter().unzip();
            pieces.extend(bytes);
            kinds
        }));
    }
    Frame::new(&answer, pieces)
}

fn set(order: &Frame) -> Vec<Result<Made, Refused>> {
    read(order).unwrap_or_else(|| vec![Err(Refused::Unreadable)])
}

/// Nothing if what was handed over is not what it says it is.
fn read(order: &Frame) -> Option<Vec<Result<Made, Refused>>> {
    let Order { how, what, give } = order.head().ok()?;
    let template = how.template();
    let setting = how.setting(&template)?;
    Some(match what {
        What::Draft { at: Moment(at) } => {
            let [piece] = order.pieces.as_slice() else {
                return None;
            };
            let document: PlanDocument = serde_json::from_slice(piece).ok()?;
            vec![give.of(Sheet::draft(&document, at, setting))]
        }
        What::Outdated { fingerprint, why } => {
            let plans = plans(order, &[fingerprint])?;
            let [plan] = plans.as_slice() else {
                return None;
            };
            vec![give.of(Sheet::outdated(plan, why.outdated()?, setting))]
        }
        What::Signed { fingerprints } => give.of_all(&plans(order, &fingerprints)?, setting),
        What::List {
            day: Day(day),
            at: Moment(at),
            fingerprints,
            without,
        } => {
            let plans = plans(order, &fingerprints)?;
            let without: Vec<WithoutSheet> = without.into_iter().map(Into::into).collect();
            let page = Sheet::list_page((&plans, &without), (day, at), setting);
            vec![give.of(page)]
        }
    })
}

fn plans(order: &Frame, fingerprints: &[[u8; 32]]) -> Option<Vec<SignedPlan>> {
    if fingerprints.len() != order.pieces.len() {
        return None;
    }
    let read = |(piece, fingerprint): (&Vec<u8>, &[u8; 32])| {
        let text = str::from_utf8(piece).ok()?;
        SignedPlan::read(text, Fingerprint::from_bytes(*fingerprint)).ok()
    };
    order.pieces.iter().zip(fingerprints).map(read).collect()
}

impl Give {
    /// Of several plans: files are made at the same time.
    fn of_all(self, plans: &[SignedPlan], setting: Setting<'_>) -> Vec<Result<Made, Refused>> {
        if let (Self::Pdf, [_, _, ..]) = (self, plans) {
            let made = pdfs(plans, setting, |_| ());
            return made.into_iter().map(of_pdf).collect();
        }
        plans
            .iter()
            .map(|plan| self.of(Sheet::signed(plan, setting)))
            .collect()
    }

    fn of(self, sheet: Result<Sheet, SheetError>) -> Result<Made, Refused> {
        let sheet = sheet.map_err(Refused::Sheet)?;
        match self {
            Self::Nothing => Ok(Vec::new()),
            Self::Pdf => of_pdf(sheet.pdf()),
            Self::Pages { pixels_per_point } => {
                let pages = sheet.pages(pixels_per_point).into_iter();
                let made = pages.map(|page| (Piece::Page(page.width, page.height), page.rgba));
                Ok(made.collect())
            }
        }
    }
}

fn of_pdf(pdf: Result<Vec<u8>, SheetError>) -> Result<Made, Refused> {
    let pdf = pdf.map_err(Refused::Sheet)?;
    Ok(vec![(Piece::Pdf, pdf)])
}
