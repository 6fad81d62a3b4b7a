//! What this crate has to say, in the messages of the wording.

use std::borrow::Cow;

use millrace_wording::text::plan::not_stated;
use millrace_wording::{Show, Words, patients, register as say, stored};

use crate::check::CheckProblem;
use crate::clock::SetBack;
use crate::error::{Fault, RegisterError, SaveError, SignError};
use crate::problem::{Index, Mismatch, Problem, SignedProblem, Wanted};
use crate::{CaseId, Head, NotACaseId, NotAHead, PatientDoubt, PrintedHead};

impl Show for CaseId {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

impl Show for NotACaseId {
    fn show(&self, words: Words) -> Cow<'_, str> {
        stored::not_a_case(words).into()
    }
}

impl Show for Head {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

impl Show for PrintedHead {
    fn show(&self, _: Words) -> Cow<'_, str> {
        self.to_string().into()
    }
}

impl Show for NotAHead {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Form => stored::not_a_head(words).into(),
            Self::Length { found } => stored::head_length(words, found).into(),
        }
    }
}

impl Show for RegisterError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        say::at_path(words, &self.fault, self.path.display().to_string()).into()
    }
}

impl Show for Fault {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Directory(error) => say::no_directory(words, error.to_string()),
            Self::NetworkDrive { kind } => say::network_drive(words, kind),
            Self::Absent => return say::absent(words).into(),
            Self::NotAFile => return say::not_a_file(words).into(),
            Self::Empty => return say::empty(words).into(),
            Self::NotARegister => return say::not_a_register(words).into(),
            Self::LeftOver => return say::left_over(words).into(),
            Self::ForeignJournal { journal } => {
                say::foreign_journal(words, journal.display().to_string())
            }
            Self::SetBack { seen, now } => say::set_back(words, seen.short(), now),
            Self::OtherHead { seen, now } => say::other_head(words, seen.short(), now),
            Self::Missing { seen } => say::missing(words, seen.short()),
            Self::SeenHead => return say::seen_head(words).into(),
            Self::Gone => return say::gone(words).into(),
            Self::Replaced => return say::replaced(words).into(),
            Self::ChangedMeanwhile => return say::changed_meanwhile(words).into(),
            Self::Newer { found, newest } => say::newer(words, found, newest),
            Self::ReadOnly => return say::read_only(words).into(),
            Self::Access(problem) => say::no_access(words, problem),
            Self::Locked => return say::locked(words).into(),
            Self::Full => return say::full(words).into(),
            Self::Damaged(problem) => say::damaged(words, problem),
            Self::File(error) => error.to_string(),
            Self::Exists => return say::exists(words).into(),
            Self::BadBackup(problem) => say::bad_backup(words, problem),
            Self::BeyondRepair(problem) => say::beyond_repair(words, problem),
            Self::NoSuchCase => return say::no_such_case(words).into(),
            Self::ManyCases { cases } => {
                let names = words.list(cases.iter().map(|case| case.short()));
                say::many_cases(words, names)
            }
            Self::NoSuchRevision { asked, newest } => say::no_such_revision(words, asked, newest),
            Self::NoSuchSheet {
                asked,
                newest: Some(newest),
            } => say::no_such_sheet(words, asked.get(), newest.get()),
            Self::NoSuchSheet {
                asked,
                newest: None,
            } => say::no_sheet_yet(words, asked.get()),
            Self::Nobody => return say::nobody(words).into(),
            Self::Time(_) => return say::no_such_time(words).into(),
            Self::Hidden(hidden) => say::nothing_saved(words, hidden),
            Self::Case(error) => say::case_not_stored(words, error),
            Self::NotOrdered(refused) => say::not_ordered(words, refused),
            Self::Random(error) => say::no_random_numbers(words, error.to_string()),
            Self::Stopped => return say::stopped(words).into(),
            Self::Database(problem) => say::database_reports(words, problem),
        }
        .into()
    }
}

impl Show for PatientDoubt {
    fn show(&self, words: Words) -> Cow<'_, str> {
        let (Self::NumberOfAnother(entry) | Self::AnotherNumber(entry)) = self;
        let name = entry.name.as_deref().unwrap_or_else(|| not_stated(words));
        let number = entry.number.as_deref().unwrap_or_else(|| not_stated(words));
        let born = entry.birth_date.map_or_else(
            || not_stated(words).into(),
            |date| date.show(words).into_owned(),
        );
        let case = entry.case.short();
        match self {
            Self::NumberOfAnother(_) => {
                patients::number_of_another(words, number, name, born, case)
            }
            Self::AnotherNumber(_) => patients::another_number(words, name, born, number, case),
        }
        .into()
    }
}

