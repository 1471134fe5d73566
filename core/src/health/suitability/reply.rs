//! What one answer about suitability comes to: fine, a warning, or a warning whose lock somebody lifted, and who.

use jiff::civil::Date;

use super::{Answer, Topic};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::prescription::Prescription;

/// What was answered about one topic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reply {
    /// The answer to its question.
    pub answer: Answer,
    /// Whether a clinician has agreed to balance practice; `None` if that was not asked.
    pub agreed: Option<YesNoNotSure>,
    /// Whether it is new or worse since the day on which the program in use accepted it; `None` if that was not asked.
    pub worse: Option<(Date, YesNoNotSure)>,
}

/// What one answer comes to. The gravest comes last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Finding {
    /// The good answer.
    Fine,
    /// It calls for a clinician first, and that lock is lifted. Its limits stay.
    Lifted(By),
    /// Not the good answer.
    Warning(Why),
}

/// Who lifted a lock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    /// A clinician, by a clearance.
    Clearance,
    /// The person said that a clinician agreed.
    Consent,
    /// The prescription accepts the topic.
    Acceptance,
    /// The prescription accepts what was answered before it was issued.
    Before,
}

/// Why an answer is not the good one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// It was the other one.
    Yes,
    /// Not sure.
    NotSure,
    /// There was no answer.
    NotAnswered,
    /// It is, or may be, new or worse since it was accepted.
    Worse,
}

/// What a prescription accepts of the answers about suitability.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Acceptances {
    topics: Vec<(Topic, Date)>,
    /// Everything that can be accepted, if it was answered before this day.
    before: Option<Date>,
}

impl Acceptances {
    /// Those of a prescription. One that is dated after today accepts nothing yet.
    pub fn of(prescription: &Prescription, today: Date) -> Self {
        let topics = prescription.accepts().iter().map(|one| (one.topic, one.when));
        let before = prescription.accepted_because().map(|_| prescription.issued_on());
        Self {
            topics: topics.filter(|(_, when)| *when <= today).collect(),
            before: before.filter(|day| *day <= today),
        }
    }

    /// Since when this topic is accepted.
    pub fn since(&self, topic: Topic) -> Option<Date> {
        self.topics.iter().find(|(other, _)| *other == topic).map(|(_, when)| *when)
    }

    /// Who accepts this answer, given on `day`, where anybody does.
    fn accept(&self, topic: Topic, reply: Reply, day: Option<Date>) -> Option<By> {
        let day = day?;
        let covers = |part: Topic| {
            part.can_be_accepted()
                && self.since(part).is_some_and(|since| match reply.worse {
                    // A day later than the answer: whoever accepted it knew of it.
                    _ if day < since => true,
                    // On the day itself, before the program that accepts it was in use.
                    None => day == since,
                    Some((asked, answer)) => asked <= since && answer == YesNoNotSure::No,
                })
        };
        // What was once one answer is accepted with all that it stood for.
        if topic.parts().all(covers) {
            return Some(By::Acceptance);
        }
        let before = self.before.is_some_and(|before| day < before);
        (before && topic.parts().all(Topic::can_be_accepted)).then_some(By::Before)
    }
}

impl Reply {
    /// The answer alone.
    pub const fn new(answer: Answer) -> Self {
        Self { answer, agreed: None, worse: None }
    }

    /// Why it is not good, if it is not.
    pub fn warning(&self, topic: Topic) -> Option<Why> {
        let answer = match self.answer {
            Answer::True => return None,
            Answer::Agreed | Answer::NotTrue => return Some(Why::Yes),
            Answer::NotSure => return Some(Why::NotSure),
            Answer::Yes => YesNoNotSure::Yes,
            Answer::No => YesNoNotSure::No,
        };
        (!topic.is_good(answer)).then_some(Why::Yes)
    }

    /// Whether the person says that a clinician agreed, about a topic for which that counts. What is new or worse since it
    /// was accepted is never covered by it.
    fn is_agreed(self, topic: Topic) -> bool {
        topic.can_be_agreed()
            && !self.is_worse()
            && (self.answer == Answer::Agreed || self.agreed == Some(YesNoNotSure::Yes))
    }

    fn is_worse(self) -> bool {
        self.worse.is_some_and(|(_, answer)| answer.may_be_yes())
    }

    /// What it comes to. `day`: when it was given. `cleared`: a clearance names it.
    pub fn finding(
        &self,
        topic: Topic,
        day: Option<Date>,
        cleared: bool,
        acceptances: &Acceptances,
    ) -> Finding {
        let is_sentence = matches!(self.answer, Answer::True | Answer::Agreed | Answer::NotTrue);
        // A question that is not asked any more, or a sentence that there never was, is no answer.
        let fits = if topic.is_asked() { !is_sentence || topic == topic.whole() } else { is_sentence };
        if !fits {
            return Finding::Warning(Why::NotAnswered);
        }
        let Some(why) = self.warning(topic) else { return Finding::Fine };
        if !topic.locks() {
            return Finding::Warning(why);
        }
        let by = cleared
            .then_some(By::Clearance)
            .or_else(|| self.is_agreed(topic).then_some(By::Consent))
            .or_else(|| acceptances.accept(topic, *self, day));
        by.map_or(Finding::Warning(if self.is_worse() { Why::Worse } else { why }), Finding::Lifted)
    }
}

impl Topic {
    /// The answer in words: what is so, and who lifted the lock.
    pub fn said(self, found: Finding) -> String {
        let fact = self.fact();
        match found {
            Finding::Fine => String::new(),
            Finding::Warning(Why::Yes) => fact.to_owned(),
            Finding::Warning(Why::NotSure) => format!("You are not sure about {self}."),
            Finding::Warning(Why::NotAnswered) => format!("You have yet to answer about {self}."),
            Finding::Warning(Why::Worse) => format!("{fact} It may be new or worse."),
            Finding::Lifted(By::Consent) => format!("{fact} You said your clinician agreed to practice."),
            Finding::Lifted(By::Clearance) => format!("{fact} A clinician cleared you."),
            Finding::Lifted(By::Acceptance | By::Before) => format!("{fact} Your program accepts this."),
        }
    }
}
