//! Positions and lengths on the clock of the sound stream, in frames, and their one conversion from milliseconds.

use std::fmt;
use std::ops::{Add, Sub};
use std::time::Duration;

use crate::units::Millis;

/// A position on the stream's clock: the number of frames rendered before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Frame(pub u64);

/// A length in frames. A frame is one sample in each channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Frames(pub u64);

/// Frames a second; never 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct SampleRate(u32);

impl SampleRate {
    /// 48,000 frames a second: the rate of the clips, of tracks, and of nearly every device.
    pub const HZ_48000: Self = Self(48_000);

    /// `hz` frames a second, if there are any.
    pub const fn new(hz: u32) -> Option<Self> {
        if hz == 0 { None } else { Some(Self(hz)) }
    }

    /// Frames a second.
    pub const fn hz(self) -> u32 {
        self.0
    }

    /// `length` in frames, to the nearest (a half goes up). Convert each offset from its start: gaps that were
    /// rounded one by one would add their errors up.
    ///
    /// ```
    /// use counterpoise_core::units::{Frames, SampleRate};
    /// use counterpoise_core::units::Millis;
    /// assert_eq!(SampleRate::HZ_48000.frames(Millis(6_123)), Frames(48 * 6_123));
    /// assert_eq!(SampleRate::new(44_100).unwrap().frames(Millis(15)), Frames(662), "661.5");
    /// ```
    pub const fn frames(self, length: Millis) -> Frames {
        Frames((length.0 as u64 * self.0 as u64 + 500) / 1000)
    }

    /// How long `length` lasts.
    pub fn duration(self, length: Frames) -> Duration {
        let (hz, nanos) = (u64::from(self.0), 1_000_000_000);
        Duration::new(length.0 / hz, (length.0 % hz * nanos / hz) as u32)
    }
}

impl fmt::Display for SampleRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} Hz", self.0)
    }
}

impl Add<Frames> for Frame {
    type Output = Self;
    fn add(self, length: Frames) -> Self {
        Self(self.0 + length.0)
    }
}

/// Stops at the first frame: nothing lies before it.
impl Sub<Frames> for Frame {
    type Output = Self;
    fn sub(self, length: Frames) -> Self {
        Self(self.0.saturating_sub(length.0))
    }
}

/// The length from `start` to `self`; 0 if `start` is later.
impl Sub for Frame {
    type Output = Frames;
    fn sub(self, start: Self) -> Frames {
        Frames(self.0.saturating_sub(start.0))
    }
}

impl Add for Frames {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

/// Stops at zero.
impl Sub for Frames {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_millisecond_is_48_frames_at_48_khz_and_never_drifts_at_another_rate() {
        let cd = SampleRate::new(44_100).unwrap();
        for ms in [0, 1, 7, 999, 61_500, 1_234_567, u32::MAX] {
            assert_eq!(SampleRate::HZ_48000.frames(Millis(ms)), Frames(48 * u64::from(ms)));
            let exact = f64::from(ms) * 44.1;
            assert!((cd.frames(Millis(ms)).0 as f64 - exact).abs() <= 0.5 + 1e-6, "{ms} ms");
        }
    }

    #[test]
    fn a_length_lasts_what_it_says() {
        assert_eq!(SampleRate::HZ_48000.duration(Frames(48_000 * 3_600 + 24)), Duration::new(3_600, 500_000));
        assert_eq!(SampleRate::new(0), None);
    }

    #[test]
    fn nothing_lies_before_the_first_frame() {
        assert_eq!(Frame(3) - Frames(5), Frame(0));
        assert_eq!(Frame(3) - Frame(5), Frames(0));
        assert_eq!(Frame(5) - Frame(3), Frames(2));
    }
}
