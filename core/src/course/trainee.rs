//! What is known of the person who practices: what was practiced and cleared, the answers about suitability, and balance
//! tests. Together they are the limits within which progression decides.

use std::collections::HashSet;

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::course::past::{Barrier, Lifted, Past};
use crate::course::progression::{Barriers, Fitness, Next, at_steps, too_hard};
use crate::health::assessment::{Dated, retest_from, tests_below_cut_off};
use crate::health::suitability::{Acceptances, By, Effect, Finding, Suitability, Topic, Why};
use crate::plan::prescription::{Excess, Prescription};
use crate::record::{BalanceRow, Contents, Id, Identified, Stamp, SuitabilityRow, TopicRow};

/// What is known of one person.
#[derive(Debug, Clone, Default)]
pub struct Trainee {
    /// What was practiced and cleared.
    pub past: Past,
    /// Suitability and balance tests.
    pub fitness: Fitness,
    /// Results of balance tests, oldest first.
    pub tests: Vec<Dated>,
    /// A practice is going on in another window.
    pub going_on: bool,
    /// Every time that suitability was answered, oldest first.
    answered: Vec<Identified<SuitabilityRow>>,
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
    /// The day of that session, or of the answers about suitability.
    pub day: Option<Date>,
}

/// Until when somebody has looked at the balance tests: whoever issued the prescription by name has.
pub fn reviewed_on(prescription: &Prescription) -> Option<Date> {
    Some(prescription.issued_on()).filter(|_| !prescription.issued_by().is_empty())
}

/// What the answers about the partner come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartnerFit {
    /// Not all of them were given.
    NotAsked,
    /// Practice with a partner is open.
    Fits,
    /// It is not, and this is why: a sentence.
    Not(String),
}

impl Trainee {
    /// What a journal tells.
    pub fn of(contents: &Contents) -> Self {
        Self::new(Past::of(contents), &contents.tests, contents.suitability.clone())
    }

