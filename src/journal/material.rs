//! The journal as a report needs it. Not the report.

use super::read::{SessionRecord, SetRecord};
use super::{BalanceRow, CorrectionRow, Journal, JournalError};
use counterpoise_core::course::past::Lifted;
use counterpoise_core::plan::drill::Action;
use counterpoise_core::record::Question;
use counterpoise_core::report::{Material, SessionDetails, SetDetails};

impl Journal {
    /// Everything that a report is made of, as of one moment.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn material(&self) -> Result<Material, JournalError> {
        self.consistent(|db| {
            let records = super::read::sessions(db)?;
            let corrections = super::correction::corrections(db)?;
            let clearances = super::fitness::clearances(db)?;
            let lifted = super::past::lifted(&clearances);
            let Material { past, details, .. } = sessions(&records, &corrections, &lifted);
            let as_kept = (!corrections.is_empty()).then(|| Box::new(sessions(&records, &[], &lifted)));
            let changes = super::read::changes(db)?;
            let tests = super::balance::balance_tests(db)?;
            Ok(Material {
                past,
                details,
                clearances: clearances
                    .into_iter()
                    .filter_map(|row| Some((row.at.day()?, row.who, row.reason)))
                    .collect(),
                changes: changes.into_iter().filter_map(|row| Some((row.at.day()?, row.what))).collect(),
                tests: tests.iter().filter_map(BalanceRow::dated).collect(),
                as_kept,
            })
        })
    }
}

/// The sessions with these corrections, and nothing besides.
fn sessions(records: &[SessionRecord], corrections: &[CorrectionRow], lifted: &[Lifted]) -> Material {
    let mut material = Material::default();
    for record in records {
        if let Some((session, right)) = super::past::corrected(record, corrections) {
            material.past.sessions.push(session);
            let of = corrections.iter().filter(|row| row.session == record.id);
            material.details.push(SessionDetails {
                corrected: of.map(CorrectionRow::sentence).collect(),
                ..more_of(&right)
            });
        }
    }
    material.past.lifted = lifted.to_vec();
    material
}

fn more_of(record: &SessionRecord) -> SessionDetails {
    SessionDetails {
        title: record.start.title.clone(),
        seed_given: record.start.seed_given,
        silent: record.start.device.is_none() && !record.start.is_by_hand(),
        weekly: Question::WEEKLY.map(|question| {
            record.answers.iter().find(|row| row.question == question).and_then(|row| row.answer)
        }),
        corrected: Vec::new(),
        not_said: record.answers.iter().filter(|row| row.answer.is_none()).count(),
        left_out: record.left_out.iter().map(|row| (row.set, row.why)).collect(),
        before_set: record
            .mishaps
            .iter()
            .filter(|row| record.sets.iter().all(|set| set.start.number != row.set))
            .map(|row| (row.set, row.what))
            .collect(),
        why: record.decided.iter().flat_map(|row| row.reasons.clone()).collect(),
        sets: record.sets.iter().map(more_of_set).collect(),
    }
}

fn more_of_set(set: &SetRecord) -> SetDetails {
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
    }
}
