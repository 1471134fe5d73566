//! A macro for enums that are written as plain words in files, on screens and in the journal, and read back from
//! them; counts with their nouns; days as they are said; and which characters of foreign text may be printed. The words themselves are listed
//! beside each enum.

use std::fmt;

use jiff::ZonedDateTime;
use jiff::civil::Date;

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

/// A day as it is said to a person: "Monday, November 2", and with its year if that is not the year of `today`.
///
/// ```
/// use counterpoise_core::words::day_words;
/// use jiff::civil::date;
/// assert_eq!(day_words(date(2026, 11, 2), date(2026, 12, 31)), "Monday, November 2");
/// assert_eq!(day_words(date(2026, 11, 2), date(2027, 1, 1)), "Monday, November 2, 2026");
/// ```
pub fn day_words(day: Date, today: Date) -> String {
    day.strftime(if day.year() == today.year() { "%A, %B %-d" } else { "%A, %B %-d, %Y" }).to_string()
}

/// A moment as it is said to a person: "Monday, November 2, 10:00", with the year as for a day.
pub fn moment_words(at: &ZonedDateTime, today: Date) -> String {
    format!("{}, {}", day_words(at.date(), today), at.strftime("%H:%M"))
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

/// Text from outside, such as a title, a name or a path, that is safe to print. Characters that a terminal obeys, that turn
/// the direction of a line or that nobody sees are written out. It is the only rule for this: what comes in is checked by it
/// too.
///
/// ```
/// use counterpoise_core::words::Printable;
/// assert_eq!(&*Printable::of("Jürgen 李 \u{202e}exe\u{1b}[2J"), "Jürgen 李 \\u{202e}exe\\u{1b}[2J");
/// assert_eq!(Printable::first_hidden("so\u{200b}so"), Some('\u{200b}'));
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printable(String);

impl Printable {
    /// The text with what may not be printed written out, as `\u{202e}`.
    pub fn of(text: &str) -> Self {
        let mut printable = String::with_capacity(text.len());
        for (character, is_hidden) in with_hidden(text) {
            if is_hidden {
                printable.extend(character.escape_default());
            } else {
                printable.push(character);
            }
        }
        Self(printable)
    }

    /// JSON text in which the same characters are written as JSON writes them, so that it says the same and no terminal obeys it.
    ///
    /// ```
    /// use counterpoise_core::words::Printable;
    /// assert_eq!(Printable::json("{\"a\": \"\u{9b}1m\u{e0041}\"}\n"), "{\"a\": \"\\u009b1m\\udb40\\udc41\"}\n");
    /// ```
    pub fn json(text: &str) -> String {
        let mut printable = String::with_capacity(text.len());
        for (character, is_hidden) in with_hidden(text) {
            // Between values a line ends; within one its end is written out already.
            if is_hidden && character != '\n' {
                let units = &mut [0; 2];
                let units = character.encode_utf16(units).iter();
                printable.extend(units.map(|unit| format!("\\u{unit:04x}")));
            } else {
                printable.push(character);
            }
        }
        printable
    }

    /// The first character that may not be printed.
    pub fn first_hidden(text: &str) -> Option<char> {
        with_hidden(text).find(|(_, is_hidden)| *is_hidden).map(|(character, _)| character)
    }
}

impl std::ops::Deref for Printable {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Printable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// Each character, and whether it may not be printed. A joiner is part of a word in Persian, in scripts of India and in
/// emoji: between two characters that are seen and not ASCII it stays.
fn with_hidden(text: &str) -> impl Iterator<Item = (char, bool)> {
    let is_seen = |neighbor: Option<char>| neighbor.is_some_and(|one| !one.is_ascii() && !is_hidden(one));
    text.char_indices().map(move |(at, character)| {
        let joins = matches!(character, '\u{200c}' | '\u{200d}')
            && is_seen(text[..at].chars().next_back())
            && is_seen(text[at + character.len_utf8()..].chars().next());
        (character, is_hidden(character) && !joins)
    })
}

/// Control characters, marks of direction, characters without a width, those for private use, and those that stand for no
/// character (Unicode 17). Accents and the forms of ideographs are seen.
fn is_hidden(character: char) -> bool {
    character.is_control()
        || matches!(character,
            '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{180e}'
            | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}'
            | '\u{e000}'..='\u{f8ff}' | '\u{fdd0}'..='\u{fdef}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}'
            | '\u{fffe}' | '\u{ffff}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e00ff}' | '\u{e01f0}'..='\u{10ffff}')
}

#[cfg(test)]
mod test {
    use super::{Printable, counted};

    #[test]
    fn what_is_obeyed_or_not_seen_is_written_out_and_every_script_stays() {
        for (hostile, written) in [
            ("ada\n\u{1b}[2J\u{9b}1m\u{7f}", "ada\\n\\u{1b}[2J\\u{9b}1m\\u{7f}"),
            ("\u{202e}exe.b\u{2066}", "\\u{202e}exe.b\\u{2066}"),
            ("so\u{200b}so\u{ad}\u{feff}", "so\\u{200b}so\\u{ad}\\u{feff}"),
            ("ad\u{200d}min\u{200d}", "ad\\u{200d}min\\u{200d}"),
            ("é\u{200d}\u{200d}é", "é\\u{200d}\\u{200d}é"),
            ("\u{e000}\u{f0000}\u{e0041}", "\\u{e000}\\u{f0000}\\u{e0041}"),
        ] {
            assert_eq!(&*Printable::of(hostile), written);
            assert!(Printable::first_hidden(hostile).is_some() && Printable::first_hidden(written).is_none());
        }
        for ordinary in [
            "Jürgen Ö.",
            "李 王",
            "e\u{301}",
            "می\u{200c}خواهم",
            "क\u{94d}\u{200d}ष",
            "👩\u{200d}🦽",
            "葛\u{e0100}",
            "שלום",
            "1–2 … ½",
        ] {
            assert_eq!(&*Printable::of(ordinary), ordinary);
        }
    }

    #[test]
    fn a_noun_agrees_with_its_count() {
        assert_eq!([0, 1, 2].map(|count| counted(count, "day")), ["0 days", "1 day", "2 days"]);
        assert_eq!([1, 2].map(|count| counted(count, "push")), ["1 push", "2 pushes"]);
        assert_eq!([1, 2].map(|count| counted(count, "entry")), ["1 entry", "2 entries"]);
    }
}
