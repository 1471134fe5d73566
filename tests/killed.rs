//! A practice is ended at moments that nobody chose, in every way in which a program can end. What the journal then calls
//! heard is compared with the samples that were really rendered.
//!
//! The practice runs in a child: this same test program, with a paced output that writes every sample to a file. The child
//! lives faster than time does, but a disk does not. So before each call the sound waits until the journal has the calls
//! before it, and it must have them within the time that would have passed at real speed ([`GAP`]). A busy computer makes
//! this slower, and the result stays the same.
#![cfg(unix)]

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use counterpoise::audio::{Bank, Frame, SampleRate, Voice, paced, tone};
use counterpoise::clock::Clock;
use counterpoise::display::Face;
use counterpoise::display::plain::Plain;
use counterpoise::display::terminal;
use counterpoise::journal::{Folder, Journal, Writer};
use counterpoise::practice::{self, RoomSound, Sound, World};
use counterpoise_core::draw::schedule::{Method, Scheduler, Seed};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::session::Session;
use counterpoise_core::record::{Drawn, Id, SessionBegun, SetEnd};
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use rand::{Rng, SeedableRng, rngs::ChaCha12Rng};

/// How much faster than real time the child lives.
const SPEED: u32 = 25;
/// The shortest time from one call to the next at real speed: so long a call may take to reach the disk.
const GAP: Duration = Duration::from_secs(4);
/// How often practice is ended: each way twice at least. More with the environment variable [`MORE`].
const MOMENTS: usize = 18;
const MORE: &str = "COUNTERPOISE_KILLED_MOMENTS";
/// One in so many moments of each way is counted from the start of the program, the others from the first call.
const FROM_START: usize = 8;
/// Practices that run at once: most of the time they wait.
const AT_ONCE: usize = 4;
/// Nothing is asserted about how long anything else takes, but a test must end.
const PATIENCE: Duration = Duration::from_secs(120);

const RATE: SampleRate = SampleRate::HZ_48000;
/// A block of the paced output: 10 ms.
const BLOCK: usize = 480;

const PRESCRIPTION: &str = r#"
schema = "counterpoise.prescription/1"
title = "Cut short"
issued_on = 2026-11-02
rest_ms = 45000

[[drills]]
drill = "counter-shift"
sets = 1
work_ms = 120000
gap_ms = [4000, 5500]
blank_per_mille = 50
directions = ["left", "right", "forward"]
"#;

#[derive(Clone, Copy, Debug, PartialEq)]
enum Way {
    Term,
    Hangup,
    Kill,
    Panic,
    EndOfInput,
    ClosedTerminal,
}

const WAYS: [Way; 6] = [Way::Term, Way::Hangup, Way::Kill, Way::Panic, Way::EndOfInput, Way::ClosedTerminal];

/// When practice is ended, in frames of its sound: however slow the computer is, that is the same place in the set.
#[derive(Clone, Copy, Debug)]
enum Moment {
    FromStart(u64),
    FromFirstCall(u64),
}

impl Moment {
    fn has_come(self, now: u64, first_call: Option<u64>) -> bool {
        match self {
            Self::FromStart(frames) => now >= frames,
            Self::FromFirstCall(frames) => first_call.is_some_and(|first| now >= first + frames),
        }
    }

    /// For the environment of the child.
    fn words(self) -> String {
        match self {
            Self::FromStart(frames) => format!("start {frames}"),
            Self::FromFirstCall(frames) => format!("call {frames}"),
        }
    }

    fn read(words: &str) -> Self {
        let (from, frames) = words.split_once(' ').unwrap();
        let frames = frames.parse().unwrap();
        if from == "start" { Self::FromStart(frames) } else { Self::FromFirstCall(frames) }
    }
}

/// What the child is told: the folder that is its own, when it is ended, whether it ends itself by a fault, and in which call
/// its sound is unplugged.
const CHILD: &str = "COUNTERPOISE_CHILD";
const MOMENT: &str = "COUNTERPOISE_MOMENT";
const PANICS: &str = "COUNTERPOISE_PANICS";
const UNPLUG_IN: &str = "COUNTERPOISE_UNPLUG_IN";
/// Files by which the child tells: every sample; that its moment has come; that a call was not on the disk in time.
const RENDERED: &str = "rendered";
const NOW: &str = "now";
const LATE: &str = "late";

/// First page, cautions, two of health, eight of ready, go on after the sound check, past the warm-up, as asked, start. On a terminal an Enter that
/// comes soon after another is a held key; a space is not.
const KEYS: &[u8] = b" \n \n \nn\nn\nn\nn\nn\nn\nn\nn\nn\ny\ng\n \ny\n \n";

