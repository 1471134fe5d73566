//! How does a command play sound? Through an output, which plays clips, hushes them and reports events, with a sound card
//! or without one.

use std::sync::mpsc::{Receiver, Sender};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use super::anchor::Anchor;
use super::clip::Clip;
use super::desk::{CueEvent, Desk};
use counterpoise_core::units::{Frame, SampleRate};

/// Something that happened to the sound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutputEvent {
    /// A cue started or finished. A frame is heard at [`Output::instant_of`].
    Cue(CueEvent),
    /// The sound is gone: unplugged, stalled, or its server is dead. The clock stops, and every cue that was waiting
    /// is dropped.
    Lost,
    /// The sound is back. Cues from before the loss are not played.
    Back {
        /// The stream's rate, in frames a second.
        rate: SampleRate,
        /// Whether the rate differs from the one before: then load the clips again.
        new_rate: bool,
    },
    /// The system moved the sound to another device; it goes on.
    Changed,
    /// The device ran out of samples for a moment: a gap or a crackle.
    Xrun,
}

/// The facts about an output.
#[derive(Debug, Clone, PartialEq)]
pub struct Facts {
    /// The sound system: `ALSA`, `WASAPI`, `CoreAudio`; `none` where nothing is heard.
    pub host: String,
    /// The id for `--device`, such as `alsa:default`.
    pub id: String,
    /// The device's name for people.
    pub device: String,
    /// Frames a second.
    pub rate: SampleRate,
    /// Frames in the latest callback; 0 before the first.
    pub block: u32,
    /// The time from rendering to hearing, as the device estimates it, without a wireless link, a television or an amplifier.
    pub lead: Option<Duration>,
    /// Whether anything is heard at all. Where this is false, no cue may be kept as heard.
    pub audible: bool,
}

/// A running output. Dropping it stops the sound.
#[derive(Debug)]
pub struct Output {
    desk: Desk,
    anchor: Arc<Anchor>,
    facts: Arc<Mutex<Facts>>,
    events: Receiver<OutputEvent>,
    lost: bool,
    /// Dropped first: the thread sees it and ends.
    stop: Option<Sender<()>>,
    /// Disconnected when that thread has ended.
    ended: Receiver<()>,
}

/// What the thread that feeds an output holds of it.
pub(super) struct ThreadSide {
    pub(super) anchor: Arc<Anchor>,
    pub(super) facts: Arc<Mutex<Facts>>,
    pub(super) events: Sender<OutputEvent>,
    pub(super) stop: Receiver<()>,
    /// Held until the thread ends.
    pub(super) _ended: Sender<()>,
}

/// An output for this desk, and what the thread that feeds it holds.
pub(super) fn pair(desk: Desk, anchor: Anchor, facts: Facts) -> (Output, ThreadSide) {
    let (events, take_events) = std::sync::mpsc::channel();
    let (stop, take_stop) = std::sync::mpsc::channel();
    let (ending, ended) = std::sync::mpsc::channel();
    let (anchor, facts) = (Arc::new(anchor), Arc::new(Mutex::new(facts)));
    let thread_side = ThreadSide {
        anchor: Arc::clone(&anchor),
        facts: Arc::clone(&facts),
        events,
        stop: take_stop,
        _ended: ending,
    };
    (Output { desk, anchor, facts, events: take_events, lost: false, stop: Some(stop), ended }, thread_side)
}

impl Output {
    /// Frames rendered so far. Place what must be in time at least 200 ms after this.
    pub fn now(&self) -> Frame {
        self.desk.now()
    }

    /// The stream's rate.
    pub fn rate(&self) -> SampleRate {
        self.desk.rate()
    }

    /// Lets `clip` be heard with its onset at frame `at`; at once if that is past. `id` comes back in the events.
    /// While the sound is lost the clip is dropped: a late call is worse than no call.
    pub fn play(&mut self, id: u32, clip: Clip, at: Frame) {
        if !self.lost {
            self.desk.play(id, clip, at);
        }
    }

    /// As [`play`](Self::play), but a [`hush`](Self::hush) does not cut it off.
    pub fn play_through(&mut self, id: u32, clip: Clip, at: Frame) {
        if !self.lost {
            self.desk.play_through(id, clip, at);
        }
    }

    /// Silences what sounds within 5 ms and drops what is waiting, which is never reported as started. What is played
    /// through goes on.
    pub fn hush(&mut self) {
        self.desk.hush();
    }

    /// The next event, if there is one. Call it at least a few times a second: it also keeps the cues coming.
    pub fn poll(&mut self) -> Option<OutputEvent> {
        if let Some(event) = self.desk.poll() {
            return Some(OutputEvent::Cue(event));
        }
        let event = self.events.try_recv().ok()?;
        match event {
            OutputEvent::Lost => {
                self.lost = true;
                self.desk.stop();
            }
            OutputEvent::Back { .. } => self.lost = false,
            _ => {}
        }
        Some(event)
    }

    /// Whether the sound is gone at the moment.
    pub fn is_lost(&self) -> bool {
        self.lost
    }

    /// The estimated moment at which `frame` is or was heard; none before the first callback and while it is lost.
    pub fn instant_of(&self, frame: Frame) -> Option<Instant> {
        self.anchor.instant_of(frame)
    }

    /// What is known about the output now.
    pub fn facts(&self) -> Facts {
        let facts = self.facts.lock().unwrap_or_else(PoisonError::into_inner).clone();
        Facts { rate: self.rate(), block: self.anchor.block(), lead: self.anchor.lead(), ..facts }
    }
}

impl Drop for Output {
    fn drop(&mut self) {
        self.stop = None;
        // A device that does not let go must not keep the program from ending.
        let _ = self.ended.recv_timeout(Duration::from_secs(1));
    }
}
