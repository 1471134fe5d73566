//! A duration, or an offset from a start, in whole milliseconds.

use std::fmt;
use std::ops::{Add, Sub};

use serde::{Deserialize, Serialize};

/// A length or an offset in whole milliseconds. Every time in a schedule is one of these.
///
/// ```
/// use counterpoise_core::units::Millis;
/// assert_eq!(Millis(61_500).to_string(), "61.5 s");
/// assert_eq!(Millis(3) - Millis(5), Millis(0), "never below zero");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Millis(pub u32);

impl Millis {
    /// `seconds` whole seconds.
    pub const fn from_secs(seconds: u32) -> Self {
        Self(seconds * 1000)
    }

    /// This length in seconds, for people and for arithmetic that is not part of a draw.
    pub fn as_secs_f64(self) -> f64 {
        f64::from(self.0) / 1000.0
    }
}

impl Add for Millis {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

/// Subtraction stops at zero: an offset before the start does not exist.
impl Sub for Millis {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

/// Seconds, with as many decimals as it takes: `5 s`, `61.5 s`.
impl fmt::Display for Millis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} s", self.as_secs_f64())
    }
}
