//! The audio side: what is the next sample? The renderer owns the clock (frames rendered), starts every cue on its frame,
//! and reports when it did. It never allocates, frees, locks or waits. A sound card, a file and a test get the same
//! samples from [`Renderer::render`], for any division into blocks.

use std::sync::Arc;
use std::sync::atomic::{AtomicU32, AtomicU64, Ordering};

use rtrb::{Consumer, Producer};

use super::clip::Clip;
use counterpoise_core::units::{Frame, Frames, SampleRate};

/// Cues on the audio side at any time, sounding ones included. The desk hands over no more, so that neither
/// queue nor the waiting list can overflow.
pub(super) const IN_FLIGHT: usize = 64;

/// Cues that may sound at once. One more waits for the first to end, and is then reported as late.
const VOICES: usize = 4;

/// A sound to be heard at a frame.
#[derive(Debug)]
pub(super) struct Cue {
    pub(super) id: u32,
    pub(super) clip: Clip,
    /// Where the clip's onset belongs.
    pub(super) at: Frame,
    /// Which hushes and stops came before this cue.
    pub(super) mark: HushMark,
}

/// How many hushes and stops there had been when a cue was asked for: a later one silences it.
#[derive(Debug, Clone, Copy)]
pub(super) struct HushMark {
    hushes: u64,
    stops: u64,
    /// A hush does not silence it.
    through: bool,
}

/// What the audio side reports to the desk.
#[derive(Debug)]
pub(super) enum Report {
    /// The onset of a cue has been rendered.
    Started { id: u32, wanted: Frame, at: Frame },
    /// A cue is over, and its clip comes back to be freed where freeing is allowed.
    Over { id: u32, clip: Clip, whole: bool },
}

/// What both sides see without a queue.
#[derive(Debug)]
pub(super) struct Shared {
    /// Frames rendered so far.
    pub(super) rendered: AtomicU64,
    /// How many times there was a hush. A cue asked for before the latest one is silent from then on. A counter,
    /// not a message: it cannot get stuck behind other messages or find a queue full.
    hushes: AtomicU64,
    /// How many times everything was silenced, what must be heard out included.
    stops: AtomicU64,
    /// Frames a second.
    pub(super) rate: AtomicU32,
}

impl Shared {
    pub(super) fn new(rate: SampleRate) -> Self {
        let (rendered, hushes, stops) = (AtomicU64::new(0), AtomicU64::new(0), AtomicU64::new(0));
        Self { rendered, hushes, stops, rate: AtomicU32::new(rate.hz()) }
    }

    /// The mark for a cue asked for now. If it must be heard `through`, a hush does not silence it.
    pub(super) fn mark(&self, through: bool) -> HushMark {
        HushMark {
            hushes: self.hushes.load(Ordering::Acquire),
            stops: self.stops.load(Ordering::Acquire),
            through,
        }
    }

    /// Whether a cue with this mark has been silenced since.
    pub(super) fn silences(&self, mark: HushMark) -> bool {
        mark.stops < self.stops.load(Ordering::Acquire)
            || !mark.through && mark.hushes < self.hushes.load(Ordering::Acquire)
    }

    /// Silences everything asked for until now, even what must be heard out: the sound is gone.
    pub(super) fn stop(&self) {
        self.stops.fetch_add(1, Ordering::AcqRel);
    }

    /// Silences what was asked for until now, but for what must be heard out.
    pub(super) fn hush(&self) {
        self.hushes.fetch_add(1, Ordering::AcqRel);
    }

    pub(super) fn rate(&self) -> SampleRate {
        SampleRate::new(self.rate.load(Ordering::Relaxed)).expect("only ever set from a SampleRate")
    }
}

/// A cue that sounds.
#[derive(Debug)]
struct Voice {
    cue: Cue,
    /// The next sample to render.
    position: usize,
    /// Where its onset falls: `cue.at`, or later.
    at: Frame,
    /// Frames of fading left, and of how many.
    fade: Option<(u32, u32)>,
}

/// The audio side. Made in a pair with its [`Desk`](super::Desk) by [`desk::pair`](super::desk::pair).
#[derive(Debug)]
pub struct Renderer {
    now: Frame,
    shared: Arc<Shared>,
    cues: Consumer<Cue>,
    reports: Producer<Report>,
    pending: [Option<Cue>; IN_FLIGHT],
    voices: [Option<Voice>; VOICES],
}

impl Renderer {
    pub(super) fn new(shared: Arc<Shared>, cues: Consumer<Cue>, reports: Producer<Report>) -> Self {
        let (pending, voices) = ([const { None }; IN_FLIGHT], [const { None }; VOICES]);
        Self { now: Frame(0), shared, cues, reports, pending, voices }
    }

