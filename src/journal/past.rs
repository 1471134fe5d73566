//! The journal as the rules of progression see it. Not the rules themselves.

use std::borrow::Cow;

use jiff::Timestamp;

use super::{Journal, JournalError, Stamp};
use counterpoise_core::course::past::{Lifted, Past, PastSession, PastSet};
use counterpoise_core::course::progression::marks_of;
use counterpoise_core::plan::prescription::Digest;
use counterpoise_core::record::{
    ClearanceRow, CorrectionRow, Given, Question, Right, SessionRecord, SetRecord,
};

impl Journal {
    /// Everything that was practiced, and what was cleared.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn past(&self) -> Result<Past, JournalError> {
        self.consistent(|db| {
            let corrections = super::correction::corrections(db)?;
            let records = super::read::sessions(db)?;
            let sessions =
                records.iter().filter_map(|record| Some(corrected(record, &corrections)?.0)).collect();
            let clearances = super::fitness::clearances(db)?;
            Ok(Past { sessions, lifted: lifted(&clearances) })
        })
    }
}

/// What clearances lifted.
pub(super) fn lifted(clearances: &[ClearanceRow]) -> Vec<Lifted> {
    let rows = clearances.iter().flat_map(|row| &row.lifted);
    rows.map(|row| Lifted { session: row.locked_by.clone(), what: row.what }).collect()
}

pub(super) fn instant(ms: i64) -> Timestamp {
    Timestamp::from_millisecond(ms).unwrap_or_default()
}

/// The digest of the prescription. One that is none as it is written tells it from others all the same: what happened
/// in a session counts, whatever its prescription was.
pub(super) fn digest(written: &str) -> Digest {
    written.parse().unwrap_or_else(|_| Digest::of(written.as_bytes()))
}

/// The session as it is right, for the rules and as a record. What it locked or held as it was kept, or after any correction of it, stays locked and held:
/// only a clearance lifts a lock, and only time a hold.
pub(super) fn corrected<'a>(
    record: &'a SessionRecord,
    corrections: &[CorrectionRow],
) -> Option<(PastSession, Cow<'a, SessionRecord>)> {
    let kept = session(record)?;
    if !corrections.iter().any(|row| row.session == record.id) {
        return Some((kept, Cow::Borrowed(record)));
    }
    let (mut locks, mut holds) = marks_of(&kept);
    let mut right = kept;
    let mut so_far = Right::new(record);
    for row in corrections {
        if so_far.correct(row) {
            right = session(&so_far.record)?;
            let (more_locks, more_holds) = marks_of(&right);
            locks.extend(more_locks);
            holds.extend(more_holds);
        }
    }
    right.discounted = so_far.set_aside;
    let (now_locks, now_holds) = marks_of(&right);
    right.locked_before = once_each(&locks, &now_locks);
    right.held_before = once_each(&holds, &now_holds);
    Some((right, Cow::Owned(so_far.record)))
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

/// `None` for a session that no rule can place: its moment has no date. The gate of a stamp lets none of those in.
pub(super) fn session(record: &SessionRecord) -> Option<PastSession> {
    let begun = &record.start.begun;
    let answer = |question| {
        let mut answers = record.answers.iter().filter(|row| row.question == question);
        answers.find_map(|row| row.answer)
    };
    // What was kept last: while a session goes on, or was cut off, its end is not known.
    let of_sets =
        record.sets.iter().flat_map(|set| [Some(&set.start.begun), set.end.as_ref().map(|end| &end.at)]);
    let latest =
        of_sets.flatten().chain(record.end.as_ref().map(|end| &end.at)).chain([begun]).map(Stamp::ms).max();
    let decided = record.decided.as_ref();
    Some(PastSession {
        id: record.id.to_string(),
        day: begun.day()?,
        begun: instant(begun.ms()),
        ended: instant(latest?),
        seen_before: decided.and_then(|row| row.seen_before_ms).map(instant),
        digest: digest(&record.start.digest),
        end: record.end.as_ref().map(|end| end.why),
        sets_planned: record.start.sets_planned,
        sets_whole: decided.map(|row| row.sets_whole),
        sets: record.sets.iter().map(|row| set(record, row)).collect(),
        ready: record.ready.iter().map(|row| (row.item, row.is_true)).collect(),
        tried_out: record.tryout.is_some(),
        given: decided
            .into_iter()
            .flat_map(|row| &row.given)
            .map(|row| Given { drill: row.drill.clone(), form: row.form, step: row.step })
            .collect(),
        hurt: answer(Question::Hurt),
        why_stopped: answer(Question::WhyStopped),
        symptom: answer(Question::Symptom),
        by_hand: record.start.is_by_hand(),
        discounted: false,
        locked_before: Vec::new(),
        held_before: Vec::new(),
    })
}

fn set(record: &SessionRecord, row: &SetRecord) -> PastSet {
    let number = row.start.number;
    let answer = |question| {
        let mut answers =
            record.answers.iter().filter(|row| row.question == question && row.set == Some(number));
        answers.find_map(|row| row.answer)
    };
    let blank = |cue| row.last_plan().iter().any(|plan| plan.cue == cue && plan.blank);
    PastSet {
        number,
        drill: row.start.drill.clone(),
        form: row.start.form,
        step: row.start.step,
        end: row.end.as_ref().map(|end| end.why),
        cues: row.delivered.iter().filter(|delivery| !blank(delivery.cue)).count() as u16,
        grabbed: answer(Question::Grabbed),
        held_on: answer(Question::HeldOn),
        effort: answer(Question::Effort),
        steadiness: answer(Question::Steadiness),
        unwell: answer(Question::Unwell),
        responses: row.responses.iter().map(|row| row.response).collect(),
        mishaps: record.mishaps.iter().filter(|row| row.set == number).map(|row| row.what).collect(),
        advised_lower: record.advised.iter().any(|row| row.set == number),
    }
}
