//! Where a cue can point, seen from the trainee: names, words and arrows. Not which of them a drill uses.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A place that a cue can point to. Left and right are always the trainee's.
///
/// ```
/// use counterpoise::direction::Direction;
/// assert_eq!(Direction::ForwardLeft.name(), "forward left");
/// assert_eq!(Direction::from_name("forward left"), Some(Direction::ForwardLeft));
/// assert_eq!(Direction::Left.arrow(), "←");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Direction {
    /// Ahead of the trainee.
    #[serde(rename = "forward")]
    Forward,
    /// Behind the trainee.
    #[serde(rename = "back")]
    Back,
    /// The trainee's left.
    #[serde(rename = "left")]
    Left,
    /// The trainee's right.
    #[serde(rename = "right")]
    Right,
    /// Between forward and left.
    #[serde(rename = "forward left")]
    ForwardLeft,
    /// Between forward and right.
    #[serde(rename = "forward right")]
    ForwardRight,
    /// Between back and left.
    #[serde(rename = "back left")]
    BackLeft,
    /// Between back and right.
    #[serde(rename = "back right")]
    BackRight,
    /// Away from the floor.
    #[serde(rename = "up")]
    Up,
    /// Toward the floor.
    #[serde(rename = "down")]
    Down,
}

impl Direction {
    /// Every direction, in the order of this file.
    pub const ALL: [Self; 10] = [
        Self::Forward,
        Self::Back,
        Self::Left,
        Self::Right,
        Self::ForwardLeft,
        Self::ForwardRight,
        Self::BackLeft,
        Self::BackRight,
        Self::Up,
        Self::Down,
    ];

    /// The plain words, as prescriptions, screens and the journal spell them.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Forward => "forward",
            Self::Back => "back",
            Self::Left => "left",
            Self::Right => "right",
            Self::ForwardLeft => "forward left",
            Self::ForwardRight => "forward right",
            Self::BackLeft => "back left",
            Self::BackRight => "back right",
            Self::Up => "up",
            Self::Down => "down",
        }
    }

    /// The direction with this name, if there is one.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|direction| direction.name() == name)
    }

    /// An arrow for a screen: forward points away from the trainee, which is up on the screen.
    pub const fn arrow(self) -> &'static str {
        match self {
            Self::Forward | Self::Up => "↑",
            Self::Back | Self::Down => "↓",
            Self::Left => "←",
            Self::Right => "→",
            Self::ForwardLeft => "↖",
            Self::ForwardRight => "↗",
            Self::BackLeft => "↙",
            Self::BackRight => "↘",
        }
    }

    /// Whether following it goes behind the trainee, which the `backward` unlock guards.
    pub const fn is_backward(self) -> bool {
        matches!(self, Self::Back | Self::BackLeft | Self::BackRight)
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
