use proptest::prelude::*;

use super::*;
use crate::plan::prescription::Shape;
use crate::plan::prescription::set_counts::counts_of_gaps;

const FLAT: Shape = Shape::Flat { rate_thousandths: 1_250 };

fn table(least: u32, greatest: u32, shape: Shape) -> GapTable {
    GapTable::over(Millis(least), Millis(greatest), shape)
}

/// The exact share, computed apart in `count`. 40,000 first attempts under a fixed seed; five standard errors are a false alarm of 6e-7.
#[test]
fn sets_are_redrawn_as_often_as_computed() {
    let gaps = table(5_300, 14_100, FLAT);
    let rules = Rules { gaps: &gaps, latest: Millis(23_000), most_real: 99, blank_per_mille: 170 };
    let sets = 40_000;
    let redrawn = (0..sets)
        .filter(|&i| rules.draw(Seed::from_bytes([41; 32]).of_session(i), 3, |_| Millis(0)).1 > 0)
        .count();
    let weights: Vec<u64> = gaps.weights().collect();
    let counts = counts_of_gaps(&weights, gaps.least(), rules.latest, rules.blank_per_mille, 2);
    let (found, share) = (redrawn as f64 / sets as f64, counts.redraw_share());
    let error = (share * (1.0 - share) / sets as f64).sqrt();
    assert!((found - share).abs() < 5.0 * error, "{found} is not {share}");
}

/// The 40th call ends a session; what comes after it, a blank included, is left out.
#[test]
fn nothing_is_kept_after_the_last_real_cue_allowed() {
    let moment = |blank| Moment { at: Millis(0), gap: Millis(0), blank, duration: Millis(0) };
    let mut moments = [false, true, false, true, false].map(moment).to_vec();
    keep_real(&mut moments, 4);
    assert_eq!(moments.len(), 5);
    keep_real(&mut moments, 2);
    assert_eq!(moments.len(), 3);
}

proptest! {
    #[test]
    fn a_set_keeps_its_rules_and_its_streams(
        least in 4_000u32..9_000, width in 1u32..9_000, latest in 40_000u32..115_000, blank_per_mille in 0u16..251,
        seed: [u8; 32], number in 1u8..100,
    ) {
        let gaps = table(least, least + width, FLAT);
        let rules = Rules { gaps: &gaps, latest: Millis(latest), most_real: 99, blank_per_mille };
        let seed = Seed::from_bytes(seed);
        let (moments, redraws) = rules.draw(seed, number, |_| Millis(0));
        prop_assert!(real(&moments) >= FEWEST_CUES);
        prop_assert!(moments.last().is_some_and(|last| last.at <= Millis(latest)));
        prop_assert!(moments.windows(2).all(|pair| !(pair[0].blank && pair[1].blank)));
        prop_assert!(moments.windows(2).all(|pair| pair[0].at + pair[1].gap == pair[1].at));
        // Without blanks the gaps are the same, as long as nothing is redrawn: blanks have a stream of their own.
        let (plain, plain_redraws) = Rules { blank_per_mille: 0, ..rules }.draw(seed, number, |_| Millis(0));
        if redraws == 0 && plain_redraws == 0 {
            prop_assert!(moments.iter().map(|m| m.gap).eq(plain.iter().map(|m| m.gap)));
        }
    }
}
