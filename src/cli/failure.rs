//! What a command tells when it refuses or fails: a fact, and what to try. The only place where the errors of the
//! modules lose their types.

use std::io;

use super::wrap::hanging;
use crate::audio::{AudioError, BankError, WavError};
use crate::entropy::EntropyError;
use crate::journal::JournalError;
use crate::settings::SettingsError;
use counterpoise_core::draw::schedule::{ScheduleError, SeedError};
use counterpoise_core::plan::prescription::Refusal;
use counterpoise_core::practice::track::TrackError;

/// A fact and a hint, for a person to read.
///
/// ```
/// use counterpoise::cli::Failure;
/// let failure = Failure::new("the door is locked", "try the other door");
/// assert_eq!((failure.fact(), failure.hint()), ("the door is locked", "Try the other door"));
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    fact: String,
    hint: String,
    closed_pipe: bool,
    no_home: bool,
}

impl Failure {
    /// This fact, and what to try.
    pub fn new(fact: impl Into<String>, hint: impl AsRef<str>) -> Self {
        let mut letters = hint.as_ref().chars();
        let hint =
            letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
        Self { fact: fact.into(), hint, closed_pipe: false, no_home: false }
    }

    /// What is so: a phrase without a stop.
    pub fn fact(&self) -> &str {
        &self.fact
    }

    /// What to try.
    pub fn hint(&self) -> &str {
        &self.hint
    }

    /// The fact and the hint, as they are told. For people at a terminal no word is broken at its edge.
    ///
    /// ```
    /// use counterpoise::cli::Failure;
    /// assert_eq!(Failure::new("no door", "look").told(false), "Error: no door\nHint: Look");
    /// let told = Failure::new("a fact ".repeat(20), "look").told(true);
    /// assert!(told.lines().count() > 2 && told.lines().all(|line| line.len() <= 80));
    /// ```
    pub fn told(&self, to_a_person: bool) -> String {
        let said = |label: &str, text: &str| match to_a_person {
            true => hanging(label, text),
            false => format!("{label}{text}"),
        };
        format!("{}\n{}", said("Error: ", &self.fact), said("Hint: ", &self.hint))
    }

    /// Whether nothing on this computer says where a person's folder is: nobody practices here.
    pub(super) fn is_no_home(&self) -> bool {
        self.no_home
    }

    /// Whether the reader of the output went away, as `head` does: nothing to tell anybody.
    pub fn is_closed_pipe(&self) -> bool {
        self.closed_pipe
    }
}

/// An error of standard output; files have errors of their own.
impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        let closed_pipe = error.kind() == io::ErrorKind::BrokenPipe;
        let failure = Self::new(
            format!("the output cannot be written: {error}"),
            "Check that the place it goes to exists and has room.",
        );
        Self { closed_pipe, ..failure }
    }
}

impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Self {
        io::Error::from(error).into()
    }
}

impl From<JournalError> for Failure {
    fn from(error: JournalError) -> Self {
        match error {
            JournalError::Output(error) => error.into(),
            other => {
                let no_home = matches!(other, JournalError::NoHome);
                Self { no_home, ..Self::new(other.to_string(), other.hint()) }
            }
        }
    }
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Self::new(refusal.to_string(), refusal.hint())
    }
}

impl From<SettingsError> for Failure {
    fn from(error: SettingsError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<ScheduleError> for Failure {
    fn from(error: ScheduleError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<SeedError> for Failure {
    fn from(error: SeedError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<EntropyError> for Failure {
    fn from(error: EntropyError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<TrackError> for Failure {
    fn from(error: TrackError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<AudioError> for Failure {
    fn from(error: AudioError) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<BankError> for Failure {
    fn from(error: BankError) -> Self {
        Self::new(error.to_string(), "This is a fault of the program: install it again, or report it.")
    }
}

impl From<WavError> for Failure {
    fn from(error: WavError) -> Self {
        let hint = match &error {
            WavError::Write { .. } => {
                "Name another place with --out, or make room there. Nothing was left behind."
            }
            WavError::Stopped { .. } => "Nothing of it was left behind. Give the command again to write it.",
            WavError::TooLong(_) => "Use fewer or shorter sets.",
            WavError::Misplaced(_) => "This is a fault of the program: please report it with the seed.",
        };
        Self::new(error.to_string(), hint)
    }
}
