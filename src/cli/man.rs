//! The `man` command: writes the manual pages, one for each command.

use std::fs;
use std::path::PathBuf;

use clap::CommandFactory;

use super::page::Output;
use super::{Cli, Failure};
use counterpoise_core::blocks::Block;

/// The options of `man`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Example:\n  counterpoise man --out ~/.local/share/man/man1")]
pub(super) struct Arguments {
    /// The folder for the pages; it is created if it does not exist
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
}

pub(super) fn run(arguments: &Arguments) -> Result<Output, Failure> {
    let folder = &arguments.out;
    fs::create_dir_all(folder).and_then(|()| clap_mangen::generate_to(Cli::command(), folder)).map_err(
        |error| {
            Failure::new(
                format!("the manual pages cannot be written to {}: {error}", folder.display()),
                "Use --out to name a folder that you are allowed to write to.",
            )
        },
    )?;
    Ok(vec![Block::line(format!("The manual pages are in {}.", folder.display()))].into())
}
