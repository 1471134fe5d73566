//! What is known of the person who practices: what was practiced and cleared, the answers about suitability, and balance
//! tests. Together they are the limits within which progression decides.

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::course::past::{Barrier, Lifted, Past};
use crate::course::progression::{Barriers, Fitness, Next, at_steps};
use crate::health::assessment::{Dated, retest_from, tests_below_cut_off};
use crate::health::suitability::{Outcome, Suitability};
use crate::plan::prescription::{Excess, Prescription};
use crate::record::{BalanceRow, SuitabilityRow};

/// What is known of one person.
#[derive(Debug, Clone, Default)]
pub struct Trainee {
    /// What was practiced and cleared.
    pub past: Past,
    /// Suitability and balance tests.
    pub fitness: Fitness,
    /// Results of balance tests, oldest first.
    pub tests: Vec<Dated>,
    /// Every time that suitability was answered, oldest first.
    answered: Vec<SuitabilityRow>,
}

/// Since when balance tests are offered. It never blocks practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Retest {
    /// There was none yet.
    First,
    /// The last lies four weeks back on this day.
    Since(Date),
}

/// Something that a clearance lifts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clearable {
    /// What, and which session it came from.
    pub lifted: Lifted,
    /// The day of that session; `None` for the answers about suitability.
    pub day: Option<Date>,
}

impl Trainee {
    /// What these entries tell, each oldest first.
    pub fn new(past: Past, tests: &[BalanceRow], answered: Vec<SuitabilityRow>) -> Self {
        Self::made_of(past, tests.iter().filter_map(BalanceRow::dated).collect(), answered)
    }

    /// What was known before this day's practice: for one that is typed in later.
    #[must_use]
    pub fn before(&self, day: Date) -> Self {
        let mut past = self.past.clone();
        past.sessions.retain(|session| session.day < day);
        let tests = self.tests.iter().filter(|test| test.day <= day).cloned().collect();
        let answered = self.answered.iter().filter(|row| row.at.day().is_none_or(|at| at <= day)).cloned();
        Self::made_of(past, tests, answered.collect())
    }

    fn made_of(past: Past, tests: Vec<Dated>, answered: Vec<SuitabilityRow>) -> Self {
        let cleared = |row: &SuitabilityRow| {
            let lifts =
                |lifted: &Lifted| lifted.what == Barrier::Clinician && lifted.session == row.at.text();
            past.lifted.iter().any(lifts)
        };
        let suitability = answered.last().map(|row| suitability(row, cleared(row)));
        let tests_below = tests_below_cut_off(&tests, None);
        Self { past, fitness: Fitness { suitability, tests_below }, tests, answered }
    }

    /// When suitability was answered last, as it was written.
    pub fn answered_at(&self) -> Option<&str> {
        self.answered.last().map(|row| row.at.text())
    }

    /// What comes next under this prescription.
    pub fn next(&self, prescription: &Prescription, now: &ZonedDateTime) -> Next {
        // Whoever issued it by name has looked at the tests until then.
        let reviewed = Some(prescription.issued_on()).filter(|_| !prescription.issued_by().is_empty());
        let suitability = match (self.answered.last(), prescription.accepted_because()) {
            (Some(row), Some(_)) => Some(suitability(row, true)),
            _ => self.fitness.suitability.clone(),
        };
        let fitness = Fitness { suitability, tests_below: tests_below_cut_off(&self.tests, reviewed) };
        Next::of(&self.past, prescription, &fitness, now)
    }

    /// In what `today`, which was asked for at the steps of today, is harder than the program in use.
    pub fn harder_than(
        &self,
        program: &Prescription,
        today: &Prescription,
        now: &ZonedDateTime,
    ) -> Option<Excess> {
        if program.digest() == today.digest() {
            return None;
        }
        today.excess_over(&at_steps(program, &self.next(program, now).steps))
    }

    /// The offer of balance tests, where the last lies four weeks back or there was none.
    pub fn retest(&self, today: Date) -> Option<Retest> {
        match retest_from(&self.tests) {
            None => Some(Retest::First),
            Some(from) => (from <= today).then_some(Retest::Since(from)),
        }
    }

    /// What stands in the way now.
    pub fn barriers(&self, now: &ZonedDateTime) -> Barriers {
        Barriers::of(&self.past, now.timestamp(), now.date())
    }

    /// What a clearance lifts now: every lock, every date that lies ahead of the clock, and what the answers about
    /// suitability say. A hold is not among them: only time ends one.
    pub fn clearable(&self, now: &ZonedDateTime) -> Vec<Clearable> {
        let locks = self.barriers(now).locks.into_iter().map(|lock| Clearable {
            lifted: Lifted { session: lock.session, what: Barrier::Lock(lock.what) },
            day: Some(lock.day),
        });
        let ahead = self
            .past
            .sessions
            .iter()
            .filter(|session| !self.past.is_set_aside(session) && session.known() > now.timestamp());
        let dates = ahead.map(|session| Clearable {
            lifted: Lifted { session: session.id.clone(), what: Barrier::Date },
            day: Some(session.day),
        });
        let suitability = self.fitness.suitability.as_ref();
        let clinician = suitability.is_some_and(|found| found.outcome == Outcome::Clinician);
        let answers = self.answered_at().filter(|_| clinician).map(|at| Clearable {
            lifted: Lifted { session: at.to_owned(), what: Barrier::Clinician },
            day: None,
        });
        locks.chain(dates).chain(answers).collect()
    }
}

/// `agreed`: a clinician, or whoever issued the prescription, accepts what the answers say.
fn suitability(row: &SuitabilityRow, agreed: bool) -> Suitability {
    let answers: Vec<_> = row.answers.iter().map(|row| (row.topic, row.answer)).collect();
    Suitability::of(&answers, row.partner, agreed)
}

#[cfg(test)]
mod test;
