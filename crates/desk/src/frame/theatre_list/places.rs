//! Where the rows and the heads of the days stand in the list, in points from its top.
//!
//! A row is as high as its text: most are as high as a name of one line makes them, and only the others are
//! remembered, so that 100,000 cases cost as little as ten.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::exchange::OnDay;

#[derive(Debug, Default)]
pub(super) struct Places {
    groups: Vec<Group>,
    total: usize,
    /// Height of a row whose every text has one line.
    row: f32,
    /// Height of the head of a day.
    head: f32,
    /// Rows of another height.
    others: BTreeMap<usize, f32>,
}

/// The cases of a day, or those without one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Group {
    first: usize,
    pub(super) day: Option<NaiveDate>,
    pub(super) count: usize,
}

#[expect(
    clippy::cast_precision_loss,
    reason = "exact up to 16 million rows, and no list has as many"
)]
const fn counted(number: usize) -> f32 {
    number as f32
}

impl Places {
    /// The list has so many rows, by these days; by none where it is not grouped.
    pub(super) fn hold(&mut self, total: usize, days: &[OnDay]) {
        self.total = total;
        self.groups.clear();
        let mut first = 0;
        for &OnDay { day, count } in days {
            self.groups.push(Group { first, day, count });
            first += count;
        }
    }

    /// Forgets what was found out of another list.
    pub(super) fn forget(&mut self) {
        self.others.clear();
        self.hold(0, &[]);
    }

    /// As high are a row and a head at this size of text.
    pub(super) fn measure(&mut self, row: f32, head: f32) {
        if self.row.to_bits() != row.to_bits() {
            self.others.clear();
        }
        self.row = row;
        self.head = head;
    }

    pub(super) const fn is_grouped(&self) -> bool {
        !self.groups.is_empty()
    }

    /// The day that begins with this row.
    pub(super) fn begins(&self, index: usize) -> Option<Group> {
        let at = self.groups.binary_search_by_key(&index, |it| it.first);
        self.groups.get(at.ok()?).copied()
    }

    /// Where a row begins, under the head of its day.
    pub(super) fn top(&self, index: usize) -> f32 {
        let heads = self.groups.partition_point(|group| group.first <= index);
        let others = self.others.range(..index);
        let beyond: f32 = others.map(|(_, height)| height - self.row).sum();
        counted(index) * self.row + counted(heads) * self.head + beyond
    }

    /// Where a row begins, or the head of its day where that stands over it.
    pub(super) fn top_with_head(&self, index: usize) -> f32 {
        let head = self.begins(index).map_or(0.0, |_| self.head);
        self.top(index) - head
    }

    pub(super) fn height(&self, index: usize) -> f32 {
        self.others.get(&index).copied().unwrap_or(self.row)
    }

    pub(super) const fn head(&self) -> f32 {
        self.head
    }

    /// How high the whole list is.
    pub(super) fn whole(&self) -> f32 {
        match self.total.checked_sub(1) {
            None => 0.0,
            Some(last) => self.top(last) + self.height(last),
        }
    }

    /// The row that stands there, with its head.
    pub(super) fn at(&self, depth: f32) -> usize {
        let (mut low, mut high) = (0, self.total);
        while low + 1 < high {
            let middle = usize::midpoint(low, high);
            if self.top_with_head(middle) <= depth {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// A row turned out to be so high; whether that moves the rows under it.
    pub(super) fn found_out(&mut self, index: usize, height: f32) -> bool {
        if (self.height(index) - height).abs() < 0.5 {
            return false;
        }
        if (self.row - height).abs() < 0.5 {
            self.others.remove(&index);
        } else {
            self.others.insert(index, height);
        }
        true
    }

    /// Where the list opens: with the first case of this day or of the next that has any; with those without a
    /// day if all days are past; with the last case if every case is of the past.
    pub(super) fn opens_at(&self, today: NaiveDate) -> Option<usize> {
        let is_due = |group: &&Group| group.day.is_none_or(|day| today <= day);
        let due = self.groups.iter().find(is_due);
        due.map(|group| group.first).or(self.total.checked_sub(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(of_december: u32) -> Option<NaiveDate> {
        NaiveDate::from_ymd_opt(2026, 12, of_december)
    }

    /// Two cases on the third, three on the fourth, one without a day; rows of 50, heads of 20.
    fn places() -> Places {
        let mut places = Places::default();
        let days = [(day(3), 2), (day(4), 3), (None, 1)];
        places.measure(50.0, 20.0);
        places.hold(6, &days.map(|(day, count)| OnDay { day, count }));
        places
    }

    fn near(left: f32, right: f32) -> bool {
        (left - right).abs() < 1e-3
    }

    /// By hand: 20 head, 0 and 1; 20 head, 2 to 4; 20 head, 5.
    #[test]
    fn heads_stand_over_the_first_case_of_their_day() {
        let places = places();
        for (index, top, with_head) in [
            (0, 20.0, 0.0),
            (1, 70.0, 70.0),
            (2, 140.0, 120.0),
            (4, 240.0, 240.0),
            (5, 310.0, 290.0),
        ] {
            assert!(
                near(places.top(index), top),
                "{index}: {}",
                places.top(index)
            );
            assert!(near(places.top_with_head(index), with_head), "{index}");
        }
        assert!(near(places.whole(), 360.0));
        let begins: Vec<_> = (0..6).filter_map(|it| places.begins(it)).collect();
        let told = begins.iter().map(|it| (it.day, it.count));
        assert!(told.eq([(day(3), 2), (day(4), 3), (None, 1)]));
    }

    #[test]
    fn a_long_name_moves_what_stands_under_it_and_nothing_else() {
        let mut places = places();
        assert!(places.found_out(1, 90.0));
        assert!(!places.found_out(1, 90.2));
        assert!(near(places.top(1), 70.0));
        assert!(near(places.top(2), 180.0));
        assert!(near(places.whole(), 400.0));
        // A shorter one takes its place.
        assert!(places.found_out(1, 50.0));
        assert!(near(places.whole(), 360.0));
    }

    #[test]
    fn every_depth_has_its_row() {
        let mut places = places();
        places.found_out(3, 120.0);
        for (depth, index) in [
            (-5.0, 0),
            (0.0, 0),
            (69.0, 0),
            (71.0, 1),
            (119.0, 1),
            (121.0, 2),
            (191.0, 3),
            (309.0, 3),
            (311.0, 4),
            (1e6, 5),
        ] {
            assert_eq!(places.at(depth), index, "{depth}");
        }
        let mut nothing = Places::default();
        nothing.measure(50.0, 20.0);
        assert_eq!(nothing.at(10.0), 0);
        assert!(near(nothing.whole(), 0.0));
    }

    #[test]
    fn it_opens_at_the_day_or_the_next() {
        let places = places();
        let opens = |of: u32| places.opens_at(day(of).unwrap());
        assert_eq!(
            [1, 3, 4, 5].map(opens),
            [Some(0), Some(0), Some(2), Some(5)]
        );
        let mut past = Places::default();
        past.hold(
            2,
            &[OnDay {
                day: day(3),
                count: 2,
            }],
        );
        assert_eq!(past.opens_at(day(9).unwrap()), Some(1));
        assert_eq!(Places::default().opens_at(day(9).unwrap()), None);
    }
}
