//! The journal as a report needs it. Not the report.

use super::read::{SessionRecord, SetRecord};
use super::{BY_HAND, BalanceRow, CorrectionRow, Journal, JournalError};
use crate::past::Past;
use crate::record::Question;
use crate::report::{Material, More, MoreOfSet};

impl Journal {
    /// Everything that a report is made of, as of one moment.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn material(&self) -> Result<Material, JournalError> {
        self.consistent(|db| {
            let records = super::read::sessions(db)?;
            let mut past = Past::default();
            let mut more = Vec::new();
            let corrections = super::correction::corrections(db)?;
            for record in &records {
                if let Some(session) = super::past::corrected(record, &corrections) {
                    past.sessions.push(session);
                    let (right, _) = super::correction::apply(record, &corrections);
                    let of = corrections.iter().filter(|row| row.session == record.id);
                    more.push(More {
                        corrected: of.map(CorrectionRow::sentence).collect(),
                        ..more_of(&right)
                    });
                }
            }
            let clearances = super::fitness::clearances(db)?;
            past.lifted = super::past::lifted(&clearances);
            let day = super::past::day;
            let changes = super::read::changes(db)?;
            let tests = super::balance::balance_tests(db)?;
            Ok(Material {
                past,
                more,
                clearances: clearances
                    .into_iter()
                    .filter_map(|row| Some((day(&row.at)?, row.who, row.reason)))
                    .collect(),
                changes: changes.into_iter().filter_map(|row| Some((day(&row.at)?, row.what))).collect(),
                tests: tests.iter().filter_map(BalanceRow::dated).collect(),
            })
        })
    }
}

fn more_of(record: &SessionRecord) -> More {
    More {
        title: record.start.title.clone(),
        seed_given: record.start.seed_given,
        silent: record.start.device.is_none() && record.start.voice != BY_HAND,
        weekly: Question::WEEKLY.map(|question| {
            record.answers.iter().find(|row| row.question == question).and_then(|row| row.answer)
        }),
        corrected: Vec::new(),
        by_hand: record.start.voice == BY_HAND,
        why: record.decided.iter().flat_map(|row| row.reasons.clone()).collect(),
        sets: record.sets.iter().map(more_of_set).collect(),
    }
}

fn more_of_set(set: &SetRecord) -> MoreOfSet {
    let plan = set.last_plan();
    let direction = |cue| plan.iter().find(|row| row.cue == cue).and_then(|row| row.direction);
    MoreOfSet {
        side: set.start.side,
        worked_ms: set.end.as_ref().map_or(0, |end| end.worked_ms),
        responses: set.responses.iter().map(|row| (direction(row.cue), row.response)).collect(),
        disturbed: set.disturbed.len(),
    }
}
