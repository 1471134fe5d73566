//! What does a command print when it refuses or fails? A fact, and what to try. This is the only file in which the errors
//! of the modules lose their types.

use std::io;

use super::page::text::hanging;
use crate::audio::{AudioError, BankError, WavError};
use crate::clock;
use crate::entropy::EntropyError;
use crate::journal::JournalError;
use crate::settings::SettingsError;
use counterpoise_core::draw::schedule::{ScheduleError, SeedError, UnknownMethod};
use counterpoise_core::plan::prescription::Refusal;
use counterpoise_core::practice::track::TrackError;
use counterpoise_core::words::Printable;

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
        let [fact, hint] = [fact.into(), hint].map(|text| Printable::of(&text).to_string());
        Self { fact, hint, closed_pipe: false, no_home: false }
    }

    /// What happened: a phrase without a full stop.
    pub fn fact(&self) -> &str {
        &self.fact
    }

    /// What to try, beginning with a capital letter.
    pub fn hint(&self) -> &str {
        &self.hint
    }

    /// The fact and the hint as printed. For a terminal, lines are wrapped between words.
    ///
    /// ```
    /// use counterpoise::cli::Failure;
    /// assert_eq!(Failure::new("no door", "look").message(false), "Error: no door\nHint: Look");
    /// let message = Failure::new("a fact ".repeat(20), "look").message(true);
    /// assert!(message.lines().count() > 2 && message.lines().all(|line| line.len() <= 80));
    /// ```
    pub fn message(&self, for_terminal: bool) -> String {
        let labeled = |label: &str, text: &str| match for_terminal {
            true => hanging(label, text),
            false => format!("{label}{text}\n"),
        };
        labeled("Error: ", &self.fact) + labeled("Hint: ", &self.hint).trim_end_matches('\n')
    }

    /// Whether this computer has no home folder, so that nobody can practice here.
    pub(super) fn is_no_home(&self) -> bool {
        self.no_home
    }

    /// Whether the reader of the output closed it, as `head` does. This is not worth a message.
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
            "Check that the file or program it goes to exists and has space.",
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

impl From<clock::Unusable> for Failure {
    fn from(error: clock::Unusable) -> Self {
        Self::new(error.to_string(), error.hint())
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

impl From<UnknownMethod> for Failure {
    fn from(error: UnknownMethod) -> Self {
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
        Self::new(error.to_string(), "This is a bug in the program. Install it again, or report the bug.")
    }
}

impl From<WavError> for Failure {
    fn from(error: WavError) -> Self {
        let hint = match &error {
            WavError::Write { .. } => {
                "Choose another place with --out, or free some space there. No partial file was kept."
            }
            WavError::Stopped { .. } => "No partial file was kept. Run the command again to write it.",
            WavError::TooLong(_) => "Use fewer or shorter sets.",
            WavError::Misplaced(_) => "This is a bug in the program. Please report it with the seed.",
        };
        Self::new(error.to_string(), hint)
    }
}