static FAULT: AtomicBool = AtomicBool::new(false);

fn close_requested() -> bool {
    assert!(!FAULT.load(Ordering::Relaxed), "a fault in the middle of a practice");
    terminal::close_requested()
}

/// The samples of a call, from the first that is not zero.
fn call() -> Vec<i16> {
    let clip = tone::alert(RATE);
    clip.samples().iter().copied().skip_while(|sample| *sample == 0).collect()
}

/// Notices the calls in what is rendered, block by block.
struct Calls {
    opening: Vec<i16>,
    before: Vec<i16>,
    begun: usize,
    inside: bool,
}

impl Calls {
    fn new() -> Self {
        let mut opening = call();
        opening.truncate(BLOCK / 2);
        Self { opening, before: Vec::new(), begun: 0, inside: false }
    }

    /// Whether this block has enough of a call to know it by.
    fn begins(&mut self, block: &[i16]) -> bool {
        let sounds = block.iter().any(|sample| *sample != 0);
        // What was whole in the block before was found there.
        let mut heard = self.before.split_off(self.before.len().saturating_sub(self.opening.len() - 1));
        heard.extend(block);
        let begins = sounds && heard.windows(self.opening.len()).any(|part| part == self.opening);
        self.before = heard;
        self.begun += usize::from(begins);
        self.inside = sounds && (self.inside || begins);
        begins
    }
}

/// How many calls of the first set the journal calls heard; `None` before the set is in it.
fn heard(folder: &Folder) -> Option<usize> {
    let sessions = Journal::look(folder).ok()?.contents().ok()?.sessions;
    Some(sessions.first()?.sets.first()?.delivered.len())
}

/// Waits until the journal has so many calls. False if it takes longer than [`GAP`].
fn is_in_the_journal(folder: &Folder, calls: usize) -> bool {
    let asked = Instant::now();
    while heard(folder).is_none_or(|heard| heard < calls) {
        if asked.elapsed() > GAP {
            return false;
        }
        thread::sleep(Duration::from_millis(2));
    }
    true
}

/// The child: one practice, as the practice command runs it, with a paced output.
#[test]
#[ignore = "run as a child by the other tests"]
fn child() {
    let place = PathBuf::from(std::env::var_os(CHILD).expect("it is run as a child by the other tests"));
    let asked = |name: &str| std::env::var(name).ok();
    let prescription = Prescription::read("cut.toml", PRESCRIPTION.as_bytes()).unwrap();
    let scheduler = Scheduler::new(&prescription).unwrap();
    let seed = Seed::from_bytes([9; 32]);
    let schedule = scheduler.draw(seed);
    let phrases = Session::phrases(&schedule);
    let bank = Bank::load(RATE, Voice::Tones, phrases.iter().map(|phrase| phrase.id())).unwrap();
    let clock = Clock::fast(SPEED);
    let begun = SessionBegun {
        begun: (&clock.wall()).into(),
        title: prescription.title().to_owned(),
        digest: prescription.digest(),
        sets_planned: 1,
        precautions: Vec::new(),
        drawn: Some(Drawn {
            seed,
            seed_given: false,
            method: Method::NEWEST.number(),
            voice: "tones".to_owned(),
            device: None,
        }),
    };
    let session = Session::new(scheduler, schedule, begun, None).unwrap();
    let folder = Folder::open_in(place.join("data")).unwrap();
    let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    terminal::watch_signals().unwrap();

    let mut moment = asked(MOMENT).map(|words| Moment::read(&words));
    let panics = asked(PANICS).is_some();
    let unplugged_in: Option<usize> = asked(UNPLUG_IN).map(|call| call.parse().unwrap());
    let mut rendered = File::create(place.join(RENDERED)).unwrap();
    let (mut calls, mut first_call) = (Calls::new(), None);
    let sink = move |at: Frame, block: &[i16]| {
        if calls.begins(block) {
            first_call.get_or_insert(at.0);
            if !is_in_the_journal(&folder, calls.begun - 1) {
                fs::write(place.join(LATE), format!("call {}", calls.begun - 1)).unwrap();
            }
        }
        if calls.inside && unplugged_in == Some(calls.begun) {
            return paced::Link::Down;
        }
        let bytes: Vec<u8> = block.iter().flat_map(|sample| sample.to_le_bytes()).collect();
        rendered.write_all(&bytes).unwrap();
        if moment.take_if(|moment| moment.has_come(at.0, first_call)).is_some() {
            FAULT.store(panics, Ordering::Relaxed);
            File::create(place.join(NOW)).unwrap();
        }
        paced::Link::Up
    };
    let output = paced::start(RATE, f64::from(SPEED), sink).unwrap();
    let writer = Writer::start(journal, Id::from_bytes([1; 16])).unwrap();
    let world = World {
        face: Face::Plain(Plain::start()),
        sound: Some(Sound::new(output, bank)),
        room: RoomSound::Same,
        clock,
        writer,
        keep_room: Box::new(|_| {}),
        close_requested,
    };
    let _ = practice::run(world, session);
}

