//! A kept session as the rules see it.

use super::{PastSession, PastSet};
use crate::plan::drill::Form;
use crate::plan::prescription::Digest;
use crate::record::{Given, Question, SessionRecord, SetRecord, Stamp, instant};

/// The digest of the prescription. An invalid one still identifies it: what happened
/// in a session counts, whatever its prescription was.
pub fn digest(written: &str) -> Digest {
    written.parse().unwrap_or_else(|_| Digest::of(written.as_bytes()))
}

impl PastSession {
    /// A session at its beginning, of which nothing else is known. `None` for one that no rule can place: its moment has
    /// no date. The gate of a stamp lets none of those in.
    pub fn begun(id: String, begun: &Stamp, digest: Digest, sets_planned: u8, by_hand: bool) -> Option<Self> {
        Some(Self {
            id,
            day: begun.day()?,
            begun: begun.instant(),
            ended: begun.instant(),
            seen_before: None,
            digest,
            end: None,
            sets_planned,
            sets_whole: None,
            sets: Vec::new(),
            tried_out: false,
            ready: Vec::new(),
            given: Vec::new(),
            hurt: None,
            why_stopped: None,
            symptom: None,
            by_hand,
            discounted: false,
            locked_before: Vec::new(),
            held_before: Vec::new(),
        })
    }

    /// The session as this record has it; `None` as for [`PastSession::begun`].
    pub fn from_record(record: &SessionRecord) -> Option<Self> {
        let start = &record.start;
        let mut session = Self::begun(
            record.id.to_string(),
            &start.begun,
            digest(&start.digest),
            start.sets_planned,
            start.is_by_hand(),
        )?;
        // What was kept last: while a session goes on, or was cut off, its end is not known.
        let of_sets =
            record.sets.iter().flat_map(|set| [Some(&set.start.begun), set.end.as_ref().map(|end| &end.at)]);
        for at in of_sets.flatten().chain(record.end.as_ref().map(|end| &end.at)) {
            session.ended = session.ended.max(at.instant());
        }
        session.end = record.end.as_ref().map(|end| end.why);
        if let Some(decided) = &record.decided {
            session.seen_before = decided.seen_before_ms.map(instant);
            session.sets_whole = Some(decided.sets_whole);
            let given = decided.given.iter();
            session.given = given
                .map(|row| Given {
                    drill: row.drill.clone(),
                    form: row.form,
                    step: row.step,
                    ladder: row.ladder.clone(),
                })
                .collect();
        }
        session.sets = record.sets.iter().map(|row| PastSet::from_record(record, row)).collect();
        session.ready = record.ready.iter().map(|row| (row.item, row.is_true)).collect();
        session.tried_out = record.tryout.is_some();
        for row in &record.answers {
            session.answer(row.set, row.question, row.answer);
        }
        Some(session)
    }

    /// Takes an answer that was given after this set. Of several to one question the first that was said counts.
    pub fn answer(&mut self, set: Option<u8>, question: Question, answer: Option<u8>) {
        let set = self.sets.iter_mut().find(|one| Some(one.number) == set);
        let place = match (question, set) {
            (Question::Hurt, _) => &mut self.hurt,
            (Question::WhyStopped, _) => &mut self.why_stopped,
            (Question::Symptom, _) => &mut self.symptom,
            (Question::Grabbed, Some(set)) => &mut set.grabbed,
            (Question::HeldOn, Some(set)) => &mut set.held_on,
            (Question::Effort, Some(set)) => &mut set.effort,
            (Question::Steadiness, Some(set)) => &mut set.steadiness,
            (Question::Unwell, Some(set)) => &mut set.unwell,
            _ => return,
        };
        *place = place.or(answer);
    }
}

impl PastSet {
    /// A set at its beginning, of which nothing else is known.
    pub fn begun(number: u8, drill: String, form: Form, step: u8) -> Self {
        Self {
            number,
            drill,
            form,
            step,
            end: None,
            cues: 0,
            grabbed: None,
            held_on: None,
            effort: None,
            steadiness: None,
            unwell: None,
            responses: Vec::new(),
            mishaps: Vec::new(),
            advised_lower: false,
        }
    }

    /// The set without what was answered after it.
    fn from_record(record: &SessionRecord, row: &SetRecord) -> Self {
        let number = row.start.number;
        let blank = |cue| row.last_plan().iter().any(|plan| plan.cue == cue && plan.blank);
        Self {
            end: row.end.as_ref().map(|end| end.why),
            cues: row.delivered.iter().filter(|delivery| !blank(delivery.cue)).count() as u16,
            responses: row.responses.iter().map(|row| row.response).collect(),
            mishaps: record.mishaps.iter().filter(|row| row.set == number).map(|row| row.what).collect(),
            advised_lower: record.advised.iter().any(|row| row.set == number),
            ..Self::begun(number, row.start.drill.clone(), row.start.form, row.start.step)
        }
    }
}
