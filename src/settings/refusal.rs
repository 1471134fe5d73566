//! Why a settings file is not accepted: what was seen and where, and what to do about it.

use std::fmt;

use thiserror::Error;

use super::{FILE_BYTES, SCHEMA, SCREEN_DISTANCE_M, TEXT_CHARACTERS};
use counterpoise_core::draw::schedule::floor_order::{FEWEST, MOST};
use counterpoise_core::plan::place::Place;

/// A settings file that was not accepted. `Display` is the fact with its place; [`SettingsError::hint`] the advice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SettingsError {
    file: String,
    line: Option<usize>,
    reason: Reason,
}

/// The rule that a settings file breaks.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[allow(missing_docs, reason = "the fields are the values that each fact names")]
pub enum Reason {
    /// The file is there but cannot be read.
    #[error("the settings cannot be read: {message}")]
    Unreadable { message: String },
    /// More bytes than [`FILE_BYTES`].
    #[error("the file has {bytes} bytes; the most is {FILE_BYTES}")]
    TooLarge { bytes: usize },
    /// Not UTF-8.
    #[error("the file is not plain text in UTF-8: byte {at} does not belong to any character")]
    NotUtf8 { at: usize },
    /// Not TOML, or a field that is unknown, missing, given twice or of another kind.
    #[error("the settings cannot be read here: {message}")]
    NotSettings { message: String },
    /// Another format or version.
    #[error("`schema` is \"{written}\"; this version reads \"{SCHEMA}\"")]
    Schema { written: String },
    /// A voice that there is not.
    #[error("`voice` is \"{written}\"; it can be lower, higher or tones")]
    Voice { written: String },
    /// No glasses that are known.
    #[error("`glasses` is \"{written}\"; it can be none, distance, reading only, or bifocals or varifocals")]
    Glasses { written: String },
    /// Outside of [`SCREEN_DISTANCE_M`].
    #[error("`screen_distance_m` is {value}; it can be {} to {}", SCREEN_DISTANCE_M.0, SCREEN_DISTANCE_M.1)]
    Distance { value: i64 },
    /// Not a number to dial.
    #[error("`emergency_number` is \"{written}\", which cannot be dialed")]
    Number { written: String },
    /// Not one of the places that can be named to a partner.
    #[error("`{field}` in [sides] is \"{written}\", which is not a place that can be named to a partner")]
    Place { field: &'static str, written: String },
    /// Too few patches for an order to be drawn, or too many for a stretch of floor.
    #[error("`patches` has {count}; a course has {FEWEST} to {MOST}")]
    Patches { count: usize },
    /// Two patches with one name.
    #[error("`patches` has \"{written}\" twice")]
    PatchTwice { written: String },
    /// A text with nothing in it.
    #[error("`{field}` is empty")]
    Empty { field: &'static str },
    /// A text that is too long.
    #[error("`{field}` has {characters} characters; the most is {TEXT_CHARACTERS}")]
    Long { field: &'static str, characters: usize },
    /// A sign that cannot be shown.
    #[error("`{field}` holds a sign that cannot be shown: {sign:?}")]
    Unprintable { field: &'static str, sign: char },
}

impl SettingsError {
    pub(super) fn new(file: &str, line: Option<usize>, reason: Reason) -> Self {
        Self { file: file.to_owned(), line, reason }
    }

    /// Which rule was broken.
    pub fn reason(&self) -> &Reason {
        &self.reason
    }

    /// The line, from 1; none where the whole file is meant.
    pub fn line(&self) -> Option<usize> {
        self.line
    }

    /// What to try.
    pub fn hint(&self) -> String {
        match &self.reason {
            Reason::Unreadable { .. } => "Check that you may read the file. It was left as it is.".into(),
            Reason::TooLarge { .. } => "Settings have a few lines of text. Is this the right file?".into(),
            Reason::NotUtf8 { .. } => "Save it as plain text with the encoding UTF-8.".into(),
            Reason::NotSettings { .. } => {
                "Each line is `name = value`, texts in quotation marks. To start afresh, move the file away."
                    .into()
            }
            Reason::Schema { .. } => format!("Write: schema = \"{SCHEMA}\""),
            Reason::Voice { .. } | Reason::Glasses { .. } => {
                "Choose one of these, spelled exactly so.".into()
            }
            Reason::Distance { .. } => {
                "Write the distance in whole meters, for example: screen_distance_m = 3".into()
            }
            Reason::Number { .. } => {
                "Write the number with digits, for example: emergency_number = \"911\", or \"unknown\"."
                    .into()
            }
            Reason::Place { .. } => {
                let places = Place::ALL.iter().map(|place| place.name()).collect::<Vec<_>>().join(", ");
                format!("Choose one of: {places}; or \"unknown\".")
            }
            Reason::Patches { .. } => {
                "Write for example: patches = [\"doormat\", \"folded blanket\", \"low board\"]".into()
            }
            Reason::PatchTwice { .. } => "Give each patch a name of its own, such as \"blue mat\".".into(),
            Reason::Empty { .. } => "Write something, or put # before the line to leave it out.".into(),
            Reason::Long { .. } => "It has to fit on one line of a screen. Shorten it.".into(),
            Reason::Unprintable { .. } => "Use letters, digits, spaces and punctuation on one line.".into(),
        }
    }
}

impl fmt::Display for SettingsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({}", self.reason, self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        f.write_str(")")
    }
}

impl std::error::Error for SettingsError {}
