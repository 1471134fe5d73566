use rand::rngs::ChaCha12Rng;
use rand::{RngExt, SeedableRng};

use super::{Chain, SetRules, chances_to_fit, counts_of_gaps, weights};
use crate::plan::prescription::{GapRange, Shape};
use crate::units::Millis;

fn gaps(least: u32, greatest: u32, shape: Shape) -> GapRange {
    GapRange::unchecked(Millis(least), Millis(greatest), shape)
}

const USUAL: Shape = Shape::Flat { rate_thousandths: 1_250 };

/// The rules of a set whose calls last no time.
fn plain(gaps: GapRange, until: Millis, blank_per_mille: u16) -> SetRules {
    let calls = Chain::of(&[Millis(0)], &[1], None);
    let (weights, least) = (weights(gaps), gaps.least());
    SetRules { weights, least, until, blank_per_mille, least_real: 2, most_real: u32::MAX, calls }
}

/// P(k gaps fit) by direct sums, slot by slot.
fn direct(weights: &[u64], least: usize, until: usize, k: usize) -> f64 {
    let total: u64 = weights.iter().sum();
    let mut ends = vec![0.0; until + 1];
    ends[0] = 1.0;
    for _ in 0..k {
        let mut next = vec![0.0; until + 1];
        for (start, chance) in ends.iter().enumerate().filter(|(_, chance)| **chance > 0.0) {
            for (slot, weight) in weights.iter().enumerate() {
                if let Some(end) = next.get_mut(start + least + slot) {
                    *end += chance * *weight as f64 / total as f64;
                }
            }
        }
        ends = next;
    }
    ends.iter().sum()
}

#[test]
fn the_transform_agrees_with_direct_sums() {
    for (table, least, last) in [
        (vec![7, 1, 1, 5, 0, 2], 4, 50),
        (vec![1; 40], 11, 170),
        ((0..60).map(|slot| 1_000 - 13 * slot).collect(), 9, 300),
    ] {
        let fits = chances_to_fit(&table, Millis(least), Millis(last), usize::MAX, &[0, 7]);
        assert_eq!(fits.len(), (last / least) as usize + 1);
        for (k, fit) in fits.iter().enumerate() {
            for (fit, lasts) in fit.iter().zip([0, 7]) {
                let sums = direct(&table, least as usize, last as usize - lasts, k);
                assert!((fit - sums).abs() < 1e-9, "{k} gaps and {lasts}: {fit} and {sums}");
            }
        }
    }
}

/// A small case by hand: gaps of 1 or 2 ms, evenly; 3 ms; half of the events after a real one blank; one real cue.
#[test]
fn a_small_case_counted_by_hand() {
    // Fits: 1 gap always, 2 gaps unless 2+2 (3/4), 3 gaps only 1+1+1 (1/8). So K = 1, 2, 3 with 2/8, 5/8, 1/8.
    // Of 1 event, real 1/2. Of 2: none real never (no two blanks in a row); one real 3/4, two 1/4.
    // Of 3: BRB 1/4 has one; BRR, RBR (1/4 each) and RRB (1/8) have two; RRR (1/8) three.
    let counts = counts_of_gaps(&[1, 1], Millis(1), Millis(3), 500, 1);
    let none = 2.0 / 8.0 * 0.5;
    let one = 2.0 / 8.0 * 0.5 + 5.0 / 8.0 * 0.75 + 1.0 / 8.0 * 0.25;
    let two = 5.0 / 8.0 * 0.25 + 1.0 / 8.0 * 0.625;
    let three = 1.0 / 8.0 * 0.125;
    assert!((counts.redraw_share() - none).abs() < 1e-12);
    for (chance, expected) in counts.chances().iter().zip([0.0, one, two, three]) {
        assert!((chance - expected / (1.0 - none)).abs() < 1e-12, "{counts:?}");
    }
}

/// Draws sets by their definition, with gaps from inversion of the truncated exponential in floating
/// point, which shares no code with the table.
fn simulated(
    least: f64,
    width: f64,
    rate: f64,
    until: f64,
    blank: f64,
    draws: u32,
    seed: u64,
) -> (f64, Vec<f64>) {
    let mut rng = ChaCha12Rng::seed_from_u64(seed);
    let mut counts = [0_u32; 40];
    for _ in 0..draws {
        let (mut at, mut real, mut was_blank) = (0.0, 0, false);
        loop {
            let u: f64 = rng.random();
            at += least
                + if rate > 0.0 { -(1.0 - u * (1.0 - (-rate).exp())).ln() / rate * width } else { u * width };
            if at > until {
                break;
            }
            was_blank = !was_blank && rng.random::<f64>() < blank;
            real += usize::from(!was_blank);
        }
        counts[real] += 1;
    }
    let kept = f64::from(draws - counts[0] - counts[1]);
    let chances =
        counts.iter().enumerate().map(|(n, c)| if n < 2 { 0.0 } else { f64::from(*c) / kept }).collect();
    (1.0 - kept / f64::from(draws), chances)
}

