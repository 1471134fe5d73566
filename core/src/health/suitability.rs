//! Whether to begin at all: questions asked once, and again when something changes, and what the answers lead to. The
//! questions are our own words on the topics of public-health lists and trial exclusions (read or second-hand); no
//! questionnaire was copied.

use std::fmt;

use crate::health::bounds::Bounds;
use crate::plan::drill::Support;
use crate::words;

mod topic;

pub use topic::Topic;

/// How a sentence was answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Answer {
    /// It is true, or does not apply: the good answer.
    True,
    /// It is not true, and the person's clinician knows and agreed to balance practice.
    Agreed,
    /// It is not true.
    NotTrue,
}

words! {
    Answer {
        True => "true",
        Agreed => "not true, clinician agreed",
        NotTrue => "not true",
    }
}

/// What one answer leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// The answer limits nothing.
    None,
    /// Something to do, and nothing else.
    Advice(&'static str),
    /// Practice within these limits.
    Within(Bounds),
    /// Talk to a clinician first.
    Clinician,
}

/// What all answers together lead to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Go ahead, within these limits.
    GoAhead(Bounds),
    /// Practice alone-drills at step 1 only.
    StepOne(Bounds),
    /// Talk to a clinician first.
    Clinician,
}

/// The result with its reasons.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suitability {
    /// The result, with its limits.
    pub outcome: Outcome,
    /// The topics that led there, gravest first.
    pub because: Vec<(Topic, Answer, Effect)>,
}

impl Suitability {
    /// What these answers come to. A topic that was not answered counts as not true: to be in doubt is to ask first.
    /// `cleared`: a clinician cleared the person after these answers, and is taken to have agreed to what they say.
    ///
    /// ```
    /// use counterpoise_core::health::suitability::{Answer, Outcome, Suitability, Topic};
    /// let mut answers: Vec<(Topic, Answer)> =
    ///     Topic::questions(false).map(|topic| (topic, Answer::True)).collect();
    /// let fine = Suitability::of(&answers, false, false);
    /// assert!(matches!(fine.outcome, Outcome::GoAhead(_)));
    ///
    /// answers[0].1 = Answer::NotTrue;
    /// assert_eq!(Suitability::of(&answers, false, false).outcome, Outcome::Clinician);
    /// assert_ne!(Suitability::of(&answers, false, true).outcome, Outcome::Clinician, "cleared since");
    /// ```
    pub fn of(answers: &[(Topic, Answer)], partner: bool, cleared: bool) -> Self {
        let answer = |topic| {
            let said = answers.iter().rev().find(|(other, _)| *other == topic).map(|(_, answer)| *answer);
            match said.unwrap_or(Answer::NotTrue) {
                Answer::NotTrue if cleared && topic.can_be_agreed() => Answer::Agreed,
                said => said,
            }
        };
        let mut because: Vec<(Topic, Answer, Effect)> = Topic::questions(partner)
            .map(|topic| (topic, answer(topic)))
            .map(|(topic, answer)| (topic, answer, topic.leads_to(answer)))
            .filter(|(_, _, effect)| *effect != Effect::None)
            .collect();
        because.sort_by_key(|(_, _, effect)| effect.order());
        // Without the questions about a partner, practice with one is not open.
        let alone = if partner { Bounds::OPEN } else { Bounds::ALONE };
        let bounds = because.iter().fold(alone, |bounds, (_, _, effect)| match effect {
            Effect::Within(more) => bounds.and(*more),
            _ => bounds,
        });
        let outcome = if because.iter().any(|(_, _, effect)| *effect == Effect::Clinician) {
            Outcome::Clinician
        } else if bounds.limits.is_first_step() {
            Outcome::StepOne(bounds)
        } else {
            Outcome::GoAhead(bounds)
        };
        Self { outcome, because }
    }

    /// What practice is left; `None`: talk to a clinician first.
    pub fn bounds(&self) -> Option<Bounds> {
        match self.outcome {
            Outcome::GoAhead(bounds) | Outcome::StepOne(bounds) => Some(bounds),
            Outcome::Clinician => None,
        }
    }

    /// The reasons as sentences, gravest first.
    pub fn reasons(&self) -> Vec<String> {
        let say = |(topic, answer, effect): &(Topic, Answer, Effect)| {
            let agreed = if *answer == Answer::Agreed { " Your clinician agreed to practice." } else { "" };
            let todo = match effect {
                Effect::None => String::new(),
                Effect::Advice(advice) => (*advice).to_owned(),
                Effect::Within(bounds) => bounds.to_string(),
                Effect::Clinician => "Talk to a clinician first.".to_owned(),
            };
            format!("{}{agreed} {todo}", topic.fact())
        };
        self.because.iter().map(say).collect()
    }
}

impl Effect {
    fn order(self) -> u8 {
        match self {
            Self::Clinician => 0,
            Self::Within(bounds) if bounds.limits.is_first_step() => 1,
            Self::Within(_) => 2,
            Self::Advice(_) => 3,
            Self::None => 4,
        }
    }
}

/// The result in plain words.
impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Clinician => f.write_str("Talk to a clinician first. Do not practice before that."),
            Self::StepOne(bounds) => write!(f, "Practice alone, at the first step only. {}", hands(*bounds)),
            Self::GoAhead(bounds) if *bounds == Bounds::OPEN => {
                f.write_str("Go ahead, within your prescription.")
            }
            Self::GoAhead(bounds) => write!(f, "Go ahead, within these limits. {bounds}"),
        }
    }
}

fn hands(bounds: Bounds) -> &'static str {
    match bounds.limits.support {
        Support::TwoHands => "Both hands always rest on the counter.",
        _ => "One hand always rests on the counter.",
    }
}

#[cfg(test)]
mod test;
