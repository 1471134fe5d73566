//! Is the device still playing? The supervisor notices when it is lost, takes the renderer back, and tries again every
//! second. It watches the callbacks, not the messages: a dead sound server sends errors that name no loss, and a stalled
//! one sends nothing.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{RecvTimeoutError, Sender};
use std::time::{Duration, Instant};

use rtrb::{Consumer, Producer, RingBuffer};

use super::AudioError;
use super::anchor::{Anchor, real_time};
use super::output::{Facts, OutputEvent, ThreadSide};
use super::renderer::{Renderer, Shared};
use counterpoise_core::units::SampleRate;

/// How often the supervisor looks.
const LOOK: Duration = Duration::from_millis(20);
/// How long it waits before it tries to open a lost device again.
const RETRY: Duration = Duration::from_secs(1);
/// The shortest silence between two callbacks that counts as a loss.
const STALL: Duration = Duration::from_millis(300);
/// A silence counts as a loss only if it is also this many times the longest of the latest gaps.
const STALL_GAPS: u64 = 4;
/// The number of latest gaps that are stored. Before so many, a stall is not judged by them.
const GAPS: usize = 10;
/// Without a frame for so long a device is lost, whatever its rhythm was, and before it has one: nobody waits longer at the
/// counter for a call.
const STILL: Duration = Duration::from_secs(2);
/// A device without so many gaps this long after opening is lost. An idle virtual device may take nearly two seconds for
/// its second callback.
const START: Duration = Duration::from_secs(5);

/// Something that plays samples, such as a sound card.
pub(super) trait Backend: Send + 'static {
    /// A running stream; dropping it stops it.
    type Stream;

    /// Opens the device and starts it, with a new loan from [`Cradle::lend`] for each attempt.
    fn open(&mut self, cradle: &mut Cradle) -> Result<(Self::Stream, Facts), AudioError>;
}

/// The state of a stream, written by its callbacks on the audio thread.
#[derive(Default)]
pub(super) struct Health {
    /// The device reported that it is gone.
    pub(super) gone: AtomicBool,
    /// Times it ran out of samples.
    pub(super) xruns: AtomicU64,
    /// Times it moved to another device and went on.
    pub(super) changes: AtomicU64,
    /// All other errors. A good start may bring a thousand.
    pub(super) others: AtomicU64,
    /// Callbacks so far.
    beats: AtomicU64,
    /// The latest callback, in the anchor's nanoseconds.
    latest: AtomicU64,
    /// The longest of the latest gaps between callbacks, in nanoseconds.
    longest: AtomicU64,
}

impl Health {
    /// Whether a stream opened at `opened` has stopped playing at `now` (both in the anchor's nanoseconds).
    fn is_lost(&self, opened: u64, now: u64) -> bool {
        if self.gone.load(Ordering::Relaxed) {
            return true;
        }
        let latest = self.latest.load(Ordering::Relaxed);
        let still = STILL.as_nanos() as u64;
        if !self.is_steady() {
            let started = now.saturating_sub(opened) <= START.as_nanos() as u64;
            return !started || now.saturating_sub(latest.max(opened)) > still;
        }
        let limit = (STALL.as_nanos() as u64).max(STALL_GAPS * self.longest.load(Ordering::Relaxed));
        now.saturating_sub(latest) > limit.min(still)
    }

    /// Whether there have been enough callbacks to know their rhythm.
    fn is_steady(&self) -> bool {
        self.beats.load(Ordering::Acquire) > GAPS as u64
    }
}

/// The owner of the renderer between two streams.
pub(super) struct Cradle {
    renderer: Option<Box<Renderer>>,
    /// The queue on which it comes back when its stream is dropped.
    back: Option<Consumer<Box<Renderer>>>,
    shared: Arc<Shared>,
    anchor: Arc<Anchor>,
    health: Arc<Health>,
}

impl Cradle {
    pub(super) fn new(renderer: Renderer, anchor: Arc<Anchor>) -> Self {
        let shared = renderer.shared();
        Self { renderer: Some(Box::new(renderer)), back: None, shared, anchor, health: Arc::default() }
    }

    /// The renderer for a stream of this rate, and what its error callback writes to. None while another stream
    /// still has it.
    pub(super) fn lend(&mut self, rate: SampleRate) -> Option<(Loan, Arc<Health>)> {
        self.take_back();
        let renderer = self.renderer.take()?;
        let (home, back) = RingBuffer::new(1);
        self.back = Some(back);
        self.health = Arc::default();
        self.shared.rate.store(rate.hz(), Ordering::Relaxed);
        self.anchor.set_pace(real_time(rate));
        let loan = Loan {
            renderer: Some(renderer),
            home,
            scratch: Box::new([0; 1024]),
            anchor: Arc::clone(&self.anchor),
            health: Arc::clone(&self.health),
            gaps: [0; GAPS],
            beats: 0,
            latest: 0,
        };
        Some((loan, Arc::clone(&self.health)))
    }

    fn take_back(&mut self) {
        if let Some(renderer) = self.back.as_mut().and_then(|back| back.pop().ok()) {
            self.renderer = Some(renderer);
        }
    }
}

