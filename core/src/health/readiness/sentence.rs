//! The sentences of before: each had to be true, and the journal kept whether it was. What was kept so is read as an answer
//! to a question of today, with the same meaning.

use super::Item;
use crate::health::yes_no::YesNoNotSure;

/// The name under which a sentence was kept, and the item that it was about. True was the good answer, whatever the good
/// answer to the question of today is.
const SENTENCES: &[(&str, Item)] = &[
    ("no chest pain", Item::Chest),
    ("breathing as usual", Item::Breath),
    ("no new weakness or numbness", Item::Nerve),
    ("not dizzy", Item::Dizzy),
    ("dizziness passed in five minutes", Item::DizzyPassed),
    ("not fainted", Item::Faint),
    ("not fallen", Item::Fall),
    ("the fall did no harm", Item::FallHurt),
    ("the fall was over two days ago", Item::FallRecent),
    ("no knock to the head", Item::Head),
    ("no new pain", Item::Pain),
    ("not sore", Item::Sore),
    ("not ill", Item::Ill),
    ("slept well", Item::Night),
    ("no alcohol", Item::Alcohol),
    ("no new medicine", Item::Medicine),
    ("the new medicine is no trouble", Item::MedicineAgreed),
    ("feeling unwell passed", Item::UnwellPassed),
    ("counter fixed", Item::Counter),
    ("nothing hot or sharp", Item::Hot),
    ("floor dry and clear", Item::Floor),
    ("good light", Item::Light),
    ("clear floor or wall behind", Item::Behind),
    ("firm shoes", Item::Shoes),
    ("glasses and hearing aids", Item::Aids),
    ("phone in reach", Item::Phone),
    ("chair and water in reach", Item::Chair),
    ("somebody in the house", Item::House),
    ("partner within reach", Item::PartnerHere),
    ("partner well", Item::PartnerWell),
    ("partner knows where hands go", Item::PartnerKnows),
    ("both willing", Item::BothWilling),
];

impl Item {
    /// The item of a sentence, by the name under which it was kept.
    pub fn of_sentence(name: &str) -> Option<Self> {
        SENTENCES.iter().find(|(kept, _)| *kept == name).map(|(_, item)| *item)
    }

    /// The name under which its sentence was kept; `None` for what was asked only since.
    pub fn sentence_name(self) -> Option<&'static str> {
        SENTENCES.iter().find(|(_, item)| *item == self).map(|(kept, _)| *kept)
    }

    /// What it was answered, when its sentence was said to be true or not.
    ///
    /// ```
    /// use counterpoise_core::health::readiness::Item;
    /// use counterpoise_core::health::yes_no::YesNoNotSure::{No, Yes};
    /// assert_eq!(Item::of_sentence("no chest pain"), Some(Item::Chest));
    /// assert_eq!((Item::Chest.answer_if(true), Item::Chest.answer_if(false)), (No, Yes));
    /// assert_eq!((Item::Counter.answer_if(true), Item::Counter.answer_if(false)), (Yes, No));
    /// ```
    pub fn answer_if(self, is_true: bool) -> YesNoNotSure {
        match (is_true, self.good()) {
            (true, good) => good,
            (false, YesNoNotSure::No) => YesNoNotSure::Yes,
            (false, _) => YesNoNotSure::No,
        }
    }
}
