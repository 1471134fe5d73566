//! What time is it, since the session began and on the wall? This is the only module that reads a clock; everything else
//! takes a time as an argument.

use std::env;
use std::ffi::OsStr;
use std::fs::Metadata;
use std::path::Path;
use std::time::{Duration, Instant, SystemTime};

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

/// The first second after the year 2262, from 1970 on: nanoseconds since then no longer fit into 64 bits there, on which
/// systems and libraries rely.
const LAST_SECOND: u64 = 9_223_372_036;

/// The most bytes of a description of a time zone; all that there are have less than 8 KiB \[judgment\].
const ZONE_BYTES: u64 = 1 << 20;

/// The clock or the time zone of this computer says nothing that can be used.
#[derive(Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unusable {
    /// The clock is far ahead.
    #[error("this computer's clock is {0} years after 1970, which cannot be right")]
    Clock(u64),
    /// `TZ` leads to a device, a pipe, a folder or a huge file, which would be read without an end.
    #[error("the time zone in TZ cannot be used: {0} is not a small file")]
    Zone(String),
}

impl Unusable {
    /// What to try.
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Clock(_) => "Set the date and time of this computer, then start again.",
            Self::Zone(_) => "Set TZ to a name such as America/New_York, or leave it out.",
        }
    }
}

/// Checks the clock and `TZ` before anything asks for the time.
///
/// # Errors
/// If one of them cannot be used.
pub fn check() -> Result<(), Unusable> {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    usable(since, env::var_os("TZ").as_deref())
}

fn usable(since_1970: Duration, zone: Option<&OsStr>) -> Result<(), Unusable> {
    if since_1970.as_secs() > LAST_SECOND {
        return Err(Unusable::Clock(since_1970.as_secs() / (60 * 60 * 24 * 365)));
    }
    let Some(zone) = zone.map(OsStr::to_string_lossy) else { return Ok(()) };
    let path = Path::new(zone.strip_prefix(':').unwrap_or(&zone));
    let is_small = |metadata: &Metadata| metadata.is_file() && metadata.len() <= ZONE_BYTES;
    // A name, and a path that leads nowhere, are looked up, and are in UTC where they are not found.
    match path.is_absolute().then(|| path.metadata()) {
        Some(Ok(metadata)) if !is_small(&metadata) => Err(Unusable::Zone(path.display().to_string())),
        _ => Ok(()),
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
    fn a_clock_of_another_age_and_a_zone_that_is_no_file_are_named() {
        use super::{Unusable, usable};
        let now = Duration::from_secs(1_793_629_800);
        let zone = |zone: &str| usable(now, Some(zone.as_ref()));
        for fine in ["", "UTC", "America/New_York", ":Europe/Berlin", "/no/such/file", "EST5EDT"] {
            assert_eq!(zone(fine), Ok(()), "{fine}");
        }
        for device in ["/dev/zero", ":/dev/zero", "/dev/null", "/"] {
            if std::path::Path::new(device.trim_start_matches(':')).exists() {
                assert!(matches!(zone(device), Err(Unusable::Zone(_))), "{device}");
            }
        }
        // 2262-04-11T23:47:16Z, the last second of 64 bits of nanoseconds, and the one after it.
        assert_eq!(usable(Duration::from_secs(9_223_372_036), None), Ok(()));
        let error = usable(Duration::from_secs(9_223_372_037), None).unwrap_err();
        assert_eq!(error.to_string(), "this computer's clock is 292 years after 1970, which cannot be right");
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
