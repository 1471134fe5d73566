//! Every sound of a track is on its frame, with the clips as they are: the plan of a track is the core's, the lengths of
//! the clips are the program's.

use std::collections::BTreeMap;

use counterpoise::audio::{Bank, Voice};
use counterpoise_core::draw::schedule::{Scheduler, Seed};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::track::{Kind, RATE, SILENCE, Track, check, phrases};
use counterpoise_core::units::{Frame, Frames};

/// With the clips as they are, in both voices: every drill that can be done alone by ear without an unlock.
#[test]
fn every_sound_of_every_drill_is_on_its_frame_and_apart_from_the_next() {
    let file = include_bytes!("../data/alone.toml");
    let prescription = Prescription::read("alone.toml", file).unwrap();
    assert_eq!(check(&prescription), Ok(()));
    let (mut chained, mut counted) = (0, 0);
    for (voice, seed) in [(Voice::Lower, 1), (Voice::Lower, 2), (Voice::Higher, 3), (Voice::Higher, 4)] {
        let session = Scheduler::new(&prescription).unwrap().draw(Seed::from_bytes([seed; 32]));
        let bank = Bank::load(RATE, voice, phrases(&session).iter().map(|phrase| phrase.id())).unwrap();
        let long = |phrase: Phrase| Some((phrase, bank.get(phrase.id())?));
        let clips: BTreeMap<Phrase, _> = Phrase::all().filter_map(long).collect();
        let lengths = clips.iter().map(|(phrase, clip)| (*phrase, clip.length() - clip.onset())).collect();
        let track = Track::of(&session, &lengths);
        for pair in track.events().windows(2) {
            let silence = pair[1].at - (pair[0].at + pair[0].length);
            assert!(silence >= RATE.frames(SILENCE), "{silence:?} before {:?}", pair[1]);
        }
        for (set, (number, start)) in session.sets().iter().zip(track.starts()) {
            let mut events = track
                .events()
                .iter()
                .filter(|event| event.set == Some(*number) && event.kind != Kind::Announcement);
            for (place, cue) in (0..).zip(set.cues()) {
                let Some(call) = cue.call() else { continue };
                let frame = |ms: u32| Frame(start.0 + 48 * u64::from(ms));
                let mut end = frame(cue.at().0);
                for (nth, phrase) in call.say().iter().enumerate() {
                    let event = events.next().unwrap();
                    let kind =
                        if nth == 0 { Kind::Cue { cue: place } } else { Kind::Continuation { part: true } };
                    assert_eq!((event.at, event.phrase, event.kind), (end, *phrase, kind));
                    // 120 ms from the end of one to the onset of the next.
                    end = event.at + event.length + Frames(48 * 120);
                    chained += nth;
                }
                let Some(until) = cue.until() else { continue };
                let count = call.span().unwrap().count;
                for number in 1..=count {
                    let event = events.next().unwrap();
                    assert_eq!(event.phrase.id(), format!("count.{number}"));
                    assert_eq!(event.at, frame(until.0 - 1_000 * u32::from(count + 1 - number)));
                    counted += 1;
                }
                let close = events.next().unwrap();
                assert_eq!((close.at, close.kind), (frame(until.0), Kind::Continuation { part: false }));
            }
            assert_eq!(events.next(), None);
        }
    }
    assert!(chained > 5 && counted > 50, "{chained} parts and {counted} numbers");
}
