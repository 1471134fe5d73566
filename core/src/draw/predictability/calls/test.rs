use super::*;
use crate::draw::predictability::Rule;
use crate::draw::schedule::{Scheduler, Seed};

const TWO: &str = r#"
schema = "counterpoise.prescription/1"
title = "Long"
issued_on = 2026-11-02
order = "drawn"

[[drills]]
drill = "counter-shift"
sets = 1
work_ms = 60000
gap_ms = [5000, 15000]
directions = ["left", "right", "forward"]

[[drills]]
drill = "counter-reach"
sets = 3
work_ms = 110000
gap_ms = [4000, 14000]
directions = ["left", "right", "forward", "forward left"]
sequence = "covered"

[[drills]]
drill = "counter-shift"
step = 2
ceiling = 2
sets = 3
work_ms = 50000
gap_ms = [5000, 12000]
blank_per_mille = 200
directions = ["left", "right"]
longest_streak = 3
"#;

/// Sets of 2 or 3 calls alike, two sets, room for 5 more calls: 2+2, 2+3, 3+2, and 3+3 cut to 3+2. By hand.
#[test]
fn a_small_session_by_hand() {
    let mut used = vec![0.0; MOST];
    used[MOST - 5] = 1.0;
    let calls = Calls::after(&used, &[0.0, 0.0, 0.5, 0.5], 2);
    assert_eq!(calls.lengths[4..6], [0.25, 0.75]);
    // The third call has room in the first set always, in the second if the first took two.
    assert_eq!(calls.open[..4], [2.0, 2.0, 1.5, 1.0]);
    let rule = Rule::Open { weights: &[1, 1], longest: Some(2) };
    let foreseen = rule.hit_chances(&calls.lengths);
    // Hits of calls 1 to 5: 1/2, 1/2, 3/4, 5/8, 11/16 (pairs before: 0, 0, 1/2, 1/4, 3/8).
    let total = 0.5 + 0.5 + 0.75 + 0.625;
    assert!((calls.share(&foreseen) - (total + 0.75 * 0.6875) / 4.75).abs() < 1e-12);
    // First calls: call 1 of all, and call 3 or 4 of the second set.
    let positions = calls.by_position(&foreseen);
    assert!((positions[0] - f64::midpoint(0.5, f64::midpoint(0.75, 0.625))).abs() < 1e-12);
    assert_eq!(positions.len(), 3);
    assert!((calls.last_call(&foreseen) - (0.25 * 0.625 + 0.75 * 0.6875)).abs() < 1e-12);
}

/// 20,000 sessions of three drills in a drawn order, some of which reach the session's last call: mean calls of each
/// drill, the share of each length and the guesser's share, within 5 standard errors. The guesser here plays: it counts
/// and looks at the streak by itself, and knows nothing of the tables it is compared with but the covered counts.
#[test]
fn counts_and_shares_agree_with_drawn_sessions() {
    let prescription = Prescription::read("long.toml", TWO.as_bytes()).unwrap();
    let scheduler = Scheduler::new(&prescription).unwrap();
    let all = Calls::of(&prescription, &CueCounts::of(&prescription));
    let sessions = 20_000_u32;
    let mut lengths = vec![vec![0_u32; MOST + 1]; 3];
    let mut named = [(0_u32, 0_u32); 2];
    let mut thirds = 0_u32;
    for session in 0..sessions {
        let drawn = scheduler.draw(Seed::from_bytes([9; 32]).of_session(u64::from(session)));
        let mut called = vec![Vec::new(); 3];
        for set in drawn.sets() {
            let drill = match (set.drill().name(), set.step()) {
                ("counter-shift", 1) => 0,
                ("counter-reach", _) => 1,
                _ => 2,
            };
            let calls: Vec<_> = set.cues().iter().filter_map(|cue| Some(cue.call()?.direction())).collect();
            thirds += u32::from(drill == 2 && calls.len() >= 3);
            called[drill].extend(calls);
        }
        for (lengths, called) in lengths.iter_mut().zip(&called) {
            lengths[called.len()] += 1;
        }
        for ((drill, longest), (hits, guesses)) in [(0, 2), (2, 3)].into_iter().zip(&mut named) {
            let targets = prescription.drills()[drill].targets();
            for (place, direction) in called[drill].iter().enumerate() {
                let before = &called[drill][..place];
                let full =
                    place >= longest && before[place - longest..].iter().all(|d| *d == before[place - 1]);
                let guess = targets.iter().find(|target| !full || target.direction != before[place - 1]);
                *hits += u32::from(guess.unwrap().direction == *direction);
                *guesses += 1;
            }
        }
    }
    for (drill, (calls, lengths)) in all.iter().zip(&lengths).enumerate() {
        assert!((calls.lengths.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        for (length, count) in lengths.iter().enumerate() {
            let chance = calls.lengths[length];
            let error = (chance * (1.0 - chance) / f64::from(sessions)).sqrt();
            let share = f64::from(*count) / f64::from(sessions);
            assert!(
                (share - chance).abs() <= 5.0 * error + 1e-4,
                "drill {drill}, {length} calls: {share} {chance}"
            );
        }
    }
    assert!(lengths[2][..2].iter().sum::<u32>() > 0, "some sessions end before the last drill");
    let third = f64::from(thirds) / f64::from(sessions);
    assert!(third < all[2].open[2] && all[2].open[2] < 3.0, "{third} {:?}", all[2].open);
    for (drill, weights, longest, (hits, guesses)) in
        [(0, vec![1; 3], 2, named[0]), (2, vec![1; 2], 3, named[1])]
    {
        let foreseen =
            Rule::Open { weights: &weights, longest: Some(longest) }.hit_chances(&all[drill].lengths);
        let rate = all[drill].share(&foreseen);
        let share = f64::from(hits) / f64::from(guesses);
        let error = (rate * (1.0 - rate) / f64::from(guesses)).sqrt();
        assert!((share - rate).abs() < 5.0 * error, "{drill}: {share} {rate}");
    }
}
