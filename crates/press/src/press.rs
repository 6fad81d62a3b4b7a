//! The parent's side: what is asked for, and what becomes of it.

use core::time::Duration;
use std::io;
use std::process::Command;

use chrono::{DateTime, NaiveDate, Utc};
use millrace_core::calendar::{Day, Moment};
use millrace_core::document::PlanDocument;
use millrace_core::signing::SignedPlan;
use millrace_sheet::{Outdated, PageImage, Progress, Setting, WithoutSheet};

use crate::frame::{Frame, MOST_OF_AN_ANSWER};
use crate::message::{Answer, Give, How, Order, Piece, Refused, What};
use crate::running::Running;
use crate::{PressError, of_this_program};

/// Sheets that are handed over at a time.
const AT_A_TIME: usize = 8;
/// Of the sheets of a day: when so many in a row ended their process, the rest is not tried.
const IN_A_ROW: usize = 3;

/// What a process may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// Private memory, bytes; on Linux alone.
    pub memory: u64,
    /// Time for one request: a sheet, or some of a day that are set together.
    pub time: Duration,
}

impl Bounds {
    /// House values, far above what a sheet takes: see `docs/sheet.md`.
    pub const USUAL: Self = Self {
        memory: 1 << 30,
        time: Duration::from_mins(1),
    };
}

/// What was made of a plan, each piece with its bytes.
type Made = Vec<(Piece, Vec<u8>)>;

/// Makes the command that starts a process.
pub type Program = Box<dyn Fn() -> io::Result<Command> + Send>;

