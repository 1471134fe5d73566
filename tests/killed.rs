//! A practice is ended at moments that nobody chose, in every way in which a program can end. What the journal then calls
//! heard is compared with the samples that were really rendered.
//!
//! The practice runs in a child: this same test program, with a paced output that writes every sample to a file.
#![cfg(unix)]

use std::fs::{self, File};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use counterpoise::audio::{Bank, Frame, SampleRate, Voice, paced, tone};
use counterpoise::clock::Clock;
use counterpoise::display::Face;
use counterpoise::display::plain::Plain;
use counterpoise::display::terminal;
use counterpoise::journal::{Folder, Journal, SessionId, Writer};
use counterpoise::practice::{self, Sound, World};
use counterpoise_core::draw::schedule::{METHOD, Scheduler, Seed};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::session::Session;
use counterpoise_core::record::{SessionBegun, SetEnd};
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use rand::{Rng, SeedableRng, rngs::ChaCha12Rng};

/// How much faster than real time the child lives. From one call to the next it is then at least 160 ms, several times what
/// a commit takes on a busy disk; at real speed it is 4 s.
const SPEED: u32 = 25;
/// How often practice is ended.
const MOMENTS: u64 = 200;

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

/// First page, cautions, two of health, two of ready, go on after the sound check, past the warm-up, start. On a terminal an Enter that
/// comes soon after another is a held key; a space is not.
const KEYS: &[u8] = b" \n \na\na\na\na\ng\n \n \n";

static PANIC_AT: OnceLock<Instant> = OnceLock::new();

fn close_requested() -> bool {
    assert!(PANIC_AT.get().is_none_or(|at| Instant::now() < *at), "a fault in the middle of a practice");
    terminal::close_requested()
}

/// The child: one practice, as the practice command runs it, with a paced output.
#[test]
fn child() {
    let Ok(place) = std::env::var("COUNTERPOISE_CHILD") else { return };
    let place = Path::new(&place);
    let prescription = Prescription::read("cut.toml", PRESCRIPTION.as_bytes()).unwrap();
    let scheduler = Scheduler::new(&prescription).unwrap();
    let seed = Seed::from_bytes([9; 32]);
    let schedule = scheduler.draw(seed);
    let phrases = Session::phrases(&schedule);
    let rate = SampleRate::HZ_48000;
    let bank = Bank::load(rate, Voice::Tones, phrases.iter().map(|phrase| phrase.id())).unwrap();
    let mut rendered = File::create(place.join("rendered")).unwrap();
    // Calls are what breaks a silence of over three seconds.
    let unplugged_in: Option<u32> =
        std::env::var("COUNTERPOISE_UNPLUG_IN").ok().map(|call| call.parse().unwrap());
    let (mut quiet, mut calls, mut inside) = (0, 0, false);
    let sink = move |_: Frame, block: &[i16]| {
        if inside && unplugged_in == Some(calls) {
            return paced::Link::Down;
        }
        let sounds = block.iter().any(|sample| *sample != 0);
        inside = sounds && (inside || quiet > 3 * 48_000);
        calls += u32::from(sounds && quiet > 3 * 48_000);
        quiet = if sounds { 0 } else { quiet + block.len() };
        let bytes: Vec<u8> = block.iter().flat_map(|sample| sample.to_le_bytes()).collect();
        rendered.write_all(&bytes).unwrap();
        paced::Link::Up
    };
    let clock = Clock::fast(SPEED);
    let begun = SessionBegun {
        at: clock.wall(),
        title: prescription.title().to_owned(),
        digest: prescription.digest(),
        seed,
        seed_given: false,
        method: METHOD,
        voice: "tones".to_owned(),
        device: None,
        sets_planned: 1,
    };
    let session = Session::new(scheduler, schedule, begun, None).unwrap();
    let folder = Folder::open_in(place.join("data")).unwrap();
    let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    terminal::watch_signals().unwrap();
    if let Ok(after) = std::env::var("COUNTERPOISE_PANIC_MS") {
        PANIC_AT.set(Instant::now() + Duration::from_millis(after.parse().unwrap())).unwrap();
    }
    let output = paced::start(rate, f64::from(SPEED), sink).unwrap();
    let writer = Writer::start(journal, SessionId::from_bytes([1; 16]));
    let world = World {
        face: Face::Plain(Plain::start()),
        sound: Some(Sound::new(output, bank)),
        clock,
        writer,
        keep_room: Box::new(|_| {}),
        close_requested,
    };
    let _ = practice::run(world, session);
}

