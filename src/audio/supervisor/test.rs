use std::collections::VecDeque;
use std::sync::Mutex;
use std::sync::mpsc;
use std::thread;

use super::*;
use crate::audio::output::{self, Output};
use crate::audio::{Clip, CueEvent, desk};
use counterpoise_core::units::{Frame, Frames};

const RATE: SampleRate = SampleRate::HZ_48000;
const MS: u64 = 1_000_000;

#[test]
fn a_stall_is_a_loss_after_ten_gaps_and_longer_than_both_limits_and_two_seconds_always_are() {
    let anchor = Arc::new(Anchor::new(real_time(RATE)));
    let (_desk, renderer) = desk::pair(RATE);
    let (mut loan, health) = Cradle::new(renderer, anchor).lend(RATE).unwrap();
    // As measured: a burst of three, then nearly two seconds of nothing.
    for at in [0, 0, 1, 1_941] {
        loan.beat(at * MS);
    }
    assert!(!health.is_lost(0, 3_900 * MS), "not ten gaps yet");
    assert!(health.is_lost(0, 3_942 * MS), "but no frame for two seconds");
    assert!(!Health::default().is_lost(7 * MS, 2_007 * MS) && Health::default().is_lost(7 * MS, 2_008 * MS));
    loan.beat(3_900 * MS);
    assert!(!health.is_lost(0, 4_900 * MS) && health.is_lost(0, 5_100 * MS), "it does not play after five");
    let steady = (1..=6).map(|n| 3_900 + 28 * n);
    steady.for_each(|at| loan.beat(at * MS));
    let last = 3_900 + 28 * 6;
    assert!(!health.is_lost(0, (last + 1_999) * MS), "the long gap is still among the ten");
    assert!(health.is_lost(0, (last + 2_001) * MS));
    (1..=10).for_each(|n| loan.beat((last + 28 * n) * MS));
    let last = last + 28 * 10;
    assert!(!health.is_lost(0, (last + 299) * MS));
    assert!(health.is_lost(0, (last + 301) * MS));
    // A device with blocks of 400 ms is given four of them, one with longer blocks two seconds.
    for (block, limit) in [(400, 1_600), (900, 2_000)] {
        let last = last + 100_000 * block;
        (0..=10).for_each(|n| loan.beat((last + block * n) * MS));
        let last = last + 10 * block;
        assert!(!health.is_lost(0, (last + limit - 1) * MS), "{block}");
        assert!(health.is_lost(0, (last + limit + 1) * MS), "{block}");
    }
}

#[test]
fn a_device_that_says_it_is_gone_is_lost_and_one_that_only_complains_is_not() {
    let health = Health::default();
    health.others.store(500_000, Ordering::Relaxed);
    assert!(!health.is_lost(0, MS));
    health.gone.store(true, Ordering::Relaxed);
    assert!(health.is_lost(0, MS));
}

#[test]
fn the_renderer_comes_home_from_a_dropped_stream_and_its_clock_goes_on() {
    let anchor = Arc::new(Anchor::new(real_time(RATE)));
    let (mut desk, renderer) = desk::pair(RATE);
    let mut cradle = Cradle::new(renderer, anchor);
    let (mut loan, _) = cradle.lend(RATE).unwrap();
    desk.play(1, Clip::new(vec![500]), Frame(3));
    let mut data = vec![7_i16; 4 * 3_000];
    loan.fill(&mut data, 4, None, |sample| sample);
    assert_eq!(
        data[4 * 2..4 * 4],
        [0, 0, 7, 7, 500, 500, 7, 7],
        "two channels sound, the others are left alone"
    );
    assert!(cradle.lend(RATE).is_none(), "the stream has it");
    drop(loan);
    let (mut loan, _) = cradle.lend(SampleRate::new(44_100).unwrap()).expect("it is home");
    loan.fill(&mut data[..8], 1, None, |sample| sample);
    assert_eq!((desk.now(), desk.rate().hz()), (Frame(3_008), 44_100));
}

/// What the scripted device does each time it is opened.
enum Script {
    Refuse,
    /// Plays until its stream is dropped, and then perhaps says that it is gone, or just stops.
    Play {
        rate: u32,
        blocks: u32,
        says_gone: bool,
    },
    /// Plays some blocks, then stands still, and lets go of its stream only when this says so, or five seconds later.
    Freeze {
        blocks: u32,
        let_go: mpsc::Receiver<()>,
        gone: Arc<AtomicBool>,
    },
}

struct Scripted(VecDeque<Script>);

/// A stream whose callbacks come from a thread of its own, as a device's do; dropping it joins that thread.
struct Stream(Option<thread::JoinHandle<()>>, Arc<AtomicBool>);

impl Drop for Stream {
    fn drop(&mut self) {
        self.1.store(true, Ordering::Relaxed);
        self.0.take().unwrap().join().unwrap();
    }
}

impl Backend for Scripted {
    type Stream = Stream;

    fn open(&mut self, cradle: &mut Cradle) -> Result<(Stream, Facts), AudioError> {
        let refused = || AudioError::NoDevice { device: "scripted".into(), why: "so it is written".into() };
        let (rate, blocks, says_gone, freeze) = match self.0.pop_front() {
            Some(Script::Play { rate, blocks, says_gone }) => (rate, blocks, says_gone, None),
            Some(Script::Freeze { blocks, let_go, gone }) => (48_000, blocks, false, Some((let_go, gone))),
            Some(Script::Refuse) | None => return Err(refused()),
        };
        let rate = SampleRate::new(rate).unwrap();
        // As with a configuration that is refused: what was lent comes back by itself.
        drop(cradle.lend(rate).expect("at home"));
        let (mut loan, health) = cradle.lend(rate).expect("at home again");
        let end = Arc::new(AtomicBool::new(false));
        let ended = Arc::clone(&end);
        let thread = thread::spawn(move || {
            let mut played = 0;
            while !ended.load(Ordering::Relaxed) {
                if played < blocks {
                    loan.fill(&mut [0.0_f32; 2 * 480], 2, None, f32::from);
                    played += 1;
                } else if says_gone {
                    health.gone.store(true, Ordering::Relaxed);
                }
                thread::sleep(Duration::from_millis(2));
            }
            if let Some((let_go, gone)) = freeze {
                let _ = let_go.recv_timeout(Duration::from_secs(5));
                gone.store(true, Ordering::Relaxed);
            }
        });
        Ok((Stream(Some(thread), end), facts(rate)))
    }
}

