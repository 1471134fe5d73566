//! The order in which the patches of a floor course are walked: drawn anew each time, and never the same as the
//! last one.

use rand::Rng;

use super::chance::below;

/// The fewest patches of a course: with two there would be no choice but to alternate.
pub const FEWEST: usize = 3;
/// The most patches \[judgment: a stretch of four steps holds no more\].
pub const MOST: usize = 8;

/// A new order of `patches` patches, each as its place in the list: every order but `last` equally likely.
///
/// The list is shuffled from the last place down, each changing places with one not above it (Fisher and Yates 1938);
/// if that gives the last order, the draw is made again. With fewer than two patches there is only one order.
///
/// ```
/// use counterpoise_core::draw::schedule::{Seed, floor_order};
/// let mut rng = Seed::from_bytes([7; 32]).course();
/// let today = floor_order::order(4, &[2, 0, 3, 1], &mut rng);
/// assert_ne!(today, [2, 0, 3, 1]);
/// ```
pub fn order(patches: usize, last: &[usize], rng: &mut impl Rng) -> Vec<usize> {
    loop {
        let mut order: Vec<usize> = (0..patches).collect();
        for place in (1..patches).rev() {
            order.swap(place, below(rng, place as u64 + 1) as usize);
        }
        if order != last || patches < 2 {
            return order;
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use statrs::distribution::{ChiSquared, ContinuousCDF};

    use super::*;
    use crate::draw::schedule::Seed;

    #[test]
    fn every_order_but_the_last_one_comes_equally_often() {
        let last = [1, 0, 2];
        let mut times = HashMap::<Vec<usize>, f64>::new();
        for i in 0..5_000 {
            let mut rng = Seed::from_bytes([61; 32]).of_session(i).course();
            *times.entry(order(3, &last, &mut rng)).or_default() += 1.0;
        }
        assert_eq!(times.len(), 5, "of six orders: {times:?}");
        assert!(!times.contains_key(last.as_slice()));
        // Chi-square, false alarm 1e-6.
        let square: f64 = times.values().map(|times| (times - 1_000.0).powi(2) / 1_000.0).sum();
        assert!(square < ChiSquared::new(4.0).expect("positive").inverse_cdf(1.0 - 1e-6), "{times:?}");
    }

    #[test]
    fn a_course_of_another_length_or_of_one_patch_has_an_order_too() {
        let mut rng = Seed::from_bytes([62; 32]).course();
        assert_eq!(order(1, &[0], &mut rng), [0]);
        assert_eq!(order(0, &[], &mut rng), Vec::<usize>::new());
        let mut eight = order(8, &[2, 1, 0], &mut rng);
        eight.sort_unstable();
        assert_eq!(eight, (0..8).collect::<Vec<_>>());
    }

    #[test]
    fn a_seed_replays_its_order() {
        let drawn = || order(6, &[], &mut Seed::from_bytes([63; 32]).course());
        assert_eq!(drawn(), drawn());
    }
}