/// Where the alert tone was rendered whole: the frames of its first sample, exactly.
fn whole_tones(rendered: &[i16]) -> Vec<usize> {
    let clip = tone::alert(SampleRate::HZ_48000);
    let samples = clip.samples();
    let first = samples.iter().position(|sample| *sample != 0).unwrap();
    let core = &samples[first..];
    let mut found = Vec::new();
    let mut at = 0;
    while at + core.len() <= rendered.len() {
        if rendered[at] == core[0] && rendered[at..at + core.len()] == *core {
            found.push(at);
            at += core.len();
        } else {
            at += 1;
        }
    }
    found
}

/// Starts the child with its keys on a pipe, and ends it after this long.
fn end_piped(way: Way, after: Duration, place: &Path) {
    let mut child = Command::new(std::env::current_exe().unwrap());
    child.args(["--exact", "child", "--nocapture", "--test-threads=1"]).env("COUNTERPOISE_CHILD", place);
    // To write a trace takes seconds of the child's time, in which its sound goes on.
    child.env("RUST_BACKTRACE", "0");
    if way == Way::Panic {
        child.env("COUNTERPOISE_PANIC_MS", after.as_millis().to_string());
    }
    let mut child = child.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let mut keys = child.stdin.take().unwrap();
    keys.write_all(KEYS).unwrap();
    std::thread::sleep(after);
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

/// Starts the child on a terminal of its own, and closes that after this long.
fn close_terminal(after: Duration, place: &Path) {
    let pair = native_pty_system().openpty(PtySize::default()).unwrap();
    let mut command = CommandBuilder::new("sh");
    // Nobody reads the other side of the terminal: what the child says must not fill it.
    command.args(["-c", "exec \"$0\" --exact child --nocapture --test-threads=1 >/dev/null 2>&1"]);
    command.arg(std::env::current_exe().unwrap());
    command.env("COUNTERPOISE_CHILD", place);
    let mut child = pair.slave.spawn_command(command).unwrap();
    drop(pair.slave);
    let mut keys = pair.master.take_writer().unwrap();
    keys.write_all(KEYS).unwrap();
    std::thread::sleep(after);
    drop((keys, pair.master));
    child.wait().unwrap();
}

fn end_one(way: Way, after: Duration) -> (usize, Option<SetEnd>) {
    let place = tempfile::tempdir().unwrap();
    match way {
        Way::ClosedTerminal => close_terminal(after, place.path()),
        _ => end_piped(way, after, place.path()),
    }

    let raw = fs::read(place.path().join("rendered")).unwrap_or_default();
    let rendered: Vec<i16> = raw.chunks_exact(2).map(|pair| i16::from_le_bytes([pair[0], pair[1]])).collect();
    let tones = whole_tones(&rendered);
    let Ok(folder) = Folder::open_in(place.path().join("data")) else { return (0, None) };
    let (journal, _) = Journal::open(folder.lock().unwrap()).unwrap();
    let sessions = journal.sessions().unwrap();
    let Some(set) = sessions.first().and_then(|session| session.sets.first()) else {
        assert!(
            tones.is_empty(),
            "{way:?} after {after:?}: a call was rendered before its set was on the disk"
        );
        return (0, None);
    };
    let end = set.end.as_ref().map(|end| end.why);
    let expected = if matches!(way, Way::Kill | Way::Panic) { SetEnd::Interrupted } else { SetEnd::Closed };
    // A moment after the last second of the work is one at which the set was over.
    assert!(end == Some(expected) || end == Some(SetEnd::Completed), "{way:?} after {after:?}: {end:?}");
    let heard: Vec<i64> = set.delivered.iter().map(|row| row.began_frame.unwrap()).collect();
    assert!(heard.len() <= tones.len(), "{way:?} after {after:?}: heard {heard:?} of {tones:?}");
    // One call may be on its way; a fault stops the listening a little before it stops the sound.
    let on_the_way = if way == Way::Panic { 2 } else { 1 };
    assert!(tones.len() <= heard.len() + on_the_way, "{way:?} after {after:?}: heard {heard:?} of {tones:?}");
    for (began, tone) in heard.iter().zip(&tones) {
        let (began, tone) = (*began - heard[0], *tone as i64 - tones[0] as i64);
        assert_eq!(began, tone, "{way:?} after {after:?}: not on the frame that the journal has");
    }
    (heard.len(), end)
}

#[test]
fn a_call_in_which_the_sound_is_unplugged_was_not_heard() {
    for call in [1_u32, 2, 5] {
        let place = tempfile::tempdir().unwrap();
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "child", "--nocapture", "--test-threads=1"])
            .env("COUNTERPOISE_CHILD", place.path())
            .env("COUNTERPOISE_UNPLUG_IN", call.to_string())
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut keys = child.stdin.take().unwrap();
        keys.write_all(KEYS).unwrap();
        let folder = Folder::open_in(place.path().join("data")).unwrap();
        let patience = Instant::now() + Duration::from_secs(120);
        let set = loop {
            assert!(Instant::now() < patience, "the set never ended");
            let sessions = Journal::look(&folder).and_then(|journal| journal.sessions()).unwrap_or_default();
            match sessions.into_iter().next().and_then(|session| session.sets.into_iter().next()) {
                Some(set) if set.end.is_some() => break set,
                _ => std::thread::sleep(Duration::from_millis(20)),
            }
        };
        drop(keys);
        child.wait().unwrap();
        assert_eq!(set.end.unwrap().why, SetEnd::SoundLost);
        assert_eq!(set.delivered.len(), call as usize - 1, "the calls before the one that broke off");
    }
}

