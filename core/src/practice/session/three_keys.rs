//! The keys of what is answered yes, no or not sure, and the screen of one such question.

use super::event::Key;
use super::screen::{Body, KeyHint};
use crate::health::readiness::Item;
use crate::health::yes_no::YesNoNotSure;
use crate::record::Numbered;

/// The answer that a key gives.
pub(in crate::practice) fn answer_of(key: Key) -> Option<YesNoNotSure> {
    YesNoNotSure::KEYS.iter().find(|(letter, ..)| key.is(*letter)).map(|(.., answer)| *answer)
}

/// The keys, with what each says here.
pub(in crate::practice) fn answer_keys(words: impl Fn(YesNoNotSure) -> &'static str) -> Vec<KeyHint> {
    let keys = YesNoNotSure::KEYS.iter();
    keys.map(|(letter, _, answer)| KeyHint::new(&letter.to_string(), words(*answer))).collect()
}

/// One question of readiness by itself.
pub(in crate::practice) fn asked_singly(item: Item) -> Body {
    Body::Question {
        ask: item.question().to_owned(),
        answers: answer_keys(YesNoNotSure::name),
        asking_again: false,
    }
}
