//! What a drill cannot do without. The prescription must confirm it, and the screen asks for it before the first
//! set. Small kit is only named in the drill's text.

use crate::words;

/// Something that must be in place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Need {
    /// A free stretch of floor.
    FreeStretch,
    /// A chair with its back against a wall.
    ChairAgainstWall,
    /// A soft base that the person owns and knows.
    OwnBase,
    /// Somebody within reach who knows where hands go and never go.
    Partner,
}

words! {
    Need {
        FreeStretch => "free stretch",
        ChairAgainstWall => "chair against a wall",
        OwnBase => "own soft base",
        Partner => "partner",
    }
}

impl Need {
    /// The sentence that must be true today, for the list before the first set.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::FreeStretch => {
                "A stretch of floor is free: four steps long, a step wide, clear, beside a counter or wall."
            }
            Self::ChairAgainstWall => {
                "A firm chair without wheels stands with its back against a wall, beside the counter."
            }
            Self::OwnBase => "The soft base is the one I know. It lies flat and stays put.",
            Self::Partner => "My partner is within reach of me, with both hands free.",
        }
    }
}
