//! What stands on the screen now, as a value: the same one is drawn large, printed as plain lines, and tested.
//! Not how it looks (that is `display`).

use crate::direction::Direction;
use crate::millis::Millis;

/// Everything on the screen at one moment. It never holds a cue before that cue's time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Screen {
    /// Where in the session this is: `Set 2 of 3`. Empty where a page needs the room.
    pub place: String,
    /// The main part.
    pub body: Body,
    /// What the keys do, most useful first.
    pub keys: Vec<KeyHint>,
    /// Something that must not be missed, such as `NOT SAVED`; stands until it is no longer true.
    pub notices: Vec<String>,
}

/// One key and what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyHint {
    /// As it is written on the keyboard: `A`, `Esc`, `any key`.
    pub key: String,
    /// What it does, in a few words.
    pub does: String,
}

/// The main part of a screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Body {
    /// Something to read: the first pages, the set-up of a set, guidance.
    Page {
        /// A short headline.
        title: String,
        /// Paragraphs, each wrapped to the width.
        text: Vec<String>,
        /// A list; each item on its own line.
        items: Vec<String>,
    },
    /// A question, answered by one key.
    Question {
        /// The question.
        ask: String,
        /// The keys and what they mean.
        answers: Vec<KeyHint>,
        /// Nobody has answered for a while: "Are you all right? Press any key."
        asking_again: bool,
    },
    /// The spoken count before the work.
    Count {
        /// The number now said; `None` before the first.
        number: Option<u8>,
        /// How to stand, for a last look.
        standing: Vec<String>,
    },
    /// The work.
    Work {
        /// What is called now, for a few seconds after its moment.
        call: Option<Shown>,
        /// Work time left.
        left: Millis,
        /// Work time in all.
        whole: Millis,
    },
    /// The work is paused.
    Paused {
        /// Work time left.
        left: Millis,
        /// After which the set ends.
        ends_in: Millis,
    },
    /// A rest.
    Rest {
        /// Rest left; zero when it is over.
        left: Millis,
        /// Rest in all.
        whole: Millis,
        /// What comes next, in words (never a cue).
        next: String,
    },
}

/// A cue whose moment has come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The words, in capitals.
    pub words: String,
    /// Where.
    pub direction: Direction,
    /// Which cue of the set, from 0: two equal calls in a row are two.
    pub cue: u16,
}
