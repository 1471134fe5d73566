use super::*;
use crate::draw::predictability::{Kind, SequenceCollector};
use crate::draw::schedule::Seed;

/// Pushes (at most six a set, the first two of a session the gentlest), and calls that last differently long.
const PUSHES_AND_SPELLS: &str = r#"
schema = "counterpoise.prescription/1"
title = "Pushes and changes"
issued_on = 2026-11-02
order = "drawn"

[[drills]]
drill = "pushes"
form = "partner"
sets = 2
work_ms = 120000
gap_ms = [12000, 26000]
directions = ["forward", "left", "right"]
strength = [1, 2]

[[drills]]
drill = "called-changes"
sets = 2
work_ms = 110000
gap_ms = [8000, 16000]
directions = ["feet together", "lean left", "lean right", "look left"]

[[unlocks]]
name = "pushes"
watched_by = "K. L."
on = 2026-10-30
partner = "A. B."
"#;

fn foresight(prescription: &Prescription, scheduler: &Scheduler) -> Foresight {
    Foresight::of(prescription, scheduler, &CueCounts::of(prescription))
}

/// Draws `sessions` sessions and compares: calls of each drill, quartiles of waits, how often the guesser who plays by the
/// rules is right about directions, and about strengths; each within 5 standard errors.
fn agree(name: &str, prescription: &Prescription, sessions: u64) {
    let scheduler = Scheduler::new(prescription).unwrap();
    let foresight = foresight(prescription, &scheduler);
    let bounds: Vec<_> = foresight.drills().iter().map(|drill| drill.moment.bounds.clone()).collect();
    let mut drawn = SequenceCollector::new(prescription, &bounds, usize::MAX);
    let (mut gentle, mut pushes) = (0_u32, 0_u32);
    while drawn.sessions() < sessions {
        let session = scheduler.draw(Seed::from_bytes([23; 32]).of_session(drawn.sessions()));
        for call in
            session.sets().iter().flat_map(crate::draw::schedule::SetPlan::cues).filter_map(|cue| cue.call())
        {
            if let Some(strength) = call.strength() {
                pushes += 1;
                gentle += u32::from(strength.number() == 1);
            }
        }
        drawn.add(&session);
    }
    for (drill, sequence) in foresight.drills().iter().zip(drawn.into_sequences()) {
        let near = |found: f64, expected: f64, of: f64, what: &str| {
            let error = (expected * (1.0 - expected) / of).sqrt();
            assert!(
                (found - expected).abs() < 5.0 * error,
                "{name}, {}: {what} {found} {expected}",
                drill.name
            );
        };
        let calls = sequence.len() as f64;
        let mean = calls / sessions as f64;
        // A session's calls of a drill vary by less than their mean.
        let error = (drill.calls / sessions as f64).sqrt();
        assert!((mean - drill.calls).abs() < 4.0 * error, "{name}, {}: {mean} {}", drill.name, drill.calls);
        assert!(
            (drill.moment.heard.calls() - drill.calls).abs() < 0.01,
            "{name}, {}: {}",
            drill.name,
            drill.moment.heard.calls()
        );
        for class in 0..CLASSES {
            let found = sequence.symbols(Kind::Gap).iter().filter(|other| **other == class).count() as f64;
            near(found / calls, 0.25, calls, "waits");
        }
        let played = sequence.named_share();
        if drill.direction.exact && !drill.direction.covered {
            near(played, drill.direction.guess_rate.min(1.0 - 1e-12), calls, "directions");
        } else if !drill.direction.covered {
            // What lasts a short time fits more often, which the computed share does not know.
            assert!(
                (0.0..0.03).contains(&(played - drill.direction.guess_rate)),
                "{name}: {played} {:?}",
                drill.direction
            );
        }
        if let Some(strength) = drill.attributes.iter().find(|guess| guess.what == "strength") {
            near(f64::from(gentle) / f64::from(pushes), strength.guess_rate, f64::from(pushes), "strength");
        }
    }
}

#[test]
fn what_is_foreseen_is_what_is_drawn() {
    for (name, prescription) in Prescription::all_ready() {
        agree(name, prescription, 1_500);
    }
}

#[test]
fn pushes_and_calls_that_last_are_foreseen_too() {
    let prescription = Prescription::read("p.toml", PUSHES_AND_SPELLS.as_bytes()).unwrap();
    agree("pushes", &prescription, 4_000);
    let scheduler = Scheduler::new(&prescription).unwrap();
    let drills = foresight(&prescription, &scheduler);
    let pushes = &drills.drills()[1];
    let strength = &pushes.attributes[0];
    // Two of the session's pushes are for practice, the others one of two strengths.
    let practice = 2.0 / pushes.calls;
    assert!((strength.guess_rate - (practice + (1.0 - practice) / 2.0)).abs() < 1e-12, "{strength:?}");
    assert_eq!((strength.what, strength.kinds), ("strength", 2));
}

/// Parts of a combined reach: the best guess for each direction, by going through 20,000 drawn calls.
#[test]
fn parts_are_as_hard_to_name_as_is_said() {
    let prescription = Prescription::ready("reach-and-look").unwrap();
    let scheduler = Scheduler::new(prescription).unwrap();
    let drills = foresight(prescription, &scheduler);
    let place = drills.drills().iter().position(|drill| drill.name == "combined-reaches").unwrap();
    let parts = &drills.drills()[place].attributes[0];
    let mut seen = std::collections::BTreeMap::new();
    let mut calls = 0_u32;
    for session in 0..1_500 {
        let session = scheduler.draw(Seed::from_bytes([29; 32]).of_session(session));
        for set in session.sets().iter().filter(|set| set.drill().name() == "combined-reaches") {
            for call in set.cues().iter().filter_map(|cue| cue.call()) {
                calls += 1;
                let direction =
                    seen.entry(call.direction().to_string()).or_insert_with(std::collections::BTreeMap::new);
                *direction.entry(call.show().to_owned()).or_insert(0_u32) += 1;
            }
        }
    }
    let named: u32 = seen.values().map(|shown| shown.values().max().copied().unwrap_or(0)).sum();
    let share = f64::from(named) / f64::from(calls);
    let error = (share * (1.0 - share) / f64::from(calls)).sqrt();
    // The best of several counts lies a little above its chance.
    assert!((share - parts.guess_rate).abs() < 5.0 * error, "{share} {parts:?}");
    assert!(seen.values().all(|shown| shown.len() <= parts.kinds), "{parts:?}");
}
