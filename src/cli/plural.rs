//! How are things counted in text? "1 set", "2 sets".

use std::fmt::Display;

/// A count and its noun, which takes an s unless the count is 1.
pub(super) fn counted<N: Copy + Display + PartialEq + From<u8>>(count: N, noun: &str) -> String {
    let ending = if count == N::from(1) { "" } else { "s" };
    format!("{count} {noun}{ending}")
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn only_one_thing_is_singular() {
        assert_eq!([0_u32, 1, 2].map(|count| counted(count, "day")), ["0 days", "1 day", "2 days"]);
        assert_eq!(counted(1_usize, "practice"), "1 practice");
    }
}
