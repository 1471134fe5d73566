//! What is kept of practice with a partner in addition to its cues: responses to pushes, mishaps, sets left out, advice.

use super::SetEnd;
use crate::words;

/// What happened after a push. Our own list, not a validated scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Response {
    /// The feet stayed in place.
    InPlace,
    /// One step.
    OneStep,
    /// Two steps or more.
    MoreSteps,
    /// A hand touched the support.
    Touched,
    /// Grabbed the support, or was steadied by the partner.
    Grabbed,
    /// Fell.
    Fell,
}

/// What a partner can report by its key at any moment of a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mishap {
    /// Grabbed hold, or was steadied by the partner.
    Grab,
    /// Fell.
    Fall,
}

/// What the rules advise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Advice {
    /// One ladder step lower, after the first grab with a partner.
    OneStepLower,
}

/// Why a set was not begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LeftOut {
    /// The trainee did not want it. It counts against nobody.
    Refused,
    /// The partner grabbed or steadied the trainee, who was getting into place.
    Grabbed,
    /// It closes the eyes, and the trainee had not heard the sound today, or only the partner hears it.
    SoundNotHeard,
}

words! {
    Response {
        InPlace => "feet in place",
        OneStep => "one step",
        MoreSteps => "two or more steps",
        Touched => "touched support",
        Grabbed => "grabbed or steadied",
        Fell => "fell",
    }
    Mishap {
        Grab => "grabbed or steadied",
        Fall => "fell",
    }
    Advice {
        OneStepLower => "one step lower",
    }
    LeftOut {
        Refused => "refused",
        Grabbed => "grabbed or steadied",
        SoundNotHeard => "sound not heard",
    }
}

impl Mishap {
    /// The response to a push after which it happened.
    pub const fn response(self) -> Response {
        match self {
            Self::Grab => Response::Grabbed,
            Self::Fall => Response::Fell,
        }
    }

    /// How it ends a set.
    pub const fn set_end(self) -> SetEnd {
        match self {
            Self::Grab => SetEnd::Grabbed,
            Self::Fall => SetEnd::Fell,
        }
    }
}

impl Response {
    /// The grab or the fall that it is, if it is one.
    pub const fn mishap(self) -> Option<Mishap> {
        match self {
            Self::InPlace | Self::OneStep | Self::MoreSteps | Self::Touched => None,
            Self::Grabbed => Some(Mishap::Grab),
            Self::Fell => Some(Mishap::Fall),
        }
    }

    /// Its number on the partner's keys, from 0 to 5.
    pub const fn number(self) -> u8 {
        self as u8
    }

    /// The one with this number.
    ///
    /// ```
    /// use counterpoise_core::record::Response;
    /// assert_eq!(Response::numbered(1), Some(Response::OneStep));
    /// assert!(Response::ALL.iter().all(|response| Response::numbered(response.number()) == Some(*response)));
    /// assert_eq!(Response::numbered(6), None);
    /// ```
    pub fn numbered(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number)).copied()
    }
}
