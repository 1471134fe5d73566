use std::collections::HashMap;

use proptest::prelude::*;
use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::*;
use crate::draw::schedule::Seed;

fn count(kinds: usize, slack: u8, longest: Option<u8>, cues: usize) -> u128 {
    CoveredSequences::new(kinds, slack, longest, cues).expect("small enough").count(cues)
}

/// Every allowed sequence, in dictionary order, found by trying all of them.
fn brute(kinds: usize, slack: usize, longest: usize, cues: usize) -> Vec<Vec<usize>> {
    let least = (cues / kinds).saturating_sub(slack);
    let most = cues.div_ceil(kinds) + slack;
    (0..kinds.pow(cues as u32))
        .map(|number| {
            (0..cues).rev().map(|place| number / kinds.pow(place as u32) % kinds).collect::<Vec<_>>()
        })
        .filter(|sequence| {
            let even = (0..kinds).all(|kind| {
                let times = sequence.iter().filter(|&&other| other == kind).count();
                (least..=most).contains(&times)
            });
            even && sequence.chunk_by(|a, b| a == b).all(|run| run.len() <= longest)
        })
        .collect()
}

/// Exactly balanced sequences, counted by a recursion of its own in `scripts/reference.py` [derived].
#[test]
fn exactly_balanced_sequences_are_as_many_as_published_counts_say() {
    assert_eq!(count(4, 0, Some(1), 12), 41_304);
    assert_eq!(count(4, 0, Some(2), 12), 308_664);
    assert_eq!(count(4, 0, None, 12), 369_600, "12! / (3!)^4");
    assert_eq!(count(8, 0, Some(1), 16), 29_083_420_800);
    assert_eq!(count(8, 0, Some(2), 16), 81_729_648_000, "16! / (2!)^8");
    assert_eq!(count(4, 0, Some(1), 20), 134_631_576);
    assert_eq!(count(4, 0, Some(2), 20), 6_601_408_128);
    assert_eq!(count(2, 0, Some(2), 12), 208);
    assert_eq!(count(2, 0, Some(3), 12), 616);
    assert_eq!(count(2, 0, Some(2), 20), 8_196);
    assert_eq!(count(2, 0, Some(3), 20), 66_486);
}

/// OEIS A114938: two of each of n kinds, no two alike adjacent, from n = 1 [memory; a separate count agrees].
#[test]
fn pairs_without_neighbors_alike_are_oeis_a114938() {
    for (kinds, expected) in (1..).zip([0, 2, 30, 864, 39_480, 2_631_600]) {
        assert_eq!(count(kinds, 0, Some(1), 2 * kinds), expected, "{kinds} kinds");
    }
}

/// 2 to 4 of each of four kinds in 12, any run: the sum of the multinomial coefficients.
#[test]
fn loose_counts_without_a_streak_limit_are_sums_of_multinomials() {
    let factorial = |n: u128| (1..=n).product::<u128>();
    let mut expected = 0;
    for a in 2..=4 {
        for b in 2..=4 {
            for c in 2..=4 {
                if let Some(d @ 2..=4) = 12_u128.checked_sub(a + b + c) {
                    expected += factorial(12) / [a, b, c, d].map(factorial).iter().product::<u128>();
                }
            }
        }
    }
    assert_eq!(count(4, 1, None, 12), expected);
}

/// A count that does not lump: over the counts of each kind by name.
fn unlumped(kinds: usize, slack: usize, longest: usize, cues: usize) -> u128 {
    let least = (cues / kinds).saturating_sub(slack);
    let most = cues.div_ceil(kinds) + slack;
    let mut states = HashMap::from([((vec![0; kinds], kinds, 0), 1_u128)]);
    for _ in 0..cues {
        let mut next = HashMap::new();
        for ((times, last, run), ways) in states {
            for kind in 0..kinds {
                let run = if kind == last { run + 1 } else { 1 };
                if run <= longest && times[kind] < most {
                    let mut times = times.clone();
                    times[kind] += 1;
                    *next.entry((times, kind, run)).or_default() += ways;
                }
            }
        }
        states = next;
    }
    states
        .into_iter()
        .filter(|((times, ..), _)| times.iter().all(|&t| t >= least))
        .map(|(_, ways)| ways)
        .sum()
}

#[test]
fn lumped_and_unlumped_counts_agree_for_every_length() {
    for (kinds, slack, longest) in [(3, 1, 2), (3, 3, 3), (4, 2, 2), (5, 1, 1), (2, 1, 3)] {
        let covered = CoveredSequences::new(kinds, slack, Some(longest), 17).expect("small enough");
        for cues in 1..=17 {
            let expected = unlumped(kinds, usize::from(slack), usize::from(longest), cues);
            assert_eq!(covered.count(cues), expected, "{kinds} kinds, {cues} cues");
        }
    }
}

#[test]
fn every_sequence_has_its_number_in_dictionary_order() {
    for (kinds, slack, longest, cues) in
        [(3, 1, 2, 8), (2, 1, 3, 12), (4, 1, 1, 6), (5, 2, 2, 5), (4, 1, 3, 3)]
    {
        let covered = CoveredSequences::new(kinds, slack, Some(longest), cues).expect("small enough");
        let all = brute(kinds, usize::from(slack), usize::from(longest), cues);
        assert_eq!(covered.count(cues), all.len() as u128);
        for (index, sequence) in all.iter().enumerate() {
            assert_eq!(&covered.sequence(cues, index as u128), sequence);
        }
    }
}

