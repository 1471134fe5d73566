use std::sync::LazyLock;

use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};

use super::*;
use crate::draw::predictability::{Foresight, SequenceCollector};
use crate::draw::schedule::{Scheduler, Seed};
use crate::plan::counts::CueCounts;
use crate::plan::prescription::Prescription;
use crate::units::Millis;

const FOUR: &str = r#"
schema = "counterpoise.prescription/1"
title = "Four"
issued_on = 2026-11-02

[[drills]]
drill = "counter-shift"
sets = 3
work_ms = 60000
gap_ms = [5000, 15000]
directions = ["left", "right", "forward", "up"]
"#;

const CALLS: usize = 30_000;

static PRESCRIPTION: LazyLock<Prescription> =
    LazyLock::new(|| Prescription::read("four.toml", FOUR.as_bytes()).unwrap());

static FORESIGHT: LazyLock<Foresight> = LazyLock::new(|| {
    let scheduler = Scheduler::new(&PRESCRIPTION).unwrap();
    Foresight::of(&PRESCRIPTION, &scheduler, &CueCounts::of(&PRESCRIPTION))
});

fn drill() -> &'static Drill {
    &FORESIGHT.drills()[0]
}

/// What is learned from calls that a scheduler of the test's own makes: the wait in ms, and one of four directions.
fn learned(mut next: impl FnMut(usize, &mut ChaCha12Rng) -> (u32, u8)) -> Vec<Learning> {
    let mut rng = ChaCha12Rng::from_seed([77; 32]);
    let mut sequence = Sequence::new(4, drill().moment.bounds.clone());
    for call in 0..CALLS {
        let (wait, direction) = next(call, &mut rng);
        sequence.add(Millis(wait), direction);
    }
    Task::all(&[sequence]).iter().filter_map(Task::run).collect()
}

fn leaks(learned: &[Learning], kind: Kind) -> bool {
    learned.iter().any(|one| one.kind == kind && one.leaks(drill()))
}

/// A wait by the drill's own law.
fn wait(rng: &mut ChaCha12Rng) -> u32 {
    let heard = &drill().moment.heard.all;
    let mut x: f64 = rng.random();
    let slot = heard.chances().iter().position(|chance| {
        x -= chance;
        x < 0.0
    });
    heard.from().0 + slot.unwrap_or(0) as u32
}

/// One of four, at most two in a row.
fn direction(before: &mut Vec<u8>, rng: &mut ChaCha12Rng) -> u8 {
    loop {
        let next = rng.random_range(0..4);
        if !before.ends_with(&[next, next]) {
            before.push(next);
            return next;
        }
    }
}

#[test]
fn the_apps_own_scheduler_leaks_nothing() {
    let scheduler = Scheduler::new(&PRESCRIPTION).unwrap();
    let bounds: Vec<_> = FORESIGHT.drills().iter().map(|drill| drill.moment.bounds.clone()).collect();
    let mut drawn = SequenceCollector::new(&PRESCRIPTION, &bounds, CALLS);
    while !drawn.is_full() {
        drawn.add(&scheduler.draw(Seed::from_bytes([5; 32]).of_session(drawn.sessions())));
    }
    let sequences = drawn.into_sequences();
    let learned: Vec<Learning> = Task::all(&sequences).iter().filter_map(Task::run).collect();
    assert_eq!(learned.len(), 12, "four estimators, three kinds of sequence");
    for one in &learned {
        assert!(!one.leaks(drill()), "{one:?}");
        assert!(one.score.hit_rate() > chance(drill(), one.kind) * 0.85, "it does guess: {one:?}");
    }
    // The classes of waits are equally likely.
    let classes = sequences[0].symbols(Kind::Gap);
    for class in 0..4 {
        let share = classes.iter().filter(|other| **other == class).count() as f64 / classes.len() as f64;
        assert!((share - 0.25).abs() < 5.0 * (0.25 * 0.75 / CALLS as f64).sqrt(), "{class}: {share}");
    }
}

#[test]
fn a_scheduler_by_the_rules_made_here_leaks_nothing_either() {
    let mut before = Vec::new();
    let learned = learned(|_, rng| (wait(rng), direction(&mut before, rng)));
    for kind in Kind::ALL {
        assert!(!leaks(&learned, kind), "{kind:?}");
    }
}

#[test]
fn a_fixed_gap_is_caught() {
    let mut before = Vec::new();
    let learned = learned(|_, rng| (8_000, direction(&mut before, rng)));
    assert!(leaks(&learned, Kind::Gap) && leaks(&learned, Kind::Pair) && !leaks(&learned, Kind::Direction));
}

#[test]
fn gaps_that_alternate_are_caught() {
    let mut before = Vec::new();
    let learned = learned(|call, rng| {
        let half = rng.random_range(0..2_000);
        (if call % 2 == 0 { 5_000 + half } else { 11_000 + half }, direction(&mut before, rng))
    });
    assert!(leaks(&learned, Kind::Gap));
}

#[test]
fn round_robin_is_caught() {
    let learned = learned(|call, rng| (wait(rng), (call % 4) as u8));
    assert!(leaks(&learned, Kind::Direction) && leaks(&learned, Kind::Pair) && !leaks(&learned, Kind::Gap));
}

/// Blocks of 12 with each direction three times: every count is even, and counting gives the end of a block away.
#[test]
fn balanced_blocks_are_caught() {
    let mut block: Vec<u8> = Vec::new();
    let learned = learned(|_, rng| {
        if block.is_empty() {
            block = (0..12).map(|call| call % 4).collect();
            for place in (1..12).rev() {
                block.swap(place, rng.random_range(0..=place));
            }
        }
        (wait(rng), block.pop().unwrap())
    });
    assert!(leaks(&learned, Kind::Direction));
}

/// Each direction, and each wait, as it should be; only that a wait tells which direction ends it.
#[test]
fn a_direction_tied_to_its_gap_is_caught_by_the_pairs_alone() {
    let bounds = drill().moment.bounds.clone();
    let learned = learned(|_, rng| {
        let wait = wait(rng);
        (wait, bounds.partition_point(|bound| bound.0 <= wait) as u8)
    });
    assert!(leaks(&learned, Kind::Pair) && !leaks(&learned, Kind::Direction) && !leaks(&learned, Kind::Gap));
}

/// Eleven times in twelve drawn, else the same as four calls before.
#[test]
fn a_small_leak_is_caught_as_well() {
    let mut before = Vec::new();
    let learned = learned(|call, rng| {
        let drawn = direction(&mut before, rng);
        let next = if call >= 4 && rng.random_range(0..12) == 0 { before[call - 4] } else { drawn };
        before[call] = next;
        (wait(rng), next)
    });
    assert!(leaks(&learned, Kind::Direction));
}
