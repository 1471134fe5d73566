//! What the next start asks of a practice whose answers are not whole: one question at a time, before anything else. An
//! answer is kept as soon as it is given; what is not answered is asked again.

use std::collections::VecDeque;

use jiff::civil::Date;

use super::session::Key;
use super::session::screen::{Body, KeyHint, Screen};
use crate::record::{Answer, Question};
use crate::words::day_words;

/// The questions about one practice that are still to be answered.
///
/// ```
/// use counterpoise_core::practice::missed::Missed;
/// use counterpoise_core::practice::session::Key;
/// use counterpoise_core::record::{Answer, Question, YesNoNotSure};
/// let mut missed = Missed::new("2026-11-03".parse().unwrap(), "2026-11-04".parse().unwrap(), &[Question::FellThen]);
/// assert_eq!(missed.ask(), "Did you fall in the practice on Tuesday, November 3?");
/// assert_eq!(missed.key(Key::Enter), None, "it cannot be passed over");
/// assert_eq!(missed.key(Key::Char('u')), Some(Answer::FellThen(Some(YesNoNotSure::NotSure))));
/// assert_eq!(missed.ask(), "Were you hurt in that fall?");
/// ```
#[derive(Debug, Clone)]
pub struct Missed {
    day: Date,
    today: Date,
    open: VecDeque<Question>,
}

impl Missed {
    /// These questions, about the practice of this day, asked today.
    pub fn new(day: Date, today: Date, open: &[Question]) -> Self {
        Self { day, today, open: open.iter().copied().collect() }
    }

    /// Whether everything is answered.
    pub fn is_over(&self) -> bool {
        self.open.is_empty()
    }

    /// What is asked now; empty once it is over.
    pub fn ask(&self) -> String {
        let day = day_words(self.day, self.today);
        match self.open.front() {
            Some(Question::FellThen) => format!("Did you fall in the practice on {day}?"),
            Some(Question::UnwellThen) => format!("Did you feel unwell in the practice on {day}?"),
            Some(Question::FallHurt) => "Were you hurt in that fall?".to_owned(),
            Some(Question::Head) => "Did you hit your head?".to_owned(),
            Some(Question::Symptom) => "What felt wrong?".to_owned(),
            _ => String::new(),
        }
    }

    /// The page of the question, with its keys.
    pub fn screen(&self) -> Screen {
        let hint = |key: char, words: &str| KeyHint::new(&key.to_string(), words);
        let keys = self.open.front().map(|question| question.keys()).unwrap_or_default();
        let answers = keys.iter().map(|(key, words, _)| hint(*key, words)).collect();
        Screen {
            place: "Your last practice".to_owned(),
            body: Body::Question { ask: self.ask(), answers, asking_again: false },
            keys: vec![KeyHint::new("S or Esc", "leave; it is asked again next time")],
            notices: Vec::new(),
        }
    }

    /// The answer that this key gives, to be kept at once; `None`: it gives none.
    pub fn key(&mut self, key: Key) -> Option<Answer> {
        let keys = self.open.front()?.keys();
        let (.., answer) = keys.into_iter().find(|(letter, ..)| key.is(*letter))?;
        self.open.pop_front();
        let more: &[Question] = match answer {
            Answer::FellThen(Some(fell)) if fell.may_be_yes() => &[Question::FallHurt, Question::Head],
            Answer::UnwellThen(Some(unwell)) if unwell.may_be_yes() => &[Question::Symptom],
            _ => &[],
        };
        more.iter().rev().for_each(|question| self.open.push_front(*question));
        Some(answer)
    }
}

#[cfg(test)]
mod test {
    use super::{Key, Missed};
    use crate::practice::session::screen::Body;
    use crate::record::{Answer, Question};

    const BOTH: [Question; 2] = [Question::FellThen, Question::UnwellThen];

    /// What is asked, question by question, at these keys.
    fn asked(open: &[Question], keys: &str) -> (Vec<String>, Vec<Answer>, bool) {
        let mut missed = Missed::new("2026-11-03".parse().unwrap(), "2026-11-04".parse().unwrap(), open);
        let (mut asked, mut kept) = (Vec::new(), Vec::new());
        for key in keys.chars() {
            asked.push(missed.ask());
            kept.extend(missed.key(Key::Char(key)));
        }
        (asked, kept, missed.is_over())
    }

    #[test]
    fn each_is_asked_by_itself_and_what_may_have_happened_is_asked_about() {
        let fell = "Did you fall in the practice on Tuesday, November 3?";
        let unwell = "Did you feel unwell in the practice on Tuesday, November 3?";
        let (hurt, head, wrong) =
            ("Were you hurt in that fall?", "Did you hit your head?", "What felt wrong?");
        for (keys, wanted) in [
            ("nn", vec![fell, unwell]),
            ("ynnn", vec![fell, hurt, head, unwell]),
            ("uuun", vec![fell, hurt, head, unwell]),
            ("ny5", vec![fell, unwell, wrong]),
            ("NU6", vec![fell, unwell, wrong]),
        ] {
            let (asked, kept, over) = asked(&BOTH, keys);
            assert_eq!(
                (&asked, kept.len(), over),
                (&wanted.iter().map(|one| (*one).to_owned()).collect(), keys.len(), true),
                "{keys}"
            );
        }
        assert_eq!(asked(&[Question::UnwellThen], "n").0, [unwell]);
    }

    #[test]
    fn no_other_key_answers_and_nothing_is_passed_over() {
        for key in (' '..='~').map(Key::Char).chain([Key::Enter, Key::Escape, Key::Other]) {
            let mut missed = Missed::new("2026-11-03".parse().unwrap(), "2026-11-04".parse().unwrap(), &BOTH);
            let is_answer = ['y', 'n', 'u'].iter().any(|letter| key.is(*letter));
            assert_eq!(missed.key(key).is_some(), is_answer, "{key:?}");
            assert_eq!(missed.ask().starts_with("Did you fall in"), !is_answer, "{key:?}");
        }
        let screen =
            Missed::new("2026-11-03".parse().unwrap(), "2026-11-04".parse().unwrap(), &BOTH).screen();
        let Body::Question { answers, .. } = screen.body else { panic!("{screen:?}") };
        let keys: Vec<&str> = answers.iter().map(|hint| hint.key.as_str()).collect();
        assert_eq!(keys, ["Y", "N", "U"], "no \"rather not say\"");
    }
}
