//! The questions after a set: their order, what each key means, and what an answer leads to.

use super::after_set::{AfterFell, AfterPhase, AfterSet};
use super::current_set::CurrentSet;
use super::screen::KeyHint;
use super::{Key, State, Turn};
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
        Question::Fell => "Did you fall?",
        Question::FallHurt => "Are you hurt?",
        Question::Head => "Did you hit your head?",
        Question::FellThen
        | Question::UnwellThen
        | Question::SameFall
        | Question::ClinicianFirst
        | Question::NoClinician
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
        Question::Fell => Some("ask.fell"),
        Question::FallHurt => Some("ask.hurt"),
        Question::Head => Some("ask.head"),
        // Somebody who answers "unwell" first hears what to do (`end.unwell`).
        Question::Symptom
        | Question::NearFalls
        | Question::Confidence
        | Question::Soreness
        | Question::Hurt
        | Question::FellThen
        | Question::UnwellThen
        | Question::SameFall
        | Question::ClinicianFirst
        | Question::NoClinician
        | Question::Ready
        | Question::InPlace
        | Question::PartnerReady
        | Question::SoundCheck => None,
    }
}

/// Whether no key that stops a practice elsewhere leads past it.
pub(super) const fn must_be_answered(question: Question) -> bool {
    matches!(question, Question::WhyStopped | Question::Fell | Question::FallHurt | Question::Head)
}

/// What a key says when this is asked.
pub(super) enum Reply {
    Answer(Answer),
    Stop,
    Nothing,
}

pub(super) fn reply(question: Question, key: Key) -> Reply {
    // What decides what follows is answered before anything ends.
    let last = must_be_answered(question);
    match key {
        Key::Enter => Reply::Answer(question.not_said()),
        // Somebody unwell may leave with any stop key; the symptom then has no answer.
        key if key.stops() && question == Question::Symptom => Reply::Answer(Answer::Symptom(None)),
        Key::Char(c) => match question.keys().iter().find(|(letter, ..)| letter.eq_ignore_ascii_case(&c)) {
            Some((.., answer)) => Reply::Answer(*answer),
            None if key.stops() && !last => Reply::Stop,
            None => Reply::Nothing,
        },
        Key::Escape if !last => Reply::Stop,
        Key::Escape | Key::Other => Reply::Nothing,
    }
}

impl AfterSet {
    pub(super) fn ask(set: CurrentSet, question: Question, turn: &mut Turn<'_>) -> State {
        if let Some(id) = aloud(question) {
            turn.say(id);
        }
        Self::at(set, AfterPhase::Ask { question, wait: turn.wait() })
    }

    pub(super) fn answer(self, question: Question, key: Key, turn: &mut Turn<'_>) -> State {
        match reply(question, key) {
            Reply::Answer(answer) => {
                turn.hush();
                turn.record(Entry::answered(Some(self.set.number()), answer));
                self.after_answer(answer, turn)
            }
            Reply::Stop => self.stop(turn),
            Reply::Nothing => State::AfterSet(Box::new(self)),
        }
    }

    fn after_answer(self, answer: Answer, turn: &mut Turn<'_>) -> State {
        let next = match answer {
            Answer::Unwell(Some(YesNo::Yes)) | Answer::WhyStopped(Some(WhyStopped::Unwell)) => {
                turn.say("end.unwell");
                Question::Symptom
            }
            Answer::Symptom(symptom) => return self.set.end_session(SessionEnd::Unwell, symptom, turn),
            Answer::WhyStopped(why) => {
                turn.say("end.stopped");
                let unsteady = why == Some(WhyStopped::Unsteady);
                let end = if unsteady { SessionEnd::StoppedUnsteady } else { SessionEnd::StoppedOther };
                return self.end(end, turn);
            }
            Answer::FallHurt(_) => Question::Head,
            Answer::Head(_) => return self.end(SessionEnd::Fell, turn),
            // With a partner the first one leads to a rest.
            Answer::Grabbed(Some(YesNo::Yes)) if self.set.is_with_partner() => {
                turn.whole.count(Mishap::Grab);
                return Self::ask_fell(self.set, AfterFell::Advice, turn);
            }
            // A grab ends the session; only whether the person fell and is unwell is still asked.
            Answer::Grabbed(Some(YesNo::Yes)) => {
                turn.whole.ended_by = Some(Mishap::Grab);
                return Self::ask_fell(self.set, AfterFell::Unwell, turn);
            }
            Answer::Grabbed(_) => Question::HeldOn,
            Answer::HeldOn(_) => Question::Effort,
            Answer::Effort(_) => Question::Steadiness,
            Answer::Steadiness(_) => Question::Unwell,
            // The others are asked before the first set.
            _ => return self.after_questions(turn),
        };
        Self::ask(self.set, next, turn)
    }
}
