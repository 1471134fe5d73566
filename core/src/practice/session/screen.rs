//! The contents of a screen, as a value: the same one is drawn large, printed as plain lines, and tested.

use crate::plan::direction::Direction;
use crate::plan::drill::Ball;
use crate::units::Millis;

/// Everything on the screen at one moment. It never holds a cue before that cue's time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Screen {
    /// Where in the session this is: `Set 2 of 3`. Empty where a page needs the room.
    pub place: String,
    /// The main part.
    pub body: Body,
    /// What the keys do, most useful first.
    pub keys: Vec<KeyHint>,
    /// Something that must not be missed, such as `NOT SAVED`; shown until it is no longer true. The words that close
    /// what lasted when it was broken off (`OPEN YOUR EYES`) come first.
    pub notices: Vec<String>,
}

impl Screen {
    /// Which keys count here, for somebody who pressed another one; `None` where any key does.
    ///
    /// ```
    /// use counterpoise_core::practice::session::screen::{Body, KeyHint, Screen};
    /// let page = |key: &str| Screen {
    ///     place: String::new(),
    ///     body: Body::page("Done", &[], &[]),
    ///     keys: vec![KeyHint::new(key, "go on"), KeyHint::new("S or Esc", "stop")],
    ///     notices: Vec::new(),
    /// };
    /// assert_eq!(page("Enter").keys_here().as_deref(), Some("Keys here: Enter, S or Esc."));
    /// assert_eq!(page("any key").keys_here(), None);
    /// ```
    pub fn keys_here(&self) -> Option<String> {
        let answers = if let Body::Question { answers, .. } = &self.body { answers.as_slice() } else { &[] };
        let keys: Vec<&str> = answers.iter().chain(&self.keys).map(|hint| hint.key.as_str()).collect();
        let any = keys.is_empty() || keys.iter().any(|key| key.starts_with("any"));
        (!any).then(|| format!("Keys here: {}.", keys.join(", ")))
    }
}

/// One key and what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyHint {
    /// As it is written on the keyboard: `A`, `Esc`, `any key`.
    pub key: String,
    /// What it does, in a few words.
    pub does: String,
}

impl KeyHint {
    /// A hint of these words.
    pub fn new(key: &str, does: &str) -> Self {
        Self { key: key.to_owned(), does: does.to_owned() }
    }
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
    /// An emergency, spoken too: whom to call, as large as it fits, then what else to do.
    Emergency {
        /// The number to call; `None` where it is not known.
        number: Option<String>,
        /// Paragraphs below it, the most urgent first.
        text: Vec<String>,
    },
    /// A question, answered by one key.
    Question {
        /// The question, as it is read.
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
    /// The work of a set, for the trainee.
    Work {
        /// What is called now, for a few seconds after its moment.
        call: Option<ShownCall>,
        /// Work time left.
        left: Millis,
        /// Work time in all.
        whole: Millis,
    },
    /// The work of a set with a partner, as the partner sees it. The trainee's shoulders are turned to it.
    Partner {
        /// What the partner is to do, from its lead on; `None` is HOLD, the same whether a cue, a blank or nothing comes.
        item: Option<Item>,
        /// Work time left.
        left: Millis,
        /// Work time in all.
        whole: Millis,
    },
    /// A slow target that the eyes follow, while a call says so; before and after it is [`Body::Work`].
    Follow {
        /// Where it is, from the left edge of the room for it, in thousandths of its width.
        across_per_mille: u16,
        /// Where it is, from the top edge, in thousandths of the height.
        down_per_mille: u16,
        /// Work time left.
        left: Millis,
        /// Work time in all.
        whole: Millis,
    },
    /// Today's floor course, to be laid before the set.
    Course {
        /// The patches as the person names them, in the order in which they are walked.
        patches: Vec<String>,
    },
    /// The work is paused.
    Paused {
        /// Work time left.
        left: Millis,
        /// After which the set ends.
        ends_in: Millis,
    },
    /// The rest between two sets.
    Rest {
        /// Rest left; zero when it is over.
        left: Millis,
        /// Rest in all.
        whole: Millis,
        /// What comes next, in words (never a cue).
        next: String,
    },
}

impl Body {
    /// A page with this headline, these paragraphs and these items.
    pub fn page(title: &str, text: &[&str], items: &[&str]) -> Self {
        let own = |lines: &[&str]| lines.iter().map(|line| (*line).to_owned()).collect();
        Self::Page { title: title.to_owned(), text: own(text), items: own(items) }
    }
}

/// A cue whose moment has come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShownCall {
    /// The words, in capitals.
    pub words: String,
    /// The direction of the call, for an arrow.
    pub direction: Direction,
    /// Which cue of the set, from 0: two equal calls in a row are two.
    pub cue: u16,
}

/// One thing for the partner to do, on the screen from its lead to a moment after it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// What to do, in capitals: `PUSH`, `THROW`, `STEP LEFT`.
    pub words: String,
    /// Where to, as the trainee stands: `toward the window`; else the direction, `to the left`. `None` where the words
    /// say it already, or it is nowhere.
    pub toward: Option<String>,
    /// Where the hand goes: `your hand on the right hip`.
    pub hand: Option<String>,
    /// How firmly, in words: `barely`.
    pub strength: Option<String>,
    /// Whether it is one of the two pushes that are announced as practice.
    pub practice: bool,
    /// Which of two balls is to be caught.
    pub ball: Option<Ball>,
    /// Where to, for an arrow: seen from the trainee.
    pub direction: Direction,
    /// How near it is.
    pub moment: Moment,
    /// Which cue of the set, from 0: two equal items in a row are two.
    pub cue: u16,
}

/// How near the moment of an item is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moment {
    /// Seconds to go, 3 or more; nearer than that it is not counted down.
    In(u8),
    /// The last two seconds: eyes on the person, not on the screen.
    LookUp,
    /// It is there, and for a while after, or until what lasts has ended.
    Now,
}
