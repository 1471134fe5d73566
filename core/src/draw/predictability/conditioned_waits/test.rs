use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};

use super::*;

/// Calls that last no time, as many as fit.
fn set(until: u32) -> Set<'static> {
    static NO_TIME: std::sync::LazyLock<Vec<Vec<(Millis, f64)>>> =
        std::sync::LazyLock::new(|| vec![vec![(Millis(0), 1.0)]]);
    Set { until: Millis(until), durations: &NO_TIME, most: usize::MAX }
}

/// Waits of 1 or 2 s alike, 3 s of room, by hand. Sets: 1 1 1 (1/8), 1 1 2 -> 1 1 (1/8), 1 2 (1/4), 2 1 (1/4); 2 2 has
/// one call and is drawn again. Kept 3/4. Waits of 1 s: 3/8 + 2/8 + 1/4 + 1/4 = 9/8; of 2 s: 1/2.
#[test]
fn a_small_set_by_hand() {
    let drawn = Wait::new(Millis(1), vec![0.5, 0.5]);
    let delivered = ConditionedWaits::new(&drawn, set(3), &[1.0; 4]);
    let (ones, twos) = (9.0 / 8.0, 1.0 / 2.0);
    assert!((delivered.calls() - (ones + twos) / 0.75).abs() < 1e-9);
    let found = delivered.all.chances();
    assert!((found[0] - ones / (ones + twos)).abs() < 1e-9, "{found:?}");
    // The first wait: 1 s in 1/8 + 1/8 + 1/4, 2 s in 1/4. The last one: 1 s in 1/8 + 1/8 + 1/4, 2 s in 1/4.
    assert!((delivered.edge.chances()[0] - 2.0 / 3.0).abs() < 1e-9);
    // By the clock: at the start 1 s is best (1/2 of 3/4); after 1 s either is as good: of the 1/2 that began
    // with 1 s, half; after 2 s only 1 s fits, which comes with 1/2 x 1/2; after 1 1 only 1 s, 1/4 x 1/2.
    let caught = (0.5 + 0.25 + 0.25 + 0.125) / 0.75;
    let calls = (ones + twos) / 0.75;
    assert!((delivered.brace_by_the_clock(Millis(1)) - caught / calls).abs() < 1e-9);
    // Two classes, 1 s and 2 s, are the same question.
    assert!((delivered.class_guess(&[Millis(2)]) - caught / calls).abs() < 1e-9);
}

/// Two sets, of which the second has room for two calls only: wait number 3 is heard in one of them.
#[test]
fn a_set_cut_by_the_sessions_last_call_counts_for_less() {
    let drawn = Wait::new(Millis(1), vec![0.5, 0.5]);
    let delivered = ConditionedWaits::new(&drawn, set(3), &[2.0, 2.0, 1.0]);
    assert!((delivered.calls() - (2.0 * 2.0 + 1.0 / 6.0)).abs() < 1e-9);
}

/// 200,000 sets drawn by simple means; every bin within 5 standard errors.
#[test]
fn the_waits_agree_with_drawn_sets() {
    let drawn =
        Wait::new(Millis(50), (0..100).map(|slot| 200.0 - f64::from(slot)).collect()).with_blanks(0.1);
    let until = 240;
    let mut rng = ChaCha12Rng::from_seed([41; 32]);
    let totals: Vec<f64> = drawn
        .chances()
        .iter()
        .scan(0.0, |total, chance| {
            *total += chance;
            Some(*total)
        })
        .collect();
    let mut bins = [0_u32; 10];
    let (mut waits, mut first, mut last) = (0_u32, 0_u32, 0_u32);
    let sets = 200_000;
    for _ in 0..sets {
        let set = loop {
            let (mut at, mut set) = (0, Vec::new());
            loop {
                let x: f64 = rng.random();
                let wait = 50 + totals.partition_point(|total| *total <= x).min(totals.len() - 1);
                at += wait;
                if at > until {
                    break;
                }
                set.push(wait);
            }
            if set.len() >= 2 {
                break set;
            }
        };
        first += u32::from(set[0] < 100);
        last += u32::from(set[set.len() - 1] < 100);
        for wait in set {
            waits += 1;
            bins[((wait - 50) / 20).min(9)] += 1;
        }
    }
    let delivered = ConditionedWaits::new(&drawn, set(until as u32), &[1.0; 5]);
    let near = |count: u32, of: u32, chance: f64| {
        let error = (chance * (1.0 - chance) / f64::from(of)).sqrt();
        let share = f64::from(count) / f64::from(of);
        assert!((share - chance).abs() < 5.0 * error, "{share} and {chance}");
    };
    assert!((f64::from(waits) / f64::from(sets) - delivered.calls()).abs() < 0.01);
    for (bin, count) in bins.into_iter().enumerate() {
        let chances = delivered.all.chances().iter().skip(bin * 20);
        let chance: f64 = if bin == 9 { chances.sum() } else { chances.take(20).sum() };
        if chance > 0.0 { near(count, waits, chance) } else { assert_eq!(count, 0) }
    }
    let early: f64 = delivered.edge.chances()[..50].iter().sum();
    near(first, sets, early);
    near(last, sets, early);
}