    /// What these tell, each in the order in which it was kept.
    pub fn new(past: Past, tests: &[BalanceRow], answered: Vec<Identified<SuitabilityRow>>) -> Self {
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

    fn made_of(past: Past, tests: Vec<Dated>, answered: Vec<Identified<SuitabilityRow>>) -> Self {
        let suitability = suitability(&answered, &past.lifted, &Acceptances::default());
        let tests_below = tests_below_cut_off(&tests, None);
        let partner_unfit = matches!(partner_fit(&standing(&answered), &past.lifted), PartnerFit::Not(_));
        let fitness = Fitness { suitability, tests_below, partner_unfit };
        Self { past, fitness, tests, going_on: false, answered }
    }

    /// What the answers about the partner come to, whatever else was answered.
    pub fn partner_fit(&self) -> PartnerFit {
        partner_fit(&standing(&self.answered), &self.past.lifted)
    }

    /// Whether these answers about suitability were kept.
    pub fn has_answers(&self, id: Id) -> bool {
        self.answered.iter().any(|row| row.id == id)
    }

    /// The answers about suitability that say "a clinician first" now, with their moment.
    pub fn rows_that_lock(&self) -> Vec<(Id, Stamp)> {
        let found = what_counts(&self.answered, &self.past.lifted, &Acceptances::default());
        let locking = found.iter().filter(|one| one.topic.leads_to(one.finding) == Effect::Clinician);
        let mut rows: Vec<(Id, Stamp)> = locking.map(|one| (one.row.id, one.row.at.clone())).collect();
        rows.dedup_by_key(|(id, _)| *id);
        rows
    }

    /// When suitability was answered last, as it was written.
    pub fn answered_at(&self) -> Option<&str> {
        standing(&self.answered).last().map(|row| row.at.text())
    }

    /// What comes next under this prescription.
    pub fn next(&self, prescription: &Prescription, now: &ZonedDateTime) -> Next {
        let reviewed = reviewed_on(prescription);
        let suitability = self.suitability_under(prescription, now.date());
        let fitness =
            Fitness { suitability, tests_below: tests_below_cut_off(&self.tests, reviewed), ..self.fitness };
        Next::of(&self.past, prescription, &fitness, now)
    }

    /// What the answers about suitability come to under this prescription, which may accept some; `None` if they were never
    /// given.
    pub fn suitability_under(&self, prescription: &Prescription, today: Date) -> Option<Suitability> {
        let acceptances = Acceptances::of(prescription, today);
        suitability(&self.answered, &self.past.lifted, &acceptances)
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

    /// In what `asked` is harder than the program in use: now, or once both have come as far as they may.
    pub fn harder_to_use(
        &self,
        program: &Prescription,
        asked: &Prescription,
        now: &ZonedDateTime,
    ) -> Option<Excess> {
        if program.digest() == asked.digest() {
            return None;
        }
        let today = at_steps(asked, &self.next(asked, now).steps);
        self.harder_than(program, &today, now).or_else(|| asked.excess_in_time_over(program))
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

    /// What a clearance lifts now: every lock, what leaves a part of the program out or bars a step up, every date that
    /// lies ahead of the clock, and what the answers about suitability say. A hold is not among them: only time ends one.
    pub fn clearable(&self, now: &ZonedDateTime) -> Vec<Clearable> {
        self.clearable_beside(&Acceptances::default(), now)
    }

    /// The same without what this prescription accepts.
    pub fn clearable_under(&self, prescription: &Prescription, now: &ZonedDateTime) -> Vec<Clearable> {
        self.clearable_beside(&Acceptances::of(prescription, now.date()), now)
    }

    fn clearable_beside(&self, acceptances: &Acceptances, now: &ZonedDateTime) -> Vec<Clearable> {
        let locks = self.barriers(now).locks.into_iter().map(|lock| Clearable {
            lifted: Lifted { session: lock.session, what: Barrier::Lock(lock.what) },
            day: Some(lock.day),
        });
        let restrictions = self.barriers(now).restrictions.into_iter().map(|found| Clearable {
            lifted: Lifted { session: found.session, what: Barrier::Restriction(found.what) },
            day: Some(found.day),
        });
        let too_hard = too_hard(&self.past, None).map(|(session, day)| Clearable {
            lifted: Lifted { session, what: Barrier::TooHard },
            day: Some(day),
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
        let found = what_counts(&self.answered, &self.past.lifted, acceptances);
        let locking = found.into_iter().filter(|one| one.topic.leads_to(one.finding) == Effect::Clinician);
        let answers = locking.map(|one| Clearable {
            lifted: Lifted { session: one.row.id.to_string(), what: Barrier::Topic(one.topic) },
            day: one.row.at.day(),
        });
        locks.chain(restrictions).chain(too_hard).chain(dates).chain(answers).collect()
    }
}

/// The answers about suitability that no others replace. Where two computers asked, there are several, and each counts.
fn standing(answered: &[Identified<SuitabilityRow>]) -> Vec<&Identified<SuitabilityRow>> {
    unreplaced(&answered.iter().collect::<Vec<_>>())
}

fn unreplaced<'a>(answered: &[&'a Identified<SuitabilityRow>]) -> Vec<&'a Identified<SuitabilityRow>> {
    let replaced: HashSet<Id> = answered.iter().flat_map(|row| &row.replaces).copied().collect();
    answered.iter().filter(|row| !replaced.contains(&row.id)).copied().collect()
}

/// What one answer about suitability comes to.
#[derive(Debug)]
pub struct Found<'a> {
    /// The answers of that moment.
    pub row: &'a Identified<SuitabilityRow>,
    /// The topic.
    pub topic: Topic,
    /// What was answered; `None` if nothing was.
    pub answer: Option<&'a TopicRow>,
    /// What it comes to.
    pub finding: Finding,
}

/// What each answer about suitability comes to that was given up to the end of this day. Those that no others replaced by
/// then are judged together; each of the others by itself.
pub fn findings_until<'a>(
    answered: &'a [Identified<SuitabilityRow>],
    lifted: &[Lifted],
    acceptances: &Acceptances,
    until: Date,
) -> Vec<Found<'a>> {
    let known = answered.iter().filter(|row| row.at.day().is_none_or(|day| day <= until));
    let known: Vec<_> = known.collect();
    let now = unreplaced(&known);
    let before = known.iter().filter(|row| now.iter().all(|one| one.id != row.id));
    let before = before.flat_map(|row| replaced(row, &known, lifted, acceptances));
    before.chain(findings(&now, lifted, acceptances)).collect()
}

/// What these answers come to that later ones of `known` replaced. What only a clearance lifts is lifted by a later one too.
fn replaced<'a>(
    row: &'a Identified<SuitabilityRow>,
    known: &[&Identified<SuitabilityRow>],
    lifted: &[Lifted],
    acceptances: &Acceptances,
) -> Vec<Found<'a>> {
    let later: Vec<_> = known.iter().filter(|other| other.replaces.contains(&row.id)).collect();
    let is_cleared = |topic: Topic| {
        let parts = |row: &Identified<SuitabilityRow>| {
            topic.parts().all(|part| is_lifted(lifted, row, Barrier::Topic(part)))
        };
        topic.needs_clearance() && later.iter().any(|row| parts(row) || covers(lifted, row, topic))
    };
    let mut found = findings(&[row], lifted, acceptances);
    for one in &mut found {
        if matches!(one.finding, Finding::Warning(_)) && is_cleared(one.topic) {
            one.finding = Finding::Lifted(By::Clearance);
        }
    }
    found
}

