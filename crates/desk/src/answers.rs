//! What becomes of an answer from outside.

use crate::desk::{Desk, OpenCase};
use crate::exchange::{Answer, CaseId};
use crate::frame::Side;
use crate::frame::conflict::Conflict;
use crate::frame::findings::FindingsState;
use crate::front::Front;
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
            });
            desk.side = Side::Page;
            desk.front = Front::Page;
        }
        Answer::Saved { case, revision } => {
            if let Some(open) = of(desk, &case) {
                open.session.saved(revision);
            }
            desk.list.renew();
        }
        Answer::NotSaved { case, why } => match of(desk, &case) {
            Some(open) => open.session.not_saved(why),
            None => desk.message = Some(format!("A case that was open before is not saved: {why}")),
        },
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
        Answer::Failed { message } => desk.message = Some(message),
    }
}

fn of<'a>(desk: &'a mut Desk, case: &CaseId) -> Option<&'a mut OpenCase> {
    desk.open
        .as_mut()
        .filter(|open| open.session.case() == case)
}
