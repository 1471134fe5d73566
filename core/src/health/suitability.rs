//! Whether to begin at all: questions asked once, and again when something changes, and what the answers lead to. The
//! questions are our own words on the topics of public-health lists and trial exclusions (read or second-hand); no
//! questionnaire was copied.

use std::fmt;

use crate::health::bounds::Bounds;
use crate::health::yes_no::YesNoNotSure;
use crate::plan::drill::Support;
use crate::words;

mod reply;
mod topic;

pub use crate::plan::health_topic::Topic;
pub use reply::{Acceptances, By, Finding, Reply, Why};

/// What is asked after an answer that locks, where a clinician's word counts.
pub const AGREED: &str = "Has your doctor agreed to balance practice?";
/// What is asked, with a day, after an answer that locks and that the program in use accepts.
pub const NEW_OR_WORSE: &str = "Is this new or worse since then?";

/// An answer as it is kept: to a question, or, before there were questions, to a sentence that was true in the good case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Answer {
    /// Yes.
    Yes,
    /// No.
    No,
    /// Not sure, which is never the good answer.
    NotSure,
    /// The sentence is true, or does not apply: the good answer.
    True,
    /// The sentence is not true, and the person's clinician knows and agreed to balance practice.
    Agreed,
    /// The sentence is not true.
    NotTrue,
}

words! {
    Answer {
        Yes => "yes",
        No => "no",
        NotSure => "not sure",
        True => "true",
        Agreed => "not true, clinician agreed",
        NotTrue => "not true",
    }
}

impl From<YesNoNotSure> for Answer {
    fn from(said: YesNoNotSure) -> Self {
        match said {
            YesNoNotSure::Yes => Self::Yes,
            YesNoNotSure::No => Self::No,
            YesNoNotSure::NotSure => Self::NotSure,
        }
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
    /// The topics whose answers were not good, gravest first.
    pub because: Vec<(Topic, Finding, Effect)>,
}

impl Suitability {
    /// What these come to; of several about one topic the gravest counts. A topic that was not answered counts as a
    /// warning: to be in doubt is to ask first.
    ///
    /// ```
    /// use counterpoise_core::health::suitability::{By, Finding, Outcome, Suitability, Topic, Why};
    /// let mut found: Vec<(Topic, Finding)> = Topic::questions(false).map(|topic| (topic, Finding::Fine)).collect();
    /// let fine = Suitability::of(&found, false);
    /// assert!(matches!(fine.outcome, Outcome::GoAhead(_)));
    ///
    /// found[0].1 = Finding::Warning(Why::Yes);
    /// assert_eq!(Suitability::of(&found, false).outcome, Outcome::Clinician);
    /// found[0].1 = Finding::Lifted(By::Clearance);
    /// assert_ne!(Suitability::of(&found, false).outcome, Outcome::Clinician, "cleared since");
    /// ```
    pub fn of(found: &[(Topic, Finding)], partner: bool) -> Self {
        let answered =
            |topic: Topic| found.iter().any(|(other, _)| *other == topic || *other == topic.whole());
        let open = Topic::questions(partner).filter(|topic| !answered(*topic));
        let all = found.iter().copied().chain(open.map(|topic| (topic, Finding::Warning(Why::NotAnswered))));
        let mut because: Vec<(Topic, Finding, Effect)> = Vec::new();
        for (topic, found) in all.filter(|(_, found)| *found != Finding::Fine) {
            if !partner && topic.is_about_partner() {
                continue;
            }
            match because.iter_mut().find(|(other, ..)| *other == topic) {
                Some((_, worst, effect)) if found > *worst => {
                    (*worst, *effect) = (found, topic.leads_to(found));
                }
                Some(_) => {}
                None => because.push((topic, found, topic.leads_to(found))),
            }
        }
        because.sort_by_key(|(topic, _, effect)| (effect.order(), topic.parts().next()));
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
        let say = |(topic, found, effect): &(Topic, Finding, Effect)| {
            let todo = match effect {
                Effect::None => String::new(),
                Effect::Advice(advice) => (*advice).to_owned(),
                Effect::Within(bounds) => bounds.to_string(),
                Effect::Clinician if topic.needs_clearance() => {
                    "Only a clinician's clearance lifts this: counterpoise clear".to_owned()
                }
                Effect::Clinician => "Talk to a clinician first.".to_owned(),
            };
            format!("{} {todo}", topic.said(*found)).trim_end().to_owned()
        };
        self.because.iter().map(say).collect()
    }
}

impl Effect {
    /// It in a few words, for a report.
    pub fn words(self) -> String {
        match self {
            Self::None => "nothing".to_owned(),
            Self::Advice(advice) => format!("advice: {advice}"),
            Self::Within(bounds) => format!("limits: {bounds}"),
            Self::Clinician => "a clinician first".to_owned(),
        }
    }

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
