use std::collections::BTreeMap;

use super::*;
use crate::draw::schedule::{Scheduler, Seed};
use crate::plan::precaution::{Precaution, Precautions};

fn session(seed: u8) -> Schedule {
    let prescription = Prescription::ready("typical").unwrap();
    Scheduler::new(prescription).unwrap().draw(Seed::from_bytes([seed; 32]))
}

fn lengths(frames: u64) -> BTreeMap<Phrase, Frames> {
    Phrase::all().map(|phrase| (phrase, Frames(if phrase.is_cue() { 52_001 } else { frames }))).collect()
}

#[test]
fn a_cue_is_48_frames_a_millisecond_after_the_start_of_its_set() {
    for seed in 0..20 {
        let session = session(seed);
        let track = Track::of(&session, &lengths(77_777));
        for (set, (number, start)) in session.sets().iter().zip(track.starts()) {
            assert_eq!(set.number(), *number);
            let planned: Vec<(u64, Phrase)> = set
                .cues()
                .iter()
                .filter_map(|cue| Some((start.0 + 48 * u64::from(cue.at().0), cue.call()?.say()[0])))
                .collect();
            let placed: Vec<(u64, Phrase)> = track
                .events()
                .iter()
                .filter(|event| event.set == Some(*number) && event.kind != Kind::Announcement)
                .map(|event| (event.at.0, event.phrase))
                .collect();
            assert_eq!(placed, planned);
            let end = *start + RATE.frames(set.work());
            let others = track.events().iter().filter(|event| event.kind == Kind::Announcement);
            for other in others {
                let outside = other.at + other.length <= *start || other.at >= end;
                assert!(outside, "{} sounds inside set {number}", other.phrase.id());
            }
        }
    }
}

#[test]
fn ten_milliseconds_are_silent_before_every_event_however_long_the_clips_are() {
    for frames in [1, 30_000, 47_900, 90_000, 800_000] {
        let track = Track::of(&session(3), &lengths(frames));
        for pair in track.events().windows(2) {
            let silence = pair[1].at - (pair[0].at + pair[0].length);
            assert!(silence >= RATE.frames(SILENCE), "{frames}: {silence:?} before {}", pair[1].phrase.id());
        }
        let last = track.events().last().unwrap();
        assert!(last.at + last.length <= Frame(track.length().0));
    }
}

#[test]
fn a_rest_is_as_long_as_prescribed_and_announced_ten_seconds_before_its_end() {
    let session = session(5);
    let track = Track::of(&session, &lengths(48_000));
    let at = |id: &str, set: u8| {
        track
            .events()
            .iter()
            .find(|event| event.phrase.id() == id && event.set == Some(set))
            .copied()
            .unwrap()
    };
    for set in &session.sets()[..session.sets().len() - 1] {
        let number = set.number();
        let over = at("set.over", number);
        let soon = at("rest.soon", number);
        let next = at(&format!("set.{}", number + 1), number + 1);
        assert_eq!(soon.at - (over.at + over.length), RATE.frames(set.rest() - SOON));
        assert!(next.at - (over.at + over.length) >= RATE.frames(set.rest()));
        at("practice.stop-list", number);
    }
    let opening: Vec<&str> = track.events()[..OPENING.len()].iter().map(|event| event.phrase.id()).collect();
    assert_eq!(opening, OPENING);
    assert_eq!(track.events().last().unwrap().phrase.id(), "end.done");
}

#[test]
fn numbers_are_counted_down_one_a_second() {
    let track = Track::of(&session(9), &lengths(30_000));
    for (number, start) in track.starts() {
        let at = |id: &str| {
            let mut events = track.events().iter();
            events.find(|event| event.phrase.id() == id && event.set == Some(*number)).unwrap().at
        };
        for count in 1..=5_u64 {
            assert_eq!(*start - at(&format!("count.{count}")), Frames(count * 48_000));
        }
    }
}

#[test]
fn a_prescription_with_an_unlock_is_refused() {
    let file = Prescription::ready_text("gentle").unwrap();
    let unlocked = format!(
        "{file}\n[[unlocks]]\nname = \"backward\"\nwatched_by = \"MK\"\non = 2026-11-02\npartner = \"\"\n"
    );
    let prescription = Prescription::read("own.toml", unlocked.as_bytes()).unwrap();
    assert_eq!(check(&prescription), Err(TrackError::Unlock { name: "backward" }));
    assert_eq!(check(Prescription::ready("gentle").unwrap()), Ok(()));
}

#[test]
fn a_track_says_the_precautions_first_and_before_each_set_what_moves() {
    let precautions = Precautions::of(&[Precaution::RightArmDown, Precaution::NothingBackward]);
    let within = Prescription::ready("typical").unwrap().within(precautions);
    let schedule = Scheduler::new(&within).unwrap().draw(Seed::from_bytes([4; 32]));
    let track = Track::of(&schedule, &lengths(30_000));
    let said = |set: Option<u8>| -> Vec<&str> {
        track.events().iter().filter(|event| event.set == set).map(|event| event.phrase.id()).collect()
    };
    let opening = said(None);
    assert_eq!(opening[OPENING.len()..OPENING.len() + 2], ["precaution.right-arm", "precaution.backward"]);
    assert!(said(Some(1)).contains(&"moves.nothing") && said(Some(2)).contains(&"moves.left-hand"));
    assert!(said(Some(2)).iter().all(|id| !["reach.right", "reach.forward"].contains(id)));
}
