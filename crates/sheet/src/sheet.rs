//! The finished sheet.

use std::sync::atomic::{AtomicUsize, Ordering};

use chrono::{DateTime, Datelike as _, Timelike as _, Utc};
use millrace_core::document::PlanDocument;
use millrace_core::signing::SignedPlan;
use millrace_wording::{Words, sheet as say};
use typst::diag::SourceDiagnostic;
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use typst_render::RenderOptions;

use crate::content::{Subject, check_all};
use crate::data::Signed;
use crate::inspect::{Inspection, PlacedText};
use crate::required::required;
use crate::world::SheetWorld;
use crate::{Outdated, Paper, SheetError, Template, arrangement, qr};

/// Clearings of the layout engine's memory that an entry outlives without being of use. What the
/// template gave is of use to every sheet; what one sheet alone gave, some megabytes, is not.
const OUTLIVED: usize = 1;
/// Sheets laid out so far, in every thread.
static LAID_OUT: AtomicUsize = AtomicUsize::new(0);

/// How a sheet is set.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// What it is printed on.
    pub paper: Paper,
    pub template: &'a Template,
    /// Language and decimal sign: no part of what is signed.
    pub words: Words,
}

/// A finished sheet: every page is laid out, and holds what it must.
#[derive(Clone, Debug)]
pub struct Sheet {
    document: PagedDocument,
    ident: String,
    at: DateTime<Utc>,
    program: String,
}

/// A picture of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageImage {
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// Red, green, blue and opacity of each pixel, rows from the top; no pixel is transparent.
    pub rgba: Vec<u8>,
}

impl Sheet {
    /// A print of a draft: DRAFT across every page and no lens power.
    ///
    /// # Errors
    ///
    /// [`SheetError`] if a text cannot be printed, or the template leaves out what must be there.
    pub fn draft(
        document: &PlanDocument,
        at: DateTime<Utc>,
        setting: Setting<'_>,
    ) -> Result<Self, SheetError> {
        Self::make(Subject::of(document, setting.words), None, at, setting)
    }

    /// The sheet of a signed plan: what was frozen, nothing computed again.
    ///
    /// # Errors
    ///
    /// [`SheetError`] if a text cannot be printed, or the template leaves out what must be there.
    pub fn signed(plan: &SignedPlan, setting: Setting<'_>) -> Result<Self, SheetError> {
        let subject = Subject::of_signed(plan.plan(), setting.words);
        Self::of_signed(plan, subject, setting)
    }

    /// The sheet of a signed plan that is no longer the one to work by: what was frozen, and across every
    /// page, and at its head and foot, why.
    ///
    /// # Errors
    ///
    /// As [`Self::signed`].
    pub fn outdated(
        plan: &SignedPlan,
        why: Outdated,
        setting: Setting<'_>,
    ) -> Result<Self, SheetError> {
        let subject = Subject {
            outdated: Some(why),
            ..Subject::of_signed(plan.plan(), setting.words)
        };
        Self::of_signed(plan, subject, setting)
    }

    fn of_signed(
        plan: &SignedPlan,
        subject: Subject<'_>,
        setting: Setting<'_>,
    ) -> Result<Self, SheetError> {
        let (signature, words) = (plan.signature(), setting.words);
        let code = plan.fingerprint().code();
        let short = plan.fingerprint().short().to_string();
        let signed = Signed {
            number: plan.number().to_string(),
            supersedes: plan.supersedes().map(|number| number.to_string()),
            by: signature.name.clone(),
            role: signature.role.clone(),
            when: words.moment(signature.at),
            qr: qr::svg(&code)?,
            qr_alt: say::code_of(words, &short),
            fingerprint: short,
        };
        Self::make(subject, Some(signed), signature.at, setting)
    }

    fn make(
        subject: Subject<'_>,
        signed: Option<Signed>,
        at: DateTime<Utc>,
        setting: Setting<'_>,
    ) -> Result<Self, SheetError> {
        if subject.draft.operation.eye != Some(subject.side) {
            return Err(SheetError::AnotherEye);
        }
        let data = subject.data(setting.paper, signed)?;
        let required = required(setting.words, &data);
        let (document, ident) = lay_out(&data, setting.template)?;
        Inspection::of(&document).check(&required)?;
        if !setting.template.is_shipped() {
            arrangement::check(&document, &data, setting.template)?;
        }
        Ok(Self {
            document,
            ident,
            at,
            program: subject.document.program.clone(),
        })
    }

