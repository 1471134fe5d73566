//! A partner has heard out what to do before the moment, in the slower voice and with the longest words: half a second is
//! left at least. Lengths are those of the manifest, which `audio` checks against the clips.

use std::collections::HashMap;
use std::fs;
use std::path::Path;

use counterpoise_core::draw::schedule::{Call, Cue, Scheduler, Seed};
use counterpoise_core::plan::drill::{Ball, Drill, Form, Need, Strength, UnlockName};
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::place::{Place, Room};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::practice::placing::CHAIN;
use counterpoise_core::units::Millis;

const LEFT: Millis = Millis(500);

/// How long each clip lasts, in the slower of the two voices.
fn lengths() -> HashMap<String, Millis> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sounds/manifest.toml");
    let manifest: toml::Table = fs::read_to_string(path).unwrap().parse().unwrap();
    let mut lengths = HashMap::<String, Millis>::new();
    for clip in manifest["clip"].as_array().unwrap() {
        let length = Millis((clip["frames"].as_integer().unwrap() as u32).div_ceil(48));
        let longest = lengths.entry(clip["phrase"].as_str().unwrap().to_owned()).or_default();
        *longest = length.max(*longest);
    }
    lengths
}

/// Everything of a drill with a partner, everything unlocked, the hardest step.
fn prescription(drill: &Drill) -> Prescription {
    let names: Vec<&str> = drill.targets().iter().map(|target| target.name.as_str()).collect();
    let needs: Vec<&str> =
        Need::ALL.iter().filter(|need| **need != Need::Partner).map(|need| need.name()).collect();
    let held = drill.ladder().last().is_some_and(|step| step.stance.is_spell());
    let mut text = format!(
        "schema = \"counterpoise.prescription/1\"\ntitle = \"t\"\nissued_on = 2026-03-09\n[[drills]]\ndrill = \"{}\"\n\
         form = \"partner\"\nsets = 6\nwork_ms = 120000\nstep = {}\ngap_ms = [13000, 23000]\ndirections = {names:?}\n\
         confirmed = {needs:?}\n{}",
        drill.name(),
        drill.ladder().len(),
        if held { "tested_hold_ms = 20000\n" } else { "" },
    );
    if drill.targets().iter().any(|target| target.action.is_toss()) {
        text += "balls = 2\n";
    }
    if drill.targets().iter().any(|target| target.action.is_push()) {
        text += "strength = [3, 4]\n";
    }
    for name in UnlockName::ALL {
        text += &format!(
            "[[unlocks]]\nname = \"{name}\"\nwatched_by = \"k\"\non = 2026-03-01\npartner = \"K.\"\ntherapist_present = true\n"
        );
    }
    Prescription::read("told.toml", text.as_bytes()).unwrap_or_else(|why| panic!("{why}\n{text}"))
}

#[test]
fn a_partner_has_heard_it_out_before_the_moment() {
    let lengths = lengths();
    let length = |phrase: &Phrase| lengths[phrase.id()];
    let longest_place = Place::ALL.iter().copied().max_by_key(|place| length(&place.phrase()));
    let everywhere = Room { left: longest_place, right: None, behind: None };
    assert!(everywhere.left.is_some());
    let (mut heard, mut balls) = (0, 0);
    for drill in Drill::all().iter().filter(|drill| drill.forms().contains(&Form::Partner)) {
        let scheduler = Scheduler::new(&prescription(drill)).unwrap();
        for session in 0..40 {
            let schedule = scheduler.draw(Seed::from_bytes([3; 32]).of_session(session));
            for set in schedule.sets().iter().filter(|set| set.form() == Form::Partner) {
                for call in set.cues().iter().filter_map(Cue::call).filter(|call| call.lead() > Millis(0)) {
                    // Clip after clip, with the pause between them that an earbud keeps.
                    let told = |phrases: &[Phrase]| {
                        let all = phrases.iter().map(|phrase| length(phrase) + CHAIN);
                        all.fold(Millis(0), |a, b| a + b) - CHAIN
                    };
                    // The direction as such, or the longest of all places in its stead.
                    let words = told(&call.partner_phrases_without_room())
                        .max(told(&call.partner_phrases(everywhere, set.facing())));
                    let line: Vec<&str> =
                        call.partner_phrases_without_room().iter().map(|phrase| phrase.words()).collect();
                    assert!(
                        words + LEFT <= call.lead(),
                        "{}: {line:?} takes {words} of {}",
                        drill.name(),
                        call.lead()
                    );
                    heard += 1;
                    balls += usize::from(call.ball().is_some());
                }
            }
        }
    }
    assert!(heard > 1_000 && balls > 10, "{heard} {balls}");
}

/// Every phrase that any drill can say, to the trainee or the partner, exists: each is named through a function that
/// stops the program if it does not.
#[test]
fn every_phrase_that_a_drill_can_say_has_words() {
    for drill in Drill::all() {
        for call in scheduler_calls(drill) {
            assert!(call.phrases().iter().all(|phrase| !phrase.words().is_empty()));
        }
        assert!(!drill.instruction(1).words().is_empty() && !drill.instruction(2).words().is_empty());
    }
    for number in 1..=4 {
        assert!(!Strength::new(number).unwrap().phrase().words().is_empty());
    }
    for ball in Ball::ALL {
        assert!(ball.phrase().is_cue(), "it is called as it leaves the hand");
    }
    for place in Place::ALL {
        assert!(place.phrase().words().ends_with(place.name()));
    }
}

fn scheduler_calls(drill: &Drill) -> Vec<Call> {
    if !drill.forms().contains(&Form::Partner) {
        return Vec::new();
    }
    let schedule = Scheduler::new(&prescription(drill)).unwrap().draw(Seed::from_bytes([4; 32]));
    schedule.sets().iter().flat_map(|set| set.cues().iter().filter_map(Cue::call).cloned()).collect()
}
