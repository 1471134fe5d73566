//! The sound check: one of four words is said, and a key says which one was heard.

use super::screen::{Body, KeyHint};
use super::{Effect, Effects, Key, Now, Phase, Session, Wait, say};
use crate::plan::phrase::Phrase;
use crate::record::{Answer, Entry, Heard, RoutinePart};

/// The words of the sound check.
const CHECK_WORDS: [&str; 4] = ["check.window", "check.garden", "check.kettle", "check.butter"];

impl Session {
    pub(super) fn check(&mut self, now: &Now, tries: u8, wrong: bool, effects: &mut Effects) {
        self.phase = Phase::Check { tries, wrong, wait: Wait::from(now.at) };
        let said = self.check_answer(tries);
        effects.push(Effect::Hush);
        if self.begun.in_tones() {
            effects.extend((0..=said).map(|_| say(CHECK_WORDS[0])));
        } else {
            effects.extend([say("check.ask"), say(CHECK_WORDS[usize::from(said)])]);
        }
    }

    /// Which of the four answers is right, from 0. Drawn for the session, and another one at every try.
    fn check_answer(&self, tries: u8) -> u8 {
        (self.schedule.check_word(4) + tries) % 4
    }

    pub(super) fn check_key(&mut self, now: &Now, key: Key, tries: u8, effects: &mut Effects) {
        let keep = |heard| Effect::Record(Entry::answered(None, Answer::SoundCheck(Some(heard))));
        match key {
            Key::Char(c @ '1'..='4') if c as u8 - b'1' == self.check_answer(tries) => {
                effects.push(keep(Heard::TheWord));
                self.sound_heard = true;
                self.begin_routine(now, RoutinePart::WarmUp, effects);
            }
            Key::Char('0'..='4') => {
                effects.push(keep(Heard::Another));
                self.check(now, tries.wrapping_add(1), true, effects);
            }
            _ if key.is('r') => self.check(now, tries.wrapping_add(1), false, effects),
            _ if key.is('g') => {
                effects.push(keep(Heard::Another));
                self.begin_routine(now, RoutinePart::WarmUp, effects);
            }
            _ => {}
        }
    }

    pub(super) fn check_page(&self, wrong: bool) -> Body {
        let tones = self.begun.in_tones();
        let answers = if tones {
            ["one", "two", "three", "four"].map(str::to_owned).to_vec()
        } else {
            let words = CHECK_WORDS.into_iter().filter_map(Phrase::named);
            words.map(|phrase| phrase.words().to_owned()).collect::<Vec<_>>()
        };
        let ask = if tones { "How many double tones do you hear?" } else { "Which word do you hear?" };
        let ask =
            if wrong { format!("That was another one. Turn the sound up. {ask}") } else { ask.to_owned() };
        let mut answers: Vec<KeyHint> =
            (1..).zip(answers).map(|(key, word)| KeyHint::new(&format!("{key}"), &word)).collect();
        answers.push(KeyHint::new("0", "I heard nothing"));
        answers.push(KeyHint::new("R", "say another one"));
        answers.push(KeyHint::new("G", "go on and watch the screen as well"));
        Body::Question { ask, answers, asking_again: false }
    }
}