impl Show for Problem {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Reported(text) => return text.into(),
            Self::RevisionMissing { case, number } => stored::revision_missing(words, number, case),
            Self::RevisionChanged { case, number } => stored::revision_changed(words, number, case),
            Self::RevisionUnreadable {
                case,
                number,
                error,
            } => stored::revision_unreadable(words, number, case, error),
            Self::NotOurs { text, wanted } => stored::not_our_text(words, text, wanted),
            Self::NoNumberLeft => return stored::no_number_left(words).into(),
            Self::TwoSheets => return stored::two_sheets(words).into(),
            Self::SheetUnreadable { number, error } => stored::of_sheet(words, number.get(), error),
            Self::SheetDiffers { number, mismatch } => {
                stored::of_sheet(words, number.get(), mismatch)
            }
            Self::SheetChanged { number } => stored::sheet_changed(words, number.get()),
            Self::SheetMissing { number } => stored::sheet_missing(words, number),
            Self::SheetZero => return stored::sheet_zero(words).into(),
            Self::ReadsBackOtherwise => return stored::reads_back_otherwise(words).into(),
            Self::CopyStopped => return stored::copy_stopped(words).into(),
            Self::Count { listed, saved } => stored::listed_and_saved(words, listed, saved),
            Self::Signed(problem) => problem.show(words).into_owned(),
            Self::Index(index) => return index.show(words),
            Self::ListDiffers { case } => stored::list_differs(words, case),
        }
        .into()
    }
}

impl Show for Index {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::List => stored::list_index(words),
            Self::Search => stored::search_index(words),
            Self::Revisions => stored::revision_index(words),
            Self::Sheets => stored::sheet_index(words),
        }
        .into()
    }
}

impl Show for Wanted {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Case => stored::not_a_case(words),
            Self::Moment => stored::not_a_moment(words),
            Self::Day => stored::not_a_day(words),
        }
        .into()
    }
}

impl Show for Mismatch {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Number => stored::other_number(words),
            Self::Signature => stored::other_signature(words),
            Self::Revision => stored::other_revision(words),
        }
        .into()
    }
}

impl Show for SignedProblem {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::RevisionMissing => stored::signed_revision_missing(words),
            Self::NotInItsPlace => stored::not_in_its_place(words),
            Self::SupersedesAnother => stored::supersedes_another(words),
            Self::Unreadable(error) => return error.show(words),
            Self::Differs(mismatch) => return mismatch.show(words).into_owned().into(),
        }
        .into()
    }
}

impl Show for CheckProblem {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::File(problem) => stored::file_broken(words, problem),
            Self::Schema { object } => stored::other_schema(words, object),
            Self::Search(problem) => stored::search_differs(words, problem),
            Self::Missing { sequence } => stored::save_missing(words, sequence),
            Self::Order { case, revision } => stored::revision_out_of_order(words, case, revision),
            Self::Chain { case, revision } => stored::revision_not_as_saved(words, case, revision),
            Self::Body {
                case,
                revision,
                error,
            } => stored::revision_not_readable(words, case, revision, error),
            Self::MissingSheet { number } => stored::sheet_missing(words, number),
            Self::Sheet { number, problem } => stored::of_sheet(words, number, problem),
            Self::List { case } => stored::list_behind(words, case),
        }
        .into()
    }
}

impl Show for SetBack {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Save {
                case,
                revision,
                before,
                at,
            } => {
                let [before, at] = [before, at].map(|time| words.moment(*time));
                stored::saved_before(words, case, revision, at, before)
            }
            Self::Sheet { number, before, at } => {
                let [before, at] = [before, at].map(|time| words.moment(*time));
                stored::signed_before(words, number, at, before)
            }
        }
        .into()
    }
}

impl Show for SaveError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Conflict { theirs } => {
                let theirs = &theirs.entry;
                let at = words.moment(theirs.saved_at);
                say::changed_not_saved(words, theirs.number, &theirs.saved_by, at).into()
            }
            Self::Register(error) => error.show(words),
        }
    }
}

impl Show for SignError {
    fn show(&self, words: Words) -> Cow<'_, str> {
        match self {
            Self::Conflict { theirs } => {
                let theirs = &theirs.entry;
                let at = words.moment(theirs.saved_at);
                say::changed_not_signed(words, theirs.number, &theirs.saved_by, at).into()
            }
            Self::AlreadySigned { sheet } => {
                let at = words.moment(sheet.signed_at);
                say::already_signed(words, sheet.number.get(), &sheet.signed_by, at).into()
            }
            Self::OtherCases { others } => {
                let others = match others.as_slice() {
                    [] => patients::no_other_case(words).to_owned(),
                    others => words.clauses(others),
                };
                say::other_cases(words, others).into()
            }
            Self::Obstacles { obstacles } => {
                say::cannot_be_signed(words, words.clauses(obstacles)).into()
            }
            Self::Register(error) => error.show(words),
        }
    }
}
