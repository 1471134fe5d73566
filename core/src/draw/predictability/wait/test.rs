use super::*;
use crate::plan::prescription::{GapRange, Shape};

fn gap(shape: Shape) -> Wait {
    Wait::gap(&GapTable::new(GapRange::unchecked(Millis(5_000), Millis(15_000), shape)))
}

fn flat(rate_thousandths: u32) -> Wait {
    gap(Shape::Flat { rate_thousandths })
}

/// Shape; mean, deviation; hazard a second at 5 s, at the median, at 90 %; best brace of 0.2, 0.5 and 1 s: derived from
/// the closed forms of a truncated exponential and a uniform distribution. The means, deviations and quantiles are
/// those of `SciPy`'s `truncexpon` (b = 1, 1.5, 2) and `uniform`.
#[test]
fn means_and_braces_are_those_of_the_closed_forms() {
    for (wait, mean, deviation, braces) in [
        (gap(Shape::Even), 10.0, 2.89, [0.020, 0.050, 0.100]),
        (flat(1_000), 9.18, 2.82, [0.031, 0.077, 0.151]),
        (flat(1_500), 8.79, 2.73, [0.038, 0.093, 0.179]),
        (flat(2_000), 8.43, 2.63, [0.045, 0.110, 0.210]),
    ] {
        assert!((wait.mean() - mean).abs() < 0.006 && (wait.standard_deviation() - deviation).abs() < 0.006);
        for (width, brace) in [200, 500, 1_000].into_iter().zip(braces) {
            let found = wait.brace(Millis(width));
            assert!((found.chance - brace).abs() < 6e-4, "{width}: {found:?}");
            assert_eq!(found.after, Millis(5_000));
        }
    }
}

/// `SciPy` 1.17: `truncexpon(b, 5, 10 / b).ppf([.05, .25, .5, .75, .95])` for b = 1, 1.5, 2.
#[test]
fn quantiles_are_those_of_scipys_truncexpon() {
    for (rate, quantiles) in [
        (1_000, [5.3212, 6.7201, 8.7989, 11.4263, 14.1758]),
        (1_500, [5.2641, 6.4396, 8.2782, 10.8256, 13.9301]),
        (2_000, [5.2210, 6.2178, 7.8311, 10.2277, 13.6139]),
    ] {
        for (share, seconds) in [0.05, 0.25, 0.5, 0.75, 0.95].into_iter().zip(quantiles) {
            let found = flat(rate).quantile(share).as_secs_f64();
            assert!((found - seconds).abs() < 0.0021, "{rate} {share}: {found}");
        }
    }
}

/// V(10), V(20) and V(50), derived apart from this program.
#[test]
fn no_distribution_has_less_expected_hazard_than_the_least() {
    for (slots, least) in [(10, 0.2778), (20, 0.1602), (50, 0.0717)] {
        assert!((least_expected_hazard(slots) - least).abs() < 5.1e-5);
    }
    // The best distribution itself, built from the back: with n slots left the call comes now with V(n-1) / 2.
    let mut left = 1.0;
    let chances = (0..50).map(|slot| {
        let now = if slot == 49 { 1.0 } else { least_expected_hazard(49 - slot) / 2.0 };
        let chance = left * now;
        left -= chance;
        vec![chance / 200.0; 200]
    });
    let best = Wait::new(Millis(5_000), chances.flatten().collect());
    assert!((best.expected_hazard() - least_expected_hazard(50)).abs() < 1e-9);
    for wait in [gap(Shape::Even), flat(1_250), flat(3_000)] {
        assert!(wait.expected_hazard() > least_expected_hazard(50));
    }
}

/// Two slots of a hazard by hand: even over 400 ms has hazards 1/2 and 1, expected 3/4; f^2 integrates to 1 / 0.4 s.
#[test]
fn a_small_hazard_by_hand() {
    let wait = Wait::new(Millis(1_000), vec![1.0; 400]);
    assert!(wait.hazard().iter().zip([0.5, 1.0]).all(|(found, hand)| (found - hand).abs() < 1e-12));
    assert!((wait.expected_hazard() - 0.75).abs() < 1e-12);
    assert!((wait.density_square() - 2.5).abs() < 1e-9);
}

/// If every moment were blank with the same chance, two in a row too: with 22.31 % blanks and q = 0.15 the hazard is .150
/// a second to 10 s, .237 at 14 s and .281 at most; with 10 % blanks it reaches .63 \[derived and simulated apart from
/// this program\]. Never two in a row, as here, it rises further. Hazards a slot are compared a second: -ln(1 - h) / 0.2.
#[test]
fn blanks_soften_the_certainty_at_the_longest_gap() {
    let hazards = |wait: &Wait| -> Vec<f64> {
        wait.hazard().iter().take(60).map(|hazard| -(1.0 - hazard).ln() / 0.2).collect()
    };
    let at = |time: usize| (time - 5_000) / 200;
    let most = |hazards: &[f64]| hazards.iter().copied().fold(0.0, f64::max);
    let gap = flat(1_500);
    let often = |blank: f64| {
        let (mut sums, mut convolved) = (vec![0.0; 40_000], gap.chances().to_vec());
        for gaps in 0..3 {
            let chance = (1.0 - blank) * f64::powi(blank, gaps);
            for (slot, term) in convolved.iter().enumerate().take(sums.len() - gaps as usize * 5_000) {
                sums[gaps as usize * 5_000 + slot] += chance * term;
            }
            convolved = convolve(&mut RealFftPlanner::new(), &convolved, gap.chances(), 40_000);
        }
        // More than three gaps take longer than is looked at.
        sums[39_999] += blank.powi(3);
        hazards(&Wait::new(Millis(5_000), sums))
    };
    let softened = often(0.2231);
    assert!((softened[at(9_800)] - 0.150).abs() < 0.001, "{softened:?}");
    let around = f64::midpoint(softened[at(13_800)], softened[at(14_000)]);
    assert!((around - 0.237).abs() < 0.001, "{around}");
    // The last slot before 15 s is 0.2 s wide; the highest point is its end.
    assert!((most(&softened) - 0.281).abs() < 0.006, "{}", most(&softened));
    assert!((most(&often(0.1)) - 0.63).abs() < 0.04, "{}", most(&often(0.1)));
    let ours = hazards(&gap.with_blanks(0.223));
    assert!((ours[at(9_800)] - 0.150).abs() < 0.001 && most(&ours) > most(&softened));
    let bare = hazards(&gap);
    assert!(bare[at(14_800)].is_infinite(), "without blanks the longest gap is certain");
}

#[test]
fn blanks_add_a_second_gap_as_direct_sums_do() {
    let gap = Wait::new(Millis(3), vec![4.0, 1.0, 3.0]);
    let mixed = gap.with_blanks(0.25);
    let mut sums = vec![0.0; 8];
    for (i, p) in gap.chances().iter().enumerate() {
        sums[i] += 0.75 * p;
        for (j, q) in gap.chances().iter().enumerate() {
            sums[3 + i + j] += 0.25 * p * q;
        }
    }
    assert!(mixed.chances().iter().zip(&sums).all(|(found, sum)| (found - sum).abs() < 1e-12));
    assert_eq!(mixed.chances().len(), sums.len());
}
