//! Every answer about health that was not good: about suitability and before practice, with its day, what it led to, and who
//! cleared or accepted that. Later answers hide none of them.

use jiff::civil::Date;
use serde::Serialize;

use super::adverse_events::{Clearing, Consequence};
use super::material::{Material, Period, SessionDetails};
use crate::course::past::{Barrier, PastSession};
use crate::course::trainee::{Found, findings_until};
use crate::health::lock::Lock;
use crate::health::readiness::{Item, Readiness};
use crate::health::suitability::{Acceptances, By, Effect, Finding, Why};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::prescription::Prescription;
use crate::record::{Answer, Identified, SuitabilityRow};
use crate::words;

/// One answer that was not good.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NotGood {
    /// The day.
    pub day: Date,
    /// The moment: what was answered together has the same.
    #[serde(skip)]
    pub at: i64,
    /// Which questions it belongs to.
    pub asked: Asked,
    /// What was asked about.
    pub about: String,
    /// The answer.
    pub answer: String,
    /// What it led to.
    pub led_to: Vec<Consequence>,
}

/// Which questions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Asked {
    /// Whether to begin at all.
    Suitability,
    /// Whether to practice today.
    BeforePractice,
}

words! {
    Asked {
        Suitability => "suitability",
        BeforePractice => "before practice",
    }
}

impl NotGood {
    /// "chest pain: yes"
    pub fn said(&self) -> String {
        format!("{}: {}", self.about, self.answer)
    }

    /// What it led to, in words.
    pub fn consequences(&self) -> String {
        let all: Vec<String> = self.led_to.iter().map(Consequence::words).collect();
        if all.is_empty() { "nothing by itself".to_owned() } else { all.join("; ") }
    }

    /// Whether it led to something that waits for a clearance.
    pub fn is_open(&self) -> bool {
        self.led_to.iter().any(|one| one.standing == Clearing::NotCleared)
    }
}

/// Every answer that was not good, oldest first: those of the period; of those about suitability also earlier ones that
/// no later answers replace; and earlier ones of which something is not cleared.
pub fn not_good(material: &Material, prescription: &Prescription, period: Period) -> Vec<NotGood> {
    let sessions = material.past.sessions.iter().zip(&material.details);
    let sessions = sessions.filter(|(session, _)| session.day <= period.until);
    let before = sessions.flat_map(|(session, more)| before_practice(material, session, more));
    let before = before.filter(|one| period.has(one.day) || one.is_open());
    let mut all: Vec<NotGood> =
        suitability(material, prescription, period).into_iter().chain(before).collect();
    all.sort_by_key(|one| one.day);
    all
}

/// The answers before this practice that were not good. A session that was set aside may be somebody else's.
pub fn before_practice(material: &Material, session: &PastSession, more: &SessionDetails) -> Vec<NotGood> {
    if session.discounted {
        return Vec::new();
    }
    let one = |about: &str, answer: String, led_to| NotGood {
        day: session.day,
        at: session.begun.as_millisecond(),
        asked: Asked::BeforePractice,
        about: about.to_owned(),
        answer,
        led_to,
    };
    let first = more.clinician_first.iter().map(|answer| {
        let not_today = Consequence::by_itself("not today".to_owned());
        one(answer.question().name(), Answer::words(*answer), vec![not_today])
    });
    let bad = session.ready.iter().filter(|(item, answer)| !item.is_good(*answer));
    let bad = bad.map(|(item, answer)| {
        one(item.name(), answer.name().to_owned(), readiness(material, session, *item))
    });
    first.chain(bad).collect()
}

/// What the answer to this question led to, as far as it would not have come of the others alone.
fn readiness(material: &Material, session: &PastSession, item: Item) -> Vec<Consequence> {
    let all = Readiness::of(&session.ready);
    let others: Vec<(Item, YesNoNotSure)> =
        session.ready.iter().filter(|(other, _)| *other != item).copied().collect();
    let others = Readiness::of(&others);
    let reason = all.reasons.iter().find(|reason| reason.item == item);
    let reason = reason.map(|reason| Consequence::by_itself(reason.verdict.name().to_owned()));
    let locks = all.locks.iter().filter(|lock| !others.locks.contains(lock));
    let locks = locks.map(|lock: &Lock| {
        Consequence::clearable(material, session, format!("locked: {lock}"), Barrier::Lock(*lock))
    });
    let holds = all.holds.iter().filter(|hold| !others.holds.contains(hold));
    let holds = holds.map(|hold| Consequence::by_itself(format!("held for 48 hours: {hold}")));
    reason.into_iter().chain(locks).chain(holds).collect()
}

