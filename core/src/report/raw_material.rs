//! What was kept becomes the material of a report: each session as it is right, and as it was kept where anything was
//! corrected.

use super::material::{Cleared, Material, Program, SessionDetails, SetDetails, Told};
use crate::course::history::corrected;
use crate::course::past::{Lifted, PastSet};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::drill::Action;
use crate::plan::prescription::{Prescription, Seal};
use crate::record::{
    Answer, BalanceRow, Change, ChangeRow, ClearanceRow, Contents, CorrectionRow, Identified, LiftedRow,
    PrescriptionText, Question, SessionRecord, SetRecord,
};

impl Material {
    /// The material of everything that was kept.
    pub fn of(contents: &Contents) -> Self {
        let Contents { sessions: records, corrections, clearances, changes, tests, .. } = contents;
        let lifted = contents.lifted();
        let as_kept = (!corrections.is_empty()).then(|| Box::new(sessions(records, &[], &lifted)));
        let cleared = |row: &ClearanceRow| Some((row.at.day()?, row.who.clone(), row.reason.clone()));
        let named = |row: &ClearanceRow| -> Vec<Cleared> {
            let Some(on) = row.at.day() else { return Vec::new() };
            let one = |lifted: &LiftedRow| Cleared {
                session: lifted.locked_by.clone(),
                what: lifted.what,
                on,
                by: row.who.clone(),
            };
            row.lifted.iter().map(one).collect()
        };
        Self {
            answered: contents.suitability.clone(),
            programs: changes.iter().filter_map(|row| program(row, &contents.prescriptions)).collect(),
            clearances: clearances.iter().filter_map(cleared).collect(),
            cleared: clearances.iter().flat_map(named).collect(),
            changes: changes.iter().filter_map(|row| Some((row.at.day()?, row.sentence()))).collect(),
            tests: tests.iter().filter_map(BalanceRow::dated).collect(),
            as_kept,
            ..sessions(records, corrections, &lifted)
        }
    }
}

/// The prescription that came into use, if one did.
fn program(row: &ChangeRow, kept: &[PrescriptionText]) -> Option<Program> {
    let day = row.at.day().filter(|_| row.what == Change::InUse)?;
    let text = kept.iter().find(|one| one.digest == row.digest).map(|one| one.text.as_str());
    let read = |text: &str| {
        let prescription = Prescription::read(&row.source, text.as_bytes()).ok()?;
        Some((prescription, Seal::of(text.as_bytes())))
    };
    // A ready one is known by its digest.
    let ready = || Some((Prescription::ready_with(&row.digest)?.clone(), Seal::None));
    let kept = text.and_then(read).or_else(ready);
    Some(Program { day, source: row.source.clone(), digest: row.digest, kept })
}

/// The sessions with these corrections, and nothing else.
fn sessions(
    records: &[SessionRecord],
    corrections: &[Identified<CorrectionRow>],
    lifted: &[Lifted],
) -> Material {
    let mut material = Material::default();
    for record in records {
        if let Some((session, right)) = corrected(record, corrections) {
            material.past.sessions.push(session);
            let of = corrections.iter().filter(|row| row.session == record.id);
            material.details.push(SessionDetails {
                corrected: of.map(|row| row.sentence()).collect(),
                ..details(&right)
            });
        }
    }
    material.past.lifted = lifted.to_vec();
    material
}

fn details(record: &SessionRecord) -> SessionDetails {
    SessionDetails {
        title: record.start.title.clone(),
        precautions: record.start.precautions.clone(),
        seed_given: record.start.seed_given(),
        silent: record.start.is_silent(),
        clinician_first: record
            .answers
            .iter()
            .map(|row| row.answer)
            .filter(
                |answer| matches!(answer, Answer::ClinicianFirst(said) if *said != Some(YesNoNotSure::No)),
            )
            .collect(),
        weekly: Question::WEEKLY
            .iter()
            .filter_map(|question| {
                record.answers.iter().map(|row| row.answer).find(|answer| answer.question() == *question)
            })
            .collect(),
        corrected: Vec::new(),
        not_said: record.answers.iter().filter(|row| row.answer.number().is_none()).count(),
        left_out: record.left_out.iter().map(|row| (row.set, row.why)).collect(),
        why: record.decided.iter().flat_map(|row| row.reasons.clone()).collect(),
        sets: record.sets.iter().map(|set| set_details(record, set)).collect(),
    }
}

fn set_details(record: &SessionRecord, set: &SetRecord) -> SetDetails {
    let plan = set.last_plan();
    let planned = |cue| plan.iter().find(|row| row.cue == cue);
    let direction = |cue| planned(cue).and_then(|row| row.direction);
    // A set that a crash cut off was never gone through with the partner: what was asked for then was not noted.
    let is_push = |cue| planned(cue).and_then(|row| row.action).is_some_and(Action::is_push);
    let asked = set.delivered.iter().map(|row| row.cue).filter(|cue| is_push(*cue));
    let never_kept = asked.filter(|cue| set.response_of(*cue).is_none()).map(|cue| (direction(cue), None));
    let kept = set.responses.iter().map(|row| (direction(row.cue), row.response));
    SetDetails {
        side: set.start.side,
        worked_ms: set.end.as_ref().map_or(0, |end| end.worked_ms),
        responses: kept.chain(never_kept).collect(),
        disturbed: set.disturbed.len(),
        grab: grab(record, set),
        unwell: told(record, set, Question::Unwell),
    }
}

/// What is known of a grab in this set. Where a partner notes pushes, nobody is asked, and a push that was not noted could
/// have been one.
fn grab(record: &SessionRecord, set: &SetRecord) -> Told {
    let past = PastSet::from_record(record, set);
    match told(record, set, Question::Grabbed) {
        _ if past.near_fall() || told(record, set, Question::Grabbed) == Told::Yes => Told::Yes,
        Told::No => Told::No,
        _ if past.responses.contains(&None) => Told::NotSaid,
        _ if !past.responses.is_empty() => Told::No,
        other => other,
    }
}

/// The first answer that was said; else whether it was asked.
fn told(record: &SessionRecord, set: &SetRecord, question: Question) -> Told {
    let number = Some(set.start.number);
    let answers = record.answers.iter().filter(|row| row.set == number && row.answer.question() == question);
    let answers: Vec<Option<u8>> = answers.map(|row| row.answer.number()).collect();
    match answers.iter().flatten().next() {
        Some(0) => Told::No,
        Some(_) => Told::Yes,
        None if answers.is_empty() => Told::NotAsked,
        None => Told::NotSaid,
    }
}
