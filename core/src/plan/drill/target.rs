//! One thing that a drill may call, with the phrases for the trainee, for the partner, or for both.

use std::fmt;

use super::action::Action;
use super::unlock::UnlockName;
use crate::plan::direction::Direction;
use crate::plan::phrase::Phrase;
use crate::units::Millis;
use crate::words;

/// One thing that a drill may call.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Target {
    /// What prescriptions list in `directions`: the direction, unless the drill has several things to do there.
    pub name: String,
    /// The direction, seen from the trainee.
    pub direction: Direction,
    /// What the call asks for.
    pub action: Action,
    /// What the trainee hears; nothing where a partner does it unannounced.
    pub say: Option<Phrase>,
    /// What the partner does, as the partner hears it; the direction is added to it.
    pub tell: Option<Phrase>,
    /// Where the partner's hand goes.
    pub hand: Option<Phrase>,
    /// Its duration and its end, for a call that lasts.
    pub span: Option<Span>,
}

/// A call with a duration: its end is called too, and nothing is called in between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The duration from the cue to its end.
    pub length: Millis,
    /// What is called at the end: "open your eyes".
    pub close: Phrase,
    /// The last seconds of it are counted aloud from one up to this; 0 is silence.
    pub count: u8,
}

/// A part that may be added to a call in a drill whose calls have several: "high", "with a step".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its kind: a call has at most one part of each kind.
    pub kind: String,
    /// The phrase that is spoken.
    pub phrase: Phrase,
    /// An action that it adds, which may require a longer gap.
    pub action: Option<Action>,
    /// The directions that it can be combined with; empty for all.
    pub directions: Vec<Direction>,
}

impl Part {
    /// Whether it can be added to a call toward `direction`.
    pub fn suits(&self, direction: Direction) -> bool {
        self.directions.is_empty() || self.directions.contains(&direction)
    }
}

impl Target {
    /// What somebody must have watched before it is called.
    pub fn unlocks(&self) -> impl Iterator<Item = UnlockName> + use<> {
        let backward = self.direction.is_backward().then_some(UnlockName::Backward);
        self.action.unlocks().iter().copied().chain(backward)
    }

    /// How long the call lasts: 0 unless it has a span.
    pub fn duration(&self) -> Millis {
        self.span.map_or(Millis(0), |span| span.length)
    }

    /// Its words: what is spoken, or what the partner does.
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

    /// The number on the scale, from 1 to 4.
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

    /// The phrase that tells the partner.
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
    /// The big ball.
    Big,
    /// The small ball.
    Small,
}

words! {
    Ball {
        Big => "big",
        Small => "small",
    }
}

impl Ball {
    /// The phrase that is spoken.
    pub fn phrase(self) -> Phrase {
        Phrase::own(match self {
            Self::Big => "ball.big",
            Self::Small => "ball.small",
        })
    }
}

/// One piece of an instruction to the partner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instruction {
    /// A fixed phrase.
    Words(Phrase),
    /// Toward a place of the room if it is known, otherwise a direction. Both are seen from the trainee.
    Toward(Direction),
}

/// The phrase that tells the partner a direction: "to the right", as the trainee sees it.
pub fn direction_phrase(direction: Direction) -> Phrase {
    Phrase::own(&format!("where.{}", direction.name().replace(' ', "-")))
}
