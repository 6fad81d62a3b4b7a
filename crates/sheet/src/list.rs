//! The sheets of a whole theatre list, with a page that lists them.

use chrono::{DateTime, NaiveDate, Utc};
use millrace_core::biometry::Side;
use millrace_core::signing::SignedPlan;
use millrace_wording::{Words, sheet as say, terms, text};
use rayon::prelude::*;
use serde::Serialize;

use crate::content::{language, stated};
use crate::labels::{self, Labels};
use crate::sheet::made_of;
use crate::{Setting, Sheet, SheetError, fonts};

/// How many sheets are made at a time before progress is told.
const AT_A_TIME: usize = 8;

/// How far a list has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Sheets that are made or refused.
    pub done: usize,
    pub of: usize,
}

/// Makes the sheet of every plan as a PDF, in the order of the list. One that is refused does not keep
/// back the others: its error stands in its place.
pub fn pdfs(
    plans: &[SignedPlan],
    setting: Setting<'_>,
    mut progress: impl FnMut(Progress),
) -> Vec<Result<Vec<u8>, SheetError>> {
    let of = plans.len();
    let mut made = Vec::with_capacity(of);
    for some in plans.chunks(AT_A_TIME) {
        let next: Vec<_> = some
            .par_iter()
            .map(|plan| Sheet::signed(plan, setting)?.pdf())
            .collect();
        made.extend(next);
        progress(Progress {
            done: made.len(),
            of,
        });
    }
    made
}

/// A case of the day that has no sheet to work by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WithoutSheet {
    pub name: Option<String>,
    pub number: Option<String>,
    pub birth_date: Option<NaiveDate>,
    pub eye: Option<Side>,
    pub why: String,
}

#[derive(Serialize)]
struct ListData {
    paper: &'static str,
    fonts: Vec<&'static str>,
    language: &'static str,
    labels: Labels,
    title: String,
    program: String,
    rows: Vec<ListRow>,
    without: Vec<WithoutRow>,
}

#[derive(Serialize)]
struct WithoutRow {
    name: String,
    number: String,
    born: String,
    eye: &'static str,
    why: String,
}

#[derive(Serialize)]
struct ListRow {
    sheet: String,
    name: String,
    number: String,
    born: String,
    eye: &'static str,
    lens: String,
    power: String,
    toric: String,
    approach: String,
    fingerprint: String,
}

impl Sheet {
    /// The page that lists the sheets of a day: who, which eye, which lens, and the fingerprint that
    /// each sheet in the hand must have; then who has no sheet, and why. It takes the place of no sheet.
    ///
    /// # Errors
    ///
    /// [`SheetError`] if a text cannot be printed.
    pub fn list_page(
        (plans, without): (&[SignedPlan], &[WithoutSheet]),
        (title, at): (NaiveDate, DateTime<Utc>),
        setting: Setting<'_>,
    ) -> Result<Self, SheetError> {
        let words = setting.words;
        let data = ListData {
            paper: setting.paper.name(),
            fonts: fonts::families(),
            language: language(words),
            labels: labels::of_list(words),
            title: say::list_title(words, title),
            program: concat!("millrace ", env!("CARGO_PKG_VERSION")).to_owned(),
            rows: plans.iter().map(|plan| row(words, plan)).collect(),
            without: without
                .iter()
                .map(|case| without_row(words, case))
                .collect(),
        };
        made_of(&data, at)
    }
}

fn row(words: Words, plan: &SignedPlan) -> ListRow {
    let draft = plan.draft();
    let (patient, lens) = (&draft.patient, &draft.lens);
    ListRow {
        sheet: plan.number().to_string(),
        name: stated(words, patient.name.as_ref()),
        number: stated(words, patient.number.as_ref()),
        born: stated(words, patient.birth_date),
        eye: eye(words, draft.operation.eye),
        lens: lens.record().map_or_else(
            || text::plan::not_stated(words).to_owned(),
            |record| text::lens::model(words, &record.name, &record.model),
        ),
        power: stated(words, lens.power()),
        toric: lens.toric().map_or_else(String::new, |toric| {
            say::cylinder_and_marks(words, toric.cylinder, toric.axis)
        }),
        approach: stated(words, draft.approach.approach),
        fingerprint: plan.fingerprint().short().to_string(),
    }
}

fn without_row(words: Words, case: &WithoutSheet) -> WithoutRow {
    WithoutRow {
        name: stated(words, case.name.as_ref()),
        number: stated(words, case.number.as_ref()),
        born: stated(words, case.birth_date),
        eye: eye(words, case.eye),
        why: case.why.clone(),
    }
}

fn eye(words: Words, side: Option<Side>) -> &'static str {
    side.map_or_else(
        || text::plan::not_stated(words),
        |side| terms::eye_capitals(words, side),
    )
}
