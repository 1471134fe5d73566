//! Whether the partner suits: asked before the first practice with a partner, whatever else was answered. All of it is
//! asked, one question at a time, and kept together.

use super::session::Key;
use super::session::screen::{Body, KeyHint, Screen};
use crate::health::suitability::{Reply, Topic};
use crate::health::yes_no::YesNoNotSure;
use crate::record::{Numbered, TopicRow};

/// The questions about the partner, as far as they are answered.
///
/// ```
/// use counterpoise_core::practice::partner_questions::PartnerQuestions;
/// use counterpoise_core::practice::session::Key;
/// let mut asked = PartnerQuestions::default();
/// while asked.topic().is_some() {
///     asked.key(Key::Enter);
///     asked.key(Key::Char('y'));
/// }
/// assert!(asked.answers().iter().all(|answer| answer.topic.is_about_partner()));
/// ```
#[derive(Debug, Clone, Default)]
pub struct PartnerQuestions {
    answers: Vec<TopicRow>,
}

impl PartnerQuestions {
    /// What is asked now; `None` once everything is answered.
    pub fn topic(&self) -> Option<Topic> {
        Topic::questions(true).filter(|topic| topic.is_about_partner()).nth(self.answers.len())
    }

    /// What was answered.
    pub fn answers(&self) -> &[TopicRow] {
        &self.answers
    }

    /// The page of the question, with its keys.
    pub fn screen(&self) -> Screen {
        let hint = |(key, words, _): &(char, &str, _)| KeyHint::new(&key.to_string(), words);
        let ask = self.topic().map_or("", Topic::question).to_owned();
        let answers = YesNoNotSure::KEYS.iter().map(hint).collect();
        Screen {
            place: "Your partner".to_owned(),
            body: Body::Question { ask, answers, asking_again: false },
            keys: vec![KeyHint::new("S or Esc", "leave")],
            notices: Vec::new(),
        }
    }

    /// Takes a key; any other than those of the answers does nothing.
    pub fn key(&mut self, key: Key) {
        let answer = YesNoNotSure::KEYS.iter().find(|(letter, ..)| key.is(*letter));
        let row =
            |(topic, &(.., said)): (_, &(_, _, YesNoNotSure))| TopicRow::new(topic, Reply::new(said.into()));
        self.answers.extend(self.topic().zip(answer).map(row));
    }
}
