//! The `assess` command: a guided balance test, one result compared with the published tables, or results over time.

use clap::Subcommand;

use super::page::{Output, help};
use super::{Failure, Format};
use crate::journal::Folder;
use counterpoise_core::health::assessment::{ReadingError, Test};

mod guided;
mod results;
mod score;

/// The options of `assess`.
#[derive(Debug, Clone, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
#[command(after_help = help("Examples:\n  \
    counterpoise assess              choose a test; the voice leads you through it\n  \
    counterpoise assess one-leg --plain\n  \
    counterpoise assess score chair-stand --age 72 --sex male --result 11\n  \
    counterpoise assess score timed-up-and-go --result 12.4 --keep --by \"K. L., physical therapist\"\n  \
    counterpoise assess results\n\n\
    A result is compared with a published cut-off. No single test predicts falls."))]
pub(super) struct Arguments {
    #[command(subcommand)]
    what: Option<What>,
    #[command(flatten)]
    guided: guided::Arguments,
}

#[derive(Debug, Clone, Subcommand)]
enum What {
    /// Compare a result with the published tables
    Score(score::Arguments),
    /// Show your own results over time
    Results(results::Arguments),
}

pub(super) fn run(
    arguments: &Arguments,
    folder: impl FnOnce() -> Result<Folder, Failure>,
) -> Result<Output, Failure> {
    match &arguments.what {
        None => guided::run(&arguments.guided, &folder()?),
        Some(What::Score(arguments)) => score::run(arguments, folder),
        Some(What::Results(arguments)) => results::run(arguments, &folder()?),
    }
}

/// The test of this name, for the command line.
fn parse_test(name: &str) -> Result<Test, String> {
    let names = || Test::ALL.iter().map(|test| test.name()).collect::<Vec<_>>().join(", ");
    Test::from_name(name).ok_or_else(|| format!("the tests are: {}", names()))
}

impl From<ReadingError> for Failure {
    fn from(error: ReadingError) -> Self {
        let hint = match &error {
            ReadingError::Age { .. } => "Give the age in whole years, such as 72.",
            ReadingError::Form { .. } | ReadingError::Range { .. } => {
                "Check the number; nothing was saved. For the format of each test: counterpoise assess score --help"
            }
        };
        Self::new(error.to_string(), hint)
    }
}