/// Where a call was rendered whole: the frames of its first sample, exactly. The block that was rendered last may not have
/// come to the file any more.
fn whole_calls(rendered: &[i16]) -> Vec<usize> {
    let call = call();
    let mut found = Vec::new();
    let mut at = 0;
    while at < rendered.len() {
        let there = call.len().min(rendered.len() - at);
        let is_one = rendered[at] == call[0]
            && there + BLOCK >= call.len()
            && rendered[at..at + there] == call[..there];
        if is_one {
            found.push(at);
        }
        at += if is_one { there } else { 1 };
    }
    found
}

/// The child, with its keys and its signals on pipes.
fn piped(place: &Path) -> Command {
    let mut child = Command::new(std::env::current_exe().unwrap());
    child.args(["--exact", "child", "--ignored", "--nocapture", "--test-threads=1"]).env(CHILD, place);
    // To write a trace takes seconds of the child's time, in which its sound goes on.
    child.env("RUST_BACKTRACE", "0");
    child.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null());
    child
}

/// Waits until the child says that its moment has come.
fn wait_for_the_moment(place: &Path, mut has_ended: impl FnMut() -> bool) {
    let until = Instant::now() + PATIENCE;
    loop {
        // Asked before: between the two the child may say so and end.
        let ended = has_ended();
        if place.join(NOW).exists() {
            return;
        }
        assert!(!ended && Instant::now() < until, "the moment never came; the child has ended: {ended}");
        thread::sleep(Duration::from_millis(1));
    }
}

/// Starts the child with its keys on a pipe, and ends it at this moment.
fn end_piped(way: Way, moment: Moment, place: &Path) {
    let mut child = piped(place);
    child.env(MOMENT, moment.words());
    if way == Way::Panic {
        child.env(PANICS, "1");
    }
    let mut child = child.spawn().unwrap();
    let mut keys = child.stdin.take().unwrap();
    keys.write_all(KEYS).unwrap();
    wait_for_the_moment(place, || child.try_wait().unwrap().is_some());
    let signal = |name: &str| {
        let done = Command::new("kill").args(["-s", name, &child.id().to_string()]).status().unwrap();
        assert!(done.success());
    };
    match way {
        Way::Term => signal("TERM"),
        Way::Hangup => signal("HUP"),
        Way::Kill => signal("KILL"),
        Way::EndOfInput => drop(keys),
        Way::Panic | Way::ClosedTerminal => {}
    }
    child.wait().unwrap();
}

/// Starts the child on a terminal of its own, and closes that at this moment.
fn close_terminal(moment: Moment, place: &Path) {
    let pair = native_pty_system().openpty(PtySize::default()).unwrap();
    let mut command = CommandBuilder::new("sh");
    // Nobody reads the other side of the terminal: what the child says must not fill it.
    command.args(["-c", "exec \"$0\" --exact child --ignored --nocapture --test-threads=1 >/dev/null 2>&1"]);
    command.arg(std::env::current_exe().unwrap());
    command.env(CHILD, place);
    command.env(MOMENT, moment.words());
    let mut child = pair.slave.spawn_command(command).unwrap();
    drop(pair.slave);
    let mut keys = pair.master.take_writer().unwrap();
    keys.write_all(KEYS).unwrap();
    wait_for_the_moment(place, || child.try_wait().unwrap().is_some());
    drop((keys, pair.master));
    child.wait().unwrap();
}