fn facts(rate: SampleRate) -> Facts {
    let (host, id, device) = ("test".to_owned(), "test:scripted".to_owned(), "scripted".to_owned());
    Facts { host, id, device, rate, block: 0, lead: None, audible: true }
}

fn supervised(scripts: impl IntoIterator<Item = Script>) -> Result<Output, AudioError> {
    let (desk, renderer) = desk::pair(RATE);
    let (output, thread_side) = output::pair(desk, Anchor::new(real_time(RATE)), facts(RATE));
    let (opened, first) = mpsc::channel();
    let backend = Scripted(scripts.into_iter().collect());
    thread::spawn(move || {
        let cradle = Cradle::new(renderer, Arc::clone(&thread_side.anchor));
        run(backend, cradle, &thread_side, &opened);
    });
    first.recv().unwrap()?;
    Ok(output)
}

fn wait(output: &mut Output) -> OutputEvent {
    loop {
        if let Some(event) = output.poll() {
            return event;
        }
        thread::sleep(Duration::from_millis(1));
    }
}

#[test]
fn a_device_that_cannot_be_opened_is_an_error_and_no_panic() {
    assert!(matches!(supervised([Script::Refuse]), Err(AudioError::NoDevice { .. })));
}

#[test]
fn a_loss_is_told_whatever_was_asked_for_is_forgotten_and_the_device_comes_back() {
    let play = |rate, blocks, says_gone| Script::Play { rate, blocks, says_gone };
    // Says that it is gone; cannot be opened once; opens, but takes three blocks only; comes back at another rate;
    // stalls without a word; comes back.
    let scripts = [
        play(48_000, 50, true),
        Script::Refuse,
        play(48_000, 3, true),
        play(44_100, 50, false),
        play(44_100, u32::MAX, false),
    ];
    let mut output = supervised(scripts).unwrap();
    let clip = Clip::new(vec![3_000; 100]);
    // 50 blocks are 24,000 frames: this one is asked for beyond the loss.
    output.play(1, clip.clone(), Frame(30_000));
    assert_eq!(wait(&mut output), OutputEvent::Lost);
    assert_eq!(output.now(), Frame(24_000));
    assert!(output.is_lost() && output.instant_of(Frame(0)).is_none());
    output.play(2, clip.clone(), Frame(25_000));
    let cd = SampleRate::new(44_100).unwrap();
    assert_eq!(wait(&mut output), OutputEvent::Back { rate: cd, new_rate: true });
    assert_eq!((output.rate(), output.facts().rate), (cd, cd));
    assert_eq!(
        wait(&mut output),
        OutputEvent::Lost,
        "the watchdog saw it; nothing asked for before has started"
    );
    assert_eq!(output.now(), Frame(24_000 + 3 * 480 + 24_000));
    assert_eq!(wait(&mut output), OutputEvent::Back { rate: cd, new_rate: false });
    let at = output.now() + Frames(9_600);
    output.play(3, clip, at);
    assert_eq!(wait(&mut output), OutputEvent::Cue(CueEvent::Started { id: 3, wanted: at, at }));
    assert_eq!(wait(&mut output), OutputEvent::Cue(CueEvent::Finished { id: 3 }));
}

#[test]
fn a_loss_is_told_before_a_frozen_device_lets_go() {
    for blocks in [0, 3, 50] {
        let (release, let_go) = mpsc::channel();
        let gone = Arc::new(AtomicBool::new(false));
        let frozen = Script::Freeze { blocks, let_go, gone: Arc::clone(&gone) };
        let again = Script::Play { rate: 48_000, blocks: u32::MAX, says_gone: false };
        let mut output = supervised([frozen, again]).unwrap();
        assert_eq!(wait(&mut output), OutputEvent::Lost);
        assert!(!gone.load(Ordering::Relaxed), "{blocks} blocks: told only when it let go");
        assert!(output.is_lost() && output.instant_of(Frame(0)).is_none());
        release.send(()).unwrap();
        assert_eq!(wait(&mut output), OutputEvent::Back { rate: RATE, new_rate: false });
    }
}

#[test]
fn xruns_and_a_move_to_another_device_are_told_once_each_and_end_nothing() {
    let (desk, renderer) = desk::pair(RATE);
    let (mut output, thread_side) = output::pair(desk, Anchor::new(real_time(RATE)), facts(RATE));
    let cradle = Cradle::new(renderer, Arc::clone(&thread_side.anchor));
    let stream = Mutex::new(RunningStream::new((), facts(RATE), &cradle, &thread_side));
    let look = || stream.lock().unwrap().look(&cradle, &thread_side);
    assert!(!look());
    cradle.health.xruns.fetch_add(3, Ordering::Relaxed);
    cradle.health.changes.fetch_add(1, Ordering::Relaxed);
    assert!(!look() && !look());
    assert_eq!(output.poll(), Some(OutputEvent::Xrun));
    assert_eq!(output.poll(), Some(OutputEvent::Changed));
    assert_eq!(output.poll(), None);
    drop(thread_side);
}