/// After any beginning, the chances of the next direction are exactly the shares of the sequences that go on with it.
#[test]
fn after_every_beginning_the_next_direction_has_its_exact_share() {
    let covered = CoveredSequences::new(3, 1, Some(2), 9).expect("small enough");
    let all = brute(3, 1, 2, 9);
    for length in 0..9 {
        let mut beginnings: Vec<&[usize]> = all.iter().map(|sequence| &sequence[..length]).collect();
        beginnings.dedup();
        for beginning in beginnings {
            let mut walk = Walk::new(&covered, 9);
            for &kind in beginning {
                walk.call(kind);
            }
            for (kind, found) in walk.choices() {
                let expected = all.iter().filter(|s| s.starts_with(beginning) && s[length] == kind).count();
                assert_eq!(found, expected as u128, "{beginning:?}, then {kind}");
            }
        }
    }
}

/// Chi-square over all sequences of a small case, 40 draws of each expected, false alarm 1e-6.
#[test]
fn every_sequence_is_drawn_equally_often() {
    let covered = CoveredSequences::new(3, 1, Some(2), 6).expect("small enough");
    let all = brute(3, 1, 2, 6);
    let mut times: HashMap<Vec<usize>, f64> = all.iter().map(|sequence| (sequence.clone(), 0.0)).collect();
    let mut rng = Seed::from_bytes([31; 32]).stream(18);
    for _ in 0..all.len() * 40 {
        *times.get_mut(&covered.draw(6, &mut rng)).expect("only allowed sequences are drawn") += 1.0;
    }
    let square: f64 = times.values().map(|times| (times - 40.0).powi(2) / 40.0).sum();
    let limit = ChiSquared::new((all.len() - 1) as f64).expect("positive").inverse_cdf(1.0 - 1e-6);
    assert!(square < limit, "{square} against {limit}, {} sequences", all.len());
}

/// How often the best guesser who knows N is right, by its own count of what may follow, over `draws` sequences.
fn best_guess(covered: &CoveredSequences, cues: usize, draws: u32) -> f64 {
    let mut rng = Seed::from_bytes([32; 32]).stream(18);
    let mut sum = 0.0;
    for _ in 0..draws {
        let mut walk = Walk::new(covered, cues);
        for kind in covered.draw(cues, &mut rng) {
            let counts: Vec<f64> = walk.choices().map(|(_, count)| count as f64).collect();
            sum += counts.iter().copied().fold(0.0, f64::max) / counts.iter().sum::<f64>();
            walk.call(kind);
        }
    }
    sum / f64::from(draws) / cues as f64
}

/// The guess rates that `scripts/reference.py` computes, to their last digit [derived]. A sequence's own mean scatters by less than
/// .1, so over 4,000 sequences five standard errors are below .008 at worst and far less in practice; .004 is allowed.
#[test]
fn the_best_guesser_wins_as_often_as_the_recursion_says() {
    let rows = [
        (4, 12, 1, 2, 0.355),
        (8, 40, 2, 2, 0.171),
        (4, 12, 0, 1, 0.509),
        (4, 12, 0, 2, 0.450),
        (8, 16, 0, 1, 0.314),
        (8, 16, 0, 2, 0.296),
        (4, 24, 0, 1, 0.479),
        (4, 24, 0, 2, 0.413),
    ];
    for (kinds, cues, slack, longest, expected) in rows {
        let covered = CoveredSequences::new(kinds, slack, Some(longest), cues).expect("small enough");
        let rate = best_guess(&covered, cues, 4_000);
        assert!(
            (rate - expected).abs() < 0.004,
            "k = {kinds}, n = {cues}, r = {longest}: {rate}, not {expected}"
        );
    }
}

#[test]
fn what_cannot_be_counted_is_refused() {
    assert_eq!(CoveredSequences::new(10, 30, Some(3), 40).err(), Some(TooMany::States));
    assert_eq!(CoveredSequences::new(10, 255, Some(3), 40).err(), Some(TooMany::States));
    // 9^40 is 1.7 x 2^126; 10^40 is 29 x 2^128, of which slack 2 leaves out most but not 28 in 29.
    assert!(CoveredSequences::new(9, 2, Some(3), 40).is_ok());
    assert_eq!(CoveredSequences::new(10, 2, Some(3), 40).err(), Some(TooMany::Sequences));
}

#[test]
fn tables_of_eight_directions_at_slack_2_stay_below_16_megabytes() {
    let covered = CoveredSequences::new(8, 2, Some(2), 40).expect("countable");
    assert!(covered.bytes() < 16_000_000, "{} bytes", covered.bytes());
    assert!((2..=40).all(|cues| covered.count(cues) > 0));
}

/// Fixed values under a named seed: a change here is a new method.
#[test]
fn the_first_sequence_of_a_named_seed_stays_as_it_is() {
    let covered = CoveredSequences::new(5, 1, Some(2), 19).expect("countable");
    let drawn = covered.draw(19, &mut Seed::from_bytes([1; 32]).stream(18));
    assert_eq!(drawn, [2, 0, 4, 0, 1, 2, 4, 1, 0, 3, 0, 2, 3, 4, 2, 4, 3, 1, 4]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_drawn_sequence_keeps_both_limits(
        kinds in 2usize..9, slack in 1u8..3, longest in 1u8..5, cues in 1usize..41, seed: [u8; 32],
    ) {
        let covered = CoveredSequences::new(kinds, slack, Some(longest), 40).expect("countable");
        let drawn = covered.draw(cues, &mut Seed::from_bytes(seed).stream(18));
        prop_assert_eq!(drawn.len(), cues);
        prop_assert!(drawn.chunk_by(|a, b| a == b).all(|run| run.len() <= usize::from(longest)));
        for kind in 0..kinds {
            let times = drawn.iter().filter(|&&other| other == kind).count();
            prop_assert!(times + usize::from(slack) >= cues / kinds);
            prop_assert!(times <= cues.div_ceil(kinds) + usize::from(slack));
        }
    }
}
