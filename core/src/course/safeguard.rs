//! What the safety record and the journal say together. Where they differ the stricter holds: what bars practice by either of
//! them bars it.

use std::collections::HashSet;

use jiff::Timestamp;

use crate::course::past::{Barrier, Incidents, Past, PastSession};
use crate::course::progression::{ends_day, marks_of, restrictions_of};
use crate::course::trainee::Trainee;
use crate::health::lock::{HOLD, Lock, Restriction};
use crate::plan::prescription::Digest;
use crate::record::safety_record::UNKNOWN;
use crate::record::{Contents, Id, Line, Mark, What, instant};

/// What one session bars by itself, and no clearance lifted.
fn of_session(past: &Past, session: &PastSession) -> Vec<What> {
    let (locks, holds) = marks_of(session);
    let locks = locks.into_iter().map(Barrier::Lock);
    let restrictions = restrictions_of(past, session).map(Barrier::Restriction);
    let bars = locks.chain(restrictions).filter(|what| !past.is_lifted(session, *what)).map(What::Bars);
    let ends = ends_day(session).then_some(What::EndsDay);
    let mut all: Vec<What> = Vec::new();
    for what in bars.chain(holds.into_iter().map(What::Holds)).chain(ends) {
        if !all.contains(&what) {
            all.push(what);
        }
    }
    all
}

fn mark(session: &PastSession, what: What, journal: Id) -> Mark {
    let at_ms = session.known().as_millisecond();
    let id = Id::try_from(session.id.clone()).unwrap_or_else(|_| Id::of(&session.id));
    Mark { number: 0, what, at_ms, day: session.day, journal, session: id }
}

/// What the session of these lines bars so far.
pub fn marks_of_lines(lines: &[Line], session: Id, journal: Id) -> Vec<Mark> {
    let past = Past::of(&Contents::of(lines.to_vec()));
    let of = past.sessions.iter().filter(|one| one.id == session.to_string());
    of.flat_map(|one| of_session(&past, one).into_iter().map(|what| mark(one, what, journal))).collect()
}

/// Whether one of these lines, none of which the journal has, can tell of something that bars practice. In doubt it can.
pub fn can_bar<'a>(lines: impl IntoIterator<Item = &'a Line>) -> bool {
    lines.into_iter().any(|line| {
        line.entry
            .entry()
            .is_none_or(|entry| entry.can_lock() || matches!(entry, crate::record::Entry::Suitability(_)))
    })
}

impl Trainee {
    /// Everything that bars practice by the journal alone, with holds and ended days of the last 48 hours.
    pub fn marks(&self, journal: Id) -> Vec<Mark> {
        let latest = self.past.latest().unwrap_or(Timestamp::MIN);
        let is_late =
            |session: &PastSession| session.known().saturating_add(HOLD).unwrap_or(Timestamp::MAX) > latest;
        let sessions = self.past.sessions.iter().flat_map(|session| {
            let late = is_late(session) && !self.past.is_set_aside(session);
            let all = of_session(&self.past, session).into_iter();
            all.filter(move |what| late || matches!(what, What::Bars(_)))
                .map(|what| mark(session, what, journal))
        });
        let answers = self.rows_that_lock().into_iter().filter_map(|(id, at)| {
            let (what, day) = (What::Bars(Barrier::Clinician), at.day()?);
            Some(Mark { number: 0, what, at_ms: at.ms(), day, journal, session: id })
        });
        sessions.chain(answers).collect()
    }

