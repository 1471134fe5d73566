//! The questions that a person is asked. Each has its own kind of answer, so that none can carry the answer of another.

use thiserror::Error;

use super::answer_kinds::{
    Confidence, Effort, Heard, Numbered, Soreness, Steadiness, Symptom, Times, WhyStopped, YesNo,
    YesNoNotSure,
};
use crate::words;

/// The question has no answer with this number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("{value} is not an answer to \"{question}\": it is a number from {least} to {most}")]
pub struct NotAnAnswer {
    /// The number.
    pub value: u8,
    /// The question.
    pub question: Question,
    /// The least number that it has.
    pub least: u8,
    /// The greatest number that it has.
    pub most: u8,
}

macro_rules! questions {
    ($($(#[$doc:meta])* $question:ident($kind:ty) $words:literal;)+) => {
        /// What is asked.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Question { $($(#[$doc])* $question),+ }

        words! { Question { $($question => $words),+ } }

        /// What was answered; `None` is "not said".
        ///
        /// ```
        /// use counterpoise_core::record::{Answer, Question, Times, YesNo};
        /// assert_eq!(Answer::HeldOn(Some(Times::ThreeOrMore)).words(), "3 times or more");
        /// assert_eq!(Answer::Grabbed(Some(YesNo::No)).words(), "no");
        /// assert_eq!(Answer::Effort(None).words(), "not said");
        /// let refused = Answer::from_number(Question::Effort, Some(11)).unwrap_err();
        /// assert_eq!(refused.to_string(), "11 is not an answer to \"effort\": it is a number from 0 to 10");
        /// ```
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Answer { $($(#[$doc])* $question(Option<$kind>)),+ }

        impl Answer {
            /// The question that it answers.
            pub const fn question(self) -> Question {
                match self { $(Self::$question(_) => Question::$question),+ }
            }

            /// The number that stands for it in files.
            pub fn number(self) -> Option<u8> {
                match self { $(Self::$question(answer) => answer.map(Numbered::number)),+ }
            }

            /// As it is read back to the person.
            pub fn words(self) -> String {
                let words = match self { $(Self::$question(answer) => answer.map(Numbered::words)),+ };
                words.unwrap_or_else(|| "not said".to_owned())
            }

            /// The answer with this number.
            ///
            /// # Errors
            /// If the question has no such number.
            pub fn from_number(question: Question, number: Option<u8>) -> Result<Self, NotAnAnswer> {
                let Some(value) = number else { return Ok(question.not_said()) };
                let answer = match question {
                    $(Question::$question => <$kind as Numbered>::numbered(value).map(|one| Self::$question(Some(one)))),+
                };
                let (least, most) = question.limits();
                answer.ok_or(NotAnAnswer { value, question, least, most })
            }
        }

        impl Question {
            /// No answer to it.
            pub const fn not_said(self) -> Answer {
                match self { $(Self::$question => Answer::$question(None)),+ }
            }

            /// The least and the greatest number of its answers.
            pub const fn limits(self) -> (u8, u8) {
                match self { $(Self::$question => <$kind as Numbered>::LIMITS),+ }
            }

            /// The keys that answer it, in the order of the screen, each with the words beside it.
            pub fn keys(self) -> Vec<(char, &'static str, Answer)> {
                match self {
                    $(Self::$question => {
                        let keys = <$kind as Numbered>::KEYS.iter();
                        keys.map(|(key, words, one)| (*key, *words, Answer::$question(Some(*one)))).collect()
                    })+
                }
            }
        }
    };
}

questions! {
    /// One of the reasons to see a clinician first applies.
    ClinicianFirst(YesNoNotSure) "a reason to see a clinician first";
    /// None of them applies: as it was asked before form 2. It is read as an answer to the question above.
    NoClinician(YesNo) "nothing to see a clinician about";
    /// Body, room and phone are ready.
    Ready(YesNo) "ready";
    /// What the drills need is in place.
    InPlace(YesNoNotSure) "in place";
    /// The partner is ready, knows where hands go, and is one with whom it was watched.
    PartnerReady(YesNoNotSure) "partner ready";
    /// Which word was heard.
    SoundCheck(Heard) "sound check";
    /// Had to grab hold, or nearly fell.
    Grabbed(YesNo) "grabbed hold or nearly fell";
    /// Held on, apart from the resting hand.
    HeldOn(Times) "held on";
    /// Hardest effort.
    Effort(Effort) "effort";
    /// How steady.
    Steadiness(Steadiness) "steadiness";
    /// Unwell.
    Unwell(YesNo) "unwell";
    /// Why stopped.
    WhyStopped(WhyStopped) "why stopped";
    /// What feels wrong, after unwell.
    Symptom(Symptom) "what felt wrong";
    /// Once a week: nearly fell in daily life.
    NearFalls(Times) "nearly fell in daily life";
    /// Once a week: how sure of the own balance.
    Confidence(Confidence) "confidence";
    /// Once a week: how sore.
    Soreness(Soreness) "soreness";
    /// After a fall, hurt or a knock to the head: on a sheet, and before there were the next three.
    Hurt(YesNo) "hurt or a knock to the head";
    /// At every stop, grab and near fall, and after an interruption: fell.
    Fell(YesNoNotSure) "fell";
    /// After a fall: hurt.
    FallHurt(YesNoNotSure) "hurt in a fall";
    /// After a fall: hit the head.
    Head(YesNoNotSure) "hit the head";
    /// Asked at the next start: fell in that practice.
    FellThen(YesNoNotSure) "fell in that practice";
    /// Asked at the next start: felt unwell in that practice.
    UnwellThen(YesNoNotSure) "felt unwell in that practice";
    /// Whether a fall that is reported before practice is one that is known already.
    SameFall(YesNoNotSure) "the same fall";
}

impl Answer {
    /// Whether it can tell of something that locks or holds.
    pub fn can_lock(self) -> bool {
        match self {
            Self::Grabbed(answer) | Self::Unwell(answer) => answer == Some(YesNo::Yes),
            Self::NearFalls(times) => times > Some(Times::Never),
            Self::WhyStopped(why) => why.is_some(),
            Self::Symptom(symptom) => symptom.is_some(),
            Self::Hurt(answer) => answer.is_some(),
            Self::FallHurt(answer) | Self::Head(answer) => answer.is_some(),
            Self::Fell(answer) | Self::FellThen(answer) | Self::UnwellThen(answer) => {
                answer.is_some_and(YesNoNotSure::may_be_yes)
            }
            _ => false,
        }
    }
}

impl Question {
    /// Those that are asked at the first practice of a week, in order.
    pub const WEEKLY: [Self; 3] = [Self::NearFalls, Self::Confidence, Self::Soreness];

    /// Whether it is asked about a practice at the next start, where it belongs to no set.
    pub const fn is_asked_later(self) -> bool {
        matches!(self, Self::FellThen | Self::UnwellThen | Self::FallHurt | Self::Head | Self::Symptom)
    }

    /// The answers by their numbers, as they stand on paper and where they are typed in: in the words of the screen, or
    /// for what is told afterward in the words in which it is read back.
    ///
    /// ```
    /// use counterpoise_core::record::Question;
    /// let effort = "0 to 10: 2 very easy, 4 easy, 6 moderate, 8 hard, 10 very hard";
    /// assert_eq!(Question::Effort.numbered_words().join(", "), effort);
    /// assert_eq!(Question::WhyStopped.numbered_words()[0], "1 felt unwell");
    /// ```
    pub fn numbered_words(self) -> Vec<String> {
        let read_back = matches!(self, Self::WhyStopped | Self::Symptom);
        let mut all: Vec<String> = self
            .keys()
            .into_iter()
            .filter_map(|(_, beside, answer)| {
                let words = if read_back { answer.words() } else { beside.to_owned() };
                Some(format!("{} {words}", answer.number()?))
            })
            .collect();
        // Five words are keyed, and the numbers between them can be written too.
        let (least, most) = self.limits();
        if usize::from(most - least) >= all.len()
            && let Some(first) = all.first_mut()
        {
            *first = format!("{least} to {most}: {first}");
        }
        all
    }
}

#[cfg(test)]
mod test {
    use super::{Answer, Question};

    #[test]
    fn every_number_within_the_limits_is_an_answer_and_none_beyond() {
        for question in Question::ALL.iter().copied() {
            let (least, most) = question.limits();
            for number in 0..=u8::MAX {
                let answer = Answer::from_number(question, Some(number));
                assert_eq!(answer.is_ok(), (least..=most).contains(&number), "{question}: {number}");
                if let Ok(answer) = answer {
                    assert_eq!((answer.question(), answer.number()), (question, Some(number)));
                }
            }
            let said: Vec<String> = (least..=most)
                .map(|number| Answer::from_number(question, Some(number)).unwrap().words())
                .collect();
            assert!((1..said.len()).all(|nth| !said[..nth].contains(&said[nth])), "{question}: {said:?}");
            let not_said = Answer::from_number(question, None).unwrap();
            assert_eq!((not_said.question(), not_said.number()), (question, None));
            assert!(question.keys().iter().all(|(.., answer)| answer.question() == question));
        }
    }
}
