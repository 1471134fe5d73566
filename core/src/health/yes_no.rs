//! The three answers to a question about health: yes, no, or not sure, which counts as the careful one of the two.

use crate::words;

/// Yes, no, or not sure.
///
/// ```
/// use counterpoise_core::health::yes_no::YesNoNotSure::{No, NotSure, Yes};
/// assert_eq!([Yes, No, NotSure].map(|answer| answer.may_be_yes()), [true, false, true]);
/// assert_eq!([Yes, No, NotSure].map(|answer| answer.is_surely_yes()), [true, false, false]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum YesNoNotSure {
    /// No.
    No,
    /// Yes.
    Yes,
    /// Somebody who is not sure gets what the careful answer leads to.
    NotSure,
}

words! {
    YesNoNotSure {
        No => "no",
        Yes => "yes",
        NotSure => "not sure",
    }
}

impl YesNoNotSure {
    /// Counts as yes where yes is the careful answer: "Have you had chest pain?"
    pub const fn may_be_yes(self) -> bool {
        !matches!(self, Self::No)
    }

    /// Counts as yes where no is the careful answer: "Is the counter fixed?"
    pub const fn is_surely_yes(self) -> bool {
        matches!(self, Self::Yes)
    }
}
