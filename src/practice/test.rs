use std::sync::mpsc::{self, Receiver};

use super::*;
use crate::audio::paced::{self, Link};
use crate::audio::{Frames, SampleRate, Voice};
use counterpoise_core::draw::schedule::sample;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::plan::place::Place;
use counterpoise_core::practice::emergency::Contacts;

const RATE: SampleRate = SampleRate::HZ_48000;
const ROOM: Room = Room { left: Some(Place::Window), right: Some(Place::Door), behind: None };

/// Sound over an output that plays a hundred times as fast, with every block that it plays.
fn sound(phrases: &[&str]) -> (Sound, Receiver<Vec<i16>>) {
    let (send, blocks) = mpsc::channel();
    let sink = move |_: Frame, block: &[i16]| {
        let _ = send.send(block.to_vec());
        Link::Up
    };
    let output = paced::start(RATE, 100.0, sink).unwrap();
    (Sound::new(output, Bank::load(RATE, Voice::Lower, phrases).unwrap()), blocks)
}

/// Everything that is heard and told until `frame` has been rendered, from the first frame on.
fn run(mut sound: Sound, blocks: &Receiver<Vec<i16>>, frame: Frame) -> (Vec<i16>, Vec<Event>) {
    let mut events = Vec::new();
    while sound.output.now() < frame {
        events.extend(sound.events());
        std::thread::sleep(Duration::from_millis(1));
    }
    events.extend(sound.events());
    drop(sound);
    (blocks.iter().flatten().collect(), events)
}

/// What must be heard: each clip with its onset at its frame, and nothing else.
fn mixed(length: usize, clips: &[(Frame, Clip)]) -> Vec<i16> {
    let mut all = vec![0_i16; length];
    for (at, clip) in clips {
        let start = clip.start_for(*at).0 as usize;
        for (out, sample) in all[start..].iter_mut().zip(clip.samples()) {
            *out = out.saturating_add(*sample);
        }
    }
    all
}

/// Two pushes and a blank, as they are placed in a set whose work starts four seconds after the count began.
fn pushes() -> Vec<(u16, Cue)> {
    let push = |at, to, hand| sample::at(at, Some(sample::push(to, hand, 1)));
    vec![
        (0, push(12_345, Direction::Left, "hand.right-hip")),
        (1, sample::at(26_000, None)),
        (2, push(40_001, Direction::Forward, "hand.shoulder-blade")),
    ]
}

#[test]
fn an_earbud_tells_the_partner_on_exact_frames_and_nothing_of_the_trainees() {
    let words = [
        "tell.push",
        "toward.window",
        "hand.right-hip",
        "strength.1",
        "toward.counter",
        "hand.shoulder-blade",
    ];
    let (mut sound, blocks) = sound(&words);
    let ear = ear(Channel::PartnerEarbud, ROOM, Facing::CounterAhead);
    let start = sound.place(&[], &pushes(), Millis(0), ear);
    let bank = sound.bank.clone();
    let (heard, events) = run(sound, &blocks, start + RATE.frames(Millis(42_000)));

    let mut clips = Vec::new();
    for (at, told) in [
        (12_345, ["tell.push", "toward.window", "hand.right-hip", "strength.1"]),
        (40_001, ["tell.push", "toward.counter", "hand.shoulder-blade", "strength.1"]),
    ] {
        let mut next = start + Frames(48 * (at - 6_000));
        for phrase in told {
            let clip = bank.get(phrase).unwrap();
            let long = clip.length() - clip.onset();
            clips.push((next, clip));
            next = next + long + Frames(48 * 120);
        }
        assert!(next < start + Frames(48 * at), "it is over before the moment");
        clips.push((start + Frames(48 * at), bank.moment()));
    }
    assert!(heard == mixed(heard.len(), &clips), "sample by sample");
    // The moment is what is told of: on its frame. Nothing is told of the blank.
    let asked = |cue, ms: u64| Event::Heard { cue, wanted: 48 * ms, began: 48 * ms, rate: 48_000 };
    assert_eq!(events, [asked(0, 12_345), asked(2, 40_001)]);
}

/// Only what is at hand is fast enough to be placed, and nothing else is kept in memory.
#[test]
fn whatever_can_be_placed_is_at_hand() {
    for call in [
        sample::call(&["reach.left", "part.low"]),
        sample::hold(10, 3, 3_000),
        sample::push(Direction::Left, "hand.right-hip", 1),
        sample::toss(counterpoise_core::plan::drill::Ball::Big),
    ] {
        for channel in [Channel::Trainee, Channel::PartnerScreen, Channel::PartnerEarbud] {
            for room in [ROOM, Room::default()] {
                let ear = ear(channel, room, Facing::CounterAhead);
                assert!(placing::phrases(&call, ear).iter().all(|phrase| is_placed(phrase.id())));
            }
        }
    }
    for drill in counterpoise_core::plan::drill::Drill::all() {
        let words = |target: &counterpoise_core::plan::drill::Target| {
            [target.say, target.tell, target.hand, target.span.map(|s| s.close)]
        };
        let parts = drill.parts().iter().map(|part| part.phrase);
        let all = drill.targets().iter().flat_map(words).flatten().chain(parts);
        assert!(all.into_iter().all(|phrase| is_placed(phrase.id())), "{}", drill.name());
    }
    assert!(!is_placed("practice.stop-list") && !is_placed("drill.pushes"));
}

#[test]
fn nothing_audible_goes_with_a_push_where_the_partner_has_the_screen() {
    let (mut sound, blocks) = sound(&["tell.push", "toward.window", "hand.right-hip", "strength.1"]);
    let ear = ear(Channel::PartnerScreen, ROOM, Facing::CounterAhead);
    let start = sound.place(&[], &pushes(), Millis(0), ear);
    let (heard, events) = run(sound, &blocks, start + RATE.frames(Millis(42_000)));
    assert!(heard.len() > 42 * 48_000 && heard.iter().all(|sample| *sample == 0));
    assert_eq!(events, []);
}

