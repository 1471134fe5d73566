//! One practice, told event by event, shown both ways: large on the screen, and as plain lines.

use jiff::ZonedDateTime;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::{big, plain::Lines, view};
use counterpoise_core::draw::schedule::{Method, Scheduler, Seed};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::session::screen::{Body, Screen};
use counterpoise_core::practice::session::{Effect, Event, Key, Now, Session};
use counterpoise_core::record::{Disturbance, Drawn, Entry, SessionBegun};
use counterpoise_core::units::Millis;

const EVENING: &str = include_str!("../../tests/data/evening.events");

/// The log, with the ticks between its events.
fn log() -> Vec<(Millis, Event)> {
    let told = EVENING.lines().filter(|line| !line.starts_with('#')).map(|line| {
        let (at, event) = line.split_once(' ').unwrap();
        (Millis(at.parse().unwrap()), read(event))
    });
    let mut events = vec![(Millis(0), Event::Tick { gap: Millis(100) })];
    for (at, event) in told {
        while events[events.len() - 1].0 < at {
            let next = (events[events.len() - 1].0 + Millis(100)).min(at);
            events.push((next, Event::Tick { gap: Millis(100) }));
        }
        events.push((at, event));
    }
    events
}

fn read(event: &str) -> Event {
    let (kind, rest) = event.split_once(' ').unwrap_or((event, ""));
    match (kind, rest) {
        ("sound", device) => Event::Sound { device: Some(device.to_owned()) },
        ("key", "enter") => Event::Key(Key::Enter),
        ("key", "space") => Event::Key(Key::Char(' ')),
        ("key", "other") => Event::Key(Key::Other),
        ("key", letter) => Event::Key(Key::Char(letter.parse().unwrap())),
        ("placed", at) => Event::Placed { work_starts: Millis(at.parse().unwrap()) },
        ("stuttered", "") => Event::SoundDisturbed(Disturbance::Stuttered),
        ("not", "saved") => Event::NotSaved,
        ("saved", "") => Event::Saved,
        ("lost", "") => Event::SoundLost,
        ("back", "") => Event::SoundBack,
        _ => panic!("{event}"),
    }
}

/// Plays the log into a fresh session; `show` sees every screen. Gives what the journal would keep.
fn replay(mut show: impl FnMut(Millis, &Screen)) -> Vec<Entry> {
    let wall: ZonedDateTime = "2026-11-02T18:30:00-05:00[America/New_York]".parse().unwrap();
    let prescription = Prescription::ready("gentle").unwrap();
    let scheduler = Scheduler::new(prescription).unwrap();
    let seed = Seed::from_bytes([0x29; 32]);
    let schedule = scheduler.draw(seed);
    let begun = SessionBegun {
        begun: (&wall).into(),
        title: prescription.title().to_owned(),
        digest: prescription.digest(),
        sets_planned: schedule.sets().len() as u8,
        precautions: Vec::new(),
        drawn: Some(Drawn {
            seed,
            seed_given: false,
            method: Method::NEWEST.number(),
            voice: "lower".to_owned(),
            device: None,
        }),
    };
    let mut session = Session::new(scheduler, schedule, begun, None).unwrap();
    let mut kept = Vec::new();
    for (at, event) in log() {
        let (next, effects) = session.on(&Now { at, wall: wall.clone() }, event);
        session = next;
        kept.extend(effects.into_iter().filter_map(|effect| match effect {
            Effect::Record(entry) => Some(entry),
            _ => None,
        }));
        show(at, &session.screen(at));
    }
    kept
}

/// The call that stands on the drawn screen, read off its large letters: of all calls that fit, the longest.
fn call_on(buffer: &Buffer) -> Option<String> {
    let calls = Phrase::all().filter(|phrase| phrase.is_cue()).map(|phrase| phrase.words().to_uppercase());
    let there = calls.filter(|call| call.split(' ').all(|word| big::find(word, buffer).is_some()));
    there.max_by_key(String::len)
}

#[test]
fn one_event_log_tells_the_same_practice_on_the_screen_and_in_plain_lines() {
    let area = Rect::new(0, 0, 80, 24);
    let (mut drawn, mut before) = (Vec::new(), None);
    let from_screen = replay(|at, screen| {
        let Body::Work { call, .. } = &screen.body else { return };
        // To look for letters takes long: only when something else is called.
        if before.replace(call.clone()).as_ref() != Some(call) {
            let mut buffer = Buffer::empty(area);
            view::draw_in(screen, area, &mut buffer);
            drawn.extend(call_on(&buffer).map(|call| (at, call)));
        }
    });

    let (mut lines, mut told, mut all) = (Lines::default(), Vec::new(), String::new());
    let from_lines = replay(|at, screen| {
        for line in lines.after(screen) {
            if let Some((words, _)) =
                line.split_once(" (").filter(|(words, _)| *words == words.to_uppercase())
            {
                told.push((at, words.to_owned()));
            }
            all.push_str(&line);
            all.push('\n');
        }
    });

    assert_eq!(from_screen, from_lines, "the journal does not depend on how it was shown");
    assert_eq!(drawn, told, "the same calls at the same moments");
    assert!(told.len() >= 5, "{told:?}");
    // In their order: what a person who reads the lines was told, from the first page to the last.
    let mut rest = all.as_str();
    for expected in [
        "Gentle start at the counter",
        "Your health, page 2 of 2",
        "Ready today, 1 of 8",
        "Set 1 of 3, the warm-up",
        "How to stand",
        "PAUSED",
        "NOTICE: The sound faltered in this set.",
        "Did you have to grab hold, or nearly fall?",
        "How steady were you?",
        "Set 2 of 3",
        "NOTICE: NOT SAVED.",
        "NOTICE: NO SOUND.",
        "Did you have to grab hold, or nearly fall?",
        "Do you feel unwell?",
    ] {
        let (_, after) =
            rest.split_once(expected).unwrap_or_else(|| panic!("{expected} is missing in\n{all}"));
        rest = after;
    }
}
