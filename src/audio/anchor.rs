//! When is a frame heard? At every callback the audio side says when its next frame will be heard, and the control side
//! calculates from the latest of these. It never uses the first one: a device's first callbacks come in a burst, long
//! before anything sounds, and its clock drifts against the computer's.

use std::sync::atomic::{AtomicU64, Ordering, fence};
use std::time::{Duration, Instant};

use counterpoise_core::units::{Frame, SampleRate};

const UNKNOWN: u64 = u64::MAX;

/// A pair of clocks, tied together again at every callback: one writer, any number of readers, nobody waits.
#[derive(Debug)]
pub(super) struct Anchor {
    zero: Instant,
    /// Odd while the writer is at it.
    version: AtomicU64,
    frame: AtomicU64,
    /// Nanoseconds from `zero` to the moment `frame` is heard.
    heard: AtomicU64,
    /// From asking for samples to hearing them, in nanoseconds.
    lead: AtomicU64,
    /// Frames asked for by the latest callback.
    block: AtomicU64,
    /// Frames a second of real time, in millionths.
    pace: AtomicU64,
}

impl Anchor {
    /// Untied. `pace` is how many frames pass in a second of real time: the sample rate, but for a fast rehearsal.
    pub(super) fn new(pace: f64) -> Self {
        let atom = || AtomicU64::new(UNKNOWN);
        let anchor = Self {
            zero: Instant::now(),
            version: AtomicU64::new(0),
            frame: atom(),
            heard: atom(),
            lead: atom(),
            block: AtomicU64::new(0),
            pace: atom(),
        };
        anchor.set_pace(pace);
        anchor
    }

    pub(super) fn set_pace(&self, pace: f64) {
        self.pace.store((pace * 1e6) as u64, Ordering::Relaxed);
    }

    /// Nanoseconds from the anchor's making to `at`.
    pub(super) fn nanos(&self, at: Instant) -> u64 {
        at.saturating_duration_since(self.zero).as_nanos() as u64
    }

    /// The writer: a callback at `now` asks for `block` frames from `frame` on, which will be heard `lead` later.
    pub(super) fn tie(&self, now: Instant, frame: Frame, lead: Option<Duration>, block: usize) {
        let lead = lead.map(|lead| lead.as_nanos() as u64);
        self.write(frame.0, self.nanos(now) + lead.unwrap_or(0), lead.unwrap_or(UNKNOWN));
        self.block.store(block as u64, Ordering::Relaxed);
    }

    /// The writer: the stream is gone.
    pub(super) fn untie(&self) {
        self.write(UNKNOWN, UNKNOWN, UNKNOWN);
    }

    fn write(&self, frame: u64, heard: u64, lead: u64) {
        let version = self.version.load(Ordering::Relaxed);
        self.version.store(version + 1, Ordering::Relaxed);
        fence(Ordering::Release);
        self.frame.store(frame, Ordering::Relaxed);
        self.heard.store(heard, Ordering::Relaxed);
        self.lead.store(lead, Ordering::Relaxed);
        self.version.store(version + 2, Ordering::Release);
    }

    /// The estimated moment at which `frame` is or was heard; none while nothing plays.
    pub(super) fn instant_of(&self, frame: Frame) -> Option<Instant> {
        let (tied, heard) = loop {
            let before = self.version.load(Ordering::Acquire);
            let pair = (self.frame.load(Ordering::Relaxed), self.heard.load(Ordering::Relaxed));
            fence(Ordering::Acquire);
            if before.is_multiple_of(2) && before == self.version.load(Ordering::Relaxed) {
                break pair;
            }
            std::hint::spin_loop();
        };
        if tied == UNKNOWN {
            return None;
        }
        let ahead = i128::from(frame.0) - i128::from(tied);
        let offset = ahead * 1_000_000_000_000_000 / i128::from(self.pace.load(Ordering::Relaxed).max(1));
        let nanos = (i128::from(heard) + offset).max(0);
        self.zero.checked_add(Duration::from_nanos(u64::try_from(nanos).ok()?))
    }

    /// From asking for samples to hearing them, as the device estimates it. A device that says 0 does not know.
    pub(super) fn lead(&self) -> Option<Duration> {
        let lead = self.lead.load(Ordering::Relaxed);
        (lead != UNKNOWN && lead > 0).then(|| Duration::from_nanos(lead))
    }

    /// Frames in the latest callback; 0 before the first.
    pub(super) fn block(&self) -> u32 {
        self.block.load(Ordering::Relaxed) as u32
    }
}

/// The pace of a stream that runs in real time.
pub(super) fn real_time(rate: SampleRate) -> f64 {
    f64::from(rate.hz())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;

    #[test]
    fn a_frame_is_reckoned_from_the_latest_callback_both_ways() {
        let anchor = Anchor::new(real_time(SampleRate::HZ_48000));
        assert_eq!(anchor.instant_of(Frame(0)), None);
        let now = anchor.zero + Duration::from_secs(5);
        anchor.tie(anchor.zero, Frame(0), None, 2048);
        anchor.tie(now, Frame(96_000), Some(Duration::from_millis(50)), 1365);
        assert_eq!(anchor.instant_of(Frame(96_000)), Some(now + Duration::from_millis(50)));
        assert_eq!(anchor.instant_of(Frame(96_000 + 480)), Some(now + Duration::from_millis(60)));
        assert_eq!(anchor.instant_of(Frame(96_000 - 480)), Some(now + Duration::from_millis(40)));
        assert_eq!((anchor.lead(), anchor.block()), (Some(Duration::from_millis(50)), 1365));
        anchor.untie();
        assert_eq!((anchor.instant_of(Frame(0)), anchor.lead()), (None, None));
    }

    #[test]
    fn a_rehearsal_at_fifty_times_the_speed_is_heard_fifty_times_sooner() {
        let anchor = Anchor::new(50.0 * 48_000.0);
        anchor.tie(anchor.zero, Frame(0), Some(Duration::ZERO), 480);
        assert_eq!(anchor.instant_of(Frame(50 * 48_000)), Some(anchor.zero + Duration::from_secs(1)));
        assert_eq!(anchor.lead(), None, "0 means that it is not known");
    }

    #[test]
    fn a_reader_never_sees_half_a_change() {
        let anchor = Arc::new(Anchor::new(real_time(SampleRate::HZ_48000)));
        let writer = Arc::clone(&anchor);
        let zero = anchor.zero;
        let thread = std::thread::spawn(move || {
            // Every tie puts frame 48,000 x n at n seconds, so that frame 0 is always heard at zero.
            for n in 0..200_000 {
                writer.tie(zero + Duration::from_secs(n), Frame(48_000 * n), None, 1);
            }
        });
        while !thread.is_finished() {
            if let Some(at) = anchor.instant_of(Frame(0)) {
                assert_eq!(at, zero);
            }
        }
        thread.join().unwrap();
    }
}
