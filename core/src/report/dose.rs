//! Days, sessions and sets against those prescribed, by ISO week, and minutes, hours and cues.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::Period;
use super::material::{PeriodSessions, Practice};
use crate::course::past::Past;
use crate::course::program::Program;
use crate::plan::prescription::Prescription;
use crate::record::{SessionEnd, SetEnd};

/// What was done in a period.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Dose {
    /// Days with practice.
    pub days: usize,
    /// Days on which the prescription in use asks for practice in the period, one session each.
    pub days_prescribed: u32,
    /// Sessions that were begun: an interrupted one and what finished it are one.
    pub sessions: usize,
    /// Sessions with every set completed.
    pub sessions_whole: usize,
    /// Sets completed.
    pub sets: usize,
    /// Sets that the prescription in use asks for in the period.
    pub sets_prescribed: u32,
    /// Sets that were begun and not completed.
    pub sets_broken_off: usize,
    /// Sets that were left out while the session went on.
    pub sets_left_out: usize,
    /// Work in all, in milliseconds, broken-off sets included.
    pub active_ms: u64,
    /// Whole sessions from the first page to the end, with questions and rests, in milliseconds.
    pub session_ms: u64,
    /// Sessions whose length is not known, and is not in `session_ms`.
    pub length_unknown: usize,
    /// Calls that were heard, shown or asked for.
    pub cues: u64,
    /// Sessions that were interrupted, finished later or not.
    pub interrupted: usize,
    /// Sessions with a seed that somebody gave: they were not unpredictable.
    pub seed_given: usize,
    /// Sessions with a correction, those that were set aside included: figures are those after it.
    pub corrected: usize,
    /// Sessions that were set aside, and are in no figure.
    pub set_aside: usize,
    /// Supervised try-outs, which are in no figure of practice.
    pub tried_out: usize,
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
    /// The ISO week, as in `2026-W45`.
    pub week: String,
    /// Its first day that lies in the period.
    pub from: Date,
    /// How many of its days lie in the period.
    pub days_in_period: u8,
    /// Days with practice.
    pub days: usize,
    /// Days prescribed, one session each.
    pub days_prescribed: u32,
    /// Sessions that were begun.
    pub sessions: usize,
    /// Sessions with every set completed.
    pub sessions_whole: usize,
    /// Sets completed.
    pub sets: usize,
    /// Sets prescribed in the week.
    pub sets_prescribed: u32,
    /// Work time, in milliseconds.
    pub active_ms: u64,
    /// Whole sessions with rests, in milliseconds, where their length is known.
    pub session_ms: u64,
    /// Calls that were heard, shown or asked for.
    pub cues: u64,
}

impl Week {
    /// The name of the ISO 8601 week in which a day lies.
    ///
    /// ```
    /// use counterpoise_core::report::Week;
    /// assert_eq!(Week::name_of("2027-01-03".parse().unwrap()), "2026-W53");
    /// assert_eq!(Week::name_of("2027-01-04".parse().unwrap()), "2027-W01");
    /// ```
    pub fn name_of(day: Date) -> String {
        let week = day.iso_week_date();
        format!("{:04}-W{:02}", week.year(), week.week())
    }

    fn empty(day: Date) -> Self {
        Self {
            week: Self::name_of(day),
            from: day,
            days_in_period: 0,
            days: 0,
            days_prescribed: 0,
            sessions: 0,
            sessions_whole: 0,
            sets: 0,
            sets_prescribed: 0,
            active_ms: 0,
            session_ms: 0,
            cues: 0,
        }
    }

    fn add(&mut self, practice: &Practice<'_>) {
        self.sessions += 1;
        self.sessions_whole += usize::from(practice.is_whole);
        for (session, more) in &practice.sessions {
            self.sets += session.sets.iter().filter(|set| set.end == Some(SetEnd::Completed)).count();
            self.active_ms += more.sets.iter().map(|set| u64::from(set.worked_ms)).sum::<u64>();
            self.session_ms += more.length_ms(session).unwrap_or(0);
            self.cues += session.sets.iter().map(|set| u64::from(set.cues)).sum::<u64>();
        }
    }
}

impl Dose {
    pub(super) fn of(
        inside: &PeriodSessions<'_>,
        past: &Past,
        prescription: &Prescription,
        period: Period,
    ) -> Self {
        let mut weeks = weeks(period);
        let mut seen: Vec<Date> = Vec::new();
        for practice in &inside.practices {
            let name = Week::name_of(practice.day);
            let Some(week) = weeks.iter_mut().find(|week| week.week == name) else { continue };
            if !seen.contains(&practice.day) {
                seen.push(practice.day);
                week.days += 1;
            }
            week.add(practice);
        }
        let issued = Some(prescription.issued_on()).filter(|_| !prescription.issued_by().is_empty());
        let sets_a_day: u32 = prescription.drills().iter().map(|plan| u32::from(plan.sets())).sum();
        for day in Program::new(past, prescription).prescribed_days(issued, period.since, period.until) {
            let name = Week::name_of(day);
            for week in weeks.iter_mut().filter(|week| week.week == name) {
                week.days_prescribed += 1;
                week.sets_prescribed += sets_a_day;
            }
        }
        let practiced = || inside.practice_sessions();
        let begun: usize = practiced().map(|(session, _)| session.sets.len()).sum();
        let sets = weeks.iter().map(|week| week.sets).sum();
        Self {
            days: seen.len(),
            days_prescribed: weeks.iter().map(|week| week.days_prescribed).sum(),
            sessions: inside.practices.len(),
            sessions_whole: weeks.iter().map(|week| week.sessions_whole).sum(),
            sets,
            sets_prescribed: weeks.iter().map(|week| week.sets_prescribed).sum(),
            sets_broken_off: begun - sets,
            sets_left_out: practiced().map(|(_, more)| more.left_out.len()).sum(),
            active_ms: weeks.iter().map(|week| week.active_ms).sum(),
            session_ms: weeks.iter().map(|week| week.session_ms).sum(),
            length_unknown: practiced().filter(|(session, more)| more.length_ms(session).is_none()).count(),
            cues: weeks.iter().map(|week| week.cues).sum(),
            interrupted: practiced().filter(|(session, _)| is_cut(session.end)).count(),
            seed_given: practiced().filter(|(_, more)| more.seed_given).count(),
            corrected: inside.sessions.iter().filter(|(_, more)| !more.corrected.is_empty()).count(),
            set_aside: inside.sessions.iter().filter(|(session, _)| session.discounted).count(),
            tried_out: inside.own_sessions().filter(|(session, _)| session.tried_out).count(),
            by_hand: practiced().filter(|(session, _)| session.by_hand).count(),
            silent: practiced().filter(|(_, more)| more.silent).count(),
            sound_disturbed: practiced().flat_map(|(_, more)| &more.sets).map(|set| set.disturbed).sum(),
            weeks,
        }
    }
}

/// Whether a session was cut off by the program or computer. One that is still going on in another window was not.
fn is_cut(end: Option<SessionEnd>) -> bool {
    matches!(end, Some(SessionEnd::Closed | SessionEnd::Interrupted))
}

/// Every week of the period.
fn weeks(period: Period) -> Vec<Week> {
    let mut weeks: Vec<Week> = Vec::new();
    for day in period.since.series(1.day()).take_while(|day| *day <= period.until) {
        let name = Week::name_of(day);
        if weeks.last().is_none_or(|week| week.week != name) {
            weeks.push(Week::empty(day));
        }
        if let Some(week) = weeks.last_mut() {
            week.days_in_period += 1;
        }
    }
    weeks
}
