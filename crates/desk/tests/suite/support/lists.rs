//! List and day as the pretended store tells them.

use std::collections::BTreeSet;
use std::ops::Range;

use chrono::NaiveDate;
use millrace_core::case::{Draft, State};
use millrace_core::limits::Limits;
use millrace_desk::exchange::{
    Answer, CaseId, CaseRow, DayCase, DayList, Listed, Listing, OnDay, Revision, Stands,
};

use super::Bench;

impl Bench {
    pub(super) fn list(
        &mut self,
        (search, listing): (&str, Listing),
        rows: &Range<usize>,
        open: Option<&CaseId>,
    ) {
        let mut all = self.rows();
        // As the register has them: by day and place, then as they were begun.
        all.sort_by_key(|row| {
            (
                row.date.is_none(),
                row.date,
                row.list_number.is_none(),
                row.list_number,
            )
        });
        let is_by_day = search.is_empty() && listing == Listing::Planned;
        let days = if is_by_day { days(&all) } else { Vec::new() };
        let planned = all.iter().filter(|row| row.state != State::SetAside);
        let stands = planned.zip(0..).find(|(row, _)| Some(&row.case) == open);
        let stands = stands.map(|(row, at)| Stands {
            case: row.case.clone(),
            day: row.date,
            at,
        });
        let is_aside = |row: &CaseRow| row.state == State::SetAside;
        let set_aside = all.iter().filter(|row| is_aside(row)).count();
        let matching = all.into_iter().filter(|row| {
            let name = row.name.clone().unwrap_or_default().to_lowercase();
            let is_listed = is_aside(row) == (listing == Listing::SetAside);
            name.contains(&search.to_lowercase()) && (is_listed || !search.is_empty())
        });
        let found: Vec<_> = matching.collect();
        let end = rows.end.min(found.len());
        let start = rows.start.min(end);
        self.desk.accept(Answer::Listed(Listed {
            search: search.to_owned(),
            listing,
            set_aside,
            total: found.len(),
            start,
            rows: found[start..end].to_vec(),
            days,
            open: stands,
        }));
    }

    fn rows(&self) -> Vec<CaseRow> {
        let mut rows: Vec<_> = self.cases.iter().map(row).collect();
        for (index, state, sheet) in &self.marks {
            rows[*index].state = *state;
            rows[*index].sheet = Some(*sheet);
        }
        rows
    }

    /// As the register does: the day, or the next, or the last.
    pub(super) fn tell_day(&mut self, asked: NaiveDate, limits: &Limits) {
        let rows = self.rows();
        let planned = rows.iter().filter(|row| row.state != State::SetAside);
        let days: BTreeSet<_> = planned.filter_map(|row| row.date).collect();
        let day = days.range(asked..).next().or_else(|| days.last());
        let list = day.map(|&day| DayList {
            day,
            earlier: days.range(..day).next_back().copied(),
            later: days.iter().find(|later| day < **later).copied(),
            cases: rows
                .iter()
                .zip(&self.cases)
                .filter(|(row, _)| row.date == Some(day) && row.state != State::SetAside)
                .map(|(row, (_, seen, draft))| {
                    DayCase::of(row.clone(), seen.clone(), draft, limits)
                })
                .collect(),
        });
        let list = list.map(|mut list| {
            let number = |case: &DayCase| (case.row.list_number.is_none(), case.row.list_number);
            list.cases.sort_by_key(number);
            list
        });
        self.desk.accept(Answer::Day(list));
    }
}

/// How many of the planned cases stand on each day.
fn days(rows: &[CaseRow]) -> Vec<OnDay> {
    let mut days: Vec<OnDay> = Vec::new();
    for row in rows.iter().filter(|row| row.state != State::SetAside) {
        match days.last_mut() {
            Some(last) if last.day == row.date => last.count += 1,
            _ => days.push(OnDay {
                day: row.date,
                count: 1,
            }),
        }
    }
    days
}

fn row((case, _, draft): &(CaseId, Revision, Draft)) -> CaseRow {
    CaseRow {
        case: case.clone(),
        name: draft.patient.name.clone(),
        number: draft.patient.number.clone(),
        eye: draft.operation.eye,
        date: draft.operation.date,
        list_number: draft.operation.list_number,
        state: State::of(draft),
        sheet: None,
    }
}