/// What counts now: the answers that no others replace; and of the others what only a clearance lifts, as long as none did.
/// Another answer is no clearance.
fn what_counts<'a>(
    answered: &'a [Identified<SuitabilityRow>],
    lifted: &[Lifted],
    acceptances: &Acceptances,
) -> Vec<Found<'a>> {
    let known: Vec<_> = answered.iter().collect();
    let now = unreplaced(&known);
    let before = known.iter().filter(|row| now.iter().all(|one| one.id != row.id));
    let before = before.flat_map(|row| replaced(row, &known, lifted, acceptances));
    let waits = |one: &Found<'_>| {
        let was_said = one.finding != Finding::Warning(Why::NotAnswered);
        matches!(one.finding, Finding::Warning(_)) && was_said && one.topic.needs_clearance()
    };
    before.filter(waits).chain(findings(&now, lifted, acceptances)).collect()
}

fn is_lifted(lifted: &[Lifted], row: &Identified<SuitabilityRow>, what: Barrier) -> bool {
    let id = row.id.to_string();
    lifted.iter().any(|lifted| lifted.what == what && lifted.session == id)
}

/// Whether a clearance of these answers names this topic.
fn covers(lifted: &[Lifted], row: &Identified<SuitabilityRow>, topic: Topic) -> bool {
    is_lifted(lifted, row, Barrier::Clinician) || is_lifted(lifted, row, Barrier::Topic(topic))
}

/// What each of these answers comes to, and each question that none of them answers.
fn findings<'a>(
    standing: &[&'a Identified<SuitabilityRow>],
    lifted: &[Lifted],
    acceptances: &Acceptances,
) -> Vec<Found<'a>> {
    let mut all = Vec::new();
    for row in standing {
        for answer in &row.answers {
            let (topic, day) = (answer.topic, row.at.day());
            let found = answer.reply().finding(topic, day, covers(lifted, row, topic), acceptances);
            all.push(Found { row, topic, answer: Some(answer), finding: found });
        }
    }
    let partner = standing.iter().any(|row| row.partner);
    // Where only the partner was asked about, nothing else is open: the pages before practice ask it.
    let Some(last) = standing.iter().rfind(|row| !row.is_of_partner()) else { return all };
    let is_open = |topic: &Topic| !all.iter().any(|one| one.topic == *topic || one.topic == topic.whole());
    let open: Vec<Topic> = Topic::questions(partner).filter(is_open).collect();
    let all_cleared = standing.iter().all(|row| is_lifted(lifted, row, Barrier::Clinician));
    for topic in open {
        let is_cleared = topic.locks() && (all_cleared || is_lifted(lifted, last, Barrier::Topic(topic)));
        let found = match is_cleared {
            true => Finding::Lifted(By::Clearance),
            false => Finding::Warning(Why::NotAnswered),
        };
        all.push(Found { row: last, topic, answer: None, finding: found });
    }
    all
}

fn partner_fit(standing: &[&Identified<SuitabilityRow>], lifted: &[Lifted]) -> PartnerFit {
    let answers = || standing.iter().flat_map(|row| &row.answers);
    let is_answered = |topic: Topic| answers().any(|one| one.topic == topic || one.topic == topic.whole());
    if !Topic::questions(true).filter(|topic| topic.is_about_partner()).all(is_answered) {
        return PartnerFit::NotAsked;
    }
    let found = findings(standing, lifted, &Acceptances::default());
    let unfit = found.iter().filter(|one| one.topic.is_about_partner());
    let mut unfit = unfit.filter(|one| one.topic.leads_to(one.finding) != Effect::None);
    unfit.next().map_or(PartnerFit::Fits, |one| PartnerFit::Not(one.topic.said(one.finding)))
}

/// What these answers come to, the worst to each topic; `None` where nothing was asked.
fn suitability(
    answered: &[Identified<SuitabilityRow>],
    lifted: &[Lifted],
    acceptances: &Acceptances,
) -> Option<Suitability> {
    let standing = standing(answered);
    let partner = standing.iter().any(|row| row.partner);
    let found = what_counts(answered, lifted, acceptances).into_iter().map(|one| (one.topic, one.finding));
    standing
        .iter()
        .any(|row| !row.is_of_partner())
        .then(|| Suitability::of(&found.collect::<Vec<_>>(), partner))
}

#[cfg(test)]
mod test;
