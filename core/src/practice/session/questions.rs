//! The questions after a set: their order, what each key means, and what an answer leads to.

use super::screen::KeyHint;
use super::{Effect, Effects, Key, Now, Phase, Session, Wait, say};
use crate::record::{Entry, Mishap, Question, SessionEnd};

/// The words of an answer, its key, and what is kept.
type Answer = (char, &'static str, u8);

const YES_NO: &[Answer] = &[('Y', "yes", 1), ('N', "no", 0)];
const TIMES: &[Answer] =
    &[('0', "not at all", 0), ('1', "once", 1), ('2', "twice", 2), ('3', "three times or more", 3)];
/// Five words for the 0-10 scale (5-6 moderate, 7-8 vigorous: US Physical Activity Guidelines).
const EFFORT: &[Answer] = &[
    ('1', "very easy", 2),
    ('2', "easy", 4),
    ('3', "moderate", 6),
    ('4', "hard", 8),
    ('5', "very hard", 10),
];
const STEADY: &[Answer] = &[
    ('1', "steady", 1),
    ('2', "a little unsteady", 2),
    ('3', "unsteady", 3),
    ('4', "very unsteady", 4),
    ('5', "lost balance", 5),
];
const WHY: &[Answer] = &[
    ('1', "I feel unwell", 1),
    ('2', "I feel unsteady", 2),
    ('3', "something else, such as the door or the phone", 3),
];

const SYMPTOM: &[Answer] = &[
    ('1', "my chest hurts or feels tight", 1),
    ('2', "I am badly short of breath", 2),
    ('3', "weak, numb, or trouble to speak or see", 3),
    ('4', "I fainted, or nearly did", 4),
    ('5', "I am dizzy", 5),
    ('6', "something else", 6),
];

const SURE: &[Answer] = &[
    ('1', "not sure at all", 1),
    ('2', "not very sure", 2),
    ('3', "fairly sure", 3),
    ('4', "sure", 4),
    ('5', "quite sure", 5),
];
const SORE: &[Answer] =
    &[('0', "not sore", 0), ('1', "a little", 1), ('2', "sore", 2), ('3', "very sore", 3)];

/// The question as it is shown on the screen, and the answers.
pub(super) fn words(question: Question) -> (&'static str, &'static [Answer]) {
    match question {
        Question::Grabbed => ("Did you have to grab hold, or nearly fall?", YES_NO),
        Question::HeldOn => ("Apart from the hand that rests there, how often did you hold on?", TIMES),
        Question::Effort => ("How hard was it, at its hardest?", EFFORT),
        Question::Steadiness => ("How steady were you?", STEADY),
        Question::Unwell => ("Do you feel unwell?", YES_NO),
        Question::WhyStopped => ("Why did you stop?", WHY),
        Question::Symptom => ("Sit down now. What feels wrong?", SYMPTOM),
        Question::NearFalls => {
            ("In the last week, away from practice: how often did you nearly fall?", TIMES)
        }
        Question::Confidence => ("How sure of your balance do you feel in daily life?", SURE),
        Question::Soreness => ("How sore were you after your last practices?", SORE),
        Question::Hurt => ("Is anything hurt, or was there a knock to the head?", YES_NO),
        Question::Clinician
        | Question::Ready
        | Question::InPlace
        | Question::PartnerReady
        | Question::SoundCheck => ("", &[]),
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
    let (sentence, answers) = words(question);
    if answers.is_empty() {
        return Vec::new();
    }
    std::iter::once(sentence.to_owned()).chain(hints(question).into_iter().map(|hint| hint.does)).collect()
}

/// The answers with their keys, the last of them "rather not say".
pub(super) fn hints(question: Question) -> Vec<KeyHint> {
    let answers = words(question).1.iter();
    let mut hints: Vec<KeyHint> =
        answers.map(|(key, says, _)| KeyHint { key: key.to_string(), does: (*says).to_owned() }).collect();
    hints.push(KeyHint { key: "Enter".to_owned(), does: "I would rather not say".to_owned() });
    hints
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
        let answers = words(question).1;
        // What decides what follows is answered before anything ends.
        let last = matches!(question, Question::WhyStopped | Question::Hurt);
        let answer = match key {
            Key::Enter => None,
            // Somebody unwell may leave with any stop key; the symptom then has no answer.
            key if key.stops() && question == Question::Symptom => None,
            Key::Char(c) => match answers.iter().find(|(letter, ..)| letter.eq_ignore_ascii_case(&c)) {
                Some((.., kept)) => Some(*kept),
                None if key.stops() && !last => return self.stop(now, effects),
                None => return,
            },
            Key::Escape if !last => return self.stop(now, effects),
            Key::Escape | Key::Other => return,
        };
        effects.push(Effect::Hush);
        let set = (!Question::WEEKLY.contains(&question)).then(|| self.plan.number());
        effects.push(Effect::Record(Entry::answered(set, question, answer)));
        self.after_answer(now, question, answer, effects);
    }

    /// The next question of the week, and then the practice.
    fn after_weekly(&mut self, now: &Now, asked: Question, effects: &mut Effects) {
        let next = Question::WEEKLY.iter().skip_while(|question| **question != asked).nth(1);
        match next {
            Some(question) => self.ask(now, *question, effects),
            None => self.after_readiness(now, effects),
        }
    }

    fn after_answer(&mut self, now: &Now, question: Question, answer: Option<u8>, effects: &mut Effects) {
        match (question, answer) {
            (Question::Unwell | Question::WhyStopped, Some(1)) => {
                effects.push(say("end.unwell"));
                self.ask(now, Question::Symptom, effects);
            }
            (Question::Symptom, symptom) => {
                self.symptom = symptom;
                self.end(now, SessionEnd::Unwell, effects);
            }
            (Question::WhyStopped, why) => {
                effects.push(say("end.stopped"));
                let unsteady = why == Some(2);
                let end = if unsteady { SessionEnd::StoppedUnsteady } else { SessionEnd::StoppedOther };
                self.end(now, end, effects);
            }
            (Question::NearFalls | Question::Confidence | Question::Soreness, _) => {
                self.after_weekly(now, question, effects);
            }
            (Question::Hurt, _) => self.end(now, SessionEnd::Fell, effects),
            // With a partner the first one leads to a rest.
            (Question::Grabbed, Some(1)) if self.is_with_partner() => {
                self.count(Mishap::Grab);
                if !self.grabbed {
                    self.advise_one_step_lower(effects);
                }
                self.ask(now, Question::Unwell, effects);
            }
            // A grab ends the session; only whether the person is unwell is still asked.
            (Question::Grabbed, Some(1)) => {
                self.grabbed = true;
                self.ask(now, Question::Unwell, effects);
            }
            (Question::Grabbed, _) => self.ask(now, Question::HeldOn, effects),
            (Question::HeldOn, _) => self.ask(now, Question::Effort, effects),
            (Question::Effort, _) => self.ask(now, Question::Steadiness, effects),
            (Question::Steadiness, _) => self.ask(now, Question::Unwell, effects),
            (Question::Unwell, _) => self.after_questions(now, effects),
            (
                Question::Clinician
                | Question::Ready
                | Question::InPlace
                | Question::PartnerReady
                | Question::SoundCheck,
                _,
            ) => {}
        }
    }
}
