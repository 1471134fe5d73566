//! What a correction changes in a session as it is read for the rules and for reports. The entry itself stays as it was
//! kept.

use std::borrow::Borrow;

use super::{AnswerRow, Corrected, CorrectionRow, Id, Identified, SessionRecord};

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
    pub fn of<C: Borrow<CorrectionRow>>(record: &SessionRecord, corrections: &[C]) -> Self {
        let mut right = Self::new(record);
        for row in corrections {
            right.correct(row.borrow());
        }
        right
    }

    /// Takes a correction, if it is of this session, and says whether it was. It changes what it names and nothing else.
    pub fn correct(&mut self, row: &CorrectionRow) -> bool {
        if row.session != self.record.id {
            return false;
        }
        match row.what {
            Corrected::SetAside => self.set_aside = true,
            Corrected::CountsAgain => self.set_aside = false,
            Corrected::Answer => {
                let same = |kept: &&mut Identified<AnswerRow>| {
                    row.replaces.contains(&kept.id) && Some(kept.answer.question()) == row.question
                };
                if let Some(right) = row.answer() {
                    self.record.answers.iter_mut().filter(same).for_each(|kept| kept.row.answer = right);
                }
            }
            Corrected::Response => {
                let responses = self.record.sets.iter_mut().flat_map(|set| &mut set.responses);
                for response in responses.filter(|response| row.replaces.contains(&response.id)) {
                    response.row.response = row.response();
                }
            }
        }
        true
    }
}

impl SessionRecord {
    /// The entries of an answer or a response that this correction is about.
    pub fn told(&self, about: &CorrectionRow) -> Vec<Id> {
        match about.what {
            Corrected::Answer => {
                let same = |set, question| set == about.set && Some(question) == about.question;
                let answers = self.answers.iter().filter(|answer| same(answer.set, answer.answer.question()));
                answers.map(|answer| answer.id).collect()
            }
            Corrected::Response => {
                let sets = self.sets.iter().filter(|set| Some(set.start.number) == about.set);
                let responses =
                    sets.flat_map(|set| &set.responses).filter(|found| Some(found.cue) == about.cue);
                responses.map(|response| response.id).collect()
            }
            Corrected::SetAside | Corrected::CountsAgain => Vec::new(),
        }
    }
}