/// The renderer while a stream's callback has it. When the stream is dropped, the renderer goes back to the cradle.
pub(super) struct Loan {
    renderer: Option<Box<Renderer>>,
    home: Producer<Box<Renderer>>,
    scratch: Box<[i16; 1024]>,
    anchor: Arc<Anchor>,
    health: Arc<Health>,
    gaps: [u64; GAPS],
    beats: u64,
    latest: u64,
}

impl Loan {
    /// The callback: fills `data`, interleaved, with `channels` channels. The first two sound; the others stay as they
    /// are, which is silent. `lead`: from now to hearing these samples, if the device says so.
    pub(super) fn fill<T>(
        &mut self,
        data: &mut [T],
        channels: usize,
        lead: Option<Duration>,
        convert: impl Fn(i16) -> T,
    ) where
        T: Copy,
    {
        let Some(renderer) = &mut self.renderer else { return };
        let now = Instant::now();
        self.anchor.tie(now, renderer.now(), lead, data.len() / channels);
        for chunk in data.chunks_mut(self.scratch.len() * channels) {
            let mono = &mut self.scratch[..chunk.len() / channels];
            renderer.render(mono);
            for (frame, &sample) in chunk.chunks_exact_mut(channels).zip(mono.iter()) {
                let sample = convert(sample);
                frame.iter_mut().take(2).for_each(|out| *out = sample);
            }
        }
        self.beat(self.anchor.nanos(now));
    }

    fn beat(&mut self, now: u64) {
        if self.beats > 0 {
            self.gaps[(self.beats - 1) as usize % GAPS] = now - self.latest;
        }
        self.latest = now;
        self.beats += 1;
        let longest = self.gaps.iter().copied().max().unwrap_or(0);
        self.health.longest.store(longest, Ordering::Relaxed);
        self.health.latest.store(now, Ordering::Relaxed);
        self.health.beats.store(self.beats, Ordering::Release);
    }
}

impl Drop for Loan {
    fn drop(&mut self) {
        if let Some(renderer) = self.renderer.take() {
            let _ = self.home.push(renderer);
        }
    }
}

/// Opens the device, reports the result, and keeps it playing until the output is dropped.
pub(super) fn run<B: Backend>(
    mut backend: B,
    mut cradle: Cradle,
    thread_side: &ThreadSide,
    opened: &Sender<Result<(), AudioError>>,
) {
    let first = backend
        .open(&mut cradle)
        .map(|(stream, facts)| RunningStream::new(stream, facts, &cradle, thread_side));
    let mut watched = match first {
        Ok(watched) => Some(watched),
        Err(error) => {
            let _ = opened.send(Err(error));
            return;
        }
    };
    let _ = opened.send(Ok(()));
    let mut rate = cradle.shared.rate();
    let (mut lost, mut tried) = (false, Instant::now());
    while thread_side.stop.recv_timeout(LOOK) == Err(RecvTimeoutError::Timeout) {
        if watched.as_mut().is_some_and(|stream| stream.look(&cradle, thread_side)) {
            // First the counter, so that not one more block sounds; last the stream, which joins its thread: one of a frozen
            // sound server may take half a minute, and nobody waits for it to hear that the sound is lost.
            cradle.shared.stop();
            cradle.anchor.untie();
            if !std::mem::replace(&mut lost, true) {
                let _ = thread_side.events.send(OutputEvent::Lost);
            }
            watched = None;
            tried = Instant::now();
        } else if watched.is_none() && tried.elapsed() >= RETRY {
            let again = backend.open(&mut cradle).ok();
            watched = again.map(|(stream, facts)| RunningStream::new(stream, facts, &cradle, thread_side));
            tried = Instant::now();
        } else if lost && watched.is_some() && cradle.health.is_steady() {
            // Opened is not yet playing: a suspended device opens, takes a few blocks, and falls silent.
            let now = cradle.shared.rate();
            let _ = thread_side.events.send(OutputEvent::Back { rate: now, new_rate: now != rate });
            (rate, lost) = (now, false);
        }
    }
}

/// A running stream, and which of its underruns and device changes have been reported.
struct RunningStream<S> {
    _stream: S,
    opened: u64,
    xruns: u64,
    changes: u64,
}

impl<S> RunningStream<S> {
    fn new(stream: S, facts: Facts, cradle: &Cradle, thread_side: &ThreadSide) -> Self {
        *thread_side.facts.lock().unwrap_or_else(std::sync::PoisonError::into_inner) = facts;
        Self { _stream: stream, opened: cradle.anchor.nanos(Instant::now()), xruns: 0, changes: 0 }
    }

    /// Reports new underruns and device changes; true if the stream is lost.
    fn look(&mut self, cradle: &Cradle, thread_side: &ThreadSide) -> bool {
        let health = &cradle.health;
        if has_grown(&mut self.xruns, &health.xruns) {
            let _ = thread_side.events.send(OutputEvent::Xrun);
        }
        if has_grown(&mut self.changes, &health.changes) {
            let _ = thread_side.events.send(OutputEvent::Changed);
        }
        health.is_lost(self.opened, cradle.anchor.nanos(Instant::now()))
    }
}

/// Whether `counter` has grown beyond what was `reported`.
fn has_grown(reported: &mut u64, counter: &AtomicU64) -> bool {
    let count = counter.load(Ordering::Relaxed);
    std::mem::replace(reported, count) < count
}

#[cfg(test)]
mod test;
