//! The built-in drills with the second versions of `tests/data/ladders-2.toml`, for tests of what a version changes.

use std::sync::LazyLock;

use super::{Drill, FILES};

const SECOND: &str = include_str!("../../../../tests/data/ladders-2.toml");

/// Every drill, some of them with a second ladder.
pub(crate) fn drills() -> &'static [Drill] {
    static DRILLS: LazyLock<Vec<Drill>> = LazyLock::new(|| {
        let second = |name: &str| SECOND.split("# drill: ").find_map(|part| part.strip_prefix(name));
        let read = |(name, text): &(&str, &str)| {
            Drill::from_toml(name, &format!("{text}\n{}", second(name).unwrap_or_default())).unwrap()
        };
        FILES.iter().map(read).collect()
    });
    &DRILLS
}

/// Those with a second ladder.
pub(crate) fn with_second() -> impl Iterator<Item = &'static Drill> {
    drills().iter().filter(|drill| drill.ladders().len() == 2)
}