    /// The same person under what stands in the safety record, and the marks that the journal alone does not have.
    #[must_use]
    pub fn beside(mut self, standing: &[Mark]) -> (Self, Vec<Mark>) {
        let known: HashSet<(Id, What)> =
            self.marks(Id::from_bytes([0; 16])).iter().map(|mark| (mark.session, mark.what)).collect();
        let mut more = Vec::new();
        for mark in standing {
            let there = self.past.sessions.iter().any(|one| one.id == mark.session.to_string());
            let is_known = match mark.what {
                // The answers may have been given anew since. A day ends by itself, and a hold that is over has no mark.
                What::Bars(Barrier::Clinician) => self.has_answers(mark.session),
                What::EndsDay => there,
                What::Bars(_) | What::Holds(_) => known.contains(&(mark.session, mark.what)),
                What::Clears(_) => true,
            };
            if !is_known {
                more.push(*mark);
            }
        }
        for mark in &more {
            match mark.what {
                What::EndsDay => self.past.closed_days.push(mark.day),
                _ => {
                    let mut session = lost_session(mark);
                    let dates = self.past.dates_cleared.iter().filter(|(id, _)| *id == session.id);
                    session.date_cleared = dates.map(|(_, at)| *at).max();
                    self.past.sessions.push(session);
                }
            }
        }
        self.past.sessions.sort_by_key(|session| session.begun);
        more.retain(|mark| !self.is_cleared(mark));
        (self, more)
    }

    /// Whether a clearance names this mark itself, which nothing in the journal explains.
    pub fn is_cleared(&self, mark: &Mark) -> bool {
        let id = mark.id().to_string();
        let What::Bars(barrier) = mark.what else { return false };
        self.past.lifted.iter().any(|lifted| lifted.session == id && lifted.what == as_lost(barrier))
    }

    /// Marks in the record that stand, and of which the journal knows that they are over: answers about suitability that were
    /// given anew or cleared.
    pub fn over<'a>(&self, standing: &'a [Mark]) -> Vec<&'a Mark> {
        let rows: Vec<Id> = self.rows_that_lock().into_iter().map(|(id, _)| id).collect();
        let answered_anew = |mark: &Mark| {
            mark.what == What::Bars(Barrier::Clinician)
                && self.has_answers(mark.session)
                && !rows.contains(&mark.session)
        };
        standing.iter().filter(|mark| answered_anew(mark) || self.is_cleared(mark)).collect()
    }
}

/// As what it bars, where the entries that it is of are gone.
fn as_lost(barrier: Barrier) -> Barrier {
    match barrier {
        Barrier::Lock(_) | Barrier::Restriction(_) => barrier,
        _ => Barrier::Lock(Lock::Lost),
    }
}

/// Whether a clearance that lifted this lifts the mark.
pub fn lifts(session: &str, what: Barrier, mark: &Mark) -> bool {
    let What::Bars(barrier) = mark.what else { return false };
    let of_journal = session == mark.session.to_string()
        && (what == barrier || barrier == Barrier::Clinician && matches!(what, Barrier::Clinician));
    of_journal || session == mark.id().to_string() && what == as_lost(barrier)
}

/// A session of which only a mark is left.
fn lost_session(mark: &Mark) -> PastSession {
    let mut session =
        PastSession::lost(mark.id().to_string(), mark.day, instant(mark.at_ms), Digest::of(&[]));
    match mark.what {
        What::Bars(Barrier::Restriction(Restriction::Fall)) => {
            session.incidents_before = Incidents { fell: true, grabs: 0 };
        }
        What::Bars(Barrier::Restriction(Restriction::Grabs)) => {
            session.incidents_before = Incidents { fell: false, grabs: 2 };
        }
        What::Bars(barrier) => {
            let Barrier::Lock(lock) = as_lost(barrier) else { return session };
            session.locked_before.push(lock);
        }
        What::Holds(hold) => session.held_before.push(hold),
        What::EndsDay | What::Clears(_) => {}
    }
    session
}

/// A mark for something of which nobody knows what it was.
pub fn unknown(journal: Id, session: Id, at: Timestamp, day: jiff::civil::Date) -> Mark {
    Mark { number: 0, what: UNKNOWN, at_ms: at.as_millisecond(), day, journal, session }
}

#[cfg(test)]
mod test;
