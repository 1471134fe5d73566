//! The practice command. Its course is the session's.

use super::Failure;
use crate::journal::Folder;

/// What can be said about a practice on the command line.
#[derive(Debug, Clone, Default, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise practice                   the prescription in use, else the gentle one\n  \
    counterpoise practice typical --sets 2  the first two sets of a ready prescription\n  \
    counterpoise practice --plain           as lines of text, for a screen reader")]
pub struct Arguments {
    /// A ready prescription or a file [default: the one in use, else gentle]
    #[arg(value_name = "PRESCRIPTION")]
    pub prescription: Option<String>,
    /// Replay the session of this seed (64 hexadecimal digits); it is then no longer unpredictable
    #[arg(long, value_name = "HEX")]
    pub seed: Option<String>,
    /// Only the first so many sets
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..))]
    pub sets: Option<u8>,
    /// Who speaks
    #[arg(long, value_parser = ["lower", "higher", "tones"])]
    pub voice: Option<String>,
    /// The sound output, as `counterpoise doctor` lists it
    #[arg(long, value_name = "ID")]
    pub device: Option<String>,
    /// Plain lines in place of a full screen
    #[arg(long)]
    pub plain: bool,
    /// No sound: calls on the screen only
    #[arg(long)]
    pub silent: bool,
}

/// Runs one practice.
///
/// # Errors
/// If it cannot begin.
pub fn run(_arguments: &Arguments, _folder: &Folder) -> Result<(), Failure> {
    Err(Failure::new(
        "practice is not part of this build",
        "Write a track: counterpoise track gentle --out practice.wav",
    ))
}
