//! What a correction changes in a session as it is read for the rules and for reports. The entry itself stays as it was
//! kept.

use super::{AnswerRow, Corrected, CorrectionRow, SessionRecord};

/// A session as it is right so far, corrections being taken one after the other: the last of each holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Right {
    /// The session, with what was corrected in it.
    pub record: SessionRecord,
    /// Whether it counts as no practice.
    pub set_aside: bool,
}

impl Right {
    /// The session as it was kept.
    pub fn new(record: &SessionRecord) -> Self {
        Self { record: record.clone(), set_aside: false }
    }

    /// The session with those of these corrections that are of it.
    pub fn of(record: &SessionRecord, corrections: &[CorrectionRow]) -> Self {
        let mut right = Self::new(record);
        for row in corrections {
            right.correct(row);
        }
        right
    }

    /// Takes a correction, if it is of this session, and says whether it was.
    pub fn correct(&mut self, row: &CorrectionRow) -> bool {
        if row.session != self.record.id {
            return false;
        }
        match row.what {
            Corrected::SetAside => self.set_aside = true,
            Corrected::CountsAgain => self.set_aside = false,
            Corrected::Answer => {
                let same = |kept: &&mut AnswerRow| {
                    kept.set == row.set && Some(kept.answer.question()) == row.question
                };
                if let Some(right) = row.answer() {
                    self.record.answers.iter_mut().filter(same).for_each(|kept| kept.answer = right);
                }
            }
            Corrected::Response => {
                let sets = self.record.sets.iter_mut().filter(|set| Some(set.start.number) == row.set);
                let responses = sets.flat_map(|set| &mut set.responses);
                for response in responses.filter(|found| Some(found.cue) == row.cue) {
                    response.response = row.response();
                }
            }
        }
        true
    }
}
