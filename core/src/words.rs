//! A macro for enums that are written as plain words in files, on screens and in the journal, and read back from
//! them; and counts with their nouns. The words themselves are listed beside each enum.

use std::fmt;

/// For each enum: `ALL`, `name`, `from_name`, `Display`, and reading and writing by serde, from one list of words.
#[macro_export]
macro_rules! words {
    ($($kind:ident { $($variant:ident => $words:literal),+ $(,)? })+) => {$(
        impl $kind {
            /// Every variant, in the order of this file.
            pub const ALL: &[Self] = &[$(Self::$variant),+];

            /// Its words, as they are written in files and on screens.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $words),+ }
            }

            /// The variant with these words, if there is one.
            pub fn from_name(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.name() == name)
            }
        }

        impl std::fmt::Display for $kind {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.name())
            }
        }

        impl serde::Serialize for $kind {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(self.name())
            }
        }

        impl<'de> serde::Deserialize<'de> for $kind {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let name = String::deserialize(from)?;
                let known = || Self::ALL.iter().map(|one| one.name()).collect::<Vec<_>>().join("\", \"");
                Self::from_name(&name).ok_or_else(|| {
                    serde::de::Error::custom(format_args!("\"{name}\" is not one of \"{}\"", known()))
                })
            }
        }
    )+};
}

/// A count with its noun.
///
/// ```
/// use counterpoise_core::words::counted;
/// assert_eq!([0, 1, 2].map(|days| counted(days, "day")), ["0 days", "1 day", "2 days"]);
/// assert_eq!(counted(2_u64, "push"), "2 pushes");
/// ```
pub fn counted<N: Copy + fmt::Display + PartialEq + From<u8>>(count: N, noun: &str) -> String {
    let ending = match count {
        _ if count == N::from(1) => "",
        _ if noun.ends_with("sh") => "es",
        _ if noun.ends_with("ry") => return format!("{count} {}ies", noun.trim_end_matches('y')),
        _ => "s",
    };
    format!("{count} {noun}{ending}")
}

#[cfg(test)]
mod test {
    use super::counted;

    #[test]
    fn a_noun_agrees_with_its_count() {
        assert_eq!([0, 1, 2].map(|count| counted(count, "day")), ["0 days", "1 day", "2 days"]);
        assert_eq!([1, 2].map(|count| counted(count, "push")), ["1 push", "2 pushes"]);
        assert_eq!([1, 2].map(|count| counted(count, "entry")), ["1 entry", "2 entries"]);
    }
}
