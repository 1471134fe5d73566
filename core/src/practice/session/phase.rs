//! Which phase a session is in, and since when it has been waiting for a key.

use crate::record::{Mishap, Question, RoutinePart, SessionEnd};
use crate::units::Millis;

/// What is going on, and since when.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Phase {
    First,
    Cautions { part: usize },
    Health { part: usize },
    Ready { sure: bool },
    Gentler,
    InPlace,
    Partner { part: usize },
    Side { part: usize },
    Check { tries: u8, wrong: bool, wait: Wait },
    Routine { part: RoutinePart, item: usize, since: Millis },
    Course { wait: Wait },
    LeftOut { wait: Wait },
    Stand { wait: Wait },
    Count { worked: Millis, work_starts: Option<Millis> },
    Work { worked: Millis, work_starts: Millis },
    Paused { worked: Millis, since: Millis },
    Mishap { what: Mishap, worked: Option<Millis>, wait: Wait },
    Walk { cue: u16, sure: Option<Mishap>, wait: Wait },
    Ask { question: Question, wait: Wait },
    Rest { since: Millis, announced: bool, wait: Option<Wait> },
    Over { end: SessionEnd },
}

impl Phase {
    /// Waiting for a key that must come.
    pub(super) fn wait(&mut self) -> Option<&mut Wait> {
        match self {
            Self::Check { wait, .. }
            | Self::Course { wait }
            | Self::LeftOut { wait }
            | Self::Stand { wait }
            | Self::Mishap { wait, .. }
            | Self::Walk { wait, .. }
            | Self::Ask { wait, .. }
            | Self::Rest { wait: Some(wait), .. } => Some(wait),
            Self::First
            | Self::Cautions { .. }
            | Self::Health { .. }
            | Self::Ready { .. }
            | Self::Gentler
            | Self::InPlace
            | Self::Partner { .. }
            | Self::Side { .. }
            | Self::Routine { .. }
            | Self::Count { .. }
            | Self::Work { .. }
            | Self::Paused { .. }
            | Self::Rest { wait: None, .. }
            | Self::Over { .. } => None,
        }
    }
}

/// Waiting for a key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wait {
    pub(super) since: Millis,
    pub(super) again: u8,
}

impl Wait {
    pub(super) fn from(since: Millis) -> Self {
        Self { since, again: 0 }
    }
}
