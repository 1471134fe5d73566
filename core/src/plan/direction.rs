//! The directions a cue can point to, seen from the trainee, with their names and arrows.

use crate::words;

/// A place that a cue can point to. Left and right are always the trainee's.
///
/// ```
/// use counterpoise_core::plan::direction::Direction;
/// assert_eq!(Direction::ForwardLeft.name(), "forward left");
/// assert_eq!(Direction::from_name("forward left"), Some(Direction::ForwardLeft));
/// assert_eq!(Direction::Left.arrow(), "←");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// Ahead of the trainee.
    Forward,
    /// Behind the trainee.
    Back,
    /// The trainee's left.
    Left,
    /// The trainee's right.
    Right,
    /// Between forward and left.
    ForwardLeft,
    /// Between forward and right.
    ForwardRight,
    /// Between back and left.
    BackLeft,
    /// Between back and right.
    BackRight,
    /// Away from the floor.
    Up,
    /// Toward the floor.
    Down,
    /// To the left, above the shoulder.
    HighLeft,
    /// To the right, above the shoulder.
    HighRight,
    /// To the left, below the hip.
    LowLeft,
    /// To the right, below the hip.
    LowRight,
    /// The left shoulder.
    LeftShoulder,
    /// The right shoulder.
    RightShoulder,
    /// In an arc, beginning toward the left.
    RoundLeft,
    /// In an arc, beginning toward the right.
    RoundRight,
    /// Nowhere: what is asked for happens in place.
    InPlace,
}

words! {
    Direction {
        Forward => "forward",
        Back => "back",
        Left => "left",
        Right => "right",
        ForwardLeft => "forward left",
        ForwardRight => "forward right",
        BackLeft => "back left",
        BackRight => "back right",
        Up => "up",
        Down => "down",
        HighLeft => "high left",
        HighRight => "high right",
        LowLeft => "low left",
        LowRight => "low right",
        LeftShoulder => "left shoulder",
        RightShoulder => "right shoulder",
        RoundLeft => "round left",
        RoundRight => "round right",
        InPlace => "in place",
    }
}

impl Direction {
    /// An arrow for a screen: forward points away from the trainee, which is up on the screen. The words are shown
    /// next to it, since some arrows have two meanings.
    pub const fn arrow(self) -> &'static str {
        match self {
            Self::Forward | Self::Up => "↑",
            Self::Back | Self::Down => "↓",
            Self::Left | Self::LeftShoulder => "←",
            Self::Right | Self::RightShoulder => "→",
            Self::ForwardLeft | Self::HighLeft => "↖",
            Self::ForwardRight | Self::HighRight => "↗",
            Self::BackLeft | Self::LowLeft => "↙",
            Self::BackRight | Self::LowRight => "↘",
            Self::RoundLeft => "↶",
            Self::RoundRight => "↷",
            Self::InPlace => "•",
        }
    }

    /// Whether following it goes behind the trainee, which the `backward` unlock guards.
    pub const fn is_backward(self) -> bool {
        matches!(self, Self::Back | Self::BackLeft | Self::BackRight)
    }

    /// Whether its arrow points to the left of a screen.
    pub const fn is_leftward(self) -> bool {
        matches!(
            self,
            Self::Left
                | Self::ForwardLeft
                | Self::BackLeft
                | Self::HighLeft
                | Self::LowLeft
                | Self::LeftShoulder
                | Self::RoundLeft
        )
    }
}

#[cfg(test)]
mod test {
    use super::Direction;

    /// Two arrows that are exchanged would still be two arrows: here each is held to its word.
    #[test]
    fn every_arrow_points_where_its_word_says() {
        for direction in Direction::ALL.iter().copied() {
            let words: Vec<&str> = direction.name().split(' ').collect();
            let says = |any: &[&str]| words.iter().any(|word| any.contains(word));
            let across = i8::from(says(&["right"])) - i8::from(says(&["left"]));
            let up = i8::from(says(&["forward", "up", "high"])) - i8::from(says(&["back", "down", "low"]));
            let arrow = match (says(&["round"]), across, up) {
                (true, -1, 0) => "↶",
                (true, 1, 0) => "↷",
                (false, -1, -1) => "↙",
                (false, -1, 0) => "←",
                (false, -1, 1) => "↖",
                (false, 0, -1) => "↓",
                (false, 0, 0) => "•",
                (false, 0, 1) => "↑",
                (false, 1, -1) => "↘",
                (false, 1, 0) => "→",
                (false, 1, 1) => "↗",
                other => panic!("{direction}: {other:?}"),
            };
            assert_eq!(direction.arrow(), arrow, "{direction}");
            assert_eq!(direction.is_leftward(), across < 0, "{direction}: on the side to which it points");
            assert_eq!(direction.is_backward(), says(&["back"]), "{direction}");
        }
    }
}
