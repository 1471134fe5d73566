//! What stays locked until somebody has watched this person do it.

use crate::words;

/// A named danger. All of them are judgment: no trial of such practice at home without a harness exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum UnlockName {
    /// Pushes by a partner.
    Pushes,
    /// Soft or moving surfaces.
    Surface,
    /// Drills in which the person walks.
    Walking,
    /// Any action toward the back, back diagonals included.
    Backward,
    /// Calls with closed eyes.
    EyesClosed,
    /// Doing a second task at the same time.
    SecondTask,
    /// One-leg and tandem stances.
    OneLeg,
}

words! {
    UnlockName {
        Pushes => "pushes",
        Surface => "surface",
        Walking => "walking",
        Backward => "backward",
        EyesClosed => "eyes-closed",
        SecondTask => "second-task",
        OneLeg => "one-leg",
    }
}

impl UnlockName {
    /// Why it is locked, as the end of a sentence that begins with what was listed: "which is locked: ...".
    pub const fn why(self) -> &'static str {
        match self {
            Self::Pushes => "a partner pushes the person",
            Self::Surface => "the surface is soft or moves",
            Self::Walking => "the person walks",
            Self::Backward => "it goes behind the person",
            Self::EyesClosed => "the eyes are closed",
            Self::SecondTask => "a second task takes the person's mind off standing",
            Self::OneLeg => "the feet give hardly any base to stand on",
        }
    }

    /// What must also be in place, both when somebody watches it and at every practice.
    pub const fn safeguard(self) -> &'static str {
        match self {
            Self::Pushes => "the same partner within reach, hands ready",
            Self::Surface => "a fixed support within a hand's reach",
            Self::Walking => "a free stretch of floor beside a counter or wall",
            Self::Backward => "a wall or second counter within half a step behind",
            Self::EyesClosed => "a fixed support within a hand's reach and a firm floor",
            Self::SecondTask | Self::OneLeg => "a hand at the counter",
        }
    }
}
