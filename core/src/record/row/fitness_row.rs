//! Rows of what decides whether a person practices, and at which step: readiness, decisions, suitability, clearances.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::health::readiness::Item;
use crate::health::suitability::{Answer, Reply, Topic};
use crate::health::yes_no::YesNoNotSure;
use crate::record::{Barrier, Id, Stamp};

/// An answer to a question of readiness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "ReadyInFile", into = "ReadyInFile")]
pub struct ReadyRow {
    /// Which question.
    pub item: Item,
    /// The answer.
    pub answer: YesNoNotSure,
    /// It was written as a sentence that was true or not, as entries were before form 2. An entry stays as it was written.
    is_sentence: bool,
}

/// The same in files: a question with its answer or, before form 2, a sentence and whether it was true.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ReadyInFile {
    item: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    answer: Option<YesNoNotSure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    is_true: Option<bool>,
}

/// What was kept of readiness is neither a question with its answer nor a sentence that was true or not.
#[derive(Debug, thiserror::Error)]
#[error("\"{0}\" is neither a question with an `answer` nor a sentence with `is_true`")]
struct NotReady(String);

impl TryFrom<ReadyInFile> for ReadyRow {
    type Error = NotReady;

    fn try_from(ReadyInFile { item, answer, is_true }: ReadyInFile) -> Result<Self, NotReady> {
        let row = match (answer, is_true) {
            (Some(answer), None) => Item::from_name(&item).map(|item| Self::new(item, answer)),
            (None, Some(is_true)) => Item::of_sentence(&item).map(|item| Self {
                item,
                answer: item.answer_if(is_true),
                is_sentence: true,
            }),
            _ => None,
        };
        row.ok_or(NotReady(item))
    }
}

impl From<ReadyRow> for ReadyInFile {
    fn from(ReadyRow { item, answer, is_sentence }: ReadyRow) -> Self {
        match item.sentence_name().filter(|_| is_sentence) {
            Some(name) => Self { item: name.to_owned(), answer: None, is_true: Some(item.is_good(answer)) },
            None => Self { item: item.name().to_owned(), answer: Some(answer), is_true: None },
        }
    }
}

impl ReadyRow {
    /// An answer that is given now.
    pub const fn new(item: Item, answer: YesNoNotSure) -> Self {
        Self { item, answer, is_sentence: false }
    }

    /// The same answer, as it is written now.
    #[must_use]
    pub const fn in_newest_form(self) -> Self {
        Self::new(self.item, self.answer)
    }

    /// Whether it is the good answer.
    pub fn is_good(self) -> bool {
        self.item.is_good(self.answer)
    }
}

/// The answers about suitability, given at one moment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SuitabilityRow {
    /// When.
    pub at: Stamp,
    /// Whether practice with a partner was asked about too.
    pub partner: bool,
    /// What was answered.
    pub answers: Vec<TopicRow>,
    /// The answers before, which these replace, by their ids.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<Id>,
}

/// One answer about suitability.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TopicRow {
    /// The topic.
    pub topic: Topic,
    /// The answer.
    pub answer: Answer,
    /// Whether a clinician has agreed to balance practice, where that was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clinician_agreed: Option<YesNoNotSure>,
    /// Whether it is new or worse since it was accepted, where that was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub new_or_worse: Option<WorseRow>,
}

/// The answer to: is this new or worse since that day?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WorseRow {
    /// The day on which the program accepted the topic.
    pub since: Date,
    /// The answer.
    pub answer: YesNoNotSure,
}

impl TopicRow {
    /// What was answered about a topic.
    pub fn new(topic: Topic, reply: Reply) -> Self {
        let new_or_worse = reply.worse.map(|(since, answer)| WorseRow { since, answer });
        Self { topic, answer: reply.answer, clinician_agreed: reply.agreed, new_or_worse }
    }

    /// The answer without its topic.
    pub fn reply(&self) -> Reply {
        let worse = self.new_or_worse.map(|worse| (worse.since, worse.answer));
        Reply { answer: self.answer, agreed: self.clinician_agreed, worse }
    }
}

/// Who cleared the person, and what that lifted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClearanceRow {
    /// When.
    pub at: Stamp,
    /// Who.
    pub who: String,
    /// Why.
    pub reason: String,
    /// What it lifted.
    pub lifted: Vec<LiftedRow>,
}

/// Something that a clearance lifted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftedRow {
    /// The session that locked it, or the answers about suitability: an id. (Before answers had one: their moment.)
    pub locked_by: String,
    /// What.
    pub what: Barrier,
    /// The ids of the entries that caused it and were known then. A lock that another entry causes stays.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub told_by: Vec<Id>,
}

impl SuitabilityRow {
    /// Whether all its answers are about the partner.
    pub fn is_of_partner(&self) -> bool {
        !self.answers.is_empty() && self.answers.iter().all(|row| row.topic.is_about_partner())
    }
}

#[cfg(test)]
mod test {
    use super::ReadyRow;
    use crate::health::readiness::Item;
    use crate::health::yes_no::YesNoNotSure::{No, NotSure, Yes};

    #[test]
    fn an_answer_is_a_question_and_an_answer_and_an_entry_of_before_stays_as_it_was_written() {
        let row = ReadyRow::new(Item::Chest, NotSure);
        let text = r#"{"item":"chest pain","answer":"not sure"}"#;
        assert_eq!(serde_json::to_string(&row).unwrap(), text);
        assert_eq!(serde_json::from_str::<ReadyRow>(text).unwrap(), row);
        for (is_true, answer) in [(true, No), (false, Yes)] {
            let text = format!(r#"{{"item":"no chest pain","is_true":{is_true}}}"#);
            let row: ReadyRow = serde_json::from_str(&text).unwrap();
            assert_eq!((row.item, row.answer), (Item::Chest, answer));
            assert_eq!(serde_json::to_string(&row).unwrap(), text, "as it was written");
            assert_eq!(row.in_newest_form(), ReadyRow::new(Item::Chest, answer));
        }
    }

    #[test]
    fn a_name_of_before_is_read_only_with_whether_it_was_true_and_a_name_of_now_only_with_an_answer() {
        for text in [
            r#"{"item":"no chest pain","answer":"no"}"#,
            r#"{"item":"chest pain","is_true":true}"#,
            r#"{"item":"chest pain","answer":"no","is_true":true}"#,
            r#"{"item":"chest pain"}"#,
            r#"{"item":"chest pain","answer":"true"}"#,
            r#"{"item":"chest pain","answer":true}"#,
        ] {
            assert!(serde_json::from_str::<ReadyRow>(text).is_err(), "{text}");
        }
    }

    /// A name that is kept in both forms was a sentence that said what the question asks.
    #[test]
    fn no_name_of_before_has_a_new_meaning() {
        for item in Item::ALL {
            let Some(before) = item.sentence_name() else { continue };
            assert_eq!(Item::of_sentence(before), Some(*item), "each sentence has its own name");
            let same = Item::from_name(before);
            assert!(same.is_none() || same == Some(*item) && item.good() == Yes, "{before}");
        }
    }
}
