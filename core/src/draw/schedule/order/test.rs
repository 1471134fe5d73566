use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::*;
use crate::draw::schedule::Seed;

/// The stationary rate of the best guesser: runs of 1, 2, ... have the weights 1, 1/k, 1/k^2, ..., and at the longest run one
/// kind fewer is left (`scripts/reference.py` [derived]). The
/// guesser names the first direction that the streak limit allows. 400,000 calls have a standard error of at most
/// .0008; five of them are a false alarm of 6e-7.
#[test]
fn the_best_guesser_wins_as_often_as_the_chain_says() {
    let rows = [
        (2, 2, 0.6667),
        (2, 3, 0.5714),
        (2, 4, 0.5333),
        (3, 2, 0.3750),
        (4, 1, 0.3333),
        (4, 2, 0.2667),
        (4, 3, 0.2540),
        (8, 1, 0.1429),
        (8, 2, 0.1270),
        (8, 3, 0.1252),
    ];
    for (kinds, longest, expected) in rows {
        let calls = 400_000;
        let mut rng = Seed::from_bytes(
            [kinds as u8, longest, 3]
                .into_iter()
                .chain([0; 29])
                .collect::<Vec<u8>>()
                .try_into()
                .expect("32 bytes"),
        )
        .stream(18);
        let weights = vec![1; kinds];
        let mut streak = Streak::default();
        let mut hits = 0;
        for _ in 0..calls {
            let guess = usize::from(streak.run == longest && streak.last == 0);
            hits += u32::from(streak.next(&weights, Some(longest), &mut rng) == guess);
        }
        let rate = f64::from(hits) / f64::from(calls);
        let tolerance = 5.0 * (expected * (1.0 - expected) / f64::from(calls)).sqrt() + 0.00005;
        assert!((rate - expected).abs() < tolerance, "k = {kinds}, r = {longest}: {rate}, not {expected}");
    }
}

/// Chi-square over which direction follows which, false alarm 1e-6.
#[test]
fn directions_follow_each_other_by_weight_among_those_allowed() {
    let weights = [5, 1, 3];
    let calls = 300_000;
    let mut rng = Seed::from_bytes([21; 32]).stream(18);
    let mut streak = Streak::default();
    let mut counts = [[[0.0; 3]; 3]; 2];
    for _ in 0..calls {
        let Streak { last, run } = streak;
        let next = streak.next(&weights, Some(2), &mut rng);
        if run > 0 {
            counts[usize::from(run) - 1][last][next] += 1.0;
        }
    }
    let mut square = 0.0;
    for (run, rows) in counts.iter().enumerate() {
        for (last, row) in rows.iter().enumerate() {
            let allowed: Vec<usize> = (0..3).filter(|&next| run == 0 || next != last).collect();
            let total: f64 = row.iter().sum();
            let weight: u32 = allowed.iter().map(|&next| weights[next]).sum();
            assert!(run == 0 || row[last] == 0.0, "a third in a row");
            for next in allowed {
                let expected = total * f64::from(weights[next]) / f64::from(weight);
                square += (row[next] - expected).powi(2) / expected;
            }
        }
    }
    // Three rows of three classes and three of two: 3 x 2 + 3 x 1 degrees of freedom.
    let limit = ChiSquared::new(9.0).expect("positive").inverse_cdf(1.0 - 1e-6);
    assert!(square < limit, "{square} against {limit}");
}

#[test]
fn one_direction_without_a_limit_comes_every_time() {
    let mut rng = Seed::from_bytes([22; 32]).stream(18);
    let mut streak = Streak::default();
    assert!((0..500).all(|_| streak.next(&[4], None, &mut rng) == 0));
}

/// Fixed values under a named seed: a change here is a new method.
#[test]
fn the_first_directions_of_a_named_seed_stay_as_they_are() {
    let mut rng = Seed::from_bytes([1; 32]).stream(18);
    let mut streak = Streak::default();
    let drawn: Vec<usize> = (0..16).map(|_| streak.next(&[2, 1, 1, 3], Some(2), &mut rng)).collect();
    assert_eq!(drawn, [0, 3, 1, 2, 3, 2, 3, 3, 0, 1, 2, 2, 3, 1, 3, 0]);
}
