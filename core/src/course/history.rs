//! What was kept as the rules see it: every session as it is right, with the locks and holds that no correction takes
//! away.

use std::borrow::{Borrow, Cow};

use crate::course::past::{Incidents, Past, PastSession};
use crate::course::progression::marks_of;
use crate::record::{Contents, CorrectionRow, Right, SessionRecord};

impl Past {
    /// Everything that was practiced, and what was cleared.
    pub fn of(contents: &Contents) -> Self {
        let records = contents.sessions.iter();
        let sessions = records.filter_map(|record| Some(corrected(record, &contents.corrections)?.0));
        let can_lock = |session: &str| {
            let record = contents.sessions.iter().find(|record| record.id.to_string() == session);
            record.map_or(&[][..], |record| &record.can_lock)
        };
        Self::cleared(sessions.collect(), &contents.clearances, can_lock)
    }
}

/// The session as it is right, for the rules and as a record. What it locked or held as it was kept, or after any
/// correction of it, stays locked and held: only a clearance lifts a lock, and only time a hold. `None` as for
/// [`PastSession::begun`].
pub fn corrected<'a, C: Borrow<CorrectionRow>>(
    record: &'a SessionRecord,
    corrections: &[C],
) -> Option<(PastSession, Cow<'a, SessionRecord>)> {
    let mut kept = PastSession::from_record(record)?;
    tell_all(record, &mut kept);
    if !corrections.iter().any(|row| row.borrow().session == record.id) {
        return Some((kept, Cow::Borrowed(record)));
    }
    let (mut locks, mut holds) = marks_of(&kept);
    let mut incidents = kept.incidents();
    let mut right = kept;
    let mut so_far = Right::new(record);
    for row in corrections {
        if so_far.correct(row.borrow()) {
            right = PastSession::from_record(&so_far.record)?;
            let (more_locks, more_holds) = marks_of(&right);
            incidents = incidents.or(right.incidents());
            locks.extend(more_locks);
            holds.extend(more_holds);
        }
    }
    right.discounted = so_far.set_aside;
    let (now_locks, now_holds) = marks_of(&right);
    right.locked_before = once_each(&locks, &now_locks);
    right.held_before = once_each(&holds, &now_holds);
    right.incidents_before = incidents;
    Some((right, Cow::Owned(so_far.record)))
}

/// Of several answers to one question the first that was said counts, and whatever another one would lock or hold stays
/// locked and held.
fn tell_all(record: &SessionRecord, kept: &mut PastSession) {
    let (locks, holds) = marks_of(kept);
    let asked_before = |nth: usize| {
        let question = record.answers[nth].answer.question();
        let mut before = record.answers[..nth].iter().map(|row| row.answer);
        before.any(|answer| answer.question() == question && answer.number().is_some())
    };
    let others =
        (0..record.answers.len()).filter(|nth| record.answers[*nth].answer.can_lock() && asked_before(*nth));
    let (mut more_locks, mut more_holds) = (Vec::new(), Vec::new());
    let mut incidents = Incidents::default();
    for nth in others {
        let mut other = record.clone();
        let first = other.answers.remove(nth);
        other.answers.insert(0, first);
        if let Some(other) = PastSession::from_record(&other) {
            let (locks, holds) = marks_of(&other);
            incidents = incidents.or(other.incidents());
            more_locks.extend(locks);
            more_holds.extend(holds);
        }
    }
    kept.locked_before = once_each(&more_locks, &locks);
    kept.held_before = once_each(&more_holds, &holds);
    kept.incidents_before = incidents;
}

/// Each mark once, those of `but` left out.
fn once_each<T: PartialEq + Copy>(marks: &[T], but: &[T]) -> Vec<T> {
    let mut once = Vec::new();
    for mark in marks {
        if !(but.contains(mark) || once.contains(mark)) {
            once.push(*mark);
        }
    }
    once
}

#[cfg(test)]
mod test;
