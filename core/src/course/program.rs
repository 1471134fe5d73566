//! Which day is a practice day: what is due today, what is a rest day, and the month as a plain calendar. There is one
//! session a day; an interrupted one can be finished within two hours; a missed day is moved, never doubled. Steps are
//! decided in `progression`.

use jiff::civil::{Date, Time};
use jiff::{SignedDuration, Timestamp, ToSpan, ZonedDateTime};

use crate::course::past::{FINISH_WITHIN, Past, Sitting};
use crate::plan::prescription::{Digest, Prescription};

mod calendar;

pub use calendar::{Mark, Month};

/// Up to this many days a week, there is a day of rest between two practices \[judgment\].
const MOST_DAYS_WITH_REST: u8 = 3;
/// How far ahead the next day is looked for: in a week at the latest there is room again.
const LOOKAHEAD_DAYS: i32 = 14;

/// Whether a practice is due on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Due {
    /// Practice is due.
    Today,
    /// The session of this day was interrupted, and can be finished until `until`.
    Finish {
        /// The last moment.
        until: Timestamp,
    },
    /// The session of this day is done.
    Done {
        /// The next day.
        next: Date,
    },
    /// A free day. The next practice can be moved to it.
    Free {
        /// The next day.
        next: Date,
    },
    /// As many days were practiced in the last seven as are prescribed for a week.
    Rest {
        /// The next day.
        next: Date,
    },
    /// The last practice is dated in the future: the clock was set back, or was wrong then.
    ClockBack {
        /// The day of that practice.
        last: Date,
    },
}

/// A prescription's weeks, counted from the first practice under it.
///
/// ```
/// use counterpoise_core::course::{past::Past, program::{Due, Program}};
/// use counterpoise_core::plan::prescription::Prescription;
/// use jiff::civil::date;
/// let past = Past::default();
/// let program = Program::new(&past, Prescription::ready("gentle").unwrap());
/// let day = date(2026, 11, 2);
/// assert_eq!(program.week(day), 1);
/// assert_eq!(program.due(day, "2026-11-02T10:00:00Z".parse().unwrap()), Due::Today);
/// ```
#[derive(Debug, Clone)]
pub struct Program<'a> {
    sittings: Vec<Sitting<'a>>,
    /// Days with practice, oldest first, each once.
    days: Vec<Date>,
    began: Option<Date>,
    digest: Digest,
    days_a_week: u8,
    weeks: u8,
}

/// The moment that a day means, `now` on this one: its end, on any other.
pub fn moment(day: Option<Date>, now: &ZonedDateTime) -> ZonedDateTime {
    let Some(day) = day.filter(|day| *day != now.date()) else { return now.clone() };
    // Counted back from the next day: one with a change of clocks has 23 or 25 hours.
    let next = day.saturating_add(1.days()).to_datetime(Time::MIN).to_zoned_datetime(now.time_zone().clone());
    let last = SignedDuration::from_millis(1);
    next.map_or_else(|_| now.clone(), |midnight| midnight.saturating_sub(last))
}

/// Whole days from `a` to `b`; below zero if `b` is earlier.
pub fn days_between(a: Date, b: Date) -> i32 {
    (b.duration_since(a).as_hours() / 24) as i32
}

fn add_days(day: Date, days: i32) -> Date {
    day.saturating_add(days.days())
}

impl<'a> Program<'a> {
    /// The program that `prescription` is, with what was practiced so far. Every practice counts for the days, under
    /// whichever prescription it was done.
    pub fn new(past: &'a Past, prescription: &Prescription) -> Self {
        let mut sittings = past.sittings();
        sittings.retain(|sitting| !past.is_set_aside(sitting.last()));
        let began = sittings.iter().find(|sitting| sitting.first().digest == prescription.digest());
        let began = began.map(Sitting::day);
        let mut days: Vec<Date> = sittings.iter().map(Sitting::day).collect();
        days.sort_unstable();
        days.dedup();
        let (digest, days_a_week, weeks) =
            (prescription.digest(), prescription.days_a_week(), prescription.weeks());
        Self { sittings, days, began, digest, days_a_week, weeks }
    }

    /// The day of the first practice under this prescription.
    pub fn began(&self) -> Option<Date> {
        self.began
    }

    /// The week in which `day` lies, from 1; 1 before the first practice.
    pub fn week(&self, day: Date) -> u32 {
        self.began.map_or(1, |began| 1 + days_between(began, day).max(0) as u32 / 7)
    }

    /// Weeks in all.
    pub fn weeks(&self) -> u8 {
        self.weeks
    }

    /// The last day of its weeks; `None` before the first practice.
    pub fn ends_on(&self) -> Option<Date> {
        self.began.map(|began| add_days(began, 7 * i32::from(self.weeks) - 1))
    }

    /// Whether the weeks of the prescription have passed.
    pub fn is_over(&self, day: Date) -> bool {
        self.week(day) > u32::from(self.weeks)
    }

