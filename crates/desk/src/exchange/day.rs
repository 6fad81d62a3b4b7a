//! The operations of one day, as the day view tells them.

use chrono::NaiveDate;
use millrace_core::case::{Approach, Draft, ListNumber, State};
use millrace_core::limits::Limits;
use millrace_core::plan::Plan;
use millrace_core::rules::Severity;

use super::{CaseId, CaseRow, Planned, Revision, Who};

/// The operations of a day, and the nearest days that have some.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayList {
    pub day: NaiveDate,
    pub earlier: Option<NaiveDate>,
    pub later: Option<NaiveDate>,
    pub cases: Vec<DayCase>,
}

/// The order of a day as a person set it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderRequest {
    /// Every case whose place is given, each as it was seen.
    pub places: Vec<Placed>,
    pub by: Who,
}

/// A place in the order of its day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Placed {
    pub case: CaseId,
    /// The revision that was seen; once it is stored, the one that has the place.
    pub revision: Revision,
    pub number: ListNumber,
}

/// Which way a case goes in the order of its day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    Earlier,
    Later,
}

impl DayList {
    /// Every place of the day with this case one further; nothing if it stands at the end already, is not of this
    /// day, or the day has more cases than places.
    pub fn with_moved(&self, case: &CaseId, toward: Toward) -> Option<Vec<Placed>> {
        let from = self.cases.iter().position(|it| it.row.case == *case)?;
        let to = match toward {
            Toward::Earlier => from.checked_sub(1)?,
            Toward::Later => from + 1,
        };
        let mut order: Vec<&DayCase> = self.cases.iter().collect();
        if order.len() <= to {
            return None;
        }
        order.swap(from, to);
        let placed = order.into_iter().zip(1_u8..).map(|(it, number)| {
            Some(Placed {
                case: it.row.case.clone(),
                revision: it.seen.clone(),
                number: ListNumber::try_from(number).ok()?,
            })
        });
        placed.collect()
    }

    /// Whether there are places enough to order it.
    pub fn can_be_ordered(&self) -> bool {
        let most = usize::from(ListNumber::LAST.get());
        (2..=most).contains(&self.cases.len())
    }
}

/// One operation of a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayCase {
    pub row: CaseRow,
    /// The revision all this is of.
    pub seen: Revision,
    pub planned: Planned,
    pub approach: Option<Approach>,
    /// What there is to do before it can be signed, in the order of the work; nothing once it is signed.
    pub lacks: Vec<Lacks>,
    /// Nothing where no eye is chosen: then no rule can look at it.
    pub open: Option<OpenFindings>,
}

/// What is not there yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lacks {
    Eye,
    /// What the chosen formula needs, or any.
    Biometry,
    Target,
    Lens,
    Power,
    /// The cylinder and axis of a toric lens.
    Cylinder,
    Approach,
}

/// Findings that stand against a signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OpenFindings {
    pub stops: usize,
    /// Without a reason that counts.
    pub reviews: usize,
}

impl DayCase {
    /// What the day view tells of a case, by these limits.
    pub fn of(row: CaseRow, seen: Revision, draft: &Draft, limits: &Limits) -> Self {
        let open = Plan::of(draft, limits).ok().map(|plan| OpenFindings {
            stops: plan.findings(Severity::Stop).count(),
            reviews: plan
                .findings(Severity::Review)
                .filter(|found| found.is_open())
                .count(),
        });
        let lacks = match row.state {
            State::Signed => Vec::new(),
            _ => lacks(draft),
        };
        Self {
            planned: Planned::of(draft),
            approach: draft.approach.approach,
            lacks,
            open,
            row,
            seen,
        }
    }
}

fn lacks(draft: &Draft) -> Vec<Lacks> {
    let planned = draft.lens.lenses.planned();
    let record = planned.map(|planned| &planned.record);
    let is_toric = record.is_some_and(|record| record.toric.is_some());
    [
        (draft.operation.eye.is_none(), Lacks::Eye),
        // Whether it is measured is known of a chosen eye alone.
        (
            draft.operation.eye.is_some() && State::of(draft) == State::Draft,
            Lacks::Biometry,
        ),
        (draft.lens.target.is_none(), Lacks::Target),
        (planned.is_none(), Lacks::Lens),
        (
            planned.is_some_and(|planned| planned.power.is_none()),
            Lacks::Power,
        ),
        (
            is_toric && planned.is_some_and(|planned| planned.toric.is_none()),
            Lacks::Cylinder,
        ),
        (draft.approach.approach.is_none(), Lacks::Approach),
    ]
    .into_iter()
    .filter_map(|(is_lacking, what)| is_lacking.then_some(what))
    .collect()
}
