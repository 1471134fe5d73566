//! The numbers that identify entries, sessions, journals and those who write them. The program draws their random bytes.

use std::fmt;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

/// Tells entries, sessions, journals and writers apart, whichever machine they were made on: 128 random bits as 32
/// hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Id([u8; 16]);

impl Id {
    /// The one with these bytes.
    ///
    /// ```
    /// use counterpoise_core::record::Id;
    /// assert_eq!(Id::from_bytes([0xa5; 16]).to_string(), "a5".repeat(16));
    /// ```
    pub const fn from_bytes(bytes: [u8; 16]) -> Self {
        Self(bytes)
    }

    /// The one of something that had none when it was kept: the same on every computer that has it.
    pub fn of(told: &str) -> Self {
        let digest: [u8; 32] = Sha256::digest(told.as_bytes()).into();
        Self(std::array::from_fn(|nth| digest[nth]))
    }

    /// The 16 bytes.
    pub const fn as_bytes(&self) -> &[u8; 16] {
        &self.0
    }

    /// The first eight digits: enough for people.
    pub fn short(&self) -> String {
        self.to_string()[..8].to_owned()
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", u128::from_be_bytes(self.0))
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Id({self})")
    }
}

impl TryFrom<String> for Id {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let lower_hex = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
        let number = u128::from_str_radix(&text, 16).ok();
        number
            .filter(|_| text.len() == 32 && text.bytes().all(lower_hex))
            .map(|number| Self(number.to_be_bytes()))
            .ok_or_else(|| format!("\"{text}\" is not an id: 32 of the digits 0-9 and a-f"))
    }
}

impl From<Id> for String {
    fn from(id: Id) -> Self {
        id.to_string()
    }
}
