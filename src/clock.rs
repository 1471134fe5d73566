//! What time is it, since the session began and on the wall? This is the only module that reads a clock; everything else
//! takes a time as an argument.

use std::time::{Duration, Instant};

use jiff::{SignedDuration, Timestamp, ZonedDateTime};

use counterpoise_core::units::Millis;

/// A difference between the two clocks above this means that the computer slept or its clock was set.
const JUMP: Duration = Duration::from_secs(2);

/// A clock that starts when it is made.
///
/// ```
/// use counterpoise::clock::Clock;
/// let mut clock = Clock::real();
/// let before = clock.now();
/// assert!(clock.now() >= before);
/// assert!(!clock.slept());
/// ```
#[derive(Debug)]
pub struct Clock {
    started: Instant,
    wall_started: Timestamp,
    speed: u32,
    drift: Drift,
}

impl Clock {
    /// A clock that runs at normal speed.
    pub fn real() -> Self {
        Self::fast(1)
    }

    /// A clock on which a session passes `speed` times as fast, for tests. Its wall time runs as fast.
    pub fn fast(speed: u32) -> Self {
        Self {
            started: Instant::now(),
            wall_started: Timestamp::now(),
            speed: speed.max(1),
            drift: Drift::default(),
        }
    }

    /// The time since the clock was made. It never goes back, and stops while the computer sleeps.
    pub fn now(&self) -> Millis {
        let elapsed = self.started.elapsed().as_millis() * u128::from(self.speed);
        Millis(u32::try_from(elapsed).unwrap_or(u32::MAX))
    }

    /// The date and time on the wall, with offset and zone.
    pub fn wall(&self) -> ZonedDateTime {
        let now = ZonedDateTime::now();
        if self.speed == 1 {
            return now;
        }
        let since = SignedDuration::from_millis(i64::from(self.now().0));
        let at = self.wall_started.saturating_add(since).unwrap_or(self.wall_started);
        ZonedDateTime::new(at, now.time_zone().clone())
    }

    /// Whether, since this was last asked, the wall clock went on by over two seconds more or less than this one:
    /// the computer slept, or its clock was set.
    ///
    /// On Windows the time since the start may count sleep too; there a sleep is noticed by the sound output only.
    pub fn slept(&mut self) -> bool {
        let wall = Timestamp::now().duration_since(self.wall_started);
        self.drift.jumped(wall, self.started.elapsed())
    }
}

/// How far the wall clock is ahead.
#[derive(Debug, Default)]
struct Drift(SignedDuration);

impl Drift {
    fn jumped(&mut self, wall: SignedDuration, elapsed: Duration) -> bool {
        let elapsed = SignedDuration::try_from(elapsed).unwrap_or(SignedDuration::MAX);
        let ahead = wall.saturating_sub(elapsed);
        let jumped = ahead.saturating_sub(self.0).unsigned_abs() > JUMP;
        // Kept as it was unless it jumped, so that a slow drift of an hour does not hide behind many small steps.
        if jumped {
            self.0 = ahead;
        }
        jumped
    }
}

#[cfg(test)]
mod test {
    use super::{Clock, Drift};
    use jiff::SignedDuration;
    use std::time::Duration;

    #[test]
    fn a_jump_of_over_two_seconds_is_told_once() {
        let mut drift = Drift::default();
        let mut jumped =
            |wall, elapsed| drift.jumped(SignedDuration::from_millis(wall), Duration::from_millis(elapsed));
        assert!(!jumped(1_000, 1_000));
        assert!(!jumped(4_000, 2_000), "exactly two seconds");
        assert!(jumped(5_001, 3_000), "slept");
        assert!(!jumped(6_001, 4_000), "told before");
        assert!(jumped(-60_000, 5_000), "set back by a minute");
        assert!(!jumped(-59_000, 6_000));
    }

    #[test]
    fn a_fast_clock_passes_a_session_many_times_as_fast() {
        let clock = Clock::fast(1_000_000);
        let before = clock.now();
        std::thread::sleep(Duration::from_millis(1));
        assert!(clock.now().0 - before.0 >= 1_000_000);
        let ahead = clock.wall().timestamp().duration_since(jiff::Timestamp::now());
        assert!(ahead >= SignedDuration::from_secs(999), "{ahead:?}");
    }
}
