//! A kept session as the rules see it.

use jiff::Timestamp;
use jiff::civil::Date;

use super::{FallAnswers, Incidents, PastSession, PastSet};
use crate::plan::drill::Form;
use crate::plan::prescription::Digest;
use crate::record::{Answer, Mishap, Question, SessionRecord, SetRecord, Stamp};

impl PastSession {
    /// A session at its beginning, of which nothing else is known. `None` for one that no rule can place: its moment has
    /// no date. The gate of a stamp lets none of those in.
    pub fn begun(id: String, begun: &Stamp, digest: Digest, sets_planned: u8, by_hand: bool) -> Option<Self> {
        let (day, begun) = (begun.day()?, begun.instant());
        Some(Self { sets_planned, by_hand, ..Self::lost(id, day, begun, digest) })
    }

    /// A session of which nothing but its moment is known.
    pub(crate) fn lost(id: String, day: Date, begun: Timestamp, digest: Digest) -> Self {
        Self {
            id,
            day,
            begun,
            ended: begun,
            seen_before: None,
            digest,
            end: None,
            sets_planned: 0,
            sets_whole: None,
            sets: Vec::new(),
            tried_out: false,
            ready: Vec::new(),
            given: Vec::new(),
            hurt: None,
            told: FallAnswers::default(),
            unwell_then: None,
            same_fall: None,
            why_stopped: None,
            symptom: None,
            before_set: Vec::new(),
            by_hand: false,
            date_cleared: None,
            doubtful: false,
            discounted: false,
            locked_before: Vec::new(),
            held_before: Vec::new(),
            incidents_before: Incidents::default(),
        }
    }

    /// The session as this record has it; `None` as for [`PastSession::begun`].
    pub fn from_record(record: &SessionRecord) -> Option<Self> {
        let start = &record.start;
        let mut session = Self::begun(
            record.id.to_string(),
            &start.begun,
            start.digest,
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
            session.seen_before = decided.seen_before;
            session.sets_whole = Some(decided.sets_whole);
            session.given.clone_from(&decided.given);
        }
        session.sets = record.sets.iter().map(|row| PastSet::from_record(record, row)).collect();
        session.ready = record.ready.iter().map(|row| (row.item, row.answer)).collect();
        let not_begun = |set| record.sets.iter().all(|row| row.start.number != set);
        let before_set = record.mishaps.iter().filter(|row| not_begun(row.set));
        session.before_set = before_set.map(|row| (row.set, row.what)).collect();
        session.tried_out = record.tryout.is_some();
        session.doubtful = record.is_doubtful;
        for row in &record.answers {
            session.answer(row.set, row.answer);
        }
        Some(session)
    }

    /// Takes an answer that was given after this set. Of several to one question the first that was said counts.
    pub fn answer(&mut self, set: Option<u8>, answer: Answer) {
        let set = self.sets.iter_mut().find(|one| Some(one.number) == set);
        match (answer, set) {
            (Answer::Fell(fell), Some(set)) => {
                set.fell_asked = true;
                set.fell_said = set.fell_said.or(fell);
            }
            (Answer::Fell(fell), None) => {
                self.told.asked = true;
                self.told.fell = self.told.fell.or(fell);
            }
            (Answer::FellThen(fell), _) => self.told.fell_then = self.told.fell_then.or(fell),
            (Answer::UnwellThen(unwell), _) => self.unwell_then = self.unwell_then.or(unwell),
            (Answer::FallHurt(hurt), _) => self.told.hurt = self.told.hurt.or(hurt),
            (Answer::Head(head), _) => self.told.head = self.told.head.or(head),
            (Answer::SameFall(same), _) => self.same_fall = self.same_fall.or(same),
            (Answer::Hurt(hurt), _) => self.hurt = self.hurt.or(hurt),
            (Answer::WhyStopped(why), _) => self.why_stopped = self.why_stopped.or(why),
            (Answer::Symptom(symptom), _) => self.symptom = self.symptom.or(symptom),
            (Answer::Grabbed(grabbed), Some(set)) => set.grabbed = set.grabbed.or(grabbed),
            (Answer::HeldOn(times), Some(set)) => set.held_on = set.held_on.or(times),
            (Answer::Effort(effort), Some(set)) => set.effort = set.effort.or(effort),
            (Answer::Steadiness(steady), Some(set)) => set.steadiness = set.steadiness.or(steady),
            (Answer::Unwell(unwell), Some(set)) => set.unwell = set.unwell.or(unwell),
            _ => {}
        }
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
            grabs_by_key: 0,
            advised_lower: false,
            fell_asked: false,
            fell_said: None,
        }
    }

    /// What was answered after it.
    pub fn answers(&self) -> [Answer; 5] {
        [
            Answer::Grabbed(self.grabbed),
            Answer::HeldOn(self.held_on),
            Answer::Effort(self.effort),
            Answer::Steadiness(self.steadiness),
            Answer::Unwell(self.unwell),
        ]
    }

    /// The number of the answer to this question; `None` not asked or not said.
    pub fn number_of(&self, question: Question) -> Option<u32> {
        let answer = self.answers().into_iter().find(|answer| answer.question() == question)?;
        answer.number().map(u32::from)
    }

    /// The set without what was answered after it.
    pub fn from_record(record: &SessionRecord, row: &SetRecord) -> Self {
        let number = row.start.number;
        let mishaps = || record.mishaps.iter().filter(|row| row.set == number);
        let blank = |cue| row.last_plan().iter().any(|plan| plan.cue == cue && plan.blank);
        Self {
            end: row.end.as_ref().map(|end| end.why),
            cues: row.delivered.iter().filter(|delivery| !blank(delivery.cue)).count() as u16,
            responses: row.responses.iter().map(|row| row.response).collect(),
            mishaps: mishaps().map(|row| row.what).collect(),
            grabs_by_key: mishaps()
                .filter(|row| row.what == Mishap::Grab && row.cue.is_none())
                .count()
                .min(255) as u8,
            advised_lower: record.advised.iter().any(|row| row.set == number),
            ..Self::begun(number, row.start.drill.clone(), row.start.form, row.start.step)
        }
    }
}
