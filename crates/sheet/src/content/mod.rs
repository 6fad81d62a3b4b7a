//! A plan as the sheet says it: facts of its document, in the words it is handed.

mod approach;
mod findings;
mod formulas;
mod identity;
mod lens;
mod measurements;
mod second_look;
mod special;
mod texts;
mod told;
mod withheld;

pub(crate) use texts::check_all;

use millrace_core::biometry::Side;
use millrace_core::case::Draft;
use millrace_core::document::{PlanDocument, Results};
use millrace_wording::text::{banner, plan};
use millrace_wording::{Show, Words, sheet as say};

use crate::data::{Fact, SheetData, Signed};
use crate::outdated::Mark;
use crate::{Outdated, Paper, SheetError, figures, fonts, labels};

/// What the sheet is made from: a document, whose numbers it prints. Nothing is computed again.
#[derive(Clone, Copy)]
pub(crate) struct Subject<'a> {
    pub(crate) document: &'a PlanDocument,
    pub(crate) draft: &'a Draft,
    pub(crate) side: Side,
    pub(crate) results: &'a Results,
    pub(crate) signed: bool,
    /// Why it is no longer the one to work by.
    pub(crate) outdated: Option<Outdated>,
    pub(crate) words: Words,
}

impl<'a> Subject<'a> {
    /// Of a plan nobody signed.
    pub(crate) const fn of(document: &'a PlanDocument, words: Words) -> Self {
        Self {
            document,
            draft: &document.case,
            side: document.results.eye,
            results: &document.results,
            signed: false,
            outdated: None,
            words,
        }
    }

    pub(crate) const fn of_signed(document: &'a PlanDocument, words: Words) -> Self {
        Self {
            signed: true,
            ..Self::of(document, words)
        }
    }

    /// Everything the template is given.
    pub(crate) fn data(
        self,
        paper: Paper,
        signed: Option<Signed>,
    ) -> Result<SheetData, SheetError> {
        let words = self.words;
        let mut data = SheetData {
            paper: paper.name(),
            fonts: fonts::families(),
            language: language(words),
            labels: labels::of_sheet(words),
            title: match &signed {
                Some(signed) => self.outdated.map_or_else(
                    || say::title(words, &signed.number),
                    |why| why.title(words, &signed.number),
                ),
                None => say::title_draft(words).to_owned(),
            },
            signed,
            outdated: self.outdated.map(|why| why.mark(words)),
            identity: self.identity(),
            lens: self.lens(),
            told: self.told(),
            special: self.special(),
            second_look: self.second_look(),
            overrides: self.overrides(),
            caution: banner::caution(words),
            program: self.document.program.clone(),
            approach: self.approach(),
            approach_missing: self.approach_missing(),
            figures: figures::all(self),
            measurements: self.measurements(),
            formulas: self.formulas(),
            findings: self.findings(),
        };
        if !self.signed {
            data.outdated = Some(Mark::of_draft(words));
            withheld::take_out(&mut data, (self.draft, self.results), words);
        }
        texts::check(&mut data)?;
        Ok(data)
    }

    /// A fact, or that nobody stated it.
    pub(crate) fn stated(self, value: Option<impl Show>) -> String {
        stated(self.words, value)
    }
}

/// A fact, or that nobody stated it.
pub(crate) fn stated(words: Words, value: Option<impl Show>) -> String {
    value.map_or_else(
        || plan::not_stated(words).to_owned(),
        |value| value.show(words).into_owned(),
    )
}

/// The language of the words as a document names it.
pub(crate) fn language(words: Words) -> &'static str {
    let code = words.language.code();
    code.split_once('-').map_or(code, |(language, _)| language)
}

/// A fact in the program's own words.
fn fact(name: &'static str, text: impl Into<String>) -> Fact {
    Fact {
        name,
        text: text.into(),
        typed: None,
        strong: false,
    }
}

#[cfg(test)]
mod tests;
