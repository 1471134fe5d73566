//! The questions after a set: their order, what each key means, and what an answer leads to.

use super::screen::KeyHint;
use super::{Effect, Effects, Key, Now, Phase, Session, Wait, say};
use crate::record::{Answer, Entry, Mishap, Question, SessionEnd, WhyStopped, YesNo};

/// The question as it is shown on the screen; empty for those that have pages of their own.
pub(super) fn words(question: Question) -> &'static str {
    match question {
        Question::Grabbed => "Did you have to grab hold, or nearly fall?",
        Question::HeldOn => "Apart from the hand that rests there, how often did you hold on?",
        Question::Effort => "How hard was it, at its hardest?",
        Question::Steadiness => "How steady were you?",
        Question::Unwell => "Do you feel unwell?",
        Question::WhyStopped => "Why did you stop?",
        Question::Symptom => "Sit down now. What feels wrong?",
        Question::NearFalls => "In the last week, away from practice: how often did you nearly fall?",
        Question::Confidence => "How sure of your balance do you feel in daily life?",
        Question::Soreness => "How sore were you after your last practices?",
        Question::Hurt => "Is anything hurt, or was there a knock to the head?",
        Question::Clinician
        | Question::Ready
        | Question::InPlace
        | Question::PartnerReady
        | Question::SoundCheck => "",
    }
}

/// What a person reads when this is asked: the question, then the words of each answer. Empty for questions that have pages of their own.
///
/// ```
/// use counterpoise_core::record::Question;
/// use counterpoise_core::practice::session::question_lines;
/// assert_eq!(question_lines(Question::Unwell), ["Do you feel unwell?", "yes", "no", "I would rather not say"]);
/// assert!(question_lines(Question::Ready).is_empty());
/// ```
pub fn question_lines(question: Question) -> Vec<String> {
    let sentence = words(question);
    if sentence.is_empty() {
        return Vec::new();
    }
    std::iter::once(sentence.to_owned()).chain(hints(question).into_iter().map(|hint| hint.does)).collect()
}

/// The answers with their keys, the last of them "rather not say".
pub(super) fn hints(question: Question) -> Vec<KeyHint> {
    let answers = question.keys().into_iter().map(|(key, words, _)| KeyHint::new(&key.to_string(), words));
    answers.chain([KeyHint::new("Enter", "I would rather not say")]).collect()
}

fn aloud(question: Question) -> Option<&'static str> {
    match question {
        Question::Grabbed => Some("ask.grab"),
        Question::HeldOn => Some("ask.held"),
        Question::Effort => Some("ask.effort"),
        Question::Steadiness => Some("ask.steady"),
        Question::Unwell => Some("ask.unwell"),
        Question::WhyStopped => Some("ask.why"),
        Question::Hurt => Some("ask.hurt"),
        // Somebody who answers "unwell" first hears what to do (`end.unwell`).
        Question::Symptom
        | Question::NearFalls
        | Question::Confidence
        | Question::Soreness
        | Question::Clinician
        | Question::Ready
        | Question::InPlace
        | Question::PartnerReady
        | Question::SoundCheck => None,
    }
}

impl Session {
    pub(super) fn ask(&mut self, now: &Now, question: Question, effects: &mut Effects) {
        effects.extend(aloud(question).map(say));
        self.phase = Phase::Ask { question, wait: Wait::from(now.at) };
    }

    pub(super) fn answer(&mut self, now: &Now, question: Question, key: Key, effects: &mut Effects) {
        // What decides what follows is answered before anything ends.
        let last = matches!(question, Question::WhyStopped | Question::Hurt);
        let answer = match key {
            Key::Enter => question.not_said(),
            // Somebody unwell may leave with any stop key; the symptom then has no answer.
            key if key.stops() && question == Question::Symptom => Answer::Symptom(None),
            Key::Char(c) => match question.keys().iter().find(|(letter, ..)| letter.eq_ignore_ascii_case(&c))
            {
                Some((.., answer)) => *answer,
                None if key.stops() && !last => return self.stop(now, effects),
                None => return,
            },
            Key::Escape if !last => return self.stop(now, effects),
            Key::Escape | Key::Other => return,
        };
        effects.push(Effect::Hush);
        let set = (!Question::WEEKLY.contains(&question)).then(|| self.plan.number());
        effects.push(Effect::Record(Entry::answered(set, answer)));
        self.after_answer(now, answer, effects);
    }

    /// The next question of the week, and then the practice.
    fn after_weekly(&mut self, now: &Now, asked: Question, effects: &mut Effects) {
        let next = Question::WEEKLY.iter().skip_while(|question| **question != asked).nth(1);
        match next {
            Some(question) => self.ask(now, *question, effects),
            None => self.after_readiness(now, effects),
        }
    }

    fn after_answer(&mut self, now: &Now, answer: Answer, effects: &mut Effects) {
        match answer {
            Answer::Unwell(Some(YesNo::Yes)) | Answer::WhyStopped(Some(WhyStopped::Unwell)) => {
                effects.push(say("end.unwell"));
                self.ask(now, Question::Symptom, effects);
            }
            Answer::Symptom(symptom) => {
                self.symptom = symptom;
                self.end(now, SessionEnd::Unwell, effects);
            }
            Answer::WhyStopped(why) => {
                effects.push(say("end.stopped"));
                let unsteady = why == Some(WhyStopped::Unsteady);
                let end = if unsteady { SessionEnd::StoppedUnsteady } else { SessionEnd::StoppedOther };
                self.end(now, end, effects);
            }
            Answer::NearFalls(_) | Answer::Confidence(_) | Answer::Soreness(_) => {
                self.after_weekly(now, answer.question(), effects);
            }
            Answer::Hurt(_) => self.end(now, SessionEnd::Fell, effects),
            // With a partner the first one leads to a rest.
            Answer::Grabbed(Some(YesNo::Yes)) if self.is_with_partner() => {
                self.count(Mishap::Grab);
                if !self.grabbed {
                    self.advise_one_step_lower(effects);
                }
                self.ask(now, Question::Unwell, effects);
            }
            // A grab ends the session; only whether the person is unwell is still asked.
            Answer::Grabbed(Some(YesNo::Yes)) => {
                self.grabbed = true;
                self.ask(now, Question::Unwell, effects);
            }
            Answer::Grabbed(_) => self.ask(now, Question::HeldOn, effects),
            Answer::HeldOn(_) => self.ask(now, Question::Effort, effects),
            Answer::Effort(_) => self.ask(now, Question::Steadiness, effects),
            Answer::Steadiness(_) => self.ask(now, Question::Unwell, effects),
            Answer::Unwell(_) => self.after_questions(now, effects),
            Answer::Clinician(_)
            | Answer::Ready(_)
            | Answer::InPlace(_)
            | Answer::PartnerReady(_)
            | Answer::SoundCheck(_) => {}
        }
    }
}
