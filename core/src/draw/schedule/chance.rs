//! Whole numbers drawn without bias from a generator. The rejection method is our own, so that no new release of a
//! library can change a drawn bit.

use rand::Rng;

/// A number from 0 to `n` - 1, each equally likely.
///
/// A word `x` from `next_u64` is accepted if `x <= u64::MAX - (2^64 mod n)`, and gives `x mod n`; otherwise the next
/// word is tried. The words accepted are the largest multiple of `n` that fits, so every remainder is hit equally
/// often. `n` must not be 0.
pub fn below(rng: &mut impl Rng, n: u64) -> u64 {
    let surplus = (u64::MAX % n + 1) % n;
    loop {
        let x = rng.next_u64();
        if x <= u64::MAX - surplus {
            return x % n;
        }
    }
}

/// The same over 128 bits: `x` is made of two words of `next_u64`, the high one first, and accepted if
/// `x <= u128::MAX - (2^128 mod n)`. `n` must not be 0.
pub fn below_wide(rng: &mut impl Rng, n: u128) -> u128 {
    let surplus = (u128::MAX % n + 1) % n;
    loop {
        let high = u128::from(rng.next_u64());
        let x = high << 64 | u128::from(rng.next_u64());
        if x <= u128::MAX - surplus {
            return x % n;
        }
    }
}

#[cfg(test)]
mod test {
    use std::convert::Infallible;

    use rand::TryRng;

    use super::*;

    /// Gives the words it was made with.
    struct Words(Vec<u64>);

    impl TryRng for Words {
        type Error = Infallible;
        fn try_next_u32(&mut self) -> Result<u32, Infallible> {
            unreachable!("draws use whole words")
        }
        fn try_next_u64(&mut self) -> Result<u64, Infallible> {
            Ok(self.0.remove(0))
        }
        fn try_fill_bytes(&mut self, _: &mut [u8]) -> Result<(), Infallible> {
            unreachable!("draws use whole words")
        }
    }

    /// 2^64 = 6 (mod 10), since it ends in ...616: the last six words are rejected.
    #[test]
    fn the_surplus_words_are_rejected() {
        let first_rejected = u64::MAX - 5;
        let mut rng = Words(vec![first_rejected, u64::MAX, first_rejected - 1, 3]);
        assert_eq!(below(&mut rng, 10), 9);
        assert_eq!(rng.0, [3]);
    }

    #[test]
    fn a_power_of_two_rejects_nothing() {
        assert_eq!(below(&mut Words(vec![u64::MAX]), 1 << 20), (1 << 20) - 1);
        assert_eq!(below(&mut Words(vec![u64::MAX]), 1), 0);
        assert_eq!(below(&mut Words(vec![u64::MAX, 7]), u64::MAX), 7, "one surplus word is the greatest");
    }

    /// 2^128 = 6 (mod 10), since it ends in ...456.
    #[test]
    fn two_words_make_one_wide_word_high_one_first() {
        assert_eq!(below_wide(&mut Words(vec![1, 5]), 1 << 100), (1 << 64) + 5);
        let mut rng = Words(vec![u64::MAX, u64::MAX - 5, 0, 4]);
        assert_eq!(below_wide(&mut rng, 10), 4);
        assert!(rng.0.is_empty());
    }
}
