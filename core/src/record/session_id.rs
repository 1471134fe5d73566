//! The number that identifies a session. The program draws its random bytes.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Tells sessions apart, whichever machine they were made on: 128 random bits as 32 hexadecimal digits.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct SessionId(String);

impl SessionId {
    /// The one with these bytes.
    ///
    /// ```
    /// use counterpoise_core::record::SessionId;
    /// assert_eq!(SessionId::from_bytes([0xa5; 16]).to_string(), "a5".repeat(16));
    /// ```
    pub fn from_bytes(bytes: [u8; 16]) -> Self {
        Self(format!("{:032x}", u128::from_be_bytes(bytes)))
    }

    /// The 32 digits.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The first eight digits: enough for people.
    pub fn short(&self) -> &str {
        &self.0[..8]
    }
}

impl fmt::Display for SessionId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl TryFrom<String> for SessionId {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let lower_hex = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
        if text.len() == 32 && text.bytes().all(lower_hex) {
            Ok(Self(text))
        } else {
            Err(format!("\"{text}\" is not a session's id: 32 of the digits 0-9 and a-f"))
        }
    }
}

impl From<SessionId> for String {
    fn from(id: SessionId) -> Self {
        id.0
    }
}