#[test]
fn a_call_of_several_clips_is_heard_when_the_last_of_them_is() {
    let (mut sound, blocks) = sound(&["reach.left", "part.low", "part.step"]);
    let call = |at| sample::at(at, Some(sample::call(&["reach.left", "part.low", "part.step"])));
    let start = sound.place(&[], &[(0, call(5_000)), (1, call(12_000))], Millis(0), Ear::Trainee);
    let mut events = Vec::new();
    // Hushed in the middle of the second: that one was not heard.
    let middle = start + RATE.frames(Millis(12_900));
    while sound.output.now() < middle {
        events.extend(sound.events());
    }
    sound.hush();
    let (_, after) = run(sound, &blocks, start + RATE.frames(Millis(20_000)));
    assert_eq!(events, [Event::Heard { cue: 0, wanted: 240_000, began: 240_000, rate: 48_000 }]);
    assert_eq!(after, []);
}

#[test]
fn the_words_that_close_a_span_are_heard_out_whatever_comes_next() {
    let (mut sound, blocks) = sound(&["eyes.open", "pause.on", "practice.place"]);
    sound.hush();
    let at = sound.speaker.next(&sound.output);
    sound.say(Phrase::own("eyes.open"));
    sound.say(Phrase::own("pause.on"));
    // A key, at once: it goes on.
    sound.hush();
    sound.say(Phrase::own("practice.place"));
    let begun = sound.output.now();
    let bank = sound.bank.clone();
    sound.hear_out();
    let over = sound.output.now();
    let open = bank.get("eyes.open").unwrap();
    // The output moves on by blocks while this is asked.
    let onset_by = at + Frames(48_000);
    assert!(begun < at + open.length() && over >= at + (open.length() - open.onset()));
    let (heard, _) = run(sound, &blocks, over + Frames(4 * 48_000));
    let first = heard.iter().position(|sample| sample.unsigned_abs() >= 33).unwrap();
    assert!((at.0..onset_by.0).contains(&(first as u64)));
    let from = first - open.onset().0 as usize;
    assert!(heard[from..][..open.samples().len()] == *open.samples(), "every sample of it");
}

/// What is heard of a number in an emergency: every word of it, in order, with its onset on its frame.
#[test]
fn the_number_is_heard_digit_by_digit_within_the_time_it_is_given_in_both_voices() {
    let number = "+44 (0)20-7946.0000 *#";
    let contacts = Contacts { emergency: Some(number.to_owned()), other: None };
    let said = contacts.aloud();
    for voice in [Voice::Lower, Voice::Higher] {
        let ids = Contacts::phrases();
        let warnings = Bank::load(RATE, voice, ids.iter().map(|phrase| phrase.id())).unwrap();
        // The calls are tones; what they would say is no number.
        let (send, blocks) = mpsc::channel();
        let sink = move |_: Frame, block: &[i16]| {
            let _ = send.send(block.to_vec());
            Link::Up
        };
        let output = paced::start(RATE, 100.0, sink).unwrap();
        let tones = Bank::load(RATE, Voice::Tones, ["set.over", "count.1"]).unwrap();
        let mut sound = Sound::new(output, tones).with_warnings(warnings.clone());
        sound.say(Phrase::own("set.over"));
        sound.warn(&said);
        let ends = sound.speaker.next(&sound.output);
        let (heard, _) = run(sound, &blocks, ends + Frames(48_000));
        let mut from = 0;
        let began = heard.iter().position(|sample| sample.unsigned_abs() >= 33).unwrap();
        for phrase in &said {
            let clip = warnings.get(phrase.id()).unwrap();
            let found = heard[from..].windows(clip.samples().len()).position(|part| part == clip.samples());
            from += found.unwrap_or_else(|| panic!("{} is not heard in {voice}", phrase.id()))
                + clip.samples().len();
        }
        let lasted = Frames((from - began) as u64);
        let silence = RATE.frames(Millis(1_000));
        assert!(
            lasted + silence < RATE.frames(contacts.repeated_after()),
            "{voice}: {:?}",
            RATE.duration(lasted)
        );
    }
}

/// An emergency is never said in the partner's earbud only: the room hears every word of it, and a press hushes both.
#[test]
fn what_the_earbud_says_in_an_emergency_the_room_hears_too() {
    let contacts = Contacts { emergency: Some("911".to_owned()), other: None };
    let ids: Vec<&str> = Contacts::phrases().into_iter().map(Phrase::id).collect();
    let (mut earbud, in_ear) = sound(&ids);
    let (room, in_room) = sound(&ids);
    let bank = room.bank.clone();
    let mut other = RoomSound::Other(Box::new(move || Some(room)));
    other.hush();
    assert!(matches!(other, RoomSound::Other(_)), "it is opened only when it is needed");
    earbud.warn(&contacts.aloud());
    other.warn(&contacts.aloud());
    let RoomSound::Open(room) = other else { panic!("it is open now") };
    for (sound, blocks) in [(earbud, in_ear), (room, in_room)] {
        let ends = sound.speaker.next(&sound.output);
        let (heard, _) = run(sound, &blocks, ends);
        for digit in ["count.9", "count.1"] {
            let clip = bank.get(digit).unwrap();
            assert!(heard.windows(clip.samples().len()).any(|part| part == clip.samples()), "{digit}");
        }
    }
    let mut none = RoomSound::Other(Box::new(|| None));
    none.warn(&contacts.aloud());
    assert!(matches!(none, RoomSound::Same), "where there is no other output it is on the screen");
}