    /// Frames rendered so far.
    pub fn now(&self) -> Frame {
        self.now
    }

    /// What it shares with its desk.
    pub(super) fn shared(&self) -> Arc<Shared> {
        Arc::clone(&self.shared)
    }

    /// Renders the next `out.len()` frames, mono. Sounds that overlap add up, to full scale at most.
    pub fn render(&mut self, out: &mut [i16]) {
        self.take_cues();
        self.obey_hushes();
        let mut rest = &mut *out;
        while !rest.is_empty() {
            self.start_due();
            let (stretch, later) = rest.split_at_mut(self.steady_for(rest.len()));
            stretch.fill(0);
            self.mix(stretch);
            self.now = self.now + Frames(stretch.len() as u64);
            rest = later;
        }
        self.shared.rendered.store(self.now.0, Ordering::Release);
    }

    fn take_cues(&mut self) {
        for slot in self.pending.iter_mut().filter(|slot| slot.is_none()) {
            match self.cues.pop() {
                Ok(cue) => *slot = Some(cue),
                Err(_) => break,
            }
        }
    }

    fn obey_hushes(&mut self) {
        for slot in &mut self.pending {
            if let Some(cue) = slot.take_if(|cue| self.shared.silences(cue.mark)) {
                report(&mut self.reports, Report::Over { id: cue.id, clip: cue.clip, whole: false });
            }
        }
        // 5 ms: gone before the next syllable, and no click.
        let fade = self.shared.rate().hz() / 200;
        for voice in self.voices.iter_mut().flatten() {
            if self.shared.silences(voice.cue.mark) && voice.fade.is_none() {
                voice.fade = Some((fade, fade));
            }
        }
    }

    /// Gives every cue that is due a voice, the earliest first, as long as there is one.
    fn start_due(&mut self) {
        while let Some(voice) = self.voices.iter_mut().find(|voice| voice.is_none()) {
            let due = (self.pending.iter_mut())
                .filter(|slot| slot.as_ref().is_some_and(|cue| cue.clip.start_for(cue.at) <= self.now))
                .min_by_key(|slot| slot.as_ref().map(|cue| (cue.at, cue.id)));
            let Some(cue) = due.and_then(Option::take) else { break };
            let at = self.now + cue.clip.onset();
            *voice = Some(Voice { cue, position: 0, at, fade: None });
        }
    }

    /// For how many of the next `most` frames no cue starts and no voice ends.
    fn steady_for(&self, most: usize) -> usize {
        let starts = (self.pending.iter().flatten())
            .map(|cue| (cue.clip.start_for(cue.at) - self.now).0 as usize)
            .filter(|&frames| frames > 0);
        let ends = self.voices.iter().flatten().map(Voice::left);
        starts.chain(ends).fold(most, usize::min)
    }

    fn mix(&mut self, stretch: &mut [i16]) {
        for slot in &mut self.voices {
            let Some(voice) = slot else { continue };
            let onset = voice.cue.clip.onset().0 as usize;
            let begins = (voice.position..voice.position + stretch.len()).contains(&onset);
            if begins && voice.fade.is_none() {
                let (id, wanted) = (voice.cue.id, voice.cue.at);
                report(&mut self.reports, Report::Started { id, wanted, at: voice.at });
            }
            voice.mix(stretch);
            if let Some(voice) = slot.take_if(|voice| voice.left() == 0) {
                let whole = voice.fade.is_none();
                report(&mut self.reports, Report::Over { id: voice.cue.id, clip: voice.cue.clip, whole });
            }
        }
    }
}

/// A cue makes two reports at most, and the desk counts it as in flight until it has read the second: there is room.
fn report(reports: &mut Producer<Report>, report: Report) {
    let pushed = reports.push(report);
    debug_assert!(pushed.is_ok(), "more reports than cues in flight");
}

impl Voice {
    fn left(&self) -> usize {
        let samples = self.cue.clip.samples().len() - self.position;
        self.fade.map_or(samples, |(left, _)| samples.min(left as usize))
    }

    fn mix(&mut self, out: &mut [i16]) {
        let samples = &self.cue.clip.samples()[self.position..][..out.len()];
        match &mut self.fade {
            None => out.iter_mut().zip(samples).for_each(|(out, &sample)| *out = out.saturating_add(sample)),
            Some((left, of)) => {
                for (out, &sample) in out.iter_mut().zip(samples) {
                    *left -= 1;
                    let faded = i64::from(sample) * i64::from(*left) / i64::from(*of);
                    *out = out.saturating_add(faded as i16);
                }
            }
        }
        self.position += out.len();
    }
}

#[cfg(test)]
mod test;
