//! What time is it, since the session began and on the wall? This is the only module that reads a clock; everything else
//! takes a time as an argument.

use std::time::{Duration, Instant};

use jiff::{SignedDuration, Timestamp, ZonedDateTime};

use counterpoise_core::units::Millis;

/// A clock that starts when it is made.
///
/// ```
/// use counterpoise::clock::Clock;
/// let clock = Clock::real();
/// let before = clock.now();
/// assert!(clock.now() >= before);
/// ```
#[derive(Debug)]
pub struct Clock {
    started: Instant,
    wall_started: Timestamp,
    speed: u32,
    last: Reading,
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
            last: Reading::now(),
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

    /// The time since this was last asked, at normal speed, on whichever clock counted most: a pause of this program, a
    /// computer that slept and a wall clock that was set all show in it.
    pub fn gap(&mut self) -> Millis {
        let now = Reading::now();
        now.since(&std::mem::replace(&mut self.last, now))
    }
}

/// What the clocks show at one moment.
#[derive(Debug, Clone, Copy)]
struct Reading {
    steady: Instant,
    /// Counts on while the computer sleeps; `None` where the system has no such clock. There the wall clock does.
    awake_or_not: Option<Duration>,
    wall: Timestamp,
}

impl Reading {
    fn now() -> Self {
        Self { steady: Instant::now(), awake_or_not: boot_time(), wall: Timestamp::now() }
    }

    /// The longest time on any of the clocks; a wall clock that was set back counts as well.
    fn since(&self, before: &Self) -> Millis {
        let steady = self.steady.saturating_duration_since(before.steady);
        let both = self.awake_or_not.zip(before.awake_or_not);
        let slept = both.map_or(Duration::ZERO, |(now, before)| now.saturating_sub(before));
        let wall = self.wall.duration_since(before.wall).unsigned_abs();
        let longest = steady.max(slept).max(wall);
        Millis(u32::try_from(longest.as_millis()).unwrap_or(u32::MAX))
    }
}

/// The time since the computer was started, sleep included.
#[cfg(target_os = "linux")]
fn boot_time() -> Option<Duration> {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::Boottime);
    Some(Duration::new(u64::try_from(time.tv_sec).ok()?, u32::try_from(time.tv_nsec).ok()?))
}

#[cfg(not(target_os = "linux"))]
const fn boot_time() -> Option<Duration> {
    None
}

#[cfg(test)]
mod test {
    use super::{Clock, Reading};
    use counterpoise_core::units::Millis;
    use jiff::SignedDuration;
    use std::time::Duration;

    #[test]
    fn the_longest_time_on_any_clock_is_the_gap() {
        let before = Reading { awake_or_not: Some(Duration::from_secs(9)), ..Reading::now() };
        let steady = Reading { steady: before.steady + Duration::from_millis(2_001), ..before };
        assert_eq!(steady.since(&before), Millis(2_001), "the program was stopped");
        let slept = Reading { awake_or_not: Some(Duration::from_secs(3_609)), ..before };
        assert_eq!(slept.since(&before), Millis(3_600_000), "the computer slept");
        for set in [SignedDuration::from_secs(60), SignedDuration::from_secs(-60)] {
            let set = Reading { wall: before.wall + set, ..before };
            assert_eq!(set.since(&before), Millis(60_000), "the clock was set");
        }
        let unknown = Reading { awake_or_not: None, ..slept };
        assert_eq!(unknown.since(&before), Millis(0));
    }

    #[test]
    fn a_gap_is_counted_once_and_at_normal_speed() {
        let mut clock = Clock::fast(1_000_000);
        std::thread::sleep(Duration::from_millis(30));
        let gap = clock.gap();
        assert!(gap >= Millis(30) && gap < Millis(25_000), "{gap:?}");
        assert!(clock.gap() < gap, "counted before");
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn the_clock_that_counts_sleep_goes_on() {
        let before = super::boot_time().unwrap();
        std::thread::sleep(Duration::from_millis(10));
        assert!(super::boot_time().unwrap() >= before + Duration::from_millis(10));
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
