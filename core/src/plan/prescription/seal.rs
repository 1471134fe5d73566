//! Whether a file is as it was issued: its last line has the digest of everything before it. A seal shows a change
//! but does not prevent one, since anybody can write a new seal.

use super::Digest;

/// What the last line begins with.
const MARK: &str = "# seal: ";

/// What the seal of a file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seal {
    /// None: the file was written by hand.
    None,
    /// As it was issued.
    Whole,
    /// Changed, or cut off, after it was issued.
    Broken,
}

impl Seal {
    /// The seal of a file.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Seal;
    /// let sealed = Seal::append("weeks = 12\n");
    /// assert_eq!(Seal::of(sealed.as_bytes()), Seal::Whole);
    /// assert_eq!(Seal::of(sealed.replace("12", "13").as_bytes()), Seal::Broken);
    /// assert_eq!(Seal::of(b"weeks = 12\n"), Seal::None);
    /// ```
    pub fn of(bytes: &[u8]) -> Self {
        let Some(at) = line_of_it(bytes) else { return Self::None };
        let line = String::from_utf8_lossy(&bytes[at + MARK.len()..]);
        if line.trim_end_matches(['\r', '\n']) == Digest::of(&bytes[..at]).to_string() {
            Self::Whole
        } else {
            Self::Broken
        }
    }

    /// The text before its seal.
    pub(super) fn strip(text: &str) -> &str {
        match line_of_it(text.as_bytes()) {
            Some(at) if text[at..].trim_end().lines().count() == 1 => &text[..at],
            _ => text,
        }
    }

    /// The text with its seal as the last line.
    pub fn append(text: &str) -> String {
        let text = if text.ends_with('\n') { text.to_owned() } else { format!("{text}\n") };
        format!("{text}{MARK}{}\n", Digest::of(text.as_bytes()))
    }
}

/// Where the last line that looks like a seal begins.
fn line_of_it(bytes: &[u8]) -> Option<usize> {
    let starts =
        |at: &usize| bytes[*at..].starts_with(MARK.as_bytes()) && (*at == 0 || bytes[at - 1] == b'\n');
    (0..bytes.len()).rev().find(starts)
}
