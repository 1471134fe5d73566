//! Balance tests: a result held against the published tables, results over time, and the guided test. Not what a result is
//! worth (that is `assessment`).

use std::io::Write;

use clap::Subcommand;

use super::wrap::wrapped;
use super::{Failure, Format};
use crate::journal::Folder;
use counterpoise_core::health::assessment::{NO_SINGLE_TEST, ReadingError, Test};

mod guided;
mod results;
mod score;

/// Which.
#[derive(Debug, Clone, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
#[command(after_help = "Examples:\n  \
    counterpoise assess              choose a test, and be led through it by voice\n  \
    counterpoise assess one-leg --plain\n  \
    counterpoise assess score chair-stand --age 72 --sex male --result 11\n  \
    counterpoise assess score timed-up-and-go --result 12.4 --keep --by \"K. L., physical therapist\"\n  \
    counterpoise assess results\n\n\
    A result is held against a published cut-off. No single test predicts falls.\n\
    Your therapist's advice and your local rules come first.")]
pub(super) struct Arguments {
    #[command(subcommand)]
    what: Option<What>,
    #[command(flatten)]
    guided: guided::Arguments,
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
        None => guided::run(&arguments.guided, &folder()?),
        Some(What::Score(arguments)) => score::run(arguments, folder, out),
        Some(What::Results(arguments)) => results::run(arguments, &folder()?, out),
    }
}

/// The test of this name.
fn named(name: &str) -> Result<Test, String> {
    let names = || Test::ALL.iter().map(|test| test.name()).collect::<Vec<_>>().join(", ");
    Test::from_name(name).ok_or_else(|| format!("the tests are: {}", names()))
}

/// What stands under every result.
fn no_prediction(out: &mut impl Write) -> Result<(), Failure> {
    writeln!(out, "{}", wrapped("", NO_SINGLE_TEST))?;
    Ok(())
}

impl From<ReadingError> for Failure {
    fn from(error: ReadingError) -> Self {
        let hint = match &error {
            ReadingError::Age { .. } => "Give the age in whole years, such as 72",
            ReadingError::Form { .. } | ReadingError::Range { .. } => {
                "Look at the number again; nothing was kept. Each test's form: counterpoise assess score --help"
            }
        };
        Self::new(error.to_string(), hint)
    }
}
