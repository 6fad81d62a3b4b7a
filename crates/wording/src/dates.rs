//! Days and moments, in words: no two countries read digits alone the same way.

use std::borrow::Cow;

use chrono::{
    DateTime, Datelike as _, NaiveDate, NaiveDateTime, NaiveTime, Timelike as _, Utc, Weekday,
};

use crate::{Show, Words};

messages! {
    january = "Jan";
    february = "Feb";
    march = "Mar";
    april = "Apr";
    may = "May";
    june = "Jun";
    july = "Jul";
    august = "Aug";
    september = "Sep";
    october = "Oct";
    november = "Nov";
    december = "Dec";

    monday = "Monday";
    tuesday = "Tuesday";
    wednesday = "Wednesday";
    thursday = "Thursday";
    friday = "Friday";
    saturday = "Saturday";
    sunday = "Sunday";

    short_monday = "Mon";
    short_tuesday = "Tue";
    short_wednesday = "Wed";
    short_thursday = "Thu";
    short_friday = "Fri";
    short_saturday = "Sat";
    short_sunday = "Sun";

    weekday(weekday, day) = "{weekday} {day}";
    day(day, month, year) = "{day} {month} {year}";
    moment(day, time) = "{day}, {time} UTC";
    local_moment(day, time) = "{day}, {time}";
}

const MONTHS: [fn(Words) -> &'static str; 12] = [
    january, february, march, april, may, june, july, august, september, october, november,
    december,
];

/// The months as they are shortened in a day.
pub fn months(words: Words) -> [&'static str; 12] {
    MONTHS.map(|month| month(words))
}

impl Words {
    /// "3 Dec 2026".
    pub fn day(self, date: NaiveDate) -> String {
        let month = usize::try_from(date.month0()).ok();
        let month = month.and_then(|index| MONTHS.get(index));
        day(
            self,
            date.day(),
            month.map_or("", |month| month(self)),
            date.year(),
        )
    }

    /// "Thursday 3 Dec 2026".
    pub fn weekday(self, date: NaiveDate) -> String {
        let name = match date.weekday() {
            Weekday::Mon => monday,
            Weekday::Tue => tuesday,
            Weekday::Wed => wednesday,
            Weekday::Thu => thursday,
            Weekday::Fri => friday,
            Weekday::Sat => saturday,
            Weekday::Sun => sunday,
        };
        weekday(self, name(self), self.day(date))
    }

    /// "Thu 3 Dec 2026".
    pub fn short_weekday(self, date: NaiveDate) -> String {
        let name = match date.weekday() {
            Weekday::Mon => short_monday,
            Weekday::Tue => short_tuesday,
            Weekday::Wed => short_wednesday,
            Weekday::Thu => short_thursday,
            Weekday::Fri => short_friday,
            Weekday::Sat => short_saturday,
            Weekday::Sun => short_sunday,
        };
        weekday(self, name(self), self.day(date))
    }

    /// "3 Dec 2026, 16:40 UTC": to the minute, with its zone.
    pub fn moment(self, at: DateTime<Utc>) -> String {
        let time = format!("{:02}:{:02}", at.hour(), at.minute());
        moment(self, self.day(at.date_naive()), time)
    }
}

impl Show for NaiveDate {
    fn show(&self, words: Words) -> Cow<'_, str> {
        words.day(*self).into()
    }
}

/// "10:42", by the clock on the wall.
impl Show for NaiveTime {
    fn show(&self, _: Words) -> Cow<'_, str> {
        format!("{:02}:{:02}", self.hour(), self.minute()).into()
    }
}

/// "3 Dec 2026, 10:42", by the clock on the wall.
impl Show for NaiveDateTime {
    fn show(&self, words: Words) -> Cow<'_, str> {
        local_moment(words, self.date(), self.time()).into()
    }
}

impl Show for DateTime<Utc> {
    fn show(&self, words: Words) -> Cow<'_, str> {
        words.moment(*self).into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_names_its_month_and_a_moment_its_zone() {
        let day = NaiveDate::from_ymd_opt(1951, 1, 31).unwrap();
        assert_eq!(Words::ENGLISH.day(day), "31 Jan 1951");
        let at: DateTime<Utc> = "2026-12-03T18:05:59.9+02:00".parse().unwrap();
        assert_eq!(Words::ENGLISH.moment(at), "3 Dec 2026, 16:05 UTC");
    }
}
