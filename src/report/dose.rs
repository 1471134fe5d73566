//! Sessions and sets against those prescribed, by ISO week, and minutes and cues.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::{Inside, Period};
use crate::prescription::Prescription;
use crate::record::{SessionEnd, SetEnd};

/// What was done in a period.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Dose {
    /// Days with practice: an interrupted session and what finished it are one.
    pub days: usize,
    /// Days that the prescription in use asks for in the period.
    pub days_prescribed: u32,
    /// Sets done whole.
    pub sets: usize,
    /// Sets that the prescription in use asks for in the period.
    pub sets_prescribed: u32,
    /// Sets that were begun and not done whole.
    pub sets_broken_off: usize,
    /// Work in all, in milliseconds, broken-off sets included.
    pub active_ms: u64,
    /// Calls that were heard, shown or asked for.
    pub cues: u64,
    /// Sessions that were interrupted.
    pub interrupted: usize,
    /// Sessions with a seed that somebody gave: they were not unpredictable.
    pub seed_given: usize,
    /// Sessions with a correction: figures are those after it.
    pub corrected: usize,
    /// Sessions that were set aside, and are in no figure.
    pub set_aside: usize,
    /// Sessions that were typed in by hand: what was heard is not known.
    pub by_hand: usize,
    /// Sessions without sound.
    pub silent: usize,
    /// How often the sound was disturbed in a set.
    pub sound_disturbed: usize,
    /// The weeks, oldest first, those without practice too.
    pub weeks: Vec<Week>,
}

/// One ISO week.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Week {
    /// `2026-W45`.
    pub week: String,
    /// Its first day that lies in the period.
    pub from: Date,
    /// How many of its days lie in the period.
    pub days_in_period: u8,
    /// Days with practice.
    pub days: usize,
    /// Days prescribed: of a part of a week no more than it has days.
    pub days_prescribed: u8,
    /// Sets done whole.
    pub sets: usize,
    /// Work, in milliseconds.
    pub active_ms: u64,
    /// Calls.
    pub cues: u64,
}

/// The name of the ISO 8601 week in which a day lies.
///
/// ```
/// use counterpoise::report::Week;
/// assert_eq!(Week::name_of("2027-01-03".parse().unwrap()), "2026-W53");
/// assert_eq!(Week::name_of("2027-01-04".parse().unwrap()), "2027-W01");
/// ```
impl Week {
    /// The name of the ISO 8601 week in which a day lies.
    pub fn name_of(day: Date) -> String {
        let week = day.iso_week_date();
        format!("{:04}-W{:02}", week.year(), week.week())
    }
}

impl Dose {
    pub(super) fn of(inside: &Inside<'_>, prescription: &Prescription, period: Period) -> Self {
        let sets_a_day: u32 = prescription.drills().iter().map(|plan| u32::from(plan.sets())).sum();
        let mut weeks = weeks(period, prescription.days_a_week());
        let mut seen: Vec<Date> = Vec::new();
        let (mut sets, mut broken_off) = (0, 0);
        for (session, more) in inside.practiced() {
            let name = Week::name_of(session.day);
            let Some(week) = weeks.iter_mut().find(|week| week.week == name) else { continue };
            if !seen.contains(&session.day) {
                seen.push(session.day);
                week.days += 1;
            }
            let whole = session.sets.iter().filter(|set| set.end == Some(SetEnd::Completed)).count();
            sets += whole;
            broken_off += session.sets.len() - whole;
            week.sets += whole;
            week.active_ms += more.sets.iter().map(|set| u64::from(set.worked_ms)).sum::<u64>();
            week.cues += session.sets.iter().map(|set| u64::from(set.cues)).sum::<u64>();
        }
        let days_prescribed = weeks.iter().map(|week| u32::from(week.days_prescribed)).sum();
        let cut = |end| matches!(end, Some(SessionEnd::Closed | SessionEnd::Interrupted) | None);
        Self {
            days: seen.len(),
            days_prescribed,
            sets,
            sets_prescribed: days_prescribed * sets_a_day,
            sets_broken_off: broken_off,
            active_ms: weeks.iter().map(|week| week.active_ms).sum(),
            cues: weeks.iter().map(|week| week.cues).sum(),
            interrupted: inside.practiced().filter(|(session, _)| cut(session.end)).count(),
            seed_given: inside.practiced().filter(|(_, more)| more.seed_given).count(),
            corrected: inside.sessions.iter().filter(|(_, more)| !more.corrected.is_empty()).count(),
            set_aside: inside.sessions.iter().filter(|(session, _)| session.discounted).count(),
            by_hand: inside.practiced().filter(|(_, more)| more.by_hand).count(),
            silent: inside.practiced().filter(|(_, more)| more.silent).count(),
            sound_disturbed: inside
                .practiced()
                .flat_map(|(_, more)| &more.sets)
                .map(|set| set.disturbed)
                .sum(),
            weeks,
        }
    }
}

/// Every week of the period.
fn weeks(period: Period, days_a_week: u8) -> Vec<Week> {
    let mut weeks: Vec<Week> = Vec::new();
    let mut day = period.since;
    while day <= period.until {
        let name = Week::name_of(day);
        match weeks.last_mut().filter(|week| week.week == name) {
            Some(week) => week.days_in_period += 1,
            None => weeks.push(Week {
                week: name,
                from: day,
                days_in_period: 1,
                days: 0,
                days_prescribed: 0,
                sets: 0,
                active_ms: 0,
                cues: 0,
            }),
        }
        let Ok(next) = day.checked_add(1.day()) else { break };
        day = next;
    }
    for week in &mut weeks {
        week.days_prescribed = days_a_week.min(week.days_in_period);
    }
    weeks
}
