//! One thing that a drill may call, and the words for it: for the trainee's ear, for the partner, or for both.
//! Not when it is called.

use std::fmt;

use super::action::Action;
use crate::plan::direction::Direction;
use crate::plan::phrase::Phrase;
use crate::units::Millis;
use crate::words;

/// One thing that a drill may call.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Target {
    /// What prescriptions list in `directions`: the direction, unless the drill has several things to do there.
    pub name: String,
    /// Where.
    pub direction: Direction,
    /// What to do.
    pub action: Action,
    /// What the trainee hears; nothing where a partner does it unannounced.
    pub say: Option<Phrase>,
    /// What the partner does, in the partner's ear; where to is added to it.
    pub tell: Option<Phrase>,
    /// Where the partner's hand goes.
    pub hand: Option<Phrase>,
    /// For what lasts: how long, and how it ends.
    pub span: Option<Span>,
}

/// What lasts: its end is called too, and nothing comes between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// From the cue to its end.
    pub length: Millis,
    /// What is called at the end: "open your eyes".
    pub close: Phrase,
    /// The last seconds of it are counted aloud from one up to this; 0 is silence.
    pub count: u8,
}

/// A part that may be added to a call in a drill whose calls have several: "high", "with a step".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Of one kind a call has at most one.
    pub kind: String,
    /// How it is said.
    pub phrase: Phrase,
    /// What it asks for besides, which bounds the gap.
    pub action: Option<Action>,
    /// The directions with which it makes sense; all of them if none is named.
    pub directions: Vec<Direction>,
}

impl Part {
    /// Whether it can be added to a call toward `direction`.
    pub fn suits(&self, direction: Direction) -> bool {
        self.directions.is_empty() || self.directions.contains(&direction)
    }
}

impl Target {
    /// How long it lasts; no time, unless it has a span.
    pub fn duration(&self) -> Millis {
        self.span.map_or(Millis(0), |span| span.length)
    }

    /// In words: what is said, or what the partner does.
    pub fn words(&self) -> String {
        match (self.say, self.tell) {
            (Some(say), _) => say.words().to_owned(),
            (None, Some(tell)) => format!("{} {}", tell.words(), direction_phrase(self.direction).words()),
            (None, None) => self.name.clone(),
        }
    }
}

/// How firm a push is, in words on a scale from 1 to 4. Never a force: none is published for partners at home.
///
/// ```
/// use counterpoise_core::plan::drill::Strength;
/// assert_eq!(Strength::GENTLEST.number(), 1);
/// assert_eq!(Strength::new(4).unwrap().to_string(), "firmly");
/// assert_eq!(Strength::new(5), None);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Strength(u8);

impl Strength {
    /// Barely felt: the body sways and the soles stay flat.
    pub const GENTLEST: Self = Self(1);

    /// The strength with this number, from 1 to 4.
    pub const fn new(number: u8) -> Option<Self> {
        if matches!(number, 1..=4) { Some(Self(number)) } else { None }
    }

    /// From 1 to 4.
    pub const fn number(self) -> u8 {
        self.0
    }

    /// What it feels like, for a page.
    pub const fn sensation(self) -> &'static str {
        match self.0 {
            1 => "barely felt: the body sways and the soles stay flat",
            2 => "clearly felt: the heels or toes lift, no step is needed",
            3 => "a step may be needed",
            _ => "one step is needed",
        }
    }

    /// How it is said to the partner.
    pub fn phrase(self) -> Phrase {
        Phrase::own(match self.0 {
            1 => "strength.1",
            2 => "strength.2",
            3 => "strength.3",
            _ => "strength.4",
        })
    }
}

/// The words that a partner hears.
impl fmt::Display for Strength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.0 {
            1 => "barely",
            2 => "lightly",
            3 => "clearly",
            _ => "firmly",
        })
    }
}

/// One of two balls, named aloud as it leaves the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ball {
    /// The big one.
    Big,
    /// The small one.
    Small,
}

words! {
    Ball {
        Big => "big",
        Small => "small",
    }
}

impl Ball {
    /// How it is said.
    pub fn phrase(self) -> Phrase {
        Phrase::own(match self {
            Self::Big => "ball.big",
            Self::Small => "ball.small",
        })
    }
}

/// One piece of what the partner is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instruction {
    /// These words.
    Words(Phrase),
    /// Where to: a place of the room where it is known, else the direction. Both as the trainee stands.
    Toward(Direction),
}

/// A direction in the partner's ear: "to the right", said of the trainee.
pub fn direction_phrase(direction: Direction) -> Phrase {
    Phrase::own(&format!("where.{}", direction.name().replace(' ', "-")))
}
