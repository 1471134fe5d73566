//! The sound check: one of four words is said, and a key says which one was heard.

use super::opening::{Before, Page};
use super::screen::{Body, KeyHint};
use super::{Key, State, Turn, Whole};
use crate::plan::phrase::Phrase;
use crate::record::{Answer, Entry, Heard};

/// The words of the sound check.
const CHECK_WORDS: [&str; 4] = ["check.window", "check.garden", "check.kettle", "check.butter"];

impl Before {
    pub(super) fn check(self: Box<Self>, tries: u8, wrong: bool, turn: &mut Turn<'_>) -> State {
        let said = right_answer(turn.whole, tries);
        turn.hush();
        if turn.whole.begun.in_tones() {
            (0..=said).for_each(|_| turn.say(CHECK_WORDS[0]));
        } else {
            turn.say("check.ask");
            turn.say(CHECK_WORDS[usize::from(said)]);
        }
        self.turn_to(Page::Check { tries, wrong, wait: turn.wait() })
    }

    pub(super) fn check_key(self: Box<Self>, key: Key, tries: u8, turn: &mut Turn<'_>) -> State {
        let heard = |heard| Entry::answered(None, Answer::SoundCheck(Some(heard)));
        match key {
            Key::Char(c @ '1'..='4') if c as u8 - b'1' == right_answer(turn.whole, tries) => {
                turn.record(heard(Heard::TheWord));
                turn.whole.sound_heard = true;
                self.begin_warm_up(turn)
            }
            Key::Char('0'..='4') => {
                turn.record(heard(Heard::Another));
                self.check(tries.wrapping_add(1), true, turn)
            }
            _ if key.is('r') => self.check(tries.wrapping_add(1), false, turn),
            _ if key.is('g') => {
                turn.record(heard(Heard::Another));
                self.begin_warm_up(turn)
            }
            _ => State::Before(self),
        }
    }
}

/// Which of the four answers is right, from 0. Drawn for the session, and another one at every try.
fn right_answer(whole: &Whole, tries: u8) -> u8 {
    (whole.schedule.check_word(4) + tries) % 4
}

pub(super) fn check_page(whole: &Whole, wrong: bool) -> Body {
    let tones = whole.begun.in_tones();
    let answers = if tones {
        ["one", "two", "three", "four"].map(str::to_owned).to_vec()
    } else {
        let words = CHECK_WORDS.into_iter().filter_map(Phrase::named);
        words.map(|phrase| phrase.words().to_owned()).collect::<Vec<_>>()
    };
    let ask = if tones { "How many double tones do you hear?" } else { "Which word do you hear?" };
    let ask = if wrong { format!("That was another one. Turn the sound up. {ask}") } else { ask.to_owned() };
    let mut answers: Vec<KeyHint> =
        (1..).zip(answers).map(|(key, word)| KeyHint::new(&format!("{key}"), &word)).collect();
    answers.push(KeyHint::new("0", "I heard nothing"));
    answers.push(KeyHint::new("R", "say another one"));
    answers.push(KeyHint::new("G", "go on and watch the screen as well"));
    Body::Question { ask, answers, asking_again: false }
}
