//! Which file a prescription came from: the SHA-256 of its bytes. A digest shows a change but does not prevent one.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use thiserror::Error;

/// The SHA-256 of a prescription file's bytes, written `sha256:` and 64 hex digits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Digest([u8; 32]);

/// A text that is not a digest.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("\"{0}\" is not a digest; a digest is `sha256:` and 64 hex digits")]
pub struct DigestError(String);

impl Digest {
    /// The digest of these bytes.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Digest;
    /// let digest = Digest::of(b"abc");
    /// // FIPS 180-2, appendix B.1 \[memory\].
    /// assert_eq!(digest.to_string(), "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    /// assert_eq!(digest.to_string().parse(), Ok(digest));
    /// ```
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The digest that these 64 hex digits spell.
    pub fn from_hex(hex: &str) -> Option<Self> {
        let digits: Vec<u8> = hex.chars().map(|c| c.to_digit(16).map(|d| d as u8)).collect::<Option<_>>()?;
        let bytes: Vec<u8> = digits.chunks(2).map(|pair| pair[0] << 4 | pair.get(1).unwrap_or(&0)).collect();
        if digits.len() == 64 { bytes.try_into().ok().map(Self) } else { None }
    }

    /// The first eight digits: enough for people to compare.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Digest;
    /// assert_eq!(Digest::of(b"abc").short(), "ba7816bf");
    /// ```
    pub fn short(&self) -> String {
        self.0[..4].iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// The 32 bytes.
    pub fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("sha256:")?;
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

impl FromStr for Digest {
    type Err = DigestError;

    fn from_str(text: &str) -> Result<Self, DigestError> {
        text.strip_prefix("sha256:").and_then(Self::from_hex).ok_or_else(|| DigestError(text.to_owned()))
    }
}

impl TryFrom<String> for Digest {
    type Error = DigestError;

    fn try_from(text: String) -> Result<Self, DigestError> {
        text.parse()
    }
}

impl From<Digest> for String {
    fn from(digest: Digest) -> Self {
        digest.to_string()
    }
}

#[cfg(test)]
mod test {
    use super::Digest;

    #[test]
    fn what_is_not_64_hex_digits_is_no_digest() {
        let whole = Digest::of(b"").to_string();
        for text in
            ["", "sha256:", &whole[7..], &whole[..70], &format!("{whole}0"), &whole.replace("e3b0", "e3bg")]
        {
            assert!(text.parse::<Digest>().is_err(), "{text}");
        }
        assert!("é".repeat(32).parse::<Digest>().is_err());
    }
}
