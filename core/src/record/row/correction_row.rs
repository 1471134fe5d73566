//! A row of what was corrected.

use jiff::ZonedDateTime;
use serde::{Deserialize, Serialize};

use crate::record::{Answer, Id, Question, Response, Stamp};
use crate::words;

/// What is corrected.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Corrected {
    /// The whole session: somebody else's, or a test run.
    SetAside,
    /// The whole session again, after it was set aside.
    CountsAgain,
    /// An answer.
    Answer,
    /// What followed a push.
    Response,
}

words! {
    Corrected {
        SetAside => "set aside",
        CountsAgain => "counts again",
        Answer => "answer",
        Response => "response",
    }
}

/// One correction. The entry itself stays as it was kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CorrectionRow {
    /// When.
    pub at: Stamp,
    /// Of which session.
    pub session: Id,
    /// What.
    pub what: Corrected,
    /// The set, where it is about one.
    pub set: Option<u8>,
    /// The question, of an answer.
    pub question: Option<Question>,
    /// The push, of a response.
    pub cue: Option<u16>,
    /// The right answer as digits, or the right response; `None`: not said, or not noted.
    pub right: Option<String>,
    /// Why.
    pub reason: String,
    /// What this replaces, by the ids of their entries: an answer or a response, and the corrections of it before.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<Id>,
}

impl CorrectionRow {
    /// A correction of this session, made now.
    pub fn new(at: &ZonedDateTime, session: Id, what: Corrected, reason: &str) -> Self {
        Self {
            at: Stamp::from(at),
            session,
            what,
            set: None,
            question: None,
            cue: None,
            right: None,
            reason: reason.to_owned(),
            replaces: Vec::new(),
        }
    }

    /// This answer after a set, or before the first, as it is right.
    #[must_use]
    pub fn to(self, set: Option<u8>, answer: Answer) -> Self {
        let right = answer.number().map(|number| number.to_string());
        Self { set, question: Some(answer.question()), right, ..self }
    }

    /// The right answer, of an answer.
    pub fn answer(&self) -> Option<Answer> {
        let number = self.right.as_deref().map(str::parse).transpose().ok()?;
        Answer::from_number(self.question?, number).ok()
    }

    /// The right response, of a response.
    pub fn response(&self) -> Option<Response> {
        self.right.as_deref().and_then(Response::from_name)
    }

    /// Whether it says what its kind has to say, and nothing else.
    pub fn is_sound(&self) -> bool {
        let right_is = |read: bool| self.right.is_none() || read;
        match self.what {
            Corrected::SetAside | Corrected::CountsAgain => {
                self.set.is_none() && self.question.is_none() && self.cue.is_none() && self.right.is_none()
            }
            Corrected::Answer => self.cue.is_none() && self.answer().is_some(),
            Corrected::Response => {
                self.set.is_some()
                    && self.cue.is_some()
                    && self.question.is_none()
                    && right_is(self.response().is_some())
            }
        }
    }

    /// In words: "effort after set 2: 4 on the scale from 0 to 10 (wrong key)".
    pub fn sentence(&self) -> String {
        let of = self.set.map(|set| format!(" after set {set}")).unwrap_or_default();
        let what = match self.what {
            Corrected::SetAside => "set aside, and counts as no practice".to_owned(),
            Corrected::CountsAgain => "counts again, after it was set aside".to_owned(),
            Corrected::Answer => {
                let question = self.question.map_or("", Question::name);
                let right = self.answer().map(Answer::words).unwrap_or_default();
                format!("{question}{of}: {right}")
            }
            Corrected::Response => {
                let right = self.response().map_or("not noted", Response::name);
                format!("response to push {}{of}: {right}", self.cue.map_or(0, |cue| cue + 1))
            }
        };
        format!("{what} ({})", self.reason)
    }
}