/// The answers about suitability that were not good, or not given.
pub fn suitability(material: &Material, prescription: &Prescription, period: Period) -> Vec<NotGood> {
    let acceptances = Acceptances::of(prescription, period.until);
    let found = findings_until(&material.answered, &material.past.lifted, &acceptances, period.until);
    let found = found.into_iter().filter(|one| one.finding != Finding::Fine);
    let told = found.filter_map(|one| {
        let day = one.row.at.day()?;
        let replaced = replaced_on(&material.answered, one.row, period.until);
        let told = NotGood {
            day,
            at: one.row.at.ms(),
            asked: Asked::Suitability,
            about: one.topic.to_string(),
            answer: answer(&one),
            led_to: consequences(material, prescription, &one, day, replaced),
        };
        (period.has(day) || replaced.is_none() || told.is_open()).then_some(told)
    });
    told.collect()
}

/// The day on which later answers took the place of these.
fn replaced_on(
    answered: &[Identified<SuitabilityRow>],
    row: &Identified<SuitabilityRow>,
    until: Date,
) -> Option<Date> {
    let later = answered.iter().filter(|other| other.replaces.contains(&row.id));
    later.filter_map(|other| other.at.day()).filter(|day| *day <= until).min()
}

/// The answer with what was asked beside it.
fn answer(found: &Found<'_>) -> String {
    let Some(answer) = found.answer else { return "not answered".to_owned() };
    let mut said = answer.answer.name().to_owned();
    if found.finding == Finding::Warning(Why::NotAnswered) {
        said += ", which is no answer to this question";
    }
    if let Some(agreed) = answer.clinician_agreed {
        said += &format!("; a clinician agreed: {agreed}");
    }
    if let Some(worse) = answer.new_or_worse {
        said += &format!("; new or worse since {}: {}", worse.since, worse.answer);
    }
    said
}

/// What the answer led to, and what is left of that.
fn consequences(
    material: &Material,
    prescription: &Prescription,
    found: &Found<'_>,
    day: Date,
    replaced: Option<Date>,
) -> Vec<Consequence> {
    let topic = found.topic;
    // Where a lock is lifted, it stood all the same.
    let why = match found.finding {
        Finding::Warning(why) => why,
        Finding::Fine | Finding::Lifted(_) => Why::Yes,
    };
    let at_first = topic.leads_to(Finding::Warning(why));
    let holds = |effect: Effect| {
        let standing = if replaced.is_some() { Clearing::Replaced } else { Clearing::Holds };
        Consequence { what: effect.words(), standing, by: None, on: replaced }
    };
    if at_first != Effect::Clinician {
        return vec![holds(at_first)];
    }
    let (standing, by, on) = match found.finding {
        Finding::Lifted(By::Clearance) => match clearance(material, found) {
            Some((by, on)) => (Clearing::Cleared, Some(by), Some(on)),
            None => (Clearing::Cleared, None, None),
        },
        Finding::Lifted(By::Consent) => (Clearing::Agreed, None, Some(day)),
        Finding::Lifted(By::Acceptance) => {
            let accept =
                prescription.accepts().iter().find(|one| topic.parts().any(|part| part == one.topic));
            (Clearing::Accepted, accept.map(|one| one.who.clone()), accept.map(|one| one.when))
        }
        Finding::Lifted(By::Before) => (
            Clearing::Accepted,
            Some(prescription.issued_by().to_owned()).filter(|by| !by.is_empty()),
            Some(prescription.issued_on()),
        ),
        // What only a clearance lifts is not lifted by another answer.
        Finding::Warning(why)
            if replaced.is_some() && (why == Why::NotAnswered || !topic.needs_clearance()) =>
        {
            (Clearing::Replaced, None, replaced)
        }
        Finding::Warning(_) | Finding::Fine => (Clearing::NotCleared, None, None),
    };
    let lock = Consequence { what: at_first.words(), standing, by, on };
    let limits = match found.finding {
        Finding::Lifted(_) => topic.leads_to(found.finding),
        Finding::Warning(_) | Finding::Fine => Effect::None,
    };
    let limits = (limits != Effect::None).then(|| holds(limits));
    std::iter::once(lock).chain(limits).collect()
}

/// Who cleared it last, and on which day; also with later answers.
fn clearance(material: &Material, found: &Found<'_>) -> Option<(String, Date)> {
    let replace = |row: &&Identified<SuitabilityRow>| row.replaces.contains(&found.row.id);
    let later = material.answered.iter().filter(replace).map(|row| row.id);
    let ids: Vec<String> = std::iter::once(found.row.id).chain(later).map(|id| id.to_string()).collect();
    let is_it = |what: Barrier| match what {
        Barrier::Topic(topic) => topic == found.topic || found.topic.parts().any(|part| part == topic),
        other => other == Barrier::Clinician,
    };
    let row = material.cleared.iter().rev().find(|one| ids.contains(&one.session) && is_it(one.what))?;
    Some((row.by.clone(), row.on))
}

/// The topics that wait for a clearance, in the order in which they were answered.
pub(super) fn open_topics(not_good: &[NotGood]) -> Vec<&str> {
    let mut topics: Vec<&str> = Vec::new();
    for one in not_good.iter().filter(|one| one.asked == Asked::Suitability && one.is_open()) {
        if !topics.contains(&one.about.as_str()) {
            topics.push(&one.about);
        }
    }
    topics
}