    /// The days that were practiced in the week of `day`, up to and without it.
    pub fn done_this_week(&self, day: Date) -> usize {
        let start = self.week_start(day);
        self.days.iter().filter(|done| (start..day).contains(*done)).count()
    }

    fn week_start(&self, day: Date) -> Date {
        self.began.map_or(day, |began| add_days(began, days_between(began, day).max(0) / 7 * 7))
    }

    /// Whether practice is due on `day`, at `now`.
    pub fn due(&self, day: Date, now: Timestamp) -> Due {
        let latest = self.sittings.iter().max_by_key(|sitting| sitting.last().known());
        if let Some(last) = self.days.last().copied().filter(|last| *last > day) {
            // Flying west over the date line repeats a day; instants still go forward.
            let ahead = latest.is_some_and(|sitting| sitting.last().known() > now);
            return if ahead { Due::ClockBack { last } } else { Due::Done { next: self.next_after(last) } };
        }
        let ours = latest.filter(|sitting| sitting.first().digest == self.digest);
        if let Some(sitting) = ours.filter(|sitting| sitting.may_be_finished(now)) {
            let until = sitting.last().known().saturating_add(FINISH_WITHIN);
            return Due::Finish { until: until.unwrap_or(now) };
        }
        if self.days.last() == Some(&day) {
            return Due::Done { next: self.next_after(day) };
        }
        if !self.has_room(day, &self.days) {
            Due::Rest { next: self.next_after(day) }
        } else if self.is_planned(day, &self.days) {
            Due::Today
        } else {
            Due::Free { next: self.next_after(day) }
        }
    }

    /// Whether the seven days that end with `day` have room for it.
    fn has_room(&self, day: Date, days: &[Date]) -> bool {
        let in_seven = days.iter().filter(|done| (0..7).contains(&days_between(**done, day))).count();
        in_seven < usize::from(self.days_a_week)
    }

    /// Whether fewer days were practiced in this week than are planned up to `day`.
    fn is_planned(&self, day: Date, days: &[Date]) -> bool {
        let Some(began) = self.began else { return true };
        let into = days_between(began, day).rem_euclid(7);
        let start = add_days(day, -into);
        let planned =
            (0..i32::from(self.days_a_week)).filter(|nth| nth * 7 / i32::from(self.days_a_week) <= into);
        let done = days.iter().filter(|done| (start..day).contains(*done)).count();
        let yesterday = days.contains(&add_days(day, -1));
        done < planned.count() && !(yesterday && self.days_a_week <= MOST_DAYS_WITH_REST)
    }

    fn next_after(&self, day: Date) -> Date {
        self.next_with(day, &self.days)
    }

    fn next_with(&self, day: Date, days: &[Date]) -> Date {
        let ahead = (1..=LOOKAHEAD_DAYS).map(|ahead| add_days(day, ahead));
        let due = |day: &Date| self.has_room(*day, days) && self.is_planned(*day, days);
        ahead.clone().find(due).unwrap_or(add_days(day, LOOKAHEAD_DAYS))
    }

    /// The days that are planned from `day` on, up to and with `last`, if each is practiced.
    pub fn planned_days(&self, day: Date, last: Date) -> Vec<Date> {
        let mut days = self.days.clone();
        let mut program = self.clone();
        let mut planned = Vec::new();
        let mut at = day;
        while at <= last {
            let free = !days.contains(&at) && program.has_room(at, &days) && program.is_planned(at, &days);
            if free {
                program.began.get_or_insert(at);
                if program.is_over(at) {
                    break;
                }
                planned.push(at);
                days.push(at);
            }
            at = add_days(at, 1);
        }
        planned
    }

    /// The days from `since` to `until` on which the prescription asks for practice, as they lie if none is moved: from the
    /// day on which it was `issued` (where nobody issued it, from the first practice) until its weeks have passed, which are
    /// counted from the first practice.
    pub fn prescribed_days(&self, issued: Option<Date>, since: Date, until: Date) -> Vec<Date> {
        let Some(from) = issued.or(self.began) else { return Vec::new() };
        let asks = |day: &Date| {
            let begun = self.began.filter(|began| began <= day);
            let into = days_between(begun.unwrap_or(from), *day).rem_euclid(7);
            let week = i32::from(self.days_a_week);
            !self.is_over(*day) && (0..week).any(|nth| nth * 7 / week == into)
        };
        let first = since.max(from);
        first.series(1.day()).take_while(|day| *day <= until).filter(asks).collect()
    }

    /// The month in which `day` lies. `ahead`: whether the days to come are planned at all.
    pub fn month(&self, day: Date, ahead: bool) -> Month {
        let planned = if ahead { self.planned_days(day, day.last_of_month()) } else { Vec::new() };
        Month::new(day, |cell| {
            if self.days.contains(&cell) {
                Mark::Done
            } else if planned.contains(&cell) {
                Mark::Planned
            } else {
                Mark::None
            }
        })
    }
}

#[cfg(test)]
mod test;