    /// The sheet as a tagged PDF that meets PDF/A-2a and PDF/UA-1. The same sheet gives the same bytes.
    ///
    /// # Errors
    ///
    /// [`SheetError::Standard`] if it does not meet them.
    pub fn pdf(&self) -> Result<Vec<u8>, SheetError> {
        let standards =
            PdfStandards::new(&[PdfStandard::A_2a, PdfStandard::Ua_1]).map_err(|error| {
                SheetError::Standard {
                    message: error.message().to_string(),
                }
            })?;
        let options = PdfOptions {
            ident: Smart::Custom(self.ident.clone()),
            creator: Smart::Custom(Some(self.program.clone())),
            timestamp: timestamp(self.at),
            standards,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&self.document, &options).map_err(|errors| SheetError::Standard {
            message: messages(&errors),
        })
    }

    pub fn page_count(&self) -> usize {
        self.document.pages().len()
    }

    /// A picture of one page of the same document, counted from 0; nothing beyond the last.
    pub fn page(&self, index: usize, pixels_per_point: f32) -> Option<PageImage> {
        let page = self.document.pages().get(index)?;
        let options = RenderOptions {
            pixel_per_pt: f64::from(pixels_per_point).into(),
            ..RenderOptions::default()
        };
        let picture = typst_render::render(page, &options);
        Some(PageImage {
            width: picture.width(),
            height: picture.height(),
            rgba: picture.take(),
        })
    }

    /// Pictures of all pages.
    pub fn pages(&self, pixels_per_point: f32) -> Vec<PageImage> {
        (0..self.page_count())
            .filter_map(|index| self.page(index, pixels_per_point))
            .collect()
    }

    /// Every run of text with its place, in the order of painting.
    pub fn texts(&self) -> Vec<PlacedText> {
        Inspection::of(&self.document).texts
    }

    /// Pairs of texts that overlap; none on a good sheet.
    pub fn overlaps(&self) -> Vec<[PlacedText; 2]> {
        Inspection::of(&self.document)
            .overlaps()
            .into_iter()
            .map(|pair| pair.map(Clone::clone))
            .collect()
    }
}

/// A document that is no sheet of a plan.
pub(crate) fn made_of(
    data: &impl serde::Serialize,
    at: DateTime<Utc>,
) -> Result<Sheet, SheetError> {
    let (document, ident) = lay_out(data, Template::list())?;
    Inspection::of(&document).check(&[])?;
    Ok(Sheet {
        document,
        ident,
        at,
        program: concat!("millrace ", env!("CARGO_PKG_VERSION")).to_owned(),
    })
}

pub(crate) fn lay_out(
    data: &impl serde::Serialize,
    template: &Template,
) -> Result<(PagedDocument, String), SheetError> {
    let refused = |message: String| SheetError::Template { message };
    let value = serde_json::to_value(data).map_err(|error| refused(error.to_string()))?;
    check_all(&value)?;
    let text = value.to_string();
    let world = SheetWorld::new(template, text.clone().into_bytes())
        .map_err(|error| refused(error.to_string()))?;
    let compiled = typst::compile::<PagedDocument>(&world);
    forget();
    let document = compiled
        .output
        .map_err(|errors| refused(messages(&errors)))?;
    Ok((document, text))
}

/// Keeps the layout engine's memory bounded: it is cleared once in as many sheets as are made at a
/// time, so that no sheet loses what it still needs, and holds at most what twice as many left. A
/// clearing looks at every entry, so that each sheet clearing up after itself would slow all.
fn forget() {
    let laid_out = LAID_OUT.fetch_add(1, Ordering::Relaxed) + 1;
    if laid_out.is_multiple_of(rayon::current_num_threads()) {
        typst::comemo::evict(OUTLIVED);
    }
}

fn messages(errors: &[SourceDiagnostic]) -> String {
    let messages: Vec<_> = errors.iter().map(|error| error.message.as_str()).collect();
    messages.join("; ")
}

/// The day and time in UTC; nothing outside the years a PDF can name.
fn timestamp(at: DateTime<Utc>) -> Option<typst_pdf::Timestamp> {
    let part = |number: u32| u8::try_from(number).ok();
    let datetime = Datetime::from_ymd_hms(
        at.year(),
        part(at.month())?,
        part(at.day())?,
        part(at.hour())?,
        part(at.minute())?,
        part(at.second())?,
    )?;
    Some(typst_pdf::Timestamp::new_utc(datetime))
}

#[cfg(test)]
mod tests;