fn end_one(way: Way, moment: Moment) -> (usize, Option<SetEnd>) {
    let place = tempfile::tempdir().unwrap();
    match way {
        Way::ClosedTerminal => close_terminal(moment, place.path()),
        _ => end_piped(way, moment, place.path()),
    }

    let case = format!("{way:?}, {}", moment.words());
    let late = fs::read_to_string(place.path().join(LATE)).ok();
    assert_eq!(late, None, "{case}: it was not in the journal when the next was due at real speed");
    let raw = fs::read(place.path().join(RENDERED)).unwrap();
    let rendered: Vec<i16> = raw.chunks_exact(2).map(|pair| i16::from_le_bytes([pair[0], pair[1]])).collect();
    let calls = whole_calls(&rendered);
    let folder = Folder::open_in(place.path().join("data")).unwrap();
    let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    let sessions = journal.contents().unwrap().sessions;
    let Some(set) = sessions.first().and_then(|session| session.sets.first()) else {
        assert!(calls.is_empty(), "{case}: a call was rendered before its set was on the disk");
        return (0, None);
    };
    let end = set.end.as_ref().map(|end| end.why);
    let expected = if matches!(way, Way::Kill | Way::Panic) { SetEnd::Interrupted } else { SetEnd::Closed };
    assert_eq!(end, Some(expected), "{case}");
    let heard: Vec<i64> = set.delivered.iter().map(|row| row.began_frame.unwrap().cast_signed()).collect();
    assert!(heard.len() <= calls.len(), "{case}: heard {heard:?} of {calls:?}");
    // One call may be on its way.
    assert!(calls.len() <= heard.len() + 1, "{case}: heard {heard:?} of {calls:?}");
    for (began, call) in heard.iter().zip(&calls) {
        let (began, call) = (*began - heard[0], *call as i64 - calls[0] as i64);
        assert_eq!(began, call, "{case}: not on the frame that the journal has");
    }
    (heard.len(), end)
}

#[test]
fn a_call_in_which_the_sound_is_unplugged_was_not_heard() {
    let unplug_in = |call: usize| {
        let place = tempfile::tempdir().unwrap();
        let mut child = piped(place.path()).env(UNPLUG_IN, call.to_string()).spawn().unwrap();
        let mut keys = child.stdin.take().unwrap();
        keys.write_all(KEYS).unwrap();
        let folder = Folder::open_in(place.path().join("data")).unwrap();
        let patience = Instant::now() + PATIENCE;
        let set = loop {
            assert!(Instant::now() < patience, "the set never ended");
            let sessions = Journal::look(&folder)
                .and_then(|journal| Ok(journal.contents()?.sessions))
                .unwrap_or_default();
            match sessions.into_iter().next().and_then(|session| session.sets.into_iter().next()) {
                Some(set) if set.end.is_some() => break set,
                _ => thread::sleep(Duration::from_millis(20)),
            }
        };
        drop(keys);
        child.wait().unwrap();
        assert_eq!(set.end.unwrap().why, SetEnd::SoundLost);
        assert_eq!(set.delivered.len(), call - 1, "the calls before the one that broke off");
        assert!(!place.path().join(LATE).exists());
    };
    thread::scope(|scope| {
        for call in [1, 2, 5] {
            scope.spawn(move || unplug_in(call));
        }
    });
}

#[test]
fn whatever_ends_a_practice_the_journal_has_what_was_rendered() {
    let moments = std::env::var(MORE).map_or(MOMENTS, |number| number.parse().expect("how many moments"));
    assert!(moments >= MOMENTS, "each way is to be tried at least twice in a set");
    let mut chance = ChaCha12Rng::from_seed([23; 32]);
    let mut below = |seconds: u64| chance.next_u64() % (seconds * u64::from(RATE.hz()));
    let cases: Vec<(Way, Moment)> = (0..moments)
        .map(|place| {
            let is_early = place / WAYS.len() % FROM_START == 1;
            let moment =
                if is_early { Moment::FromStart(below(12)) } else { Moment::FromFirstCall(below(35)) };
            (WAYS[place % WAYS.len()], moment)
        })
        .collect();
    let (left, ended) = (Mutex::new(cases.iter()), Mutex::new(Vec::new()));
    thread::scope(|scope| {
        for _ in 0..AT_ONCE {
            scope.spawn(|| {
                loop {
                    let Some((way, moment)) = left.lock().unwrap().next() else { return };
                    let (heard, end) = end_one(*way, *moment);
                    ended.lock().unwrap().push((*way, *moment, heard, end));
                }
            });
        }
    });
    let ended = ended.into_inner().unwrap();
    assert_eq!(ended.len(), moments);
    // After the first call every moment falls into the set, and on average after the third, or nothing was tested.
    for way in WAYS {
        let (mut sets, mut calls) = (0, 0);
        for (one, moment, heard, end) in &ended {
            if *one == way && matches!(moment, Moment::FromFirstCall(_)) {
                assert!(end.is_some(), "{way:?}, {}: no set", moment.words());
                (sets, calls) = (sets + 1, calls + heard);
            }
        }
        assert!(sets >= moments / WAYS.len() / 2 && calls >= 2 * sets, "{way:?}: {sets} sets, {calls} calls");
    }
}
