//! A plan in the words of the sheet. The words are core's wherever core has them.

mod approach;
mod findings;
mod formulas;
mod identity;
mod lens;
mod measurements;
mod texts;

pub(crate) use texts::check_all;

use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_core::document::{PlanDocument, Results};
use millrace_core::words::CAUTION;

use crate::data::{Fact, SheetData, Signed};
use crate::{Paper, SheetError, figures, fonts};

/// What stands where nobody stated anything.
pub(crate) const NOT_STATED: &str = "not stated";

/// What the sheet is made from: a document, whose numbers it prints. Nothing is computed again.
#[derive(Clone, Copy)]
pub(crate) struct Subject<'a> {
    pub(crate) document: &'a PlanDocument,
    pub(crate) draft: &'a Draft,
    pub(crate) side: Side,
    pub(crate) results: &'a Results,
    pub(crate) signed: bool,
}

impl<'a> Subject<'a> {
    /// Of a plan nobody signed.
    pub(crate) const fn of(document: &'a PlanDocument) -> Self {
        Self {
            document,
            draft: &document.case,
            side: document.results.eye,
            results: &document.results,
            signed: false,
        }
    }

    /// Of a signed one.
    pub(crate) const fn of_signed(document: &'a PlanDocument) -> Self {
        Self {
            signed: true,
            ..Self::of(document)
        }
    }

    /// Everything the template is given.
    pub(crate) fn data(
        self,
        paper: Paper,
        signed: Option<Signed>,
    ) -> Result<SheetData, SheetError> {
        let mut data = SheetData {
            paper: paper.name(),
            fonts: fonts::families(),
            title: String::new(),
            signed,
            identity: self.identity(),
            lens: self.lens(),
            overrides: self.overrides(),
            caution: CAUTION,
            program: self.document.program.clone(),
            approach: self.approach(),
            approach_missing: self.approach_missing(),
            figures: figures::all(self),
            measurements: self.measurements(),
            formulas: self.formulas(),
            findings: self.findings(),
        };
        data.title = match &data.signed {
            Some(signed) => format!("Plan sheet {}", signed.number),
            None => "Plan sheet, draft".to_owned(),
        };
        texts::check(&mut data)?;
        Ok(data)
    }
}

pub(crate) fn stated<T: ToString>(value: Option<T>) -> String {
    value.map_or_else(|| NOT_STATED.to_owned(), |value| value.to_string())
}

/// A fact in the program's own words.
fn fact(name: &'static str, text: impl Into<String>) -> Fact {
    Fact {
        name,
        text: text.into(),
        typed: false,
        strong: false,
    }
}

#[cfg(test)]
mod tests;