/// What is set.
#[derive(Clone, Copy, Debug)]
pub enum Subject<'a> {
    /// A print of a draft, as of a moment.
    Draft {
        document: &'a PlanDocument,
        at: DateTime<Utc>,
    },
    /// The sheet of a signed plan.
    Signed(&'a SignedPlan),
    /// The sheet of a signed plan that is no longer the one to work by, which says so.
    Outdated { plan: &'a SignedPlan, why: Outdated },
    /// The page that lists the sheets of a day, and who has none.
    List {
        plans: &'a [SignedPlan],
        without: &'a [WithoutSheet],
        day: NaiveDate,
        at: DateTime<Utc>,
    },
}

/// Sets sheets in a process of its own, which is started when it is needed and stays for the next sheet.
///
/// After any error of [`PressError::is_of_the_press`] the next sheet is set by another process.
pub struct Press {
    program: Program,
    bounds: Bounds,
    running: Option<Running>,
}

impl Default for Press {
    /// This program again, within the usual bounds.
    fn default() -> Self {
        Self::of(of_this_program, Bounds::USUAL)
    }
}

impl Press {
    /// Started by a command whose program calls [`crate::serve`].
    pub fn of(program: impl Fn() -> io::Result<Command> + Send + 'static, bounds: Bounds) -> Self {
        Self {
            program: Box::new(program),
            bounds,
            running: None,
        }
    }

    /// Starts the process before it is needed.
    ///
    /// # Errors
    ///
    /// [`PressError`] if it does not start; it is tried again for the next sheet.
    pub fn warm(&mut self) -> Result<(), PressError> {
        let running = self.alive()?;
        self.running = Some(running);
        Ok(())
    }

    /// Lays a sheet out and keeps nothing of it.
    ///
    /// # Errors
    ///
    /// [`PressError`]; then it could not be printed.
    pub fn check(&mut self, plan: &SignedPlan, setting: Setting<'_>) -> Result<(), PressError> {
        self.one((&Subject::Signed(plan), setting), Give::Nothing)
            .map(drop)
    }

    /// A sheet as a PDF: the same bytes as [`millrace_sheet::Sheet::pdf`].
    ///
    /// # Errors
    ///
    /// [`PressError`]; then there is none.
    pub fn pdf(
        &mut self,
        subject: &Subject<'_>,
        setting: Setting<'_>,
    ) -> Result<Vec<u8>, PressError> {
        match <[_; 1]>::try_from(self.one((subject, setting), Give::Pdf)?) {
            Ok([(Piece::Pdf, bytes)]) => Ok(bytes),
            _ => Err(self.unreadable()),
        }
    }

    /// Pictures of the pages of a sheet.
    ///
    /// # Errors
    ///
    /// [`PressError`]; then there are none.
    pub fn pages(
        &mut self,
        subject: &Subject<'_>,
        setting: Setting<'_>,
        pixels_per_point: f32,
    ) -> Result<Vec<PageImage>, PressError> {
        let made = self.one((subject, setting), Give::Pages { pixels_per_point })?;
        let pages: Option<Vec<_>> = made.into_iter().map(page).collect();
        pages.ok_or_else(|| self.unreadable())
    }

    /// The sheet of every plan as a PDF, in the order of the list. One that is refused, or ends the
    /// process, does not keep back the others: its error stands in its place.
    pub fn pdfs(
        &mut self,
        plans: &[SignedPlan],
        setting: Setting<'_>,
        mut progress: impl FnMut(Progress),
    ) -> Vec<Result<Vec<u8>, PressError>> {
        let of = plans.len();
        let mut made: Vec<Result<Vec<u8>, PressError>> = Vec::with_capacity(of);
        for some in plans.chunks(AT_A_TIME) {
            let together = match given_up(&made) {
                Some(_) => None,
                None => self.together(some, setting),
            };
            // Where one of them ended the process, they tell one by one which it was.
            let one_by_one = if together.is_none() { some } else { &[] };
            made.extend(together.into_iter().flatten());
            for plan in one_by_one {
                let next = match given_up(&made) {
                    Some(error) => Err(error),
                    None => self.pdf(&Subject::Signed(plan), setting),
                };
                made.push(next);
            }
            progress(Progress {
                done: made.len(),
                of,
            });
        }
        made
    }

    /// Nothing if they are to be set one by one.
    fn together(
        &mut self,
        plans: &[SignedPlan],
        setting: Setting<'_>,
    ) -> Option<Vec<Result<Vec<u8>, PressError>>> {
        let [_, _, ..] = plans else { return None };
        let (what, pieces) = signed(plans);
        let results = self.ask((what, setting), Give::Pdf, pieces).ok()?;
        if results.len() != plans.len() {
            return None;
        }
        let pdf = |result: Result<_, PressError>| match <[_; 1]>::try_from(result?) {
            Ok([(Piece::Pdf, bytes)]) => Ok(bytes),
            _ => Err(PressError::Unreadable),
        };
        Some(results.into_iter().map(pdf).collect())
    }

    fn one(
        &mut self,
        (subject, setting): (&Subject<'_>, Setting<'_>),
        give: Give,
    ) -> Result<Made, PressError> {
        let (what, pieces) = subject.handed_over()?;
        let results = self.ask((what, setting), give, pieces)?;
        match <[_; 1]>::try_from(results) {
            Ok([result]) => result,
            Err(_) => Err(self.unreadable()),
        }
    }

    /// For each plan what was made of it.
    fn ask(
        &mut self,
        (what, setting): (What, Setting<'_>),
        give: Give,
        pieces: Vec<Vec<u8>>,
    ) -> Result<Vec<Result<Made, PressError>>, PressError> {
        let order = Order {
            how: How::of(setting),
            what,
            give,
        };
        let order = Frame::new(&order, pieces).map_err(|_| PressError::NotHandedOver)?;
        let mut running = self.alive()?;
        let reply = running.ask(order, self.bounds)?;
        let answer: Answer = reply.head().map_err(|_| PressError::Unreadable)?;
        let mut results = answer.iter();
        // What a panic left behind in it sets no other sheet.
        if !results.any(|result| matches!(result, Err(Refused::Panicked(_)))) {
            self.running = Some(running);
        }
        let mut pieces = reply.pieces.into_iter();
        let mut take =
            |kinds: Vec<Piece>| -> Made { kinds.into_iter().zip(pieces.by_ref()).collect() };
        let results = answer.into_iter();
        Ok(results
            .map(|result| result.map(&mut take).map_err(refused))
            .collect())
    }

    /// The process that runs, or another; it is put back when it has answered.
    fn alive(&mut self) -> Result<Running, PressError> {
        if let Some(mut running) = self.running.take()
            && running.is_alive()
        {
            return Ok(running);
        }
        let command = (self.program)().map_err(|error| PressError::NotStarted {
            problem: error.to_string(),
        })?;
        Running::start(command, self.bounds)
    }

    /// An answer that cannot be: the process that gave it gives no other.
    fn unreadable(&mut self) -> PressError {
        self.running = None;
        PressError::Unreadable
    }
}

impl Subject<'_> {
    /// In the form in which it was signed or is printed as JSON: read back, it is the same to the bit.
    fn handed_over(&self) -> Result<(What, Vec<Vec<u8>>), PressError> {
        match *self {
            Self::Draft { document, at } => {
                let text = serde_json::to_vec(document).map_err(|_| PressError::NotHandedOver)?;
                Ok((What::Draft { at: Moment(at) }, vec![text]))
            }
            Self::Signed(plan) => Ok(signed(core::slice::from_ref(plan))),
            Self::Outdated { plan, why } => {
                let (fingerprint, why) = (*plan.fingerprint().bytes(), why.into());
                let piece = plan.encoded().as_bytes().to_vec();
                Ok((What::Outdated { fingerprint, why }, vec![piece]))
            }
            Self::List {
                plans,
                without,
                day,
                at,
            } => {
                let (fingerprints, pieces) = fingerprints(plans);
                let what = What::List {
                    day: Day(day),
                    at: Moment(at),
                    fingerprints,
                    without: without.iter().map(Into::into).collect(),
                };
                Ok((what, pieces))
            }
        }
    }
}

fn signed(plans: &[SignedPlan]) -> (What, Vec<Vec<u8>>) {
    let (fingerprints, pieces) = fingerprints(plans);
    (What::Signed { fingerprints }, pieces)
}

fn fingerprints(plans: &[SignedPlan]) -> (Vec<[u8; 32]>, Vec<Vec<u8>>) {
    let parts = plans.iter().map(|plan| {
        let encoded = plan.encoded().as_bytes().to_vec();
        (*plan.fingerprint().bytes(), encoded)
    });
    parts.unzip()
}

fn refused(refused: Refused) -> PressError {
    match refused {
        Refused::Sheet(error) => PressError::Sheet(error),
        Refused::Panicked(at) => PressError::Panicked { at },
        Refused::Unreadable => PressError::NotHandedOver,
        Refused::TooLarge => PressError::TooLarge {
            limit: MOST_OF_AN_ANSWER,
        },
    }
}

/// Nothing for what is no picture.
fn page((piece, rgba): (Piece, Vec<u8>)) -> Option<PageImage> {
    let Piece::Page(width, height) = piece else {
        return None;
    };
    let size = u64::from(width) * u64::from(height) * 4;
    (rgba.len() as u64 == size).then_some(PageImage {
        width,
        height,
        rgba,
    })
}

/// Why the next sheet is not tried, if the last ones all ended their process.
fn given_up(made: &[Result<Vec<u8>, PressError>]) -> Option<PressError> {
    let of_the_press =
        |made: &&Result<_, PressError>| matches!(made, Err(error) if error.is_of_the_press());
    let after = made.iter().rev().take_while(of_the_press).count();
    (IN_A_ROW <= after).then_some(PressError::GivenUp { after: IN_A_ROW })
}
