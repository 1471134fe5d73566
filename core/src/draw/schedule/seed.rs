//! Where chance comes from: a 256-bit seed, and the numbered streams of one named generator. The program asks the
//! operating system for a fresh seed.
//!
//! Every purpose has its own stream, so that leaving a set out, or drawing more for one purpose, shifts
//! nothing elsewhere:
//!
//! | stream | what is drawn from it |
//! | --- | --- |
//! | set x 16 + 0 | the gaps of that set, first attempt |
//! | set x 16 + 1 | its blanks, first attempt |
//! | set x 16 + 2 | its directions (`open`); those of the whole drill, at the drill's first set (`covered`) |
//! | set x 16 + 3 | strengths, one for each push |
//! | set x 16 + 4 | names of balls, one for each throw |
//! | set x 16 + 5 | gaps and blanks of every other attempt, one after the other |
//! | set x 16 + 8 | the parts of its calls |
//! | set x 16 + 9 | the path of the slow target |
//! | 0 x 16 + 6 | the order of the drills in the session |
//! | 0 x 16 + 7 | the word of the sound check |
//! | 0 x 16 + 10 | the order of the patches of a floor course |
//! | 2^61 + 2 x drill | gaps of that drill, by the table, for the audit's comparison |
//! | 2^61 + 2 x drill + 1 | the same by a library |
//! | 2^62 + set x 2^16 + pause | the first gap after that pause of that set |
//! | 2^63 + i | the seed of session i >= 1 |
//!
//! A stream keeps its number for ever. A new purpose gets a new number, and belongs to the next [`Method`](super::Method).
//!
//! Sets and pauses count from 1, drills from 0. The numbers are at most 255 x 16 + 15 in the first group, below
//! 2^61 + 2^9 in the second and below 2^62 + 2^24 in the third, so no two of them meet.

use std::fmt;

use rand::rngs::ChaCha12Rng;
use rand::{Rng, SeedableRng};
use serde::{Deserialize, Serialize};

const PURPOSES: u64 = 16;
const GAPS: u64 = 0;
const BLANKS: u64 = 1;
const ORDER: u64 = 2;
const STRENGTHS: u64 = 3;
const BALLS: u64 = 4;
const REDRAW: u64 = 5;
const DRILLS: u64 = 6;
const SOUND_CHECK: u64 = 7;
const PARTS: u64 = 8;
const PATH: u64 = 9;
const COURSE: u64 = 10;
const COMPARISON: u64 = 1 << 61;
const PAUSES: u64 = 1 << 62;
const SESSIONS: u64 = 1 << 63;

/// The key of a session's `ChaCha12` generator.
///
/// ```
/// use counterpoise_core::draw::schedule::Seed;
/// let hex = "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff";
/// let seed = Seed::from_hex(hex).unwrap();
/// assert_eq!(seed.to_string(), hex);
/// assert_eq!(seed.of_session(0), seed);
/// assert!(Seed::from_hex("0011").is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Seed([u8; 32]);

/// Why a text is not a seed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SeedError {
    /// It has too few or too many characters.
    #[error("the seed has {found} characters; a seed has exactly 64 hexadecimal digits")]
    Length {
        /// How many characters it has.
        found: usize,
    },
    /// One of its characters is not a hexadecimal digit.
    #[error("character {place} of the seed is {found:?}; a seed has only the digits 0-9 and the letters a-f")]
    Digit {
        /// Which character, from 1.
        place: usize,
        /// The character that is there.
        found: char,
    },
}

impl SeedError {
    /// What to try.
    pub fn hint(&self) -> &'static str {
        "copy the whole seed from a preview or from the journal, or leave it out to draw a new one"
    }
}

impl Seed {
    /// The seed with these bytes.
    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// The seed that these 64 hexadecimal digits spell; capitals are read too.
    ///
    /// # Errors
    /// If there are not exactly 64 characters, or one is not a hexadecimal digit.
    pub fn from_hex(text: &str) -> Result<Self, SeedError> {
        let found = text.chars().count();
        if found != 64 {
            return Err(SeedError::Length { found });
        }
        let mut bytes = [0; 32];
        for (index, found) in text.chars().enumerate() {
            let digit = found.to_digit(16).ok_or(SeedError::Digit { place: index + 1, found })?;
            bytes[index / 2] = bytes[index / 2] << 4 | digit as u8;
        }
        Ok(Self(bytes))
    }

    /// Its 32 bytes.
    pub const fn bytes(self) -> [u8; 32] {
        self.0
    }

    /// Stream `number` of the generator, from its beginning. The table above says which number is for what.
    pub fn stream(self, number: u64) -> ChaCha12Rng {
        let mut rng = ChaCha12Rng::from_seed(self.0);
        rng.set_stream(number);
        rng
    }

    /// The seed of session `index` of several drawn at once. Session 0 has this seed itself, so that one session
    /// drawn alone and the first of many are the same.
    #[must_use]
    pub fn of_session(self, index: u64) -> Self {
        if index == 0 {
            return self;
        }
        let mut bytes = [0; 32];
        self.stream(SESSIONS.wrapping_add(index)).fill_bytes(&mut bytes);
        Self(bytes)
    }

    pub(super) fn gaps(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + GAPS)
    }

    pub(super) fn blanks(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + BLANKS)
    }

    pub(super) fn order(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + ORDER)
    }

    pub(super) fn strengths(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + STRENGTHS)
    }

    pub(super) fn balls(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + BALLS)
    }

    pub(super) fn parts(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + PARTS)
    }

    pub(super) fn path(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + PATH)
    }

    /// The stream of a floor course, whose patches are in the person's settings.
    pub fn course(self) -> ChaCha12Rng {
        self.stream(COURSE)
    }

    pub(super) fn redraw(self, set: u8) -> ChaCha12Rng {
        self.stream(u64::from(set) * PURPOSES + REDRAW)
    }

    pub(super) fn drills(self) -> ChaCha12Rng {
        self.stream(DRILLS)
    }

    pub(super) fn sound_check(self) -> ChaCha12Rng {
        self.stream(SOUND_CHECK)
    }

    /// Where the gaps that an audit compares come from: by the table, and by a library.
    pub(in crate::draw) fn comparison(self, drill: u8) -> [ChaCha12Rng; 2] {
        [0, 1].map(|way| self.stream(COMPARISON + 2 * u64::from(drill) + way))
    }

    pub(super) fn pause(self, set: u8, pause: u16) -> ChaCha12Rng {
        self.stream(PAUSES + (u64::from(set) << 16) + u64::from(pause))
    }
}

impl TryFrom<String> for Seed {
    type Error = SeedError;

    fn try_from(text: String) -> Result<Self, SeedError> {
        Self::from_hex(&text)
    }
}

impl From<Seed> for String {
    fn from(seed: Seed) -> Self {
        seed.to_string()
    }
}

/// 64 lower-case hexadecimal digits.
impl fmt::Display for Seed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Seed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Seed({self})")
    }
}

#[cfg(test)]
mod test;
