//! Whether a fall that is reported before practice is one that is known already, so that none is counted twice. Not sure
//! makes it a new one.

use super::opening::Before;
use super::screen::Body;
use super::three_keys::{answer_keys, answer_of};
use super::{Key, State, Turn, Whole};
use crate::health::lock::Lock;
use crate::health::yes_no::YesNoNotSure;
use crate::record::{Answer, Entry};
use crate::words::day_words;

impl Before {
    /// A fall is reported and one is known. With an emergency sign nothing more is asked.
    pub(super) fn asks_same_fall(&self) -> bool {
        let readiness = self.ready.readiness();
        let emergency = readiness.locks.into_iter().any(Lock::is_emergency);
        self.preparation.known_fall.is_some() && readiness.fell && !emergency
    }

    pub(super) fn same_fall_page(&self, whole: &Whole) -> Body {
        let ask = self.preparation.known_fall.map_or_else(String::new, |known| {
            let day = day_words(known.day, whole.begun.begun.day().unwrap_or(known.day));
            match known.in_practice {
                true => format!("Is this the same fall as on {day}?"),
                false => format!("Is this the fall that you reported on {day}?"),
            }
        });
        Body::Question { ask, answers: answer_keys(YesNoNotSure::name), asking_again: false }
    }

    pub(super) fn same_fall_key(self: Box<Self>, key: Key, turn: &mut Turn<'_>) -> State {
        let Some(same) = answer_of(key) else { return State::Before(self) };
        turn.record(Entry::answered(None, Answer::SameFall(Some(same))));
        self.after_answers(turn)
    }
}
