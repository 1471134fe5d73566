//! The control side of the sound: which cues are waiting, and what became of the others? The desk stores cues that are far
//! ahead, hands the rest to the renderer in time, and reads its reports.

use std::sync::Arc;
use std::sync::atomic::Ordering;

use rtrb::{Consumer, Producer, RingBuffer};

use super::clip::Clip;
use super::renderer::{Cue, IN_FLIGHT, Renderer, Report, Shared};
use counterpoise_core::units::{Frame, Frames, SampleRate};

/// Cues further ahead than this stay at the desk, in seconds.
const AHEAD_S: u64 = 60;

/// What became of a cue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CueEvent {
    /// Its onset has been rendered.
    Started {
        /// The number given to [`Desk::play`].
        id: u32,
        /// The frame asked for.
        wanted: Frame,
        /// The frame of the onset: `wanted`, or a later one if the cue came too late.
        at: Frame,
    },
    /// Its last sample has been rendered, with nothing cut off. A cue that was hushed or lost never finishes.
    Finished {
        /// The number given to [`Desk::play`].
        id: u32,
    },
}

/// The control side.
///
/// ```
/// use counterpoise::audio::{Clip, Frame, SampleRate, CueEvent, desk};
/// let (mut desk, mut renderer) = desk::pair(SampleRate::HZ_48000);
/// desk.play(7, Clip::new(vec![9000, -9000]), Frame(100));
/// let mut block = [0; 480];
/// renderer.render(&mut block);
/// assert_eq!(block[99..103], [0, 9000, -9000, 0]);
/// assert_eq!(desk.poll(), Some(CueEvent::Started { id: 7, wanted: Frame(100), at: Frame(100) }));
/// assert_eq!(desk.poll(), Some(CueEvent::Finished { id: 7 }));
/// assert_eq!(desk.now(), Frame(480));
/// ```
#[derive(Debug)]
pub struct Desk {
    shared: Arc<Shared>,
    cues: Producer<Cue>,
    reports: Consumer<Report>,
    /// Not handed over yet, in the order of their frames.
    later: Vec<Cue>,
    in_flight: usize,
}

/// A desk and the renderer that plays what it asks, at `rate`.
pub fn pair(rate: SampleRate) -> (Desk, Renderer) {
    let (cues, take_cues) = RingBuffer::new(IN_FLIGHT);
    let (tell, reports) = RingBuffer::new(2 * IN_FLIGHT);
    let shared = Arc::new(Shared::new(rate));
    let renderer = Renderer::new(Arc::clone(&shared), take_cues, tell);
    (Desk { shared, cues, reports, later: Vec::new(), in_flight: 0 }, renderer)
}

impl Desk {
    /// Frames rendered so far. What is placed a block or more after this is in time.
    pub fn now(&self) -> Frame {
        Frame(self.shared.rendered.load(Ordering::Acquire))
    }

    /// The stream's rate.
    pub fn rate(&self) -> SampleRate {
        self.shared.rate()
    }

    /// Lets `clip` be heard with its onset at frame `at`; at once if that is past. `id` comes back in the reports.
    ///
    /// Ask in the order of the frames. The renderer has 64 at a time; later ones are handed over as
    /// they end.
    pub fn play(&mut self, id: u32, clip: Clip, at: Frame) {
        self.ask(id, clip, at, false);
    }

    /// As [`play`](Self::play), but a [`hush`](Self::hush) does not cut it off: words that must be heard to their end, such as
    /// "open your eyes".
    pub fn play_through(&mut self, id: u32, clip: Clip, at: Frame) {
        self.ask(id, clip, at, true);
    }

    fn ask(&mut self, id: u32, clip: Clip, at: Frame, through: bool) {
        let mark = self.shared.mark(through);
        let place = self.later.partition_point(|cue| cue.at <= at);
        self.later.insert(place, Cue { id, clip, at, mark });
        self.hand_over();
    }

    /// Silences what sounds within 5 ms and drops what is waiting, which is never reported as started. What is played
    /// through goes on.
    pub fn hush(&mut self) {
        self.shared.hush();
        self.later.retain(|cue| !self.shared.silences(cue.mark));
    }

    /// As [`hush`](Self::hush), and nothing goes on: the sound is gone.
    pub fn stop(&mut self) {
        self.shared.stop();
        self.later.clear();
    }

    /// The next report, oldest first. Also hands over what has come near: call it a few times a second.
    pub fn poll(&mut self) -> Option<CueEvent> {
        loop {
            self.hand_over();
            match self.reports.pop().ok()? {
                Report::Started { id, wanted, at } => return Some(CueEvent::Started { id, wanted, at }),
                Report::Over { id, clip, whole } => {
                    self.in_flight -= 1;
                    drop(clip);
                    if whole {
                        return Some(CueEvent::Finished { id });
                    }
                }
            }
        }
    }

    fn hand_over(&mut self) {
        self.later.retain(|cue| !self.shared.silences(cue.mark));
        let near = self.now() + Frames(AHEAD_S * u64::from(self.rate().hz()));
        let count = self.later.partition_point(|cue| cue.at <= near).min(IN_FLIGHT - self.in_flight);
        for cue in self.later.drain(..count) {
            let pushed = self.cues.push(cue);
            debug_assert!(pushed.is_ok(), "the queue holds every cue in flight");
            self.in_flight += 1;
        }
    }
}
