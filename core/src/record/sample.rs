//! Kept sessions and corrections made by hand, for tests of the rules.
#![allow(clippy::missing_panics_doc, reason = "it is called by tests only")]

use super::{
    AnswerRow, Channel, Corrected, CorrectionRow, PlanRecord, Question, Response, ResponseRow, SessionEnd,
    SessionId, SessionRecord, SessionRow, SetEnd, SetEndRow, SetRecord, SetRow, Stamp, SummaryRow,
};
use crate::draw::schedule::Seed;
use crate::plan::drill::{Facing, Form, Side, Stance, Support, Surface, Vision};
use crate::plan::prescription::Digest;

/// `ms` after half past nine in New York on the second of November, 2026.
pub fn moment(ms: i64) -> Stamp {
    Stamp::try_from("2026-11-02T09:30:00-05:00[America/New_York]".to_owned()).unwrap().plus(ms)
}

/// The id of the session of these tests.
pub fn id() -> SessionId {
    SessionId::from_bytes([1; 16])
}

/// Alone, one whole set, with these answers after it.
pub fn alone(answers: &[(Question, Option<u8>)], why: SessionEnd) -> SessionRecord {
    let answers = (0..).zip(answers);
    SessionRecord {
        id: id(),
        form: Some(Form::Alone),
        start: SessionRow {
            begun: moment(0),
            title: "One month".to_owned(),
            digest: Digest::of(b"a prescription").to_string(),
            seed: Seed::from_bytes([7; 32]).to_string(),
            seed_given: false,
            method: 1,
            voice: "lower".to_owned(),
            device: None,
            sets_planned: 2,
        },
        end: Some(SummaryRow {
            at: moment(240_000),
            why,
            sets_completed: 1,
            sets_planned: 2,
            cues_heard: 0,
            cues_shown: 0,
            active_ms: 47_000,
            grabbed: None,
            held_on: None,
            effort: None,
            steadiness: None,
            unwell: None,
            not_said: 0,
            cues_asked: 0,
            grabs: 0,
            falls: 0,
            pushes_noted: 0,
            pushes_not_noted: 0,
        }),
        tryout: None,
        decided: None,
        ready: Vec::new(),
        answers: answers
            .map(|(place, (question, answer))| AnswerRow {
                place,
                set: Some(1),
                question: *question,
                answer: *answer,
            })
            .collect(),
        sets: vec![set()],
        left_out: Vec::new(),
        mishaps: Vec::new(),
        advised: Vec::new(),
        routines: Vec::new(),
        course: Vec::new(),
    }
}

fn set() -> SetRecord {
    SetRecord {
        start: SetRow {
            number: 1,
            begun: moment(60_000),
            drill: "counter-reach".to_owned(),
            form: Form::Alone,
            step: 3,
            stance: Stance::SemiTandem,
            side: Some(Side::Left),
            surface: Surface::Firm,
            support: Support::OneHand,
            vision: Vision::Open,
            channel: Some(Channel::Trainee),
            facing: Some(Facing::CounterAhead),
            second_task: None,
            work_ms: 47_000,
            recover_ms: 5_000,
            rest_ms: 61_000,
            ladder: None,
        },
        end: Some(SetEndRow { at: moment(107_000), worked_ms: 47_000, why: SetEnd::Completed }),
        plans: vec![PlanRecord { plan: 0, paused_at_ms: None, cues: Vec::new() }],
        delivered: Vec::new(),
        responses: Vec::new(),
        disturbed: Vec::new(),
    }
}

/// The same session with a partner, who noted this after its pushes.
pub fn with_partner(responses: &[Option<Response>]) -> SessionRecord {
    let mut record = alone(&[], SessionEnd::Finished);
    record.form = Some(Form::Partner);
    record.sets[0].start.form = Form::Partner;
    let rows = (0..).zip(responses).map(|(cue, response)| ResponseRow { cue, response: *response });
    record.sets[0].responses = rows.collect();
    record
}

/// A correction of that session, the `nth` in time.
pub fn correction(nth: i64, what: Corrected) -> CorrectionRow {
    CorrectionRow {
        at: moment(1_000_000 + nth),
        session: id(),
        what,
        set: None,
        question: None,
        cue: None,
        right: None,
        reason: "wrong key".to_owned(),
    }
}

/// The right answer to a question after its first set.
pub fn right(nth: i64, question: Question, answer: Option<u8>) -> CorrectionRow {
    let right = answer.map(|answer| answer.to_string());
    CorrectionRow { set: Some(1), question: Some(question), right, ..correction(nth, Corrected::Answer) }
}

/// The right response to a push of its first set.
pub fn right_response(nth: i64, cue: u16, response: Option<Response>) -> CorrectionRow {
    let right = response.map(|response| response.name().to_owned());
    CorrectionRow { set: Some(1), cue: Some(cue), right, ..correction(nth, Corrected::Response) }
}
