//! Balance tests: a result held against the published tables, results over time, and the guided test. Not what a result is
//! worth (that is `assessment`).

use std::io::Write;

use clap::Subcommand;

use super::wrap::wrapped;
use super::{Failure, Format};
use crate::assessment::{NO_SINGLE_TEST, NotAReading};
use crate::journal::Folder;

mod results;
mod score;

/// Which.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise assess score chair-stand --age 72 --sex male --result 11\n  \
    counterpoise assess score timed-up-and-go --result 12.4 --keep --by \"K. L., physical therapist\"\n  \
    counterpoise assess results\n\n\
    A result is held against a published cut-off. No single test predicts falls.\n\
    Your therapist's advice and your local rules come first.")]
pub(super) struct Arguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Clone, Subcommand)]
enum What {
    /// Hold a result against the published tables
    Score(score::Arguments),
    /// Show your own results over time
    Results(results::Arguments),
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
    out: &mut impl Write,
) -> Result<(), Failure> {
    match &arguments.what {
        What::Score(arguments) => score::run(arguments, folder, out),
        What::Results(arguments) => results::run(arguments, &folder()?, out),
    }
}

/// What stands under every result.
fn no_prediction(out: &mut impl Write) -> Result<(), Failure> {
    writeln!(out, "{}", wrapped("", NO_SINGLE_TEST))?;
    Ok(())
}

impl From<NotAReading> for Failure {
    fn from(error: NotAReading) -> Self {
        let hint = match &error {
            NotAReading::Age { .. } => "Give the age in whole years, such as 72",
            NotAReading::Form { .. } | NotAReading::Range { .. } => {
                "Look at the number again; nothing was kept. Each test's form: counterpoise assess score --help"
            }
        };
        Self::new(error.to_string(), hint)
    }
}