/// Against an independent simulation of 100,000 sets a case. Allowed: 5 standard errors (sqrt(p (1 - p) / n), one
/// false alarm in about 1.7 million comparisons) plus 0.0005 for the one-millisecond grid.
#[test]
fn counts_agree_with_an_independent_simulation() {
    const DRAWS: u32 = 100_000;
    for (case, (least, greatest, rate, work, recover, blanks)) in [
        (5_000, 15_000, 1_250, 60_000, 5_000, 100),
        (5_000, 15_000, 1_250, 30_000, 5_000, 100),
        (4_300, 21_700, 3_100, 77_000, 3_500, 230),
        (6_100, 13_900, 0, 45_000, 2_500, 0),
    ]
    .into_iter()
    .enumerate()
    {
        let shape = if rate == 0 { Shape::Even } else { Shape::Flat { rate_thousandths: rate } };
        let range = gaps(least, greatest, shape);
        let last = Millis(work - recover);
        let exact = counts_of_gaps(&weights(range), range.least(), last, blanks, 2);
        let (redrawn, chances) = simulated(
            f64::from(least),
            f64::from(greatest - least),
            f64::from(rate) / 1000.0,
            f64::from(last.0),
            f64::from(blanks) / 1000.0,
            DRAWS,
            71 + case as u64,
        );
        let close = |exact: f64, seen: f64, n: f64| {
            (exact - seen).abs() <= 5.0 * (exact * (1.0 - exact) / n).sqrt() + 0.0005
        };
        assert!(
            close(exact.redraw_share(), redrawn, DRAWS.into()),
            "case {case}: {} {redrawn}",
            exact.redraw_share()
        );
        let kept = f64::from(DRAWS) * (1.0 - redrawn);
        for (n, chance) in exact.chances().iter().enumerate() {
            assert!(close(*chance, chances[n], kept), "case {case}, {n} cues: {chance} {}", chances[n]);
        }
    }
}

/// Against 400,000 sets a row drawn with `truncexpon` of `SciPy` 1.17, within 5 standard errors of those figures.
#[test]
fn short_sets_are_drawn_again_as_often_as_scipy_finds() {
    for (least, greatest, shape, recover, blanks, share) in [
        (5_000, 15_000, USUAL, 2_000, 100, 0.0869),
        (5_000, 15_000, USUAL, 5_000, 100, 0.1633),
        (5_000, 15_000, USUAL, 5_000, 0, 0.0485),
        (5_000, 15_000, Shape::Even, 5_000, 100, 0.2608),
        (5_000, 15_000, Shape::Even, 5_000, 0, 0.1254),
        (12_000, 40_000, USUAL, 2_000, 100, 0.9778),
    ] {
        let until = Millis(30_000 - recover);
        let exact = plain(gaps(least, greatest, shape), until, blanks).redraw_share_above(0.0).unwrap();
        assert!((exact - share).abs() < 5.0 * (share * (1.0 - share) / 4e5_f64).sqrt(), "{exact} {share}");
    }
}

#[test]
fn the_short_way_to_the_redrawn_share_gives_the_same() {
    for (range, until, blanks) in [
        (gaps(5_000, 15_000, USUAL), 25_000, 100),
        (gaps(5_000, 15_000, USUAL), 31_000, 250),
        (gaps(5_000, 15_000, USUAL), 55_000, 250),
        (gaps(4_000, 5_000, Shape::Even), 12_500, 250),
        (gaps(4_000, 5_000, Shape::Even), 118_000, 250),
        (gaps(9_000, 60_000, Shape::Even), 100_000, 0),
    ] {
        let long = counts_of_gaps(&weights(range), range.least(), Millis(until), blanks, 2).redraw_share();
        let above = |limit: f64| plain(range, Millis(until), blanks).redraw_share_above(limit);
        for limit in [0.0, 0.02, 0.05, 0.2, long - 1e-9, long + 1e-9] {
            match above(limit) {
                Some(short) => {
                    assert!((long - short).abs() < 1e-9 && short > limit, "{range:?}: {long} {short}");
                }
                None => assert!(long <= limit + 1e-9, "{range:?}: {long} {limit}"),
            }
        }
    }
}

/// Weights from the recipe of the contract, for a table that can be done by hand: N = 4, c = 2000.
#[test]
fn the_weights_are_those_of_the_recipe() {
    let first: u64 = 1 << 40;
    let table = weights(gaps(4_000, 4_004, Shape::Flat { rate_thousandths: 2_000 }));
    assert_eq!(table, [first, first / 2, first / 4, first / 8]);
    assert_eq!(weights(gaps(4_000, 4_003, Shape::Even)), [1, 1, 1]);
}