#[test]
fn whatever_ends_a_practice_the_journal_has_what_was_rendered() {
    let mut chance = ChaCha12Rng::from_seed([23; 32]);
    let ways = [Way::Term, Way::Hangup, Way::Kill, Way::Panic, Way::EndOfInput, Way::ClosedTerminal];
    let cases: Vec<(Way, Duration)> = (0..MOMENTS)
        .map(|place| {
            (ways[place as usize % ways.len()], Duration::from_millis(150 + chance.next_u64() % 1_250))
        })
        .collect();
    let (first, second) = cases.split_at(cases.len() / 2);
    let run = |cases: &[(Way, Duration)]| -> Vec<(Way, usize, Option<SetEnd>)> {
        let ended = cases.iter().map(|(way, after)| (*way, end_one(*way, *after)));
        ended.map(|(way, (heard, end))| (way, heard, end)).collect()
    };
    let ended = std::thread::scope(|scope| {
        let other = scope.spawn(|| run(second));
        let mut ended = run(first);
        ended.extend(other.join().unwrap());
        ended
    });
    // Most moments of every way must fall into a set, or nothing was tested.
    for way in ways {
        let cut = ended
            .iter()
            .filter(|(one, _, end)| *one == way && end.is_some_and(|end| end != SetEnd::Completed));
        let (sets, heard) = cut.fold((0, 0), |(sets, heard), (_, more, _)| (sets + 1, heard + more));
        assert!(sets > 15 && heard > 30, "{way:?}: {sets} sets were cut short, {heard} calls were heard");
    }
}
