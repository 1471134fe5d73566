//! How does practice run without a sound card? A thread asks the renderer for blocks at a steady speed and passes them to a
//! closure. It serves practice on the screen alone, which nobody hears, and fast rehearsals in tests.

use std::sync::mpsc::RecvTimeoutError;
use std::thread;
use std::time::{Duration, Instant};

use super::anchor::{Anchor, real_time};
use super::desk;
use super::output::{self, Facts, Output, OutputEvent, ThreadSide};
use super::renderer::Renderer;
use counterpoise_core::units::{Frame, Frames, SampleRate};

/// Whether the closure goes on taking samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Link {
    /// It took the block.
    Up,
    /// It lost the block, as an unplugged device would. It is asked again, with an empty block, once a second of the
    /// stream's time until it says [`Up`](Link::Up).
    Down,
}

/// Real time, into nothing: for practice where there is no sound output.
///
/// # Errors
/// If the system starts no more threads.
pub fn silent(rate: SampleRate) -> std::io::Result<Output> {
    start(rate, 1.0, |_, _| Link::Up)
}

/// Runs at `speed` times real time. `sink` gets each block of 10 ms with the frame at which it begins.
///
/// # Errors
/// If the system starts no more threads.
///
/// # Panics
/// If `speed` is not a positive number.
pub fn start(
    rate: SampleRate,
    speed: f64,
    sink: impl FnMut(Frame, &[i16]) -> Link + Send + 'static,
) -> std::io::Result<Output> {
    assert!(speed.is_finite() && speed > 0.0, "a speed is a positive number");
    let (desk, renderer) = desk::pair(rate);
    let facts = Facts {
        host: "none".to_owned(),
        id: "none".to_owned(),
        device: "no sound output".to_owned(),
        rate,
        block: 0,
        lead: None,
        audible: false,
    };
    let (output, thread_side) = output::pair(desk, Anchor::new(speed * real_time(rate)), facts);
    let thread = Paced { renderer, rate, speed, sink, thread_side };
    thread::Builder::new().name("paced sound".to_owned()).spawn(move || thread.run())?;
    Ok(output)
}

struct Paced<S> {
    renderer: Renderer,
    rate: SampleRate,
    speed: f64,
    sink: S,
    thread_side: ThreadSide,
}

impl<S: FnMut(Frame, &[i16]) -> Link> Paced<S> {
    fn run(mut self) {
        let mut block = vec![0; (self.rate.hz() as usize / 100).max(1)];
        loop {
            let (began, first) = (Instant::now(), self.renderer.now());
            loop {
                let done = self.renderer.now() - first;
                let due = began + self.rate.duration(done).div_f64(self.speed);
                if self.stopped_by(due) {
                    return;
                }
                let at = self.renderer.now();
                self.thread_side.anchor.tie(due, at, Some(Duration::ZERO), block.len());
                self.renderer.render(&mut block);
                if (self.sink)(at, &block) == Link::Down {
                    break;
                }
            }
            if !self.wait_for_link() {
                return;
            }
        }
    }

    /// Reports the loss and waits for the return; false if the output was dropped in between.
    fn wait_for_link(&mut self) -> bool {
        self.thread_side.anchor.untie();
        self.renderer.shared().stop();
        let _ = self.thread_side.events.send(OutputEvent::Lost);
        loop {
            let second = self.rate.duration(Frames(u64::from(self.rate.hz()))).div_f64(self.speed);
            if self.stopped_by(Instant::now() + second) {
                return false;
            }
            if (self.sink)(self.renderer.now(), &[]) == Link::Up {
                let _ = self.thread_side.events.send(OutputEvent::Back { rate: self.rate, new_rate: false });
                return true;
            }
        }
    }

    /// Waits until `due`; true if the output was dropped before.
    fn stopped_by(&self, due: Instant) -> bool {
        let wait = due.saturating_duration_since(Instant::now());
        self.thread_side.stop.recv_timeout(wait) != Err(RecvTimeoutError::Timeout)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc;

    use super::*;
    use crate::audio::{Clip, CueEvent};

    /// The next event; the output runs on its own thread.
    fn wait(output: &mut Output) -> OutputEvent {
        loop {
            if let Some(event) = output.poll() {
                return event;
            }
            thread::sleep(Duration::from_millis(1));
        }
    }

    #[test]
    fn the_sink_gets_every_frame_in_order_and_a_cue_where_it_was_asked_for() {
        let (send, blocks) = mpsc::channel();
        let mut output = start(SampleRate::HZ_48000, 100.0, move |at, block| {
            send.send((at, block.to_vec())).map_or(Link::Down, |()| Link::Up)
        })
        .unwrap();
        let at = output.now() + Frames(96_000);
        output.play(3, Clip::new(vec![1_234, 5]), at);
        assert_eq!(wait(&mut output), OutputEvent::Cue(CueEvent::Started { id: 3, wanted: at, at }));
        assert_eq!(wait(&mut output), OutputEvent::Cue(CueEvent::Finished { id: 3 }));
        assert!(
            output.instant_of(at).is_some_and(|instant| instant <= Instant::now()),
            "it was heard before"
        );
        assert!(!output.facts().audible);
        drop(output);
        let mut next = 0;
        for (from, block) in blocks {
            assert_eq!(from, Frame(next));
            for (frame, sample) in (from.0..).zip(&block) {
                let expected = [1_234, 5].get((frame.wrapping_sub(at.0)) as usize).copied().unwrap_or(0);
                assert_eq!(*sample, expected, "frame {frame}");
            }
            next += block.len() as u64;
        }
        assert!(next > at.0);
    }

    #[test]
    fn a_lost_link_is_told_hushes_everything_and_comes_back() {
        let mut asked = 0;
        let sink = move |at: Frame, block: &[i16]| {
            asked += u32::from(block.is_empty());
            if at.0 < 48_000 || asked >= 3 { Link::Up } else { Link::Down }
        };
        let mut output = start(SampleRate::HZ_48000, 100.0, sink).unwrap();
        // Waits in the loss, past it, and far away at the desk: none is ever started.
        let clip = Clip::new(vec![1_000; 480]);
        for (id, seconds) in [(1, 3), (2, 30), (3, 300)] {
            output.play(id, clip.clone(), Frame(48_000 * seconds));
            output.play_through(id + 10, clip.clone(), Frame(48_000 * seconds));
        }
        assert_eq!(wait(&mut output), OutputEvent::Lost);
        assert!(output.is_lost() && output.instant_of(Frame(0)).is_none());
        output.play(4, clip.clone(), output.now());
        assert_eq!(wait(&mut output), OutputEvent::Back { rate: SampleRate::HZ_48000, new_rate: false });
        let at = output.now() + Frames(48_000 * 310);
        output.play(5, clip, at);
        assert_eq!(
            wait(&mut output),
            OutputEvent::Cue(CueEvent::Started { id: 5, wanted: at, at }),
            "and nothing before it"
        );
    }
}
