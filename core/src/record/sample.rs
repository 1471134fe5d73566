//! Kept sessions and corrections made by hand, for tests of the rules.
#![allow(clippy::missing_panics_doc, reason = "it is called by tests only")]

use super::{
    Answer, AnswerRow, Channel, Corrected, CorrectionRow, Drawn, Id, Identified, Place, Question, Response,
    ResponseRow, SessionBegun, SessionEnd, SessionRecord, SetEnd, SetEndRow, SetRecord, SetRow, Stamp,
};
use crate::draw::schedule::Seed;
use crate::plan::drill::{Facing, Form, Side, Stance, Support, Surface, Vision};
use crate::plan::prescription::Digest;

/// `ms` after half past nine in New York on the second of November, 2026.
pub fn moment(ms: i64) -> Stamp {
    Stamp::try_from("2026-11-02T09:30:00-05:00[America/New_York]".to_owned()).unwrap().plus(ms)
}

/// The id of the session of these tests.
pub fn id() -> Id {
    Id::from_bytes([1; 16])
}

/// Alone, one whole set, with these answers after it.
pub fn alone(answers: &[(Question, Option<u8>)], why: SessionEnd) -> SessionRecord {
    let start = SessionBegun {
        begun: moment(0),
        title: "One month".to_owned(),
        digest: Digest::of(b"a prescription"),
        sets_planned: 2,
        precautions: Vec::new(),
        drawn: Some(Drawn {
            seed: Seed::from_bytes([7; 32]),
            seed_given: false,
            method: 1,
            voice: "lower".to_owned(),
            device: None,
        }),
    };
    let mut record = SessionRecord::begun(Place::of(id(), start.begun.ms()), start);
    record.form = Some(Form::Alone);
    let rows = answers.iter().map(|(question, answer)| Identified {
        id: of_answer(*question),
        row: AnswerRow { set: Some(1), answer: Answer::from_number(*question, *answer).unwrap() },
    });
    record.answers = rows.collect();
    record.sets = vec![set()];
    record.end = Some(record.figures(moment(240_000), why));
    record
}

/// The id of the answer to this question in those sessions.
pub fn of_answer(question: Question) -> Id {
    Id::of(question.name())
}

/// The id of the response to this push in those sessions.
pub fn of_response(cue: u16) -> Id {
    Id::of(&format!("push {cue}"))
}

/// A set of reaches on its third step, as it begins a minute later.
pub fn set_row() -> SetRow {
    SetRow {
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
    }
}

fn set() -> SetRecord {
    SetRecord {
        end: Some(SetEndRow { at: moment(107_000), worked_ms: 47_000, why: SetEnd::Completed }),
        ..SetRecord::begun(set_row(), Vec::new())
    }
}

/// The same session with a partner, who noted this after its pushes.
pub fn with_partner(responses: &[Option<Response>]) -> SessionRecord {
    let mut record = alone(&[], SessionEnd::Finished);
    record.form = Some(Form::Partner);
    record.sets[0].start.form = Form::Partner;
    let rows = (0..).zip(responses).map(|(cue, response)| Identified {
        id: of_response(cue),
        row: ResponseRow { cue, response: *response },
    });
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
        replaces: Vec::new(),
    }
}

/// The right answer to a question after its first set.
pub fn right(nth: i64, question: Question, number: Option<u8>) -> CorrectionRow {
    let answer = Answer::from_number(question, number).unwrap();
    CorrectionRow { replaces: vec![of_answer(question)], ..correction(nth, Corrected::Answer) }
        .to(Some(1), answer)
}

/// The right response to a push of its first set.
pub fn right_response(nth: i64, cue: u16, response: Option<Response>) -> CorrectionRow {
    let right = response.map(|response| response.name().to_owned());
    let replaces = vec![of_response(cue)];
    CorrectionRow { set: Some(1), cue: Some(cue), right, replaces, ..correction(nth, Corrected::Response) }
}