/// While shorter waits are the likelier ones the earliest brace is best whatever the clock says; if longer ones are, it
/// tells when they no longer fit.
#[test]
fn the_clock_helps_only_where_longer_waits_are_likelier() {
    for (rising, until, helps) in [(false, 1_200, false), (true, 1_700, true), (true, 60_000, false)] {
        let weights = (1..=1_000).map(|slot| if rising { f64::from(slot) } else { f64::from(1_001 - slot) });
        let delivered =
            ConditionedWaits::new(&Wait::new(Millis(500), weights.collect()), set(until), &[1.0; 130]);
        let blind = delivered.all.brace(Millis(50)).chance;
        let clock = delivered.brace_by_the_clock(Millis(50));
        assert!(clock >= blind - 1e-9, "{clock} {blind}");
        assert_eq!(clock > blind * 1.05, helps, "{until}: {clock} {blind}");
    }
}

/// Waits of 1 or 2 alike, calls that last 2, 9 of room: 1 1 (then 1 more would end at 9: 1 1 1 fits, 1 1 2 does not).
/// Kept: all, for 2 2 ends at 8. Heard: two waits always, a third of 1 after 1 1: 1/4 x 1/2.
#[test]
fn calls_that_last_take_their_time() {
    let drawn = Wait::new(Millis(1), vec![0.5, 0.5]);
    let durations: Vec<Vec<(Millis, f64)>> = (0..5).map(|calls| vec![(Millis(2 * calls), 1.0)]).collect();
    let delivered = ConditionedWaits::new(&drawn, Set { durations: &durations, ..set(9) }, &[1.0; 9]);
    assert!((delivered.calls() - 2.125).abs() < 1e-9);
    assert!((delivered.all.chances()[0] - 1.125 / 2.125).abs() < 1e-9);
    // Half of all single calls last 2 and half 4, alike each time: 8 of room after 1 1 with 2 2 2 or less.
    let either = vec![
        vec![(Millis(0), 1.0)],
        vec![(Millis(2), 0.5), (Millis(4), 0.5)],
        vec![(Millis(4), 0.25), (Millis(6), 0.5), (Millis(8), 0.25)],
        vec![(Millis(6), 0.125), (Millis(8), 0.375), (Millis(10), 0.375), (Millis(12), 0.125)],
    ];
    let delivered = ConditionedWaits::new(&drawn, Set { durations: &either, ..set(9) }, &[1.0; 9]);
    // Kept: 1/4 with 4 always, 1/2 with 6 unless 2 2, 1/4 with 8 never (1 1 would end at 10).
    let kept = 0.25 + 0.5 * 0.75;
    let third = 0.125 * 0.25 * 0.5;
    assert!((delivered.calls() - (2.0 + third / kept)).abs() < 1e-9, "{}", delivered.calls());
}

/// Waits of 1 or 2 alike, 5 of room, at most 3 calls. Counts: 2 with 2 2 (1/4: 2 2 1 fits, 2 2 1 is 5), so by hand over
/// the 32 sequences of five waits, kept are those with R = 2 or 3.
#[test]
fn a_set_with_too_many_calls_is_drawn_again() {
    let drawn = Wait::new(Millis(1), vec![0.5, 0.5]);
    let delivered = ConditionedWaits::new(&drawn, Set { most: 3, ..set(5) }, &[1.0; 9]);
    let (mut kept, mut ones, mut heard, mut first) = (0, 0, 0, 0);
    for sequence in 0..64_u32 {
        let mut at = 0;
        let waits: Vec<u32> = (0..6)
            .map(|place| 1 + (sequence >> place & 1))
            .take_while(|wait| {
                at += wait;
                at <= 5
            })
            .collect();
        if (2..=3).contains(&waits.len()) {
            kept += 1;
            heard += waits.len();
            ones += waits.iter().filter(|wait| **wait == 1).count();
            first += u32::from(waits[0] == 1);
        }
    }
    assert!((delivered.calls() - heard as f64 / f64::from(kept)).abs() < 1e-9);
    assert!((delivered.all.chances()[0] - ones as f64 / heard as f64).abs() < 1e-9);
    assert!((delivered.edge.chances()[0] - f64::from(first) / f64::from(kept)).abs() < 1e-9);
}
