//! What becomes of an answer from outside.

use millrace_core::rules::Severity;

use crate::desk::Desk;
use crate::exchange::{Answer, CaseId};
use crate::frame::Side;
use crate::frame::conflict::Conflict;
use crate::frame::findings::FindingsState;
use crate::front::Front;
use crate::open_case::OpenCase;
use crate::pages::PagesState;
use crate::session::Session;

pub(crate) fn accept(desk: &mut Desk, answer: Answer) {
    match answer {
        Answer::Opened {
            case,
            revision,
            draft,
        } => {
            let session = Session::open(case, revision, *draft, &desk.around.limits);
            desk.open = Some(OpenCase {
                session,
                pages: PagesState::default(),
                findings: FindingsState::default(),
                conflict: None,
                told: Vec::new(),
            });
            desk.side = Side::Page;
            desk.front = Front::Page;
        }
        Answer::Saved { case, revision } => {
            if let Some(open) = of(desk, &case) {
                open.session.saved(revision);
                // What the sheets are worth may have changed with it.
                open.pages.sheet.sheets = None;
            }
            desk.list.renew();
        }
        Answer::NotSaved { case, why } => {
            if let Some(open) = of(desk, &case) {
                open.session.not_saved(why);
            } else {
                let message = format!("A case that was open before is not saved: {why}");
                desk.message = Some((Severity::Stop, message));
            }
        }
        Answer::Conflict {
            case,
            revision,
            theirs,
            author,
        } => {
            if let Some(open) = of(desk, &case) {
                open.session.conflicts();
                open.conflict = Some(Conflict {
                    revision,
                    theirs,
                    author,
                });
            }
        }
        Answer::Listed {
            search,
            total,
            start,
            rows,
        } => desk.list.take(&search, (total, start), rows),
        Answer::ListChanged => desk.list.renew(),
        Answer::Sheets { .. }
        | Answer::Signed { .. }
        | Answer::NotSigned { .. }
        | Answer::Pages { .. }
        | Answer::NoPages { .. } => about_sheets(desk, answer),
        Answer::Done { message } => desk.message = Some((Severity::Note, message)),
        Answer::Failed { message } => desk.message = Some((Severity::Stop, message)),
    }
}

fn about_sheets(desk: &mut Desk, answer: Answer) {
    match answer {
        Answer::Sheets { case, sheets } => {
            if let Some(open) = of(desk, &case) {
                open.pages.sheet.sheets = Some(sheets);
            }
        }
        Answer::Signed { case, sheets } => {
            if let Some(number) = sheets.last().map(|sheet| sheet.number) {
                let message = format!("Signed as sheet {number}; its pages are on the Sheet page");
                desk.message = Some((Severity::Note, message));
            }
            if let Some(open) = of(desk, &case) {
                open.pages.sheet.signed(sheets);
            }
            desk.list.renew();
        }
        Answer::NotSigned { case, why } => {
            if let Some(open) = of(desk, &case) {
                open.pages.sheet.refused = why;
            }
        }
        Answer::Pages { of, pages } => {
            if let Some(open) = self::of(desk, &of.case) {
                open.pages.sheet.preview.take(of, pages);
            }
        }
        Answer::NoPages { of, why } => {
            if let Some(open) = self::of(desk, &of.case) {
                open.pages.sheet.preview.refuse(of, why);
            }
        }
        _ => {}
    }
}

fn of<'a>(desk: &'a mut Desk, case: &CaseId) -> Option<&'a mut OpenCase> {
    desk.open
        .as_mut()
        .filter(|open| open.session.case() == case)
}
